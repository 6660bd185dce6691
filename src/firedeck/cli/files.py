"""Documents and texts from disk, each fault one line that names the file."""

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from firedeck.cli.failing import in_file
from firedeck.cli.options import nearest
from firedeck.errors import JobError, JobErrors

if TYPE_CHECKING:
    from firedeck.findings.finding import LongWork
    from firedeck.job import Job

LARGEST = 5_000_000
"""Bytes of a file that is given to a sum."""


def read_jobs(files: Sequence[str]) -> "list[Job]":
    """Read every document, or raise the faults of all of them together."""
    from firedeck.job import read_file

    jobs: list[Job] = []
    faults: list[JobError] = []
    for name in files:
        try:
            jobs.append(read_file(Path(name)))
        except JobError as fault:
            faults.extend(in_file(name, fault).faults)
    if faults:
        raise JobErrors(faults)
    return jobs


def assessed(job: "Job", stage: str | None = None, *, short: bool = False) -> dict[str, Any]:
    """Answer a job and return it as plain data; what takes long is done, and told on a terminal, unless ``short``."""
    from firedeck.assess import assess
    from firedeck.assess.plain import plain

    return plain(assess(job, stage=stage, long_work=None if short else long_work()))


def long_work() -> "LongWork":
    """Do what takes long, saying on a terminal how far it is."""
    from firedeck.findings.finding import LongWork, When

    return LongWork(When.NOW, _told if sys.stderr.isatty() else None)


def _told(part: str, share: float) -> None:
    """Say on one line of the terminal how far the work is, and wipe the line when it is done."""
    text = f"  {part}: {100 * share:3.0f} %" if share < 1.0 else ""
    print(f"\r{text:<60}\r", end="", file=sys.stderr, flush=True)


def text_of(name: str) -> str:
    """Read a text file that goes to a sum."""
    path = Path(name)
    if path.is_dir():
        raise JobError(name, "a folder", "give a text file such as points.csv")
    if not path.is_file():
        raise JobError(name, "no such file", _beside(path))
    size = path.stat().st_size
    if size > LARGEST:
        raise JobError(name, f"{size / 1e6:.0f} MB", f"a text file of at most {LARGEST // 1_000_000} MB")
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise JobError(
            name, f"text that is not UTF-8 at byte {error.start + 1}", "save it as UTF-8 text"
        ) from None
    if "\0" in text:
        raise JobError(name, "a file that is not text", "give a text file such as points.csv")
    return text


def _beside(path: Path) -> str:
    folder = path.parent
    names = sorted(one.name for one in folder.iterdir()) if folder.is_dir() else []
    hint = nearest(path.name, names) if names else ""
    return hint if hint.startswith("nearest") else "give the name of a text file"
