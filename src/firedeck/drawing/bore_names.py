"""Names of the cylinders where no line runs through them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.drawing.parts import bore_name, name_size
from firedeck.drawing.svg import length
from firedeck.drawing.view import Place, Plain, View

Line = tuple[Place, Place]
"""From where to where on paper [mm]."""


@dataclass(frozen=True)
class BoreName:
    """The name of a bore: what is written, where its middle stands on paper, half its width [mm]."""

    bore: Plain
    at: Place
    half: float


def names_clear_of(view: View, layout: Plain, lines: Sequence[Line]) -> tuple[BoreName, ...]:
    """Place the name of every bore where it stays furthest from all lines; in the middle where there are none."""
    return tuple(_placed(view, bore, lines) for bore in layout.get("bores") or ())


def names_written(view: View, names: Sequence[BoreName]) -> str:
    """Write the names where they were placed."""
    return "".join(bore_name(view, one.bore, one.at) for one in names)


def _placed(view: View, bore: Plain, lines: Sequence[Line]) -> BoreName:
    text, size = name_size(view, bore)
    at = _clear_of(view, bore, lines) if lines else view.at(bore["x"], bore["y"])
    return BoreName(bore, at, length(text, size) / 2)


def _clear_of(view: View, bore: Plain, lines: Sequence[Line]) -> Place:
    """Find the place within a bore where its name stays furthest from every line; the highest of equals."""
    x, y = view.at(bore["x"], bore["y"])
    radius = view.scale * bore["diameter"] / 2
    text, size = name_size(view, bore)
    half, high = length(text, size) / 2, size / 2
    spots = [
        (x + across * radius, y + down * radius)
        for down in (-0.62, -0.45, -0.25, 0.0, 0.25, 0.45, 0.62)
        for across in (0.0, -0.25, 0.25, -0.4, 0.4)
        if math.hypot(abs(across) * radius + half, abs(down) * radius + high) < radius
    ]
    return max(spots, key=lambda spot: round(_room(spot, half, high, lines), 3), default=(x, y))


def _room(spot: Place, half: float, high: float, lines: Sequence[Line]) -> float:
    """Least distance from a line of a name at a spot: nought where one runs through it."""
    names = [
        (spot[0] + across * half, spot[1] + down * high)
        for across in (-1.0, 0.0, 1.0)
        for down in (-1.0, 1.0)
    ]
    return min(0.0 if _between(names, one) else min(_distance(at, one) for at in names) for one in lines)


def _between(names: Sequence[Place], line: Line) -> bool:
    """Tell whether a line has corners of a name on both sides."""
    sides = [_side(at, line) for at in names]
    return min(sides) <= 0.0 <= max(sides)


def _side(at: Place, line: Line) -> float:
    (x1, y1), (x2, y2) = line
    return (x2 - x1) * (at[1] - y1) - (y2 - y1) * (at[0] - x1)


def _distance(at: Place, line: Line) -> float:
    return abs(_side(at, line)) / max(math.dist(*line), 1e-6)
