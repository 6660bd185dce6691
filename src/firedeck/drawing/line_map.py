"""A face known by its lines only: where the edge lay and the gap found on each, heights between them not known."""

from collections.abc import Iterable, Iterator, Sequence

from firedeck.drawing.bore_names import BoreName, names_clear_of, names_written
from firedeck.drawing.face_heights import worst_of
from firedeck.drawing.face_overlay import lines_laid, rings, worst_mark
from firedeck.drawing.heights import printed, unit_of
from firedeck.drawing.palette import INK, NOT_MEASURED, PAPER
from firedeck.drawing.parts import STRIP, front_strip, outline, passages, rims
from firedeck.drawing.picture import Picture
from firedeck.drawing.svg import POINT, drawing, haloed, length, tag, words
from firedeck.drawing.view import Plain, View, extent_of, fitted
from firedeck.quantity import System

FIGURES = 9 * POINT
KEY = 11.0
"""Height of the two lines of words under the map [mm]."""
OFF = (3.4, -3.4, 6.6, -6.6, 9.8, -9.8, 0.0)
"""Where a figure may stand below or above its place, nearest first [mm]."""

RUNS = {"along": "↔", "across": "↕", "diagonal": "↗"}
"""How a line runs, before its figure: two lines may have their largest gaps at one place."""

Taken = tuple[float, float, float]
"""Middle, row and half width of a figure on paper [mm]."""


def line_map(
    layout: Plain, face: Plain, system: System, size: tuple[float, float], dips: Iterable[Plain] = ()
) -> Picture | None:
    """Draw the lines of one face with the gap found on each; nothing if where they lay is not known."""
    laid, found = face.get("laid") or (), _placed(face)
    if not laid or not found:
        return None
    width, height = size
    ends = [(*line[end], 0.0) for line in laid for end in ("start", "end")]
    view = fitted(extent_of(layout, ends), (3, 3, width - 6, height - STRIP - KEY - 6))
    bottom = view.bottom + 3
    whole = bottom + STRIP + KEY
    names = names_clear_of(view, layout, [(view.at(*one["start"]), view.at(*one["end"])) for one in laid])
    alt = _described(face, found, system)
    worst = worst_of(face)
    picture = [
        outline(view, layout, fill=NOT_MEASURED) if layout.get("outline") else "",
        passages(view, layout),
        rims(view, layout),
        rings(view, layout, (dip for dip in dips if dip["face"] == face.get("face"))),
        lines_laid(view, laid),
        names_written(view, names),
        worst_mark(view, worst) if worst else "",
        *_figures(view, found, system, width, names),
        front_strip(width, bottom + STRIP / 2),
        *_key(system, bottom + STRIP),
    ]
    return Picture(drawing(width, whole, alt, *picture), alt, width, whole, _in_words(found, system))


def gap_said(line: Plain, system: System) -> str:
    """Return the gap of a line: from and to where leaves bracket it."""
    if line.get("open_above"):
        return f"≥ {printed(float(line['gap']), system).lstrip('+')}"
    band = line.get("band")
    ends = (band["low"], band["high"]) if band else (line["gap"],)
    said = [printed(float(end), system).lstrip("+") for end in ends]
    return said[0] if len(set(said)) == 1 else " to ".join(said)


def _placed(face: Plain) -> list[Plain]:
    """Lines whose place is known, the largest gap first."""
    lines = [line for line in face.get("lines") or () if line.get("by") and line.get("span") is None]
    return sorted(lines, key=lambda line: -float(line["gap"]))


def _figures(
    view: View, found: Sequence[Plain], system: System, width: float, names: Sequence[BoreName]
) -> Iterator[str]:
    """Print the gap of every line beside its place, where nothing else stands."""
    taken: list[Taken] = [(*name.at, name.half) for name in names]
    for line in found:
        x, y = view.at(*line["place"])
        text = f"{RUNS.get(line['direction'], '')} {gap_said(line, system)}".strip()
        half = length(text, FIGURES) / 2
        at = min(max(x, half + 0.5), width - half - 0.5)
        rows = [y + off for off in OFF if view.top + FIGURES <= y + off <= view.bottom - FIGURES]
        row = next((one for one in rows if _clear((at, one, half), taken)), None)
        yield tag("circle", {"cx": x, "cy": y, "r": 0.7, "fill": INK, "stroke": PAPER, "stroke-width": 0.2})
        if row is not None:
            taken.append((at, row, half))
            yield haloed(at, row, text, FIGURES, fill=INK)


def _clear(one: Taken, taken: Sequence[Taken]) -> bool:
    at, row, half = one
    return all(abs(at - x) > half + other + 0.8 or abs(row - y) > FIGURES + 0.4 for x, y, other in taken)


def _key(system: System, y: float) -> Iterator[str]:
    marks = "dashes: edge as laid; cross: largest gap; pale: heights not known"
    says = f"gap under the edge, {unit_of(system)}, from and to as the readings allow"
    for row, text in ((2.4, says), (7.2, marks)):
        yield words(6, y + row, text, 8 * POINT, fill=INK, text_anchor="start")


def _described(face: Plain, found: Sequence[Plain], system: System) -> str:
    lines = ", ".join(f"{line['name']} {gap_said(line, system)}" for line in found)
    return f"Lines of the {face.get('face') or 'face'}, largest gap under the edge in {unit_of(system)}: {lines}."


def _in_words(found: Sequence[Plain], system: System) -> str:
    return "\n".join(f"{line['name']}: {gap_said(line, system)} {unit_of(system)}" for line in found)
