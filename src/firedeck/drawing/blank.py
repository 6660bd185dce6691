"""A face map to be filled with a pencil: where the straightedge lies, and boxes for the leaves."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from firedeck.drawing.bore_names import names_clear_of, names_written
from firedeck.drawing.palette import FAINT, INK, PAPER
from firedeck.drawing.parts import STRIP, front_strip, outline, passages, rims
from firedeck.drawing.picture import Picture
from firedeck.drawing.svg import POINT, Value, drawing, haloed, tag
from firedeck.drawing.view import Extent, Place, Plain, View, extent_of, fitted, is_drawn

BOX = (22.0, 8.5)
"""Width and height of one pair of boxes [mm]."""

FIGURES = 10 * POINT
PAD = 4.0
NAME = 5.6
RING = 2.6


@dataclass(frozen=True)
class Laying:
    """One laying of the straightedge on paper: its number, from where to where, and its boxes' corner."""

    number: int
    start: Place
    end: Place
    box: Place


def blank_map(
    layout: Plain | None, over: bool = False, width: float = 180.0, height: float = 100.0
) -> Picture | None:
    """Draw a blank face map; ``over`` shows the head as it lies face up on the bench.

    Each arrow is one laying of the straightedge, read in the way of the arrow. Its left box takes the
    thickest leaf that goes, its right box the thinnest that stops.
    """
    if layout is None or not is_drawn(layout):
        return None
    side = BOX[0] + PAD
    window = (side, PAD, width - 2 * side, height - STRIP - BOX[1] - 2 * PAD - 2)
    view = fitted(extent_of(layout), window, over)
    layings = list(_layings(view, layout, width))
    bottom = max(view.bottom + PAD, *(laying.box[1] + BOX[1] + 1 for laying in layings))
    alt = (
        f"Blank map of the {'head face, face up on the bench' if over else 'block face from above'} with "
        f"{len(layings)} numbered layings of the straightedge and two boxes for each."
    )
    ground = outline(view, layout) + passages(view, layout) + rims(view, layout)
    whole = bottom + STRIP
    marks = "".join(_drawn(laying) for laying in layings)
    names = names_clear_of(view, layout, [(one.start, one.end) for one in layings])
    numbers = _numbers(layings) + names_written(view, names)
    strip = front_strip(width, bottom + STRIP / 2, over)
    return Picture(drawing(width, whole, alt, ground, marks, numbers, strip), alt, width, whole)


def _layings(view: View, layout: Plain, width: float) -> Iterator[Laying]:
    """Along both edges and the middle, both diagonals, then across the ends and every bridge."""
    extent = view.extent
    inset_x, inset_y = 0.02 * extent.width, 0.07 * extent.height
    left, right = extent.left + inset_x, extent.right - inset_x
    sides = sorted((extent.low + inset_y, extent.high - inset_y), key=lambda y: view.at(0, y)[1])
    top, low = sides
    rows = [(left, top, right, top), (left, (top + low) / 2, right, (top + low) / 2), (left, low, right, low)]
    gap = max((view.bottom - view.top - BOX[1]) / 2, BOX[1] + 1)
    for place, (x1, y1, x2, y2) in enumerate(rows):
        corner = (width - BOX[0] - 0.3, view.top + place * gap)
        yield Laying(place + 1, view.at(x1, y1), view.at(x2, y2), corner)
    for place, (y1, y2) in enumerate(((low, top), (top, low))):
        corner = (0.3, view.top + (1 - place) * 2 * gap)
        yield Laying(place + 4, view.at(right, y2), view.at(left, y1), corner)
    stations = _stations(extent, layout, inset_x)
    for place, x in enumerate(stations):
        start, end = view.at(x, top), view.at(x, low)
        slot = width / len(stations)
        middle = (place + 0.5) * slot if slot < BOX[0] + 2 or _crowded(view, stations) else start[0]
        below = max(view.bottom, view.top + 2 * gap + BOX[1]) + PAD
        corner = (min(max(middle - BOX[0] / 2, 0.0), width - BOX[0] - 0.3), below)
        yield Laying(place + 6, start, end, corner)


def _stations(extent: Extent, layout: Plain, inset: float) -> list[float]:
    """Return where the edge is laid across: both ends, and between neighbouring bores."""
    middles = sorted({round(float(bore["x"]), 1) for bore in layout.get("bores") or ()})
    bridges = [(a + b) / 2 for a, b in pairwise(middles)]
    if not bridges:
        bridges = [(extent.left + extent.right) / 2]
    return [extent.left + 2.5 * inset, *bridges[:6], extent.right - 2.5 * inset]


def _crowded(view: View, stations: list[float]) -> bool:
    places = [view.at(x, 0.0)[0] for x in stations]
    return any(b - a < BOX[0] + 1 for a, b in pairwise(places))


def _drawn(laying: Laying) -> str:
    (x1, y1), (x2, y2), (bx, by) = laying.start, laying.end, laying.box
    pen: dict[str, Value] = {"stroke": INK, "stroke-width": 0.4, "stroke-dasharray": "2.4 1.2"}
    line = tag("line", {"x1": x1, "y1": y1, "x2": x2, "y2": y2, **pen})
    far = max(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5, 1e-6)
    ux, uy = (x2 - x1) / far, (y2 - y1) / far
    head = (
        f"M{x2:.2f} {y2:.2f} L{x2 - 3 * ux - 1.3 * uy:.2f} {y2 - 3 * uy + 1.3 * ux:.2f} "
        f"L{x2 - 3 * ux + 1.3 * uy:.2f} {y2 - 3 * uy - 1.3 * ux:.2f} Z"
    )
    half = (BOX[0] - NAME) / 2
    frame: dict[str, Value] = {"y": by, "height": BOX[1], "fill": PAPER, "stroke": INK, "stroke-width": 0.3}
    boxes = "".join(tag("rect", {**frame, "x": bx + NAME + place * half, "width": half}) for place in (0, 1))
    name = haloed(
        bx + NAME / 2 - 0.3, by + BOX[1] / 2, str(laying.number), FIGURES, fill=INK, font_weight="bold"
    )
    return line + tag("path", {"d": head, "fill": INK}) + boxes + name


def _numbers(layings: list[Laying]) -> str:
    """Write each number on its line near its start, where no other number stands."""
    placed: list[Place] = []
    for laying in layings:
        (x1, y1), (x2, y2) = laying.start, laying.end
        shares = (0.06, 0.13, 0.19, 0.25, 0.31, 0.37, 0.43)
        spots = [(x1 + share * (x2 - x1), y1 + share * (y2 - y1)) for share in shares]
        free = (spot for spot in spots if all(math.dist(spot, other) > 2 * RING + 0.4 for other in placed))
        placed.append(next(free, spots[-1]))
    return "".join(_number(laying, at) for laying, at in zip(layings, placed, strict=True))


def _number(laying: Laying, at: Place) -> str:
    ring = tag(
        "circle", {"cx": at[0], "cy": at[1], "r": RING, "fill": PAPER, "stroke": FAINT, "stroke-width": 0.2}
    )
    return ring + haloed(*at, str(laying.number), FIGURES, fill=INK, font_weight="bold")
