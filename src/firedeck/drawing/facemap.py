"""Heights of a face: twelve steps, printed values, pale where nothing was measured."""

from collections.abc import Sequence

from firedeck.drawing.heights import printed, unit_of
from firedeck.drawing.palette import INK, NOT_MEASURED, PAPER, STEPS
from firedeck.drawing.parts import STRIP, bores, front_strip, outline, outline_path, passages
from firedeck.drawing.picture import Picture
from firedeck.drawing.shading import shaded
from firedeck.drawing.svg import POINT, Value, drawing, haloed, length, tag, words
from firedeck.drawing.view import Plain, View, extent_of, fitted
from firedeck.quantity import System

FIGURES = 8 * POINT
SCALE = 15.0
"""Height of the scale under the map [mm]."""


def face_map(
    layout: Plain | None,
    face: Plain,
    system: System = "mm",
    *,
    width: float = 180.0,
    height: float = 100.0,
    name: str = "map",
) -> Picture | None:
    """Draw the heights of one face, or nothing if it has no points.

    ``face`` is one face of the plain findings; ``name`` keeps two maps on one page apart.
    """
    points = [point for point in face.get("points") or () if len(point) == 3]
    if not points:
        return None
    pattern = layout if layout and "missing" not in layout else {}
    view = fitted(extent_of(pattern, points), (3, 3, width - 6, height - STRIP - SCALE - 6))
    bottom = view.bottom + 3
    alt = described(face, points, system)
    whole = bottom + STRIP + SCALE
    picture = [
        _ground(view, pattern, points, name),
        passages(view, pattern),
        bores(view, pattern),
        _values(view, points, system, width),
        front_strip(width, bottom + STRIP / 2),
        _scale(points, system, width, bottom + STRIP),
    ]
    return Picture(drawing(width, whole, alt, *picture), alt, width, whole)


def described(face: Plain, points: Sequence[Sequence[float]], system: System) -> str:
    """Say a face map in words."""
    low, high = min(points, key=lambda point: point[2]), max(points, key=lambda point: point[2])
    unit = unit_of(system)
    return (
        f"Heights of the {face.get('face') or 'face'}, {len(points)} points, out of the metal positive: "
        f"lowest {printed(low[2], system)} {unit}, highest {printed(high[2], system)} {unit}."
    )


def _ground(view: View, layout: Plain, points: Sequence[Sequence[float]], name: str) -> str:
    filled = shaded(view, points)
    if not layout.get("outline"):
        return filled
    clip = tag("clipPath", {"id": f"{name}-edge"}, tag("path", {"d": outline_path(view, layout)}))
    return (
        outline(view, layout, fill=NOT_MEASURED)
        + tag("defs", {}, clip)
        + tag("g", {"clip-path": f"url(#{name}-edge)"}, filled)
        + outline(view, layout, fill="none")
    )


def _values(view: View, points: Sequence[Sequence[float]], system: System, width: float) -> str:
    """Print the values, the lowest and highest first; a point whose value has no room keeps its dot."""
    middle = sum(point[2] for point in points) / len(points)
    dots: list[str] = []
    taken: list[tuple[float, float, float]] = []
    for px, py, z in sorted(points, key=lambda point: (-abs(point[2] - middle), point[0], point[1])):
        x, y = view.at(px, py)
        dots.append(
            tag("circle", {"cx": x, "cy": y, "r": 0.6, "fill": INK, "stroke": PAPER, "stroke-width": 0.2})
        )
        text = printed(z, system)
        half = length(text, FIGURES) / 2
        at = min(max(x, half + 0.5), width - half - 0.5)
        if all(abs(at - tx) > half + thalf + 0.6 or abs(y - ty) > FIGURES + 1.2 for tx, ty, thalf in taken):
            taken.append((at, y, half))
            dots.append(haloed(at, y + 0.6 + 0.7 * FIGURES, text, FIGURES, fill=INK))
    return "".join(dots)


def _scale(points: Sequence[Sequence[float]], system: System, width: float, y: float) -> str:
    """Draw the twelve steps with the value at every edge; one step if all heights are one."""
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
    said = words(pale_at + 12, y + 7.6, "not measured", FIGURES, fill=INK)
    unit = f"height out of the metal, {unit_of(system)}"
    return swatches + values + pale + said + words(6, y + 11.6, unit, FIGURES, fill=INK, text_anchor="start")
