"""What lies over a map of heights: places nobody saw, rings, lines of the edge, and the worst place."""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from firedeck.drawing.face_heights import Heights
from firedeck.drawing.heights import printed, unit_of
from firedeck.drawing.palette import INK, NOT_MEASURED, PAPER
from firedeck.drawing.svg import POINT, Value, haloed, length, tag
from firedeck.drawing.view import Plain, View
from firedeck.quantity import System

FIGURES = 9 * POINT
GAP_ABOVE = 3.6
REACH = 1.8
"""Half the width of the cross at the worst place [mm of paper]."""


def not_seen(view: View, heights: Heights) -> str:
    """Cover places away from every leaf that was tried."""
    if not heights.unseen:
        return ""
    wide, high = (view.scale * pitch for pitch in _pitch(heights.points))
    box: dict[str, Value] = {"width": wide + 0.1, "height": high + 0.1, "fill": NOT_MEASURED}
    box["shape-rendering"] = "crispEdges"
    spots = [view.at(*place) for place in heights.unseen]
    return "".join(tag("rect", {**box, "x": x - wide / 2, "y": y - high / 2}) for x, y in spots)


def rings(view: View, layout: Plain, dips: Iterable[Plain]) -> str:
    """Draw the ring that each bore is followed along, as a dashed circle."""
    places = {str(bore["label"]): (bore["x"], bore["y"]) for bore in layout.get("bores") or ()}
    pen: dict[str, Value] = {"fill": "none", "stroke": INK, "stroke-width": 0.35, "stroke-dasharray": "1 1"}
    found = []
    for dip in dips:
        if str(dip["cylinder"]) in places:
            x, y = view.at(*places[str(dip["cylinder"])])
            found.append(tag("circle", {"cx": x, "cy": y, "r": view.scale * dip["diameter"] / 2, **pen}))
    return "".join(found)


def lines_laid(view: View, laid: Iterable[Plain]) -> str:
    """Draw where the edge lay: paper under ink, so that it shows on dark and light."""
    found = []
    for line in laid:
        (x1, y1), (x2, y2) = view.at(*line["start"]), view.at(*line["end"])
        ends: dict[str, Value] = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
        found.append(tag("line", {**ends, "stroke": PAPER, "stroke-width": 0.9}))
        found.append(
            tag("line", {**ends, "stroke": INK, "stroke-width": 0.35, "stroke-dasharray": "2.4 1.2"})
        )
    return "".join(found)


def worst_place(view: View, worst: Plain | None, system: System, width: float) -> str:
    """Mark the largest gap with a cross and its figure."""
    if worst is None:
        return ""
    x, y = view.at(*worst["place"])
    text = gap_words(worst, system)
    half = length(text, FIGURES) / 2
    at = min(max(x, half + 0.5), width - half - 0.5)
    figure = haloed(at, y - GAP_ABOVE, text, FIGURES, fill=INK, font_weight="bold")
    return worst_mark(view, worst) + figure


def worst_mark(view: View, worst: Plain) -> str:
    """Draw the cross at the largest gap: paper under ink."""
    x, y = view.at(*worst["place"])
    left, top, arm = x - REACH, y - REACH, 2 * REACH
    cross = f"M{left:.2f} {top:.2f} l{arm} {arm} M{left:.2f} {top + arm:.2f} l{arm} -{arm}"
    under = tag("path", {"d": cross, "stroke": PAPER, "stroke-width": 1.6})
    return under + tag("path", {"d": cross, "stroke": INK, "stroke-width": 0.6})


def gap_words(worst: Plain, system: System) -> str:
    """Return what is printed over the worst place."""
    return f"gap {printed(float(worst['gap']), system).lstrip('+')} {unit_of(system)}"


def _pitch(points: Sequence[Sequence[float]]) -> tuple[float, float]:
    """Least distance between two columns, and between two rows."""
    xs, ys = (sorted({round(point[axis], 3) for point in points}) for axis in (0, 1))
    return _least(xs), _least(ys)


def _least(places: Sequence[float]) -> float:
    return min((b - a for a, b in pairwise(places)), default=10.0)
