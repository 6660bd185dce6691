"""A face read by straightedge lines, from its TOML text; and the face the leaves allow, in the axes of the text."""

import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from firedeck.errors import BadQuantity, JobError, JobErrors
from firedeck.quantity import Kind, System, parse, parse_list
from firedeck.surfaces.face_map import FaceMap, face_from_lines
from firedeck.surfaces.face_model import EDGE_TRUE_TO, Bore, Plan
from firedeck.surfaces.laying import LEAF_WIDTH, Laying
from firedeck.surfaces.lines import Place
from firedeck.surfaces.verdict import LeafReading

KEYS = (
    "format", "seen", "front", "length", "width", "outline", "bores", "leaves", "leaf_width", "edge_true_to", "limits",
    "line", "title", "notes",
)  # fmt: skip
SEEN = ("deck from above", "head face up on the bench", "gasket, this side up")
DIRECTIONS = ("along", "across", "diagonal", "any")
ON_LEAVES = "on end leaves of"
LAID = f'"rests", "rocks" or "{ON_LEAVES} 0.05 mm"'
LONGEST = 5000.0
INCHES = ("in", "thou", "µin", "ft")
SPANS = (20.0, LONGEST)
"""Shortest and longest span a limit may be written for [mm]."""
MOST_LINES, MOST_READINGS = 60, 1500


@dataclass(frozen=True)
class FaceLimit:
    """A limit of the file: along, across, diagonal or any, its value [mm], and who says it.

    With a ``span`` it is held against an edge of that length on every stretch [mm].
    """

    direction: str
    value: float
    source: str
    span: float | None = None


@dataclass(frozen=True)
class FaceFile:
    """What the text says, turned to one frame: as seen from above the deck, front to the left, corner at nought.

    ``signs`` and ``corner`` lead a place of the frame back to the axes of the text.
    """

    plan: Plan
    lines: tuple[Laying, ...]
    leaves: tuple[float, ...]
    leaf_width: float
    edge_true_to: float
    limits: tuple[FaceLimit, ...]
    signs: tuple[float, float]
    corner: Place = (0.0, 0.0)
    written_in: System = "mm"

    def back(self, place: Place) -> Place:
        """A place of the frame in the axes of the text [mm]."""
        x, y = (self.signs[i] * (place[i] + self.corner[i]) for i in (0, 1))
        return x, y

    def turned(self) -> "FaceFile":
        """The same face turned to the frame, so that one face seen in two ways is one face."""
        ends = [(self.signs[0] * x, self.signs[1] * y) for x, y in (self.plan.low, self.plan.high)]
        corner = (min(x for x, _ in ends), min(y for _, y in ends))

        def place(given: Place) -> Place:
            x, y = (round(self.signs[i] * given[i] - corner[i], 6) for i in (0, 1))
            return x, y

        bores = [replace(bore, x=x, y=y) for bore in self.plan.bores for x, y in [place((bore.x, bore.y))]]
        size = tuple(round(one, 6) for one in self.plan.size)
        plan = Plan((0.0, 0.0), (size[0], size[1]), tuple(sorted(bores, key=lambda one: (one.x, one.y))))
        lines = tuple(replace(line, start=place(line.start), end=place(line.end)) for line in self.lines)
        return replace(self, plan=plan, lines=lines, corner=corner)

    def found(self, preview: bool = False) -> FaceMap:
        """Work the face out."""
        return face_from_lines(
            self.plan,
            self.lines,
            self.leaves,
            self.leaf_width,
            edge_true_to=self.edge_true_to,
            preview=preview,
            spans=sorted({limit.span for limit in self.limits if limit.span is not None}),
        )


