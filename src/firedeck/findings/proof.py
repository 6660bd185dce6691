"""The proof list of this engine, what of it was answered, and signs that it leaks since the work."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from firedeck.findings.cooling import cooled_by
from firedeck.findings.due import Due
from firedeck.findings.finding import Findings
from firedeck.findings.valve_gear import sealed_by
from firedeck.job import Job, Joint
from firedeck.tables import rows

ALARMS = {
    "coolant-in-cylinder": "liquid in a cylinder",
    "coolant-in-oil": "coolant in the oil",
    "oil-in-coolant": "oil in the coolant",
    "valves-touched": "valves have touched",
    "bubbles-in-radiator": "bubbles in the radiator",
    "hose-hard-when-cold": "hose hard from cold",
    "white-smoke": "white smoke",
}


@dataclass(frozen=True)
class Asked:
    """One line of the proof list, and what was answered: yes, no, not-done or nothing."""

    key: str
    stage: str
    text: str
    how: str
    tool: str
    caution: str
    source: str
    said: str


@dataclass(frozen=True)
class Proof:
    """The list with its answers; ``has_run`` when the engine has been run since the work."""

    id: ClassVar[str] = "proof"
    asked: tuple[Asked, ...]
    has_run: bool
    alarms: tuple[str, ...]
    loose: tuple[str, ...]

    @property
    def begun(self) -> bool:
        """Whether any line was answered or the engine has run."""
        return self.has_run or any(one.said for one in self.asked)

    def said(self, word: str) -> tuple[Asked, ...]:
        """Return the lines answered with a word."""
        return tuple(one for one in self.asked if one.said == word)

    def of(self, stage: str) -> tuple[Asked, ...]:
        """Return the lines of a stage."""
        return tuple(one for one in self.asked if one.stage == stage)


def find(job: Job, _joint: Joint | None, found: Findings) -> Proof:
    """Put the answers beside the list; alarms count only after the work was done."""
    given = job.document.tests.proof
    since = job.document.history.since_work
    has_run = since is not None and since.value > 0.0
    asked = tuple(_asked(job, found, given))
    known = {one.key for one in asked}
    strange = {key: said for key, said in given.items() if key not in known}
    extra = tuple(_own(key, said) for key, said in strange.items())
    alarms = [ALARMS[word] for word in job.document.symptoms.seen if word in ALARMS] if has_run else []
    loose = tuple(label for joint in job.joints for label in joint.readings.fasteners.loose)
    return Proof((*asked, *extra), has_run, tuple(alarms), loose)


def _asked(job: Job, found: Findings, given: Mapping[str, str]) -> list[Asked]:
    due = found.get(Due)
    words = {cooled_by(job), sealed_by(job)}
    if {"coolant-in-oil", "oil-in-coolant"} & set(job.document.symptoms.seen):
        words.add("oil-met-coolant")
    if isinstance(due, Due) and any(one.again for one in due.joints):
        words.add("retorque-written")
    return [
        Asked(
            key=row["key"],
            stage=row["stage"],
            text=row["text"],
            how=row["how"],
            tool=row["tool"],
            caution=row["caution"],
            source=row["source"],
            said=given.get(row["key"], ""),
        )
        for row in rows("proof_list")
        if words.issuperset(row["when"].split())
    ]


def _own(key: str, said: str) -> Asked:
    """A line the mechanic added."""
    text = key.replace("-", " ")
    return Asked(key, "after", text, "As the mechanic wrote it", "eye", "", "derived", said)
