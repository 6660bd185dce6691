"""Heights of a face: twelve steps, printed values, pale where nothing was measured."""

import math
from collections.abc import Iterable, Sequence

from firedeck.drawing.bore_names import BoreName, names_clear_of, names_written
from firedeck.drawing.face_heights import Heights, heights_of, worst_of
from firedeck.drawing.face_overlay import FIGURES as GAP_FIGURES
from firedeck.drawing.face_overlay import (
    GAP_ABOVE,
    REACH,
    gap_words,
    lines_laid,
    not_seen,
    rings,
    worst_place,
)
from firedeck.drawing.facemap_text import text_map
from firedeck.drawing.heights import printed, unit_of
from firedeck.drawing.line_map import line_map
from firedeck.drawing.palette import INK, NOT_MEASURED, PAPER, STEPS
from firedeck.drawing.parts import STRIP, front_strip, outline, outline_path, passages, rims
from firedeck.drawing.picture import Picture
from firedeck.drawing.shading import shaded
from firedeck.drawing.svg import POINT, Value, drawing, haloed, length, tag, words
from firedeck.drawing.view import Plain, View, extent_of, fitted
from firedeck.quantity import System

FIGURES = 8 * POINT
ROOMY = (4.0, 4.5)
"""Room left beside and above figures that no point was measured at [mm]."""
SCALE = 18.5
"""Height of the scale under the map [mm]."""


def face_map(
    layout: Plain | None,
    face: Plain,
    system: System = "mm",
    *,
    width: float = 180.0,
    height: float = 100.0,
    name: str = "map",
    dips: Iterable[Plain] = (),
) -> Picture | None:
    """Draw the heights of one face; its lines with their gaps where heights are not known; nothing without either.

    ``face`` is one face of the plain findings; ``name`` keeps two maps on one page apart; ``dips`` are the rings of the
    plain findings that are drawn over it.
    """
    heights = heights_of(face)
    pattern = layout if layout and "missing" not in layout else {}
    if heights is None:
        return line_map(pattern, face, system, (width, height), dips)
    view = fitted(extent_of(pattern, heights.points), (3, 3, width - 6, height - STRIP - SCALE - 6))
    bottom = view.bottom + 3
    alt = described(face, heights, system)
    whole = bottom + STRIP + SCALE
    laid, worst = face.get("laid") or (), worst_of(face)
    names = names_clear_of(view, pattern, [(view.at(*one["start"]), view.at(*one["end"])) for one in laid])
    picture = [
        _ground(view, pattern, heights, name),
        passages(view, pattern),
        rims(view, pattern),
        rings(view, pattern, (dip for dip in dips if dip["face"] == face.get("face"))),
        lines_laid(view, laid),
        names_written(view, names),
        _values(view, heights, system, width, worst=worst, names=names),
        worst_place(view, worst, system, width),
        front_strip(width, bottom + STRIP / 2),
        _scale(heights, system, width, bottom + STRIP),
        _key(bool(dips), bool(laid), worst is not None, bottom + STRIP),
    ]
    text = text_map(pattern, face, system)
    return Picture(drawing(width, whole, alt, *picture), alt, width, whole, text)


def described(face: Plain, heights: Heights, system: System) -> str:
    """Say a face map in words."""
    points = heights.known
    low, high = min(points, key=lambda point: point[2]), max(points, key=lambda point: point[2])
    unit = unit_of(system)
    how = f"{len(points)} points" if heights.measured else "the middle of what the leaves allow"
    dark = f" {len(heights.unseen)} of {len(heights.points)} places were not seen." if heights.unseen else ""
    return (
        f"Heights of the {face.get('face') or 'face'}, {how}, out of the metal positive: "
        f"lowest {printed(low[2], system)} {unit}, highest {printed(high[2], system)} {unit}.{dark}"
    )


def _ground(view: View, layout: Plain, heights: Heights, name: str) -> str:
    filled = shaded(view, heights.points, [point[2] for point in heights.known]) + not_seen(view, heights)
    if not layout.get("outline"):
        return filled
    clip = tag("clipPath", {"id": f"{name}-edge"}, tag("path", {"d": outline_path(view, layout)}))
    return (
        outline(view, layout, fill=NOT_MEASURED)
        + tag("defs", {}, clip)
        + tag("g", {"clip-path": f"url(#{name}-edge)"}, filled)
        + outline(view, layout, fill="none")
    )


