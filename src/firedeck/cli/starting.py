"""``firedeck new``: a starter document with comments."""

import argparse
from importlib.resources import files
from pathlib import Path

from firedeck.cli.options import Options
from firedeck.cli.printing import quoted
from firedeck.errors import JobError


def starter() -> str:
    """Return the starter document."""
    return files("firedeck.cli").joinpath("starter.toml").read_text(encoding="utf-8")


def arguments(options: Options) -> None:
    """Say what may be typed after ``new``."""
    options.add_argument(
        "file", metavar="FILE", help="the file to write, such as job.toml; never one that is there"
    )


def run(options: argparse.Namespace) -> None:
    """Write the starter where no file is yet."""
    to = Path(options.file)
    try:
        with to.open("x", encoding="utf-8", newline="\n") as file:
            file.write(starter())
    except FileExistsError:
        raise JobError(
            options.file, "a file or folder that is there already", "a new name; nothing is overwritten"
        ) from None
    print(f"{to} written. Fill in what you have, then: firedeck check {quoted(str(to))}")