class _Reading:
    """Takes values out of the text and keeps every fault with its path."""

    def __init__(self) -> None:
        self.faults: list[JobError] = []
        self.units: list[str] = []

    def fault(self, path: str, found: object, allowed: str) -> None:
        self.faults.append(JobError(path, found if isinstance(found, str) else repr(found), allowed))

    def length(self, path: str, given: object, low: float = -LONGEST, high: float = LONGEST) -> float:
        if not isinstance(given, str):
            self.fault(path, given, 'a length as text with its unit, such as "0.05 mm"')
            return max(low, 1.0)
        try:
            typed = parse(given, Kind.LENGTH)
        except BadQuantity as fault:
            self.fault(path, fault.found, fault.allowed)
            return max(low, 1.0)
        self.units.append(typed.unit)
        if not low <= typed.value <= high:
            self.fault(path, given, f"{low:g} to {high:g} mm")
            return max(low, 1.0)
        return typed.value

    def written_in(self) -> System:
        """Tell in which family of units most lengths of the text are."""
        inches = sum(unit in INCHES for unit in self.units)
        return "inch" if 2 * inches > len(self.units) else "mm"

    def place(self, path: str, given: object) -> Place:
        if not isinstance(given, list) or len(given) != 2:
            self.fault(path, given, 'two lengths, such as ["8 mm", "8 mm"]')
            return (0.0, 0.0)
        return self.length(path, given[0]), self.length(path, given[1])

    def tables(self, path: str, given: object, keys: Sequence[str]) -> list[Mapping[str, Any]]:
        if not isinstance(given, list) or not all(isinstance(one, dict) for one in given):
            self.fault(path, type(given).__name__, f"a list of tables with {', '.join(keys)}")
            return []
        for number, one in enumerate(given, 1):
            self.known(f"{path}[{number}]", one, keys)
        return given

    def known(self, path: str, table: Mapping[str, Any], keys: Sequence[str]) -> None:
        for key in table:
            if key not in keys:
                self.fault(f"{path}.{key}" if path else key, "an unknown key", f"allowed: {', '.join(keys)}")

    def word(self, path: str, given: object, allowed: Sequence[str], default: str) -> str:
        if given in allowed:
            return str(given)
        self.fault(path, given, f"allowed: {', '.join(allowed)}")
        return default


def read_face(text: str) -> FaceFile:
    """Read a face by lines, or raise all its faults at once."""
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise JobError("readings", f"text that is not TOML: {error}", "see docs/method/surfaces.md") from None
    reading = _Reading()
    reading.known("", raw, KEYS)
    if raw.get("format") != 0 or isinstance(raw.get("format"), bool):
        reading.fault("format", raw.get("format", "nothing"), "format = 0")
    bores = _bores(reading, raw.get("bores", []))
    lines = _lines(reading, raw.get("line", []))
    leaves = _leaves(reading, raw.get("leaves"))
    width = reading.length("leaf_width", raw["leaf_width"], 1.0, 50.0) if "leaf_width" in raw else LEAF_WIDTH
    edge = (
        reading.length("edge_true_to", raw["edge_true_to"], 0.001, 0.1)
        if "edge_true_to" in raw
        else EDGE_TRUE_TO
    )
    limits = _limits(reading, raw.get("limits", []))
    low, high = _box(reading, raw, [place for line in lines for place in (line.start, line.end)])
    seen = reading.word("seen", raw.get("seen", SEEN[0]), SEEN, SEEN[0])
    front = reading.word("front", raw.get("front", "left"), ("left", "right"), "left")
    if reading.faults:
        raise JobErrors(reading.faults)
    along = -1.0 if front == "right" else 1.0
    signs = (along, along * (-1.0 if seen == SEEN[1] else 1.0))
    plan = Plan(low, high, bores)
    read = FaceFile(plan, lines, leaves, width, edge, limits, signs, written_in=reading.written_in())
    return read.turned()


def _bores(reading: _Reading, given: object) -> tuple[Bore, ...]:
    found = []
    for number, one in enumerate(reading.tables("bores", given, ("label", "x", "y", "diameter")), 1):
        path = f"bores.{one.get('label', number)}"
        x, y = reading.length(f"{path}.x", one.get("x")), reading.length(f"{path}.y", one.get("y"))
        diameter = reading.length(f"{path}.diameter", one.get("diameter"), 1.0, 2000.0)
        found.append(Bore(str(one.get("label", number)), x, y, diameter))
    return tuple(found)


def _leaves(reading: _Reading, given: object) -> tuple[float, ...]:
    """Read the leaves of the set, a list of texts or one text with commas."""
    if isinstance(given, str):
        try:
            return tuple(sorted(one.value for one in parse_list(given, Kind.LENGTH)))
        except BadQuantity as fault:
            reading.fault("leaves", fault.found, fault.allowed)
            return (0.05,)
    if not isinstance(given, list) or not given:
        reading.fault(
            "leaves",
            given if given is not None else "nothing",
            'the leaves of the set, such as ["0.03 mm", "0.05 mm"]',
        )
        return (0.05,)
    return tuple(
        sorted(reading.length(f"leaves[{number}]", one, 0.001, 5.0) for number, one in enumerate(given, 1))
    )


