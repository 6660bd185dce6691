"""The finish of each face as read: Ra or Rz with its unit, a trace of a tester, or what eye and nail say."""

from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from firedeck.errors import BadQuantity, OutOfRange
from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.job.schema.readings import Finish as FinishReading
from firedeck.quantity import Kind, parse
from firedeck.quantity.columns import read_columns
from firedeck.surfaces.feed import feed_for_finish
from firedeck.surfaces.traces import roughness_of
from firedeck.tables import one
from firedeck.trace import COMMON_PRACTICE, DERIVED, Band, Missing, Step

WHEN = ("before", "after-machining")
"""Readings in the order in which the face had them."""

FLAWS = ("step", "spiral", "chatter", "dishing", "scratches")


@dataclass(frozen=True)
class FaceFinish:
    """The finish of one face: ``Ra`` when it was read, and the flaws the nail catches on.

    ``band`` holds Ra where only Rz was read. ``of_trace`` are the figures of a trace; ``trace_fault`` says why one
    cannot be judged.
    """

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
    Rz: float | None = None
    band: Band | None = None
    Rz_reading: Step | None = None
    of_trace: tuple[Step, ...] = ()
    cutoff: float | None = None
    trace_fault: str = ""


@dataclass(frozen=True)
class Finish:
    """The finish of the faces that were looked at; the others are missing."""

    id: ClassVar[str] = "finish"
    faces: tuple[FaceFinish, ...]
    missing: tuple[Missing, ...]


def find(_job: Job, joint: Joint | None, _found: Findings) -> Finish | Missing:
    """Take the last reading of each face; one made after machining stands before any made earlier."""
    assert joint is not None
    by_when = sorted(joint.readings.finish, key=lambda reading: WHEN.index(reading.when))
    last = {reading.face: reading for reading in by_when}
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
    found = FaceFinish(
        name=reading.name,
        face=reading.face,
        when=reading.when,
        Ra=reading.Ra.value if reading.Ra else None,
        how=reading.how or "",
        lay=reading.lay or "",
        flaws=flaws,
        looked_at=bool(reading.seen),
        reading=_as_read(reading, "Ra"),
        flaw_count=Step.work_out(
            f"Flaws the nail catches on, {reading.face} face",
            "flaws",
            {"flaws": (float(len(flaws)), "1")},
            ("flaws_found", "1"),
            COMMON_PRACTICE,
        ),
        Rz=reading.Rz.value if reading.Rz else None,
        Rz_reading=_as_read(reading, "Rz"),
    )
    if found.Ra is None and reading.trace:
        return _by_trace(found, reading)
    return _by_height(found) if found.Ra is None and found.Rz is not None else found


def _as_read(reading: FinishReading, which: str) -> Step | None:
    quantity = getattr(reading, which)
    if quantity is None:
        return None
    says = f"Finish of the {reading.face} face, {which} as read"
    return Step.work_out(says, "reading", {"reading": (quantity.value, "mm")}, (which, "mm"), DERIVED)


def _by_height(found: FaceFinish) -> FaceFinish:
    """Where only Rz was read Ra lies within what ground and milled faces have."""
    (least, source), (most, _) = practice("rz_over_ra_least"), practice("rz_over_ra_most")
    middle = Step.work_out(
        f"Ra of the {found.face} face from its Rz, in the middle of what such faces have",
        "Rz / sqrt(least * most)",
        {"Rz": (found.Rz or 0.0, "mm"), "least": (least, "1"), "most": (most, "1")},
        ("Ra", "mm"),
        source,
    )
    low, high = ((found.Rz or 0.0) / share for share in (most, least))
    why = f"Rz is {least:g} to {most:g} times Ra on ground and milled faces"
    return replace(found, Ra=middle.value, reading=middle, band=Band(low, high, 0.95, why))


def _by_trace(found: FaceFinish, reading: FinishReading) -> FaceFinish:
    """Work the figures out of a trace; one that does not do for it is said so."""
    try:
        columns = read_columns(reading.trace)
        trace = (np.array(columns.column("x")), np.array(columns.column("z")))
        judged = roughness_of(trace=trace, cutoff=reading.cutoff.value if reading.cutoff else None)
    except (OutOfRange, BadQuantity) as fault:
        return replace(found, trace_fault=str(fault))
    named = {name: step for step in judged.steps for name in step.result}
    return replace(
        found,
        Ra=judged.Ra,
        reading=named["Ra"],
        Rz=judged.Rz,
        Rz_reading=named["Rz"],
        of_trace=tuple(step for name, step in named.items() if name not in ("Ra", "Rz")),
        cutoff=judged.cutoff,
        how="tester",
    )


def feed_wanted(finish: float) -> Step | None:
    """Work out the feed per turn that leaves a finish in practice, with the usual tip; None where no tip does."""
    radius, _ = practice("nose_radius")
    rougher, _ = practice("real_over_ideal")
    try:
        ideal = feed_for_finish(finish / rougher, radius)
    except OutOfRange:
        return None
    return ideal.steps[0]


def practice(name: str) -> tuple[float, str]:
    """Return a figure of finishing practice [core] and who says so."""
    row = one("finish_practice", name, lambda row: row["name"] == name)
    return parse(row["value"], Kind(row["kind"])).value, row["source"]
