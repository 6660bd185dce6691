"""Heights of a face in figures for the terminal: one step of the scale behind each where colours are shown."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from firedeck.drawing.face_heights import Heights, heights_of, worst_of
from firedeck.drawing.palette import STEPS, step_of
from firedeck.drawing.view import Plain
from firedeck.quantity import Kind, System, in_unit

COLUMNS, ROWS, CELL = 13, 9, 6
DARK_STEPS = 6
"""Steps from here on are light enough for dark figures."""


@dataclass(frozen=True)
class _Grid:
    """Columns and rows of the places that are printed [mm]."""

    xs: tuple[float, ...]
    ys: tuple[float, ...]


def text_map(
    layout: Plain | None, face: Plain, system: System, *, colour: bool = False, front: str = "left"
) -> str:
    """Write the heights of a face as rows of figures, y upwards; nothing if it has none.

    Figures are thousandths of a millimetre, or of an inch with one decimal. A dot was not seen, a number in brackets is a
    bore, a star stands at the largest gap.
    """
    heights = heights_of(face)
    if heights is None:
        return ""
    grid = _grid(heights.points)
    bores = list((layout or {}).get("bores") or ()) if "missing" not in (layout or {}) else []
    worst = worst_of(face)
    star = _nearest_cell(grid, worst["place"]) if worst else None
    low, high = min(p[2] for p in heights.known), max(p[2] for p in heights.known)
    rows = []
    for row, y in enumerate(grid.ys):
        cells = []
        for column, x in enumerate(grid.xs):
            point = _point_of(heights, grid, (x, y))
            text = _cell(heights, bores, point, (x, y), system)
            marked = f"{text}*" if (column, row) == star else f"{text} "
            shade = point is not None and point[:2] not in heights.unseen and colour
            cells.append(
                _coloured(marked.rjust(CELL), step_of(point[2], low, high))
                if shade and point
                else marked.rjust(CELL)
            )
        rows.append("".join(cells).rstrip())
    shown = bores if any("(" in row for row in rows) else []
    return "\n".join([*rows, *_legend(heights, shown, worst, system, front)])


def _legend(
    heights: Heights, bores: Sequence[Plain], worst: Plain | None, system: System, front: str
) -> list[str]:
    unit = "thousandths of a millimetre" if system == "mm" else "thousandths of an inch"
    heights_say = f"heights out of the metal in {unit}"
    says = [f"front <--  {heights_say}" if front == "left" else f"{heights_say}  --> front"]
    marks = ["· not seen"] if heights.unseen else []
    marks += ["(1) bore"] if bores else []
    marks += (
        [f"* largest gap under the edge, {_figure(float(worst['gap']), system).strip('+')}"] if worst else []
    )
    return [*says, *(["   ".join(marks)] if marks else [])]


def _grid(points: Sequence[Sequence[float]]) -> _Grid:
    """Print every column and row where they are few, else evenly chosen ones."""
    xs, ys = (sorted({round(point[axis], 3) for point in points}) for axis in (0, 1))
    return _Grid(_some(xs, COLUMNS), tuple(reversed(_some(ys, ROWS))))


def _some(places: Sequence[float], most: int) -> tuple[float, ...]:
    if len(places) <= most:
        return tuple(places)
    return tuple(places[0] + (places[-1] - places[0]) * n / (most - 1) for n in range(most))


def _point_of(heights: Heights, grid: _Grid, place: tuple[float, float]) -> tuple[float, float, float] | None:
    """Return the point nearest to a cell, if it lies in it."""
    half_x, half_y = _half(grid.xs), _half(grid.ys)
    inside = [p for p in heights.points if abs(p[0] - place[0]) <= half_x and abs(p[1] - place[1]) <= half_y]
    return min(inside, key=lambda p: abs(p[0] - place[0]) + abs(p[1] - place[1]), default=None)


def _half(places: Sequence[float]) -> float:
    if len(places) < 2:
        return 1.0
    return 0.501 * min(abs(b - a) for a, b in pairwise(places))


def _cell(
    heights: Heights,
    bores: Sequence[Plain],
    point: tuple[float, float, float] | None,
    place: tuple[float, float],
    system: System,
) -> str:
    for bore in bores:
        off = ((bore["x"] - place[0]) ** 2 + (bore["y"] - place[1]) ** 2) ** 0.5
        if off < bore["diameter"] / 2 and (point is None or not heights.measured):
            return f"({str(bore['label'])[:3]})" if off < bore["diameter"] / 5 else "()"
    if point is None:
        return ""
    return "·" if point[:2] in heights.unseen else _figure(point[2], system)


def _figure(height: float, system: System) -> str:
    if system == "mm":
        return f"{1000.0 * height:+.0f}" if round(1000.0 * height) else "0"
    thou = in_unit(height, Kind.LENGTH, "thou")
    return f"{thou:+.1f}" if round(10 * thou) else "0"


def _nearest_cell(grid: _Grid, place: Sequence[float]) -> tuple[int, int]:
    column = min(range(len(grid.xs)), key=lambda n: abs(grid.xs[n] - place[0]))
    return column, min(range(len(grid.ys)), key=lambda n: abs(grid.ys[n] - place[1]))


def _coloured(text: str, step: int) -> str:
    red, green, blue = (int(STEPS[step][at : at + 2], 16) for at in (1, 3, 5))
    ink = "255;255;255" if step < DARK_STEPS else "0;0;0"
    return f"\x1b[48;2;{red};{green};{blue}m\x1b[38;2;{ink}m{text}\x1b[0m"