def _limits(reading: _Reading, given: object) -> tuple[FaceLimit, ...]:
    found = []
    keys = ("direction", "value", "from", "span")
    for number, one in enumerate(reading.tables("limits", given, keys), 1):
        way = "diagonal" if one.get("direction") == "diagonals" else one.get("direction", "any")
        direction = reading.word(f"limits[{number}].direction", way, DIRECTIONS, "any")
        value = reading.length(f"limits[{number}].value", one.get("value"), 0.0, 10.0)
        span = reading.length(f"limits[{number}].span", one["span"], *SPANS) if "span" in one else None
        found.append(FaceLimit(direction, value, str(one.get("from", "")), span))
    return tuple(found)


def _lines(reading: _Reading, given: object) -> tuple[Laying, ...]:
    keys = ("name", "from", "to", "laid", "readings", "stands_on")
    tables = reading.tables("line", given, keys)
    if not tables:
        reading.fault("line", "none", "at least one [[line]] with readings")
    found = [_line(reading, number, one) for number, one in enumerate(tables[: MOST_LINES + 1], 1)]
    names = [line.name for line in found]
    for name in dict.fromkeys(name for name in names if names.count(name) > 1):
        reading.fault("line", f"{name!r} twice", "a name of its own for every line")
    readings = sum(len(line.readings) for line in found)
    if len(tables) > MOST_LINES or readings > MOST_READINGS:
        reading.fault(
            "line",
            f"{len(tables)} lines, {readings} readings",
            f"{MOST_LINES} lines, {MOST_READINGS} readings",
        )
    return tuple(found)


def _line(reading: _Reading, number: int, one: Mapping[str, Any]) -> Laying:
    name = str(one.get("name", f"line {number}"))
    path = f"line.{name}"
    start, end = reading.place(f"{path}.from", one.get("from")), reading.place(f"{path}.to", one.get("to"))
    line = Laying(name, start, end, _end_leaves(reading, f"{path}.laid", one.get("laid", "rests")), ())
    if not line.length > 20.0:
        reading.fault(path, f"{line.length:g} mm long", "longer than 20 mm")
    tried = []
    for place, given in enumerate(
        reading.tables(f"{path}.readings", one.get("readings"), ("at", "goes", "stops")), 1
    ):
        where = f"{path}.readings[{place}]"
        at = reading.length(f"{where}.at", given.get("at"), 0.0, max(line.length, 1.0) + 0.5)
        goes, stops = (
            _leaf(reading, f"{where}.{which}", given.get(which, "none")) for which in ("goes", "stops")
        )
        if goes is not None and stops is not None and not goes < stops:
            reading.fault(
                where,
                f"{goes:g} mm goes and {stops:g} mm stops",
                "the leaf that goes is thinner than the one that stops",
            )
        tried.append(LeafReading(min(at, line.length), goes, stops))
    if not tried:
        reading.fault(
            f"{path}.readings", "none", "at least one place with the leaf that goes and the one that stops"
        )
    return replace(line, readings=tuple(tried))


def _end_leaves(reading: _Reading, path: str, given: object) -> float:
    if given in ("rests", "rocks"):
        return 0.0
    if isinstance(given, str) and given.startswith(ON_LEAVES):
        return reading.length(path, given.removeprefix(ON_LEAVES).strip(), 0.001, 5.0)
    reading.fault(path, given, f"allowed: {LAID}")
    return 0.0


def _leaf(reading: _Reading, path: str, given: object) -> float | None:
    return None if given == "none" else reading.length(path, given, 0.001, 20.0)


def _box(reading: _Reading, raw: Mapping[str, Any], places: Sequence[Place]) -> tuple[Place, Place]:
    """Box of the face: that of the outline; else from nought, or about nought where places lie on both sides of it."""
    if "outline" in raw:
        given = raw["outline"]
        corners = (
            [reading.place(f"outline[{n}]", one) for n, one in enumerate(given, 1)]
            if isinstance(given, list)
            else []
        )
        if len(corners) < 3:
            reading.fault("outline", "too few corners", "three or more places")
            return (0.0, 0.0), (1.0, 1.0)
        xs, ys = zip(*corners, strict=True)
        return _solid(reading, "outline", (min(xs), min(ys)), (max(xs), max(ys)), places)
    length, width = (
        reading.length(key, raw.get(key, "nothing"), 20.0, LONGEST) for key in ("length", "width")
    )
    about = any(x < -1.0 or y < -1.0 for x, y in places)
    low = (-0.5 * length, -0.5 * width) if about else (0.0, 0.0)
    return _solid(reading, "length, width", low, (low[0] + length, low[1] + width), places)


