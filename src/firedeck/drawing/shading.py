"""Filled steps between measured points, joined just as the sums join them; nothing beyond the outermost."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from firedeck.drawing.palette import STEPS
from firedeck.drawing.svg import Value, tag
from firedeck.drawing.view import View

ACROSS = 140
"""Columns of the grid the steps are drawn on."""


def shaded(view: View, points: Sequence[Sequence[float]], over: Sequence[float] = ()) -> str:
    """Fill the measured area in twelve steps; nothing if the points lie on one line or at one height.

    ``over`` are the heights the steps run over; what is beyond them falls in the outermost step.
    """
    import numpy as np
    from contourpy import FillType, contour_generator

    from firedeck.errors import OutOfRange
    from firedeck.surfaces.interpolation import covers, heights_at, sheet

    try:
        face = sheet([(float(x), float(y), float(z)) for x, y, z in points])
    except OutOfRange:
        return ""
    array = face.points
    xs, ys = (
        np.linspace(array[:, i].min(), array[:, i].max(), n) for i, n in ((0, ACROSS), (1, ACROSS // 2))
    )
    places = np.array([(x, y) for y in ys for x in xs])
    inside = covers(face, places)
    heights = np.full(len(places), np.nan)
    heights[inside] = heights_at(face, places[inside], "map")
    low, high = (
        float(end) for end in ((min(over), max(over)) if over else (np.min(array[:, 2]), np.max(array[:, 2])))
    )
    grid = np.ma.masked_invalid(np.clip(heights, low, high).reshape(len(ys), len(xs)))
    levels = np.linspace(low, high, len(STEPS) + 1) if high > low else np.array([low, low])
    spread = max(high - low, 1e-9)
    levels[0], levels[-1] = low - 1e-6 * spread, high + 1e-6 * spread
    colours = STEPS if high > low else (STEPS[len(STEPS) // 2],)
    lines = contour_generator(xs, ys, grid, fill_type=FillType.OuterOffset)
    return "".join(
        _step(view, lines.filled(levels[index], levels[index + 1])[:2], colour)
        for index, colour in enumerate(colours)
    )


def _step(view: View, filled: tuple[Sequence[Any], Sequence[Any]], colour: str) -> str:
    polygons, offsets = filled
    if not polygons:
        return ""
    data = "".join(
        _ring(view, polygon[start:end])
        for polygon, cuts in zip(polygons, offsets, strict=True)
        for start, end in pairwise(cuts)
    )
    pen: dict[str, Value] = {"fill": colour, "fill-rule": "evenodd", "stroke": colour, "stroke-width": 0.15}
    return tag("path", {"d": data, **pen})


def _ring(view: View, ring: Sequence[Sequence[float]]) -> str:
    places = [view.at(float(x), float(y)) for x, y in ring]
    return "M" + " L".join(f"{x:.2f} {y:.2f}" for x, y in places) + " Z"
