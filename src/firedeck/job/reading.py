"""Text to Job: every fault at once, each with its path, what was found and what is allowed."""

import hashlib
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from firedeck.errors import JobError, JobErrors, shorten
from firedeck.job.change import Raw, apply
from firedeck.job.consistency import consistency_faults
from firedeck.job.doubts import Doubt, Reading, doubts_of, readings_of
from firedeck.job.faults import faults_of, toml_fault
from firedeck.job.layout_text import spread_layouts
from firedeck.job.paths import join_path, split_path
from firedeck.job.schema.document import FORMAT, Document
from firedeck.job.schema.engine import Engine
from firedeck.job.schema.joint import Joint

BROUGHT_IN = ("points", "layout", "ring_curve")
LARGEST = 2_000_000
"""Bytes: far more than any job a person writes."""


@dataclass(frozen=True)
class Job:
    """One job as its text says it; derived from the text, never stored.

    ``factory`` is the engine as it left the factory, where that is not for this job's own text to say.
    """

    text: str
    raw: Raw
    document: Document
    revision: str
    doubts: tuple[Doubt, ...]
    factory: "Job | None" = None

    @property
    def engine(self) -> Engine:
        """[engine]."""
        return self.document.engine

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Every [[joint]]."""
        return self.document.joint

    def joint(self, name: str) -> Joint:
        """Return the joint of a name."""
        return next(joint for joint in self.joints if joint.name == name)

    def changed(self, changes: Mapping[str, Any]) -> "Job":
        """Return the job with values replaced; text and revision stay those of the document."""
        changed = _job(apply(self.raw, changes), self.text)
        return replace(changed, revision=self.revision, factory=self.factory)

    def what_if(self, changes: Mapping[str, Any]) -> "Job":
        """Return the job done another way; the engine left the factory as it did, whatever is done to it now."""
        about_factory = {path: value for path, value in changes.items() if split_path(path)[0] == "as_built"}
        return replace(self.changed(changes), factory=self.changed(about_factory).as_built())

    def readings(self) -> Iterator[Reading]:
        """Go through every quantity of the document: its path, the quantity, the name of its term."""
        return readings_of(self.document)

    def as_built(self) -> "Job | None":
        """Return the job as it left the factory, if the document says how that was."""
        if self.factory is not None:
            return self.factory
        changes = self.document.as_built.changes
        return self.changed(changes) if changes else None


def read_file(path: Path) -> Job:
    """Read a job from a file; points of faces and layouts may lie in CSV files beside it."""
    text = _text(path)
    raw = _raw(text)
    _bring_in_files(raw, path.parent)
    return from_raw(raw, text)


def read_text(text: str) -> Job:
    """Read a job from its text."""
    return from_raw(_raw(text), text)


def from_raw(raw: Raw, text: str) -> Job:
    """Make a job of a parsed document, or raise all its faults at once."""
    _right_format(raw)
    job = _job(raw, text)
    if faults := list(_faults_of_changes(job)):
        raise JobErrors(faults)
    return job


def _job(raw: Raw, text: str) -> Job:
    spread_layouts(raw)
    try:
        document = Document.model_validate(raw)
    except ValidationError as error:
        raise JobErrors(faults_of(error, raw)) from None
    faults = consistency_faults(document)
    if faults:
        raise JobErrors(faults)
    return Job(text, raw, document, hashlib.sha256(text.encode()).hexdigest(), doubts_of(document))


def _faults_of_changes(job: Job) -> Iterator[JobError]:
    """Try every list of changes of the document: a path that meets nothing is a fault now, not later."""
    lists = {"as_built.changes": job.document.as_built.changes}
    lists |= {join_path(("variant", one.name, "changes")): one.changes for one in job.document.variant}
    for where, changes in lists.items():
        try:
            job.changed(changes)
        except JobError as fault:
            for one in fault.faults if isinstance(fault, JobErrors) else (fault,):
                yield JobError(f"{where}: {one.path}", one.found, one.allowed)


def _text(path: Path) -> str:
    if path.is_dir():
        raise JobError(str(path), "a folder", "give a job document, a text file such as job.toml")
    if not path.is_file():
        raise JobError(str(path), "no such file", "give the name of a file that is there")
    if path.stat().st_size > LARGEST:
        size = path.stat().st_size / 1e6
        raise JobError(
            str(path), f"{size:.0f} MB", f"a job document is at most {LARGEST // 1_000_000} MB of text"
        )
    data = path.read_bytes()
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        place = f"byte {error.start + 1}"
        raise JobError(str(path), f"text that is not UTF-8 at {place}", "save it as UTF-8 text") from None


def _raw(text: str) -> Raw:
    if not text.strip():
        raise JobError("document", "an empty text", "start one with: firedeck new FILE")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise toml_fault(str(error), text) from None
    except ValueError as error:  # a number of thousands of digits
        raise JobError("document", shorten(str(error), 120), "numbers a person can read") from None
    except RecursionError:
        raise JobError("document", "lists nested too deep", "a TOML text a person can read") from None


def _right_format(raw: Mapping[str, Any]) -> None:
    found = raw.get("format")
    if found is None:
        raise JobError("format", "nothing", f"the first line of a job is: format = {FORMAT}")
    if isinstance(found, bool) or found != FORMAT:
        raise JobError("format", repr(found), f"this firedeck reads format {FORMAT}")


def _bring_in_files(node: Any, folder: Path) -> None:
    """Replace "@file.csv" in the points of a face, a curve, or the place of a layout, by the text of that file."""
    if isinstance(node, dict):
        for key, value in node.items():
            if key in BROUGHT_IN and isinstance(value, str) and value.startswith("@"):
                node[key] = _text(_beside(folder, key, value))
            else:
                _bring_in_files(value, folder)
    elif isinstance(node, list):
        for item in node:
            _bring_in_files(item, folder)


def _beside(folder: Path, key: str, typed: str) -> Path:
    """Return the file an "@file" names: beside the document, or in a folder under it."""
    name = Path(typed[1:])
    if not typed[1:] or name.is_absolute() or ".." in name.parts:
        raise JobError(key, repr(typed), 'a file beside the document, such as "@head.csv"')
    return folder / name
