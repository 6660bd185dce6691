"""``firedeck demo``: an invented job from document to paper, in ./firedeck-demo."""

import argparse
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from firedeck.cli.files import assessed, read_jobs
from firedeck.cli.options import Options
from firedeck.cli.terminal import overview
from firedeck.errors import JobError

FOLDER = Path("firedeck-demo")
EXAMPLE = "inline-four.toml"
SHEET = "record"


def example_jobs() -> Traversable:
    """Return the folder of examples: in the wheel, or beside ``src`` when run from the sources."""
    inside = files("firedeck").joinpath("examples")
    if inside.is_dir():
        return inside
    beside = Path(__file__).parents[3] / "examples" / "jobs"
    if beside.is_dir():
        return beside
    raise JobError("demo", "no examples in this installation", "install firedeck again from its wheel")


def arguments(_options: Options) -> None:
    """Take nothing after ``demo``."""


def run(_options: argparse.Namespace) -> None:
    """Copy the example, print its answers and write its record."""
    from firedeck.report import render

    if FOLDER.exists() and not FOLDER.is_dir():
        raise JobError(str(FOLDER), "a file", "a folder of this name, or none")
    FOLDER.mkdir(exist_ok=True)
    document = FOLDER / EXAMPLE
    if not document.exists():
        document.write_bytes(example_jobs().joinpath(EXAMPLE).read_bytes())
    (job,) = read_jobs([str(document)])
    said = assessed(job)
    print(overview(said, str(document), "as-typed"))
    paper, page = (FOLDER / f"{SHEET}.{kind}" for kind in ("pdf", "html"))
    paper.write_bytes(render(said, SHEET, "pdf", "a4", "as-typed"))
    page.write_bytes(render(said, SHEET, "html", "a4", "as-typed"))
    print()
    print(f"The job, invented     {document}   change a reading and check it again")
    print(f"Its record on paper   {paper}")
    print(f"The same as a page    {page.resolve().as_uri()}   open it in a browser")
    print("To work on a page     firedeck serve")
