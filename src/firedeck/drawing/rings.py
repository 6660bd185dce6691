"""How hard each ring is pressed all round: load outward from a small circle, the lowest place marked.

One dial a bore, set out as the bores lie seen looking down on the deck. Every dial has the same scale, so that
they can be held against each other.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from firedeck.drawing.palette import FAINT, INK, PAPER, STEPS
from firedeck.drawing.parts import STRIP, THIN, front_strip
from firedeck.drawing.picture import Picture
from firedeck.drawing.svg import POINT, Value, drawing, haloed, length, tag, words
from firedeck.drawing.view import Place, Plain

FIGURES = 8 * POINT
INNER = 0.3
"""Radius of the circle of no load, as a share of a dial."""
LARGEST, GAP = 27.0, 3.0
"""Radius of a dial at most, and what is left between two [mm of paper]."""
KEY = 6.0
"""Height of the line that says which line is which [mm]."""
AS_BUILT, WRITTEN, NOW = "as it left the factory", "as written", "now"


@dataclass(frozen=True)
class Line:
    """One line round a dial: angles [rad] and loads [N/mm], closed."""

    name: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Dial:
    """One ring: its bore, the lines from the back to the front, the lowest place of the front one."""

    bore: str
    x: float
    y: float
    lines: tuple[Line, ...]
    angle: float
    lowest: float
    side: str


def ring_picture(
    layout: Plain | None, study: Plain | None, changed: Plain | None = None, width: float = 180.0
) -> Picture | None:
    """Draw the rings of one head, its own cylinder firing, or nothing where they were not worked out.

    ``study`` is the study of the plain findings; with ``changed``, another study of the same head, that one
    stands in front and the first behind it as written.
    """
    dials = dials_of(layout, study, changed)
    if not dials:
        return None
    svg, height = _rings(dials, width)
    alt = described(dials)
    return Picture(drawing(width, height, alt, svg), alt, width, height)


def dials_of(layout: Plain | None, study: Plain | None, changed: Plain | None = None) -> tuple[Dial, ...]:
    """Take every ring that can be drawn out of a study of the plain findings."""
    return tuple(_dials(layout, study, changed)) if layout and study else ()


def _rings(dials: Sequence["Dial"], width: float) -> tuple[str, float]:
    """Draw the dials with their key, scale and front; return the height they take as well."""
    top = round_up(max(1.0, *(load for dial in dials for line in dial.lines for _, load in line.points)))
    view = _laid_out(dials, width)
    names = tuple(dict.fromkeys(line.name for dial in dials for line in dial.lines))
    bottom = view.bottom + 1.0
    whole = bottom + 2 * KEY + STRIP
    drawn = [_dial(dial, view.at(dial), view.radius, top) for dial in dials]
    drawn += [_key(names, width, bottom + KEY / 2), _scale(top, width, bottom + 1.5 * KEY)]
    return "".join([*drawn, front_strip(width, whole - STRIP / 2)]), whole


def described(dials: Sequence[Dial]) -> str:
    """Say the rings in words."""
    each = [f"No {dial.bore} lowest {dial.lowest:.0f} N/mm, {dial.side}" for dial in dials]
    first = dials[0].lines[-1].name
    return f"Line load round every ring with its cylinder firing, {first}: {'; '.join(each)}."


def _dials(layout: Plain, study: Plain, changed: Plain | None) -> Iterator[Dial]:
    bores = {bore["label"]: bore for bore in layout.get("bores") or ()}
    front = {place["bore"]: place for place in (changed or study)["places"]}
    for place in study["places"]:
        bore, shown = bores.get(place["bore"]), front.get(place["bore"])
        if bore is None or shown is None or not place["curve"]:
            continue
        lines = [Line(AS_BUILT, _points(place, 2)), Line(NOW, _points(place, 1))]
        if changed is not None:
            lines[1:] = [Line(WRITTEN, _points(place, 1)), Line("changed", _points(shown, 1))]
        drawn = tuple(line for line in lines if line.points)
        side, angle = shown["side"], shown["lowest_angle"]
        yield Dial(place["bore"], bore["x"], bore["y"], drawn, angle, shown["firing_lowest"], side)


def _points(place: Plain, column: int) -> tuple[tuple[float, float], ...]:
    return tuple((point[0], point[column]) for point in place["curve"] if point[column] is not None)


@dataclass(frozen=True)
class _Laid:
    """Where the dials stand on paper: all of one radius, none over another."""

    places: Mapping[str, Place]
    radius: float
    bottom: float

    def at(self, dial: Dial) -> Place:
        return self.places[dial.bore]


def _laid_out(dials: Sequence[Dial], width: float) -> _Laid:
    """Set the dials out as the bores lie, as large as goes without one touching another."""
    xs, ys = [dial.x for dial in dials], [dial.y for dial in dials]
    apart = min(
        (math.dist((a.x, a.y), (b.x, b.y)) for i, a in enumerate(dials) for b in dials[i + 1 :]),
        default=1.0,
    )
    long = (max(xs) - min(xs)) / max(apart, 1e-9)
    pitch = min((width - 2 * GAP) / (long + 1.0), 2 * LARGEST + GAP)
    radius = min((pitch - GAP) / 2, LARGEST)
    scale = pitch / max(apart, 1e-9)
    left = (width - scale * (max(xs) - min(xs))) / 2
    top = radius + GAP
    places = {
        dial.bore: (left + scale * (dial.x - min(xs)), top + scale * (max(ys) - dial.y)) for dial in dials
    }
    return _Laid(places, radius, top + scale * (max(ys) - min(ys)) + radius + GAP)


def _dial(dial: Dial, at: Place, radius: float, top: float) -> str:
    x, y = at
    inner = INNER * radius

    def out(load: float) -> float:
        return inner + (radius - inner) * min(max(load, 0.0), top) / top

    thin: dict[str, Value] = {"cx": x, "cy": y, "fill": "none", "stroke": FAINT, "stroke-width": THIN}
    dotted: dict[str, Value] = {**thin, "stroke-dasharray": "0.6 0.8"}
    circles = tag("circle", {**dotted, "r": radius}) + tag("circle", {**dotted, "r": out(top / 2)})
    *behind, front = [_line(line, at, out) for line in dial.lines]
    pen = _pen("", front=True)
    filled = tag("path", {"d": front, "fill": pen.pop("fill"), "fill-opacity": 0.55})
    drawn = filled + "".join(
        tag("path", {"d": path, **_pen(line.name, front=False)})
        for path, line in zip(behind, dial.lines, strict=False)
    )
    drawn += tag("path", {"d": front, "fill": "none", **pen})
    nought = tag("circle", {**thin, "r": inner, "fill": PAPER, "stroke": INK, "stroke-width": 0.35})
    size = min(9 * POINT, 1.7 * inner / max(length(f"cyl {dial.bore}", 1.0), 1.0))
    return circles + drawn + nought + words(x, y, f"cyl {dial.bore}", size, fill=INK) + _mark(dial, at, out)


def _line(line: Line, at: Place, out: Callable[[float], float]) -> str:
    corners = [
        (at[0] + out(load) * math.cos(angle), at[1] - out(load) * math.sin(angle))
        for angle, load in line.points
    ]
    return "M" + " L".join(f"{x:.2f} {y:.2f}" for x, y in corners) + " Z"


def _pen(name: str, front: bool) -> dict[str, Value]:
    """Return how a line is drawn: the front one filled, those behind broken, the factory's palest."""
    round_off: dict[str, Value] = {"stroke-linejoin": "round"}
    if front:
        return {"fill": STEPS[10], "stroke": STEPS[1], "stroke-width": 0.55, **round_off}
    ink = FAINT if name == AS_BUILT else STEPS[4]
    dashes = "1.6 1" if name == AS_BUILT else "0.5 0.7"
    return {"fill": "none", "stroke": ink, "stroke-width": 0.4, "stroke-dasharray": dashes, **round_off}


