"""Finding commands and options: help, and one line with the nearest known word."""

import pytest

from firedeck import __version__
from firedeck.cli.app import COMMANDS


@pytest.mark.parametrize("typed", [(), ("--help",), ("-h",), ("help",)])
def test_overview_lists_every_command(firedeck, typed):
    said = firedeck(*typed)
    assert said.code == 0
    assert all(f"  {command.call}  " in said.out for command in COMMANDS)
    assert said.err == ""


def test_version(firedeck):
    assert firedeck("--version").out == f"firedeck {__version__}\n"


@pytest.mark.parametrize("command", [command.name for command in COMMANDS])
def test_every_command_explains_itself(firedeck, command):
    said = firedeck(command, "--help")
    assert (said.code, said.err) == (0, "")
    assert f"firedeck {command}" in said.out


@pytest.mark.parametrize(
    ("typed", "line"),
    [
        (("chek", "a.toml"), "firedeck: found 'chek', an unknown command; nearest known: check\n"),
        (("--verson",), "firedeck: found '--verson', an unknown option; nearest known: --version\n"),
        (
            ("check", "a.toml", "--jsn"),
            "firedeck check: found '--jsn', an unknown option; nearest known: --json\n",
        ),
        (
            ("check", "a.toml", "--unit=mm"),
            "firedeck check: found '--unit', an unknown option; nearest known: --units\n",
        ),
        (
            ("schema", "x"),
            "firedeck schema: found 'x', one word too many; allowed: see firedeck schema --help\n",
        ),
        (
            ("order", "a", "b"),
            "firedeck order: found 'b', one word too many; allowed: see firedeck order --help\n",
        ),
        (("check", "a.toml", "--units", "feet"), "--units: found 'feet'; allowed: as-typed, mm, inch\n"),
    ],
)
def test_unknown_words_are_one_line_with_the_nearest(firedeck, typed, line):
    said = firedeck(*typed)
    assert (said.code, said.out, said.err) == (2, "", line)


@pytest.mark.parametrize(
    "typed", [("check",), ("explain", "a.toml"), ("check", "a.toml", "--stage"), ("procedure",)]
)
def test_a_word_too_few_is_one_line(firedeck, typed):
    said = firedeck(*typed)
    assert said.code == 2
    assert said.out == ""
    assert said.err.startswith(f"firedeck {typed[0]}: found ")
    assert said.err.count("\n") == 1
