"""``firedeck report``: one sheet of a job as PDF, HTML or text."""

import argparse
from pathlib import Path

from firedeck.cli.files import assessed, read_jobs
from firedeck.cli.options import Options, add_units, one_of
from firedeck.errors import JobError

FORMATS = ("pdf", "html", "text")
PAPERS = ("a4", "letter")
BY_ENDING = {".pdf": "pdf", ".html": "html", ".htm": "html", ".txt": "text"}


def sheet_names() -> list[str]:
    """Return the sheets there are."""
    from firedeck.report import SHEETS

    return list(SHEETS)


def arguments(options: Options) -> None:
    """Say what may be typed after ``report``."""
    options.add_argument("file", metavar="FILE", help="a job document, such as job.toml")
    options.add_argument(
        "--sheet",
        metavar="NAME",
        required=True,
        type=one_of("--sheet", sheet_names),
        help="which sheet; a wrong name lists them",
    )
    options.add_argument(
        "--format",
        metavar="|".join(FORMATS),
        type=one_of("--format", lambda: FORMATS),
        help="left out: by the ending of the file to write",
    )
    options.add_argument(
        "--paper",
        metavar="|".join(PAPERS),
        default="a4",
        type=one_of("--paper", lambda: PAPERS),
        help="size of the paper",
    )
    options.add_argument(
        "-o", "--output", metavar="FILE", required=True, help="the file to write; replaced if it is there"
    )
    add_units(options)


def run(options: argparse.Namespace) -> None:
    """Write the sheet and say where it is."""
    from firedeck.report import render, takes_long

    written = Path(options.output)
    given = options.format or BY_ENDING.get(written.suffix.lower())
    if given is None:
        raise JobError("-o", repr(options.output), "a name that ends in .pdf, .html or .txt, or say --format")
    if written.resolve() == Path(options.file).resolve():
        raise JobError("-o", "the job document itself", "another file")
    (job,) = read_jobs([options.file])
    said = assessed(job, short=not takes_long(options.sheet))
    written.write_bytes(render(said, options.sheet, given, options.paper, options.units))
    print(f"{options.sheet} written to {written}")