def _solid(
    reading: _Reading, key: str, low: Place, high: Place, places: Sequence[Place]
) -> tuple[Place, Place]:
    if not (high[0] - low[0] >= 20.0 and high[1] - low[1] >= 20.0):
        reading.fault(
            key, f"{high[0] - low[0]:g} x {high[1] - low[1]:g} mm", "a face of 20 mm or more each way"
        )
        return (0.0, 0.0), (20.0, 20.0)
    for x, y in places:
        if not (low[0] - 1.0 <= x <= high[0] + 1.0 and low[1] - 1.0 <= y <= high[1] + 1.0):
            box = f"x {low[0]:g} to {high[0]:g} mm, y {low[1]:g} to {high[1]:g} mm"
            reading.fault("line", f"an end at {x:g}, {y:g} mm", f"a place on the face: {box}")
            break
    return low, high


def as_json(read: FaceFile, found: FaceMap) -> dict[str, Any]:
    """Return what ``firedeck face --json`` prints: lengths in mm, places in the axes of the text."""
    heights = [
        {"x": x, "y": y, "z": z, "low": low, "high": high, "seen": bool(seen)}
        for (x, y), z, low, high, seen in (
            (read.back((float(place[0]), float(place[1]))), *(float(one) for one in rest), seen)
            for place, *rest, seen in zip(
                found.places, found.heights, found.low, found.high, found.seen, strict=True
            )
        )
    ]
    return {
        "flatness": _estimate(found.flatness),
        "limits": [_judged(limit, found) for limit in read.limits],
        "heights": heights,
        "not_seen": [{"x": one["x"], "y": one["y"]} for one in heights if not one["seen"]],
        "next": [_next(read.back, one) for one in found.next],
        "lines": [_line_said(read, one) for one in found.lines if one.laid],
        "spoilt": [one.line for one in found.spoilt],
        "preview": found.preview,
    }


def _estimate(band: Any) -> dict[str, float]:
    return {"value": band.value, "low": band.low, "high": band.high}


def outcome(band: Any, limit: float) -> str:
    """Hold a band against a limit: it holds under it, fails over it, else the readings cannot tell."""
    from firedeck.quantity import Outcome, meets

    if meets(band.high, high=limit) is not Outcome.FAILS:
        return "holds"
    return "fails" if meets(band.low, high=limit) is Outcome.FAILS else "cannot-tell"


def _judged(limit: FaceLimit, found: FaceMap) -> dict[str, Any]:
    """Hold the faces against a limit; one for a span is held against an edge of that length, and says it."""
    band = found.worst.get(limit.direction) if limit.span is None else _in_span(limit, found)
    said = outcome(band, limit.value) if band else "cannot-tell"
    gap = _estimate(band) if band else None
    span = {} if limit.span is None else {"span": limit.span}
    return {"direction": limit.direction, **span, "gap": gap, "limit": limit.value, "outcome": said}


def _in_span(limit: FaceLimit, found: FaceMap) -> Any:
    asked = (limit.span, limit.direction)
    return next((one.gap for one in found.in_spans if (one.span, one.direction) == asked), None)


def _next(back: Callable[[Place], Place], one: Any) -> dict[str, Any]:
    laid = f"{ON_LEAVES} {one.end_leaves:g} mm" if one.end_leaves else "rests"
    why = (
        f"the faces the leaves still allow differ here by {one.spread / 1000:.3f} mm (one standard deviation)"
    )
    return {"from": list(back(one.start)), "to": list(back(one.end)), "laid": laid, "why": why}


def _line_said(read: FaceFile, line: Any) -> dict[str, Any]:
    whole = [limit for limit in read.limits if limit.span is None]
    limits = [limit.value for limit in whole if limit.direction in ("any", line.direction)]
    said = outcome(line.gap, min(limits)) if limits else None
    return {
        "name": line.name,
        "largest_gap": line.gap.value,
        "low": line.gap.low,
        "high": line.gap.high,
        "outcome": said,
    }