def _key(ringed: bool, laid: bool, crossed: bool, y: float) -> str:
    """Say what the marks over the map are, on a line of its own."""
    parts = [("dashed circle: ring of the gasket", ringed), ("dashes: edge as laid", laid)]
    says = "; ".join(one for one, shown in [*parts, ("cross: largest gap", crossed)] if shown)
    return words(6, y + 15.2, says, FIGURES, fill=INK, text_anchor="start") if says else ""


def _values(
    view: View,
    heights: Heights,
    system: System,
    width: float,
    *,
    worst: Plain | None,
    names: Sequence[BoreName],
) -> str:
    """Print the values, the lowest and highest first; a measured point whose value has no room keeps its dot."""
    points = heights.known
    middle = sum(point[2] for point in points) / len(points)
    beside, apart = (0.6, 1.2) if heights.measured else ROOMY
    dots: list[str] = []
    taken = [(*name.at, name.half) for name in names]
    taken += [_room_of_worst(view, worst, system)] if worst else []
    for px, py, z in sorted(points, key=lambda point: (-abs(point[2] - middle), point[0], point[1])):
        x, y = view.at(px, py)
        dot = tag("circle", {"cx": x, "cy": y, "r": 0.6, "fill": INK, "stroke": PAPER, "stroke-width": 0.2})
        dots += [dot] if heights.measured else []
        text = printed(z, system)
        half = length(text, FIGURES) / 2
        at = min(max(x, half + 0.5), width - half - 0.5)
        crossed = worst is not None and math.dist((x, y), view.at(*worst["place"])) < REACH
        under = y + (REACH if crossed else 0.6) + 0.7 * FIGURES
        row = under if under + 0.5 * FIGURES <= view.bottom or heights.measured else y - 0.6 - 0.7 * FIGURES
        if all(
            abs(at - tx) > half + thalf + beside or abs(row - ty) > FIGURES + apart for tx, ty, thalf in taken
        ):
            taken.append((at, row, half))
            dots += [] if heights.measured else [dot]
            dots.append(haloed(at, row, text, FIGURES, fill=INK))
    return "".join(dots)


def _room_of_worst(view: View, worst: Plain, system: System) -> tuple[float, float, float]:
    """Room that the figure of the worst place takes: middle, row, half its width."""
    x, y = view.at(*worst["place"])
    return x, y - GAP_ABOVE, length(gap_words(worst, system), GAP_FIGURES) / 2


def _scale(heights: Heights, system: System, width: float, y: float) -> str:
    """Draw the twelve steps with the value at every edge; one step if all heights are one."""
    points = heights.known
    low, high = min(point[2] for point in points), max(point[2] for point in points)
    steps = STEPS if high > low else (STEPS[len(STEPS) // 2],)
    pale_at = width - 26.0
    step = (pale_at - 16.0) / len(STEPS)
    box: dict[str, Value] = {"y": y, "height": 5, "stroke": INK, "stroke-width": 0.2}
    swatches = "".join(
        tag("rect", {**box, "x": 6 + place * step, "width": step, "fill": fill})
        for place, fill in enumerate(steps)
    )
    edges = (
        [low + (high - low) * place / len(steps) for place in range(len(steps) + 1)] if high > low else [low]
    )
    texts = [printed(edge, system) for edge in edges]
    every = 1 if step > max(length(text, FIGURES) for text in texts) + 0.8 else 2
    values = "".join(
        words(6 + place * step, y + 7.6, text, FIGURES, fill=INK)
        for place, text in enumerate(texts)
        if place % every == 0
    )
    pale = tag("rect", {**box, "x": pale_at + 8, "width": 8, "fill": NOT_MEASURED})
    said = words(pale_at + 12, y + 7.6, "not measured" if heights.measured else "not seen", FIGURES, fill=INK)
    unit = f"height out of the metal, {unit_of(system)}"
    return swatches + values + pale + said + words(6, y + 11.6, unit, FIGURES, fill=INK, text_anchor="start")
