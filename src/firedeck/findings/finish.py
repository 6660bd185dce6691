"""The finish of each face as read: Ra with its unit, or what eye and nail say."""

from dataclasses import dataclass
from typing import ClassVar

from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.job.schema.readings import Finish as FinishReading
from firedeck.trace import COMMON_PRACTICE, DERIVED, Missing, Step

FLAWS = ("step", "spiral", "chatter", "dishing", "scratches")


@dataclass(frozen=True)
class FaceFinish:
    """The finish of one face: ``Ra`` when it was read, and the flaws the nail catches on."""

    name: str
    face: str
    when: str
    Ra: float | None
    how: str
    lay: str
    flaws: tuple[str, ...]
    looked_at: bool
    reading: Step | None
    flaw_count: Step


@dataclass(frozen=True)
class Finish:
    """The finish of the faces that were looked at; the others are missing."""

    id: ClassVar[str] = "finish"
    faces: tuple[FaceFinish, ...]
    missing: tuple[Missing, ...]


def find(_job: Job, joint: Joint | None, _found: Findings) -> Finish | Missing:
    """Take the last reading of each face."""
    assert joint is not None
    last = {reading.face: reading for reading in joint.readings.finish}
    missing = tuple(no_finish(joint, which) for which in ("head", "block") if which not in last)
    found = tuple(_face(reading) for reading in last.values())
    return Finish(found, missing) if found else missing[0]


def no_finish(joint: Joint, which: str) -> Missing:
    """Say how a finish is judged in a garage."""
    return Missing(
        paths=(f"joint.{joint.name}.readings.finish",),
        measure=f"finish of the {which} face: Ra with its unit, µm or µin",
        tool="comparator plate, or the shop's roughness tester",
        how="Drag the nail across the lay on face and plate, find the patch that feels the same; note step, "
        "spiral, chatter or dishing as well.",
    )


def _face(reading: FinishReading) -> FaceFinish:
    flaws = tuple(flaw for flaw in reading.seen if flaw in FLAWS)
    return FaceFinish(
        name=reading.name,
        face=reading.face,
        when=reading.when,
        Ra=reading.Ra.value if reading.Ra else None,
        how=reading.how or "",
        lay=reading.lay or "",
        flaws=flaws,
        looked_at=bool(reading.seen),
        reading=_as_read(reading),
        flaw_count=Step.work_out(
            f"Flaws the nail catches on, {reading.face} face",
            "flaws",
            {"flaws": (float(len(flaws)), "1")},
            ("flaws_found", "1"),
            COMMON_PRACTICE,
        ),
    )


def _as_read(reading: FinishReading) -> Step | None:
    if reading.Ra is None:
        return None
    figures = {"reading": (reading.Ra.value, "mm")}
    return Step.work_out(
        f"Finish of the {reading.face} face, as read", "reading", figures, ("Ra", "mm"), DERIVED
    )
