"""Which documents the page shows, read afresh at every look so that an edit is seen at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock
from typing import Any

from firedeck.assess import assess, plain
from firedeck.findings.finding import LongWork, When
from firedeck.job import Job, read_file
from firedeck.web.working import Work, Works


@dataclass(frozen=True)
class Jobs:
    """The documents by the name they have in an address; what takes long is only looked up, unless it is asked for."""

    files: Mapping[str, Path]
    works: Works = field(default_factory=Works)
    _seen: dict[str, tuple[Job, dict[str, Any]]] = field(default_factory=dict)
    _one_at_a_time: Lock = field(default_factory=Lock)

    @classmethod
    def found(cls, files: Sequence[Path]) -> "Jobs":
        """Take the documents named, or those of this folder."""
        named = list(files) or sorted(file for file in Path.cwd().glob("*.toml") if _looks_like_a_job(file))
        return cls(_by_name(named))

    def plain(self, name: str) -> dict[str, Any]:
        """Read one document and answer it; an unchanged one is not answered again."""
        with self._one_at_a_time:
            job = read_file(self.files[name])
            if name not in self._seen or self._seen[name][0].raw != job.raw:
                self._seen[name] = (job, plain(assess(job, long_work=LongWork(When.KEPT))))
            return self._seen[name][1]

    def work(self, name: str) -> Work:
        """Begin to work out what takes long for one document."""
        return self.works.start(
            name, read_file(self.files[name]), lambda job, said: self._keep(name, job, said)
        )

    def _keep(self, name: str, job: Job, answered: dict[str, Any]) -> None:
        with self._one_at_a_time:
            self._seen[name] = (job, answered)


def _by_name(files: Sequence[Path]) -> dict[str, Path]:
    """Name each document after its file; a second one of the same name gets a number."""
    named: dict[str, Path] = {}
    for file in dict.fromkeys(files):
        name, number = file.stem, 1
        while name in named:
            number += 1
            name = f"{file.stem} {number}"
        named[name] = file
    return named


def _looks_like_a_job(file: Path) -> bool:
    try:
        head = file.read_text(encoding="utf-8")[:4000]
    except (OSError, UnicodeDecodeError):
        return False
    return any(line.startswith("format") for line in head.splitlines())
