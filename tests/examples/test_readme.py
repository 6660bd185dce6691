"""The commands of the README, in its order, in an empty folder; and the words of make that it names."""

import re
import shlex
from pathlib import Path

import pytest

from firedeck.cli import main

ROOT = Path(__file__).parents[2]
PAGES = ("README.md", "CONTRIBUTING.md", "ARCHITECTURE.md")
COMMANDS = [
    shlex.split(line, comments=True)[1:]
    for line in (ROOT / "README.md").read_text(encoding="utf-8").splitlines()
    if line.startswith("    firedeck ")
]


@pytest.fixture
def served(monkeypatch):
    """Put a list in place of the server that would run until it is stopped."""
    import uvicorn

    started = []
    monkeypatch.setattr(uvicorn, "run", lambda app, **how: started.append((app, how)))
    return started


def test_every_command_of_the_readme_runs(tmp_path, monkeypatch, capsys, served):
    monkeypatch.chdir(tmp_path)
    assert {words[0] for words in COMMANDS} >= {"demo", "new", "check", "explain", "report", "sum", "serve"}
    for words in COMMANDS:
        code = main(words)
        said = capsys.readouterr()
        assert (code, said.err) == (0, ""), " ".join(words)
        assert said.out.strip(), " ".join(words)
    assert len(served) == 1
    assert served[0][1]["host"] == "127.0.0.1"
    made = {file.relative_to(tmp_path).as_posix() for file in tmp_path.rglob("*") if file.is_file()}
    assert {"my-engine.toml", "sheet.pdf", "firedeck-demo/record.pdf", "firedeck-demo/record.html"} <= made
    assert (tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF-")


def test_the_words_of_make_are_those_of_the_makefile():
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    known = set(re.findall(r"^([a-z-]+):(?!=)", makefile, re.MULTILINE))
    ours = "\n".join((ROOT / page).read_text(encoding="utf-8") for page in (*PAGES, ".ci/run"))
    named = set(re.findall(r"(?:^ *|`|&& )make ([a-z-]+)", ours, re.MULTILINE))
    assert {"demo", "test"} <= named
    assert named <= known


def test_pages_the_readme_names_are_there():
    named = re.findall(r"`([\w./-]+(?:\.md|/))`", (ROOT / "README.md").read_text(encoding="utf-8"))
    assert len(named) > 4
    assert [name for name in named if name != "firedeck-demo/" and not (ROOT / name).exists()] == []