def _mark(dial: Dial, at: Place, out: Callable[[float], float]) -> str:
    """Mark the lowest place with a dot and its figure, the figure inside the dial."""
    r = out(dial.lowest)
    x, y = at[0] + r * math.cos(dial.angle), at[1] - r * math.sin(dial.angle)
    dot = tag("circle", {"cx": x, "cy": y, "r": 0.9, "fill": INK, "stroke": PAPER, "stroke-width": 0.25})
    text = f"{dial.lowest:.0f}"
    wide = length(text, FIGURES) / 2
    away = r + 1.6 + wide * abs(math.cos(dial.angle)) + 0.5 * FIGURES * abs(math.sin(dial.angle))
    tx, ty = at[0] + away * math.cos(dial.angle), at[1] - away * math.sin(dial.angle)
    return dot + haloed(tx, ty, text, FIGURES, fill=INK)


def _key(names: Sequence[str], width: float, y: float) -> str:
    """Say which line is which, and what the dot is."""
    texts = [*names, "lowest place, N/mm"]
    long = [8.5 + length(text, FIGURES) for text in texts]
    spare = max((width - 2.0 - sum(long)) / (len(texts) - 1), 1.0)
    parts, start = [], 1.0
    for place, (text, wide) in enumerate(zip(texts, long, strict=True)):
        if place < len(names):
            d = f"M{start:.2f} {y:.2f} h7"
            parts.append(tag("path", {"d": d, **_pen(text, place == len(names) - 1), "stroke-width": 0.6}))
        else:
            parts.append(tag("circle", {"cx": start + 4, "cy": y, "r": 0.9, "fill": INK}))
        parts.append(words(start + 8.5, y, text, FIGURES, text_anchor="start", fill=INK))
        start += wide + spare
    return "".join(parts)


