"""Pits, cracks, scratches, prints and tracks: how far each is from the ring, and what the cut leaves of it."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from firedeck.findings.finding import Findings
from firedeck.findings.ring_band import OffRing, Round, off_ring, ring_bands
from firedeck.job import Job, Joint
from firedeck.job.frame import Frame, layout_frame, set_frame
from firedeck.job.paths import join_path
from firedeck.job.schema.layout import Layout
from firedeck.job.schema.readings import Damage as Entry
from firedeck.trace import DERIVED, Missing, Step

UNDER_THE_RING = ("in-ring-band", "across-ring", "bore-edge", "between-bores")
CLEAR_OF_THE_RING = ("outside-ring", "inside-ring", "in-chamber", "between-valves")


@dataclass(frozen=True)
class Mark:
    """One damage: ``off`` when it was measured, ``said`` (under the ring or not) when only words tell.

    ``left`` is the depth the planned cut leaves, negative when the cut goes deeper.
    """

    name: str
    face: str
    kind: str
    lies: str
    cylinders: tuple[str, ...]
    off: OffRing | None
    to_ring: Step | None
    said: bool | None
    count: Step | None
    depth: float | None
    left: Step | None
    after_cut: bool
    reaches_water: str
    maker_says: str
    maker_source: str


@dataclass(frozen=True)
class Damage:
    """Everything found on both faces of one joint, and the faces nobody looked over."""

    id: ClassVar[str] = "damage"
    marks: tuple[Mark, ...]
    looked_over: tuple[str, ...]
    missing: tuple[Missing, ...]
    found: Step

    def cracks(self) -> tuple[Mark, ...]:
        """Return the cracks."""
        return tuple(mark for mark in self.marks if mark.kind == "crack")


def find(_job: Job, joint: Joint | None, _found: Findings) -> Damage | Missing:
    """Place every damage against the ring."""
    assert joint is not None
    entries = joint.readings.damage
    looked = joint.readings.looked_over
    seen = tuple(face for face in ("head", "block") if face in looked or any(e.face == face for e in entries))
    if not seen:
        return unlooked(joint, "head and block")
    count = Step.work_out(
        "Places found damaged",
        "on_head + on_block",
        {
            f"on_{face}": (float(sum(entry.face == face for entry in entries)), "1")
            for face in ("head", "block")
        },
        ("places", "1"),
        DERIVED,
    )
    missing = tuple(unlooked(joint, face) for face in ("head", "block") if face not in seen)
    return Damage(tuple(_mark(joint, entry) for entry in entries), seen, missing, count)


def unlooked(joint: Joint, which: str) -> Missing:
    """Say how a face is looked over."""
    return Missing(
        paths=(f"joint.{joint.name}.readings.damage", f"joint.{joint.name}.readings.looked_over"),
        measure=f"pits, cracks, scratches, prints and tracks on the {which} face: place, size and depth",
        tool="lamp held flat, finger nail, needle in a depth gauge",
        how="Clean and dry, light from the side: look between the valves, between the bores, round every bore and "
        "water hole, and along the print of the ring; drag the nail across. Dye shows cracks.",
    )


def _mark(joint: Joint, entry: Entry) -> Mark:
    off = _off(joint, entry)
    to_ring = None
    if entry.to_ring is not None:
        figures = {"reading": (entry.to_ring.value, "mm")}
        to_ring = Step.work_out(
            "From the edge of the damage to the ring, as read",
            "reading",
            figures,
            ("distance_to_ring", "mm"),
            DERIVED,
        )
    said = True if entry.lies in UNDER_THE_RING else False if entry.lies in CLEAR_OF_THE_RING else None
    return Mark(
        name=entry.name,
        face=entry.face,
        kind=entry.kind,
        lies=entry.lies or "",
        cylinders=entry.cylinders or ((off.cylinder,) if off else ()),
        off=off,
        to_ring=to_ring,
        said=said,
        count=None if said is None else _count(entry, said),
        depth=entry.depth.value if entry.depth else None,
        left=_left(joint, entry),
        after_cut=entry.when == "after-machining",
        reaches_water=entry.reaches_water or "not-tested",
        maker_says=entry.maker_says or "not-found",
        maker_source=entry.maker_source,
    )


def _count(entry: Entry, under: bool) -> Step:
    return Step.work_out(
        f"Places under the ring, by what was seen of {entry.name}",
        "places * under",
        {"places": (1.0, "1"), "under": (float(under), "1")},
        ("places_under_the_ring", "1"),
        DERIVED,
    )


def _off(joint: Joint, entry: Entry) -> OffRing | None:
    """Return the worst over gaskets of the nearest bore; None where place or size is not known."""
    layout = joint.layout
    if layout is None or not layout.bores or entry.x is None or entry.y is None or entry.size is None:
        return None
    frame = _frame(entry, layout, join_path(("joint", joint.name, "readings", "damage", entry.name)))
    place = frame.place(entry.x.value, entry.y.value)
    spot = Round(entry.name, place, entry.size.value)
    return min(_off_each(joint, layout, spot), key=lambda off: off.distance.value)


def _off_each(joint: Joint, layout: Layout, spot: Round) -> Iterator[OffRing]:
    own = layout_frame(layout)
    for bore in layout.bores:
        opening = Round(bore.label, own.place(bore.x.value, bore.y.value), bore.diameter.value)
        for band in ring_bands(joint):
            yield off_ring(band, opening, spot)


def _frame(entry: Entry, layout: Layout, path: str) -> Frame:
    """Take the layout's own picture where none is named."""
    return layout_frame(layout) if entry.seen is None else set_frame(entry, layout, path)


def _left(joint: Joint, entry: Entry) -> Step | None:
    """Work out what the planned cut leaves; None where depth or cut is not known."""
    cut = joint.cut.head if entry.face == "head" else joint.cut.block
    if entry.depth is None or cut is None or entry.when == "after-machining":
        return None
    return Step.work_out(
        f"Depth left of {entry.name} under the cut",
        "depth - cut",
        {"depth": (entry.depth.value, "mm"), "cut": (cut.value, "mm")},
        ("damage_depth", "mm"),
        DERIVED,
    )
