"""The list of commands, and finding the one that was typed."""

import os
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from importlib import import_module

from firedeck.cli.failing import guarded, speak_utf8
from firedeck.cli.options import Options, nearest
from firedeck.errors import JobError


@dataclass(frozen=True)
class Command:
    """One command: the words of the overview, and the module that does it."""

    name: str
    call: str
    says: str
    module: str


COMMANDS = (
    Command("new", "new FILE", "start a job document, with comments on what goes where", "starting"),
    Command("check", "check FILE...", "every answer for a job, the worst check first", "checking"),
    Command(
        "explain", "explain FILE QUESTION", "one answer in full, with its sums and sources", "explaining"
    ),
    Command(
        "what-if",
        "what-if FILE --change PATH=VALUE ...",
        "the job beside the same job done another way, ring by ring",
        "comparing",
    ),
    Command("sum", "sum [NAME arg=value ...]", "a single sum with units; alone: which there are", "sums"),
    Command(
        "report",
        "report FILE --sheet NAME -o FILE",
        "a sheet for the bench or the record, as PDF, HTML or text",
        "reporting",
    ),
    Command("face", "face READINGS.toml", "a face from straightedge lines, and where to lay next", "mapping"),
    Command("procedure", 'procedure "TEXT"', "say a tightening procedure in plain words", "tightening"),
    Command("order", "order FILE", "the order of tightening and loosening for a hole pattern", "ordering"),
    Command(
        "layout",
        "layout numbers|points|trace|show ...",
        "a layout file of block, head or gasket, drawn back at once",
        "layouts",
    ),
    Command(
        "joint", "joint FILE", "how hard the gasket is pressed round every bore, now and as built", "clamping"
    ),
    Command("demo", "demo", "an invented job from document to paper", "showing"),
    Command("schema", "schema", "the JSON Schema of the job document", "schema"),
    Command("serve", "serve [FILE...]", "the page, for this machine", "serving"),
)
OPENING = """firedeck: answers for the cylinder head on the bench.
What to do, the number behind it, the limit and who says it, the sum, and what happens otherwise."""
CLOSING = "One command in detail: firedeck COMMAND --help"


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return the exit code: 0, 2 for bad input, 1 for a fault of ours."""
    speak_utf8()
    os.environ.setdefault(
        "OPENBLAS_NUM_THREADS", "1"
    )  # two threads of the algebra library hinder each other here
    given = list(sys.argv[1:] if arguments is None else arguments)
    try:
        return guarded(lambda: _run(given))
    except SystemExit as end:  # argparse leaves like this after printing --help
        return end.code if isinstance(end.code, int) else 0


def _run(given: Sequence[str]) -> None:
    if not given or given[0] in ("-h", "--help", "help"):
        print(overview())
        return
    if given[0] == "--version":
        from firedeck import __version__

        print(f"firedeck {__version__}")
        return
    command = _find(given[0])
    module = import_module(f"firedeck.cli.{command.module}")
    options = Options(command.name, command.says[0].upper() + command.says[1:] + ".")
    module.arguments(options)
    module.run(options.read(given[1:]))


def overview() -> str:
    """Return what ``firedeck --help`` prints."""
    wide = max(len(command.call) for command in COMMANDS)
    lines = [f"  {command.call:<{wide}}  {command.says}" for command in COMMANDS]
    return "\n".join([OPENING, "", *lines, "", CLOSING])


def _find(name: str) -> Command:
    for command in COMMANDS:
        if command.name == name:
            return command
    if name.startswith("-"):
        raise JobError("firedeck", f"{name!r}, an unknown option", nearest(name, ["--help", "--version"]))
    known = [command.name for command in COMMANDS]
    raise JobError("firedeck", f"{name!r}, an unknown command", nearest(name, known))
