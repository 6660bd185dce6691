"""Erosion round a fluid passage: what is eaten away against the bead line of the gasket, and the land that is left."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from firedeck.gasket.pattern import Opening, Pattern
from firedeck.job import Joint
from firedeck.job.frame import layout_frame
from firedeck.job.schema.joint import Candidate
from firedeck.job.schema.layout import Layout
from firedeck.job.schema.readings import Damage
from firedeck.quantity import Kind, parse
from firedeck.tables import one
from firedeck.trace import DERIVED, Step, as_printed


@dataclass(frozen=True)
class Erosion:
    """One eroded passage: past the hole of the gasket by, metal left inside the bead, land to the next opening."""

    name: str
    face: str
    passage: str
    reach: Step
    bead_room: Step
    land: Step | None
    beside: str


def erosions(joint: Joint, candidate: Candidate, laid: Pattern, block: Pattern) -> Iterator[Erosion]:
    """Hold every eroded passage that was measured against the gasket in its place."""
    layout = joint.layout
    assert layout is not None
    for entry in joint.readings.damage:
        holes = laid.of("passage")
        if entry.kind == "eroded-passage" and entry.x and entry.y and entry.size and holes:
            yield _erosion(candidate, laid, block, (entry, *_place(entry, layout)))


def _place(entry: Damage, layout: Layout) -> tuple[float, float]:
    assert entry.x is not None
    assert entry.y is not None
    return layout_frame(layout).place(entry.x.value, entry.y.value)


def _erosion(
    candidate: Candidate, laid: Pattern, block: Pattern, spot: tuple[Damage, float, float]
) -> Erosion:
    entry, x, y = spot
    assert entry.size is not None
    hole = min(laid.of("passage"), key=lambda each: math.hypot(each.x - x, each.y - y))
    reach = Step.work_out(
        "Eroded past the edge of the gasket's hole by",
        "sqrt((x - hole_x)**2 + (y - hole_y)**2) + size / 2 - hole / 2",
        {
            "x": (as_printed(x), "mm"),
            "y": (as_printed(y), "mm"),
            "hole_x": (hole.x, "mm"),
            "hole_y": (hole.y, "mm"),
            "size": (entry.size.value, "mm"),
            "hole": (hole.diameter, "mm"),
        },
        ("reach", "mm"),
        DERIVED,
    )
    offset, source = _bead(candidate)
    room = Step.work_out(
        "Sound metal left inside the bead line",
        "bead_offset - reach",
        {"bead_offset": (offset, "mm"), "reach": reach.figure()},
        ("bead_room", "mm"),
        source,
    )
    land, beside = _land(block, laid, spot, hole.label)
    return Erosion(entry.name, entry.face, hole.label, reach, room, land, beside)


def _bead(candidate: Candidate) -> tuple[float, str]:
    """Return how far the bead line lies from the hole [mm]: as measured, else assumed for its construction."""
    if candidate.bead_offset is not None:
        return candidate.bead_offset.value, DERIVED
    asked = candidate.construction or "any gasket"
    row = one("gasket_beads", asked, lambda row: row["construction"] in ("", asked))
    return parse(row["offset"], Kind.LENGTH).value, row["source"]


def _land(
    block: Pattern, laid: Pattern, spot: tuple[Damage, float, float], own: str
) -> tuple[Step | None, str]:
    """Work out the metal between the eroded place and the nearest other opening; a bore counts with its ring."""
    entry, x, y = spot
    assert entry.size is not None
    near = [*laid.of("bore"), *(each for each in block.of("fastener", "passage") if each.label != own)]
    if not near:
        return None, ""

    def away(each: Opening) -> float:
        return math.hypot(each.x - x, each.y - y) - each.diameter / 2

    nearest = min(near, key=away)
    step = Step.work_out(
        f"Land left between the eroded place and {nearest.kind} {nearest.label}",
        "sqrt((x - other_x)**2 + (y - other_y)**2) - size / 2 - other / 2",
        {
            "x": (as_printed(x), "mm"),
            "y": (as_printed(y), "mm"),
            "other_x": (nearest.x, "mm"),
            "other_y": (nearest.y, "mm"),
            "size": (entry.size.value, "mm"),
            "other": (nearest.diameter, "mm"),
        },
        ("land_left", "mm"),
        DERIVED,
    )
    return step, f"{nearest.kind} {nearest.label}"