def _scale(top: float, width: float, y: float) -> str:
    text = f"inner circle: no load; dotted circles: {top / 2:g} and {top:g} N/mm, its own cylinder firing"
    return words(width / 2, y, text, FIGURES, fill=INK)


def round_up(load: float) -> float:
    """Return the next load that can be halved in the head."""
    step = 10.0 ** math.floor(math.log10(load))
    rounds = (1.0, 1.2, 1.6, 2.0, 2.4, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
    return next(step * figure for figure in rounds if step * figure >= load * (1.0 - 1e-9))


def rings_beside(ways: Sequence[Plain], layouts: Mapping[str, Plain], width: float = 180.0) -> Picture | None:
    """Draw every way under the other, each head with its title, or nothing where no ring was worked out."""
    pieces, says, y = [], [], 0.0
    for way, joint, dials in _worked_out(ways, layouts):
        title = f"{way['way']} · {joint['joint']}" if len(way["joints"]) > 1 else way["way"]
        svg, height = _rings(dials, width)
        pieces.append(words(1, y + KEY / 2, title, 10 * POINT, text_anchor="start", fill=INK))
        pieces.append(tag("g", {"transform": f"translate(0 {y + KEY:.2f})"}, svg))
        says.append(f"{title}: {described(dials)}")
        y += KEY + height + GAP
    alt = " ".join(says)
    return Picture(drawing(width, y, alt, *pieces), alt, width, y) if pieces else None


def _worked_out(
    ways: Sequence[Plain], layouts: Mapping[str, Plain]
) -> Iterator[tuple[Plain, Plain, tuple[Dial, ...]]]:
    for way in ways:
        for joint in way["joints"]:
            studies = joint.get("studies")
            layout = layouts.get(joint["joint"])
            if studies and layout:
                dials = dials_of(layout, studies["as_written"], studies["changed"])
                if dials:
                    yield way, joint, dials
