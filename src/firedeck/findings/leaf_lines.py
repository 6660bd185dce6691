"""Lines of a straightedge with leaves, each bracketed by its own leaves; and single figures typed for a direction."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from firedeck.errors import BadQuantity
from firedeck.findings.face_line import ANY, FaceLine, way_of
from firedeck.job.frame import Frame, Place, point
from firedeck.job.schema.readings import ON_LEAVES, FaceReadings, LeafReading, Line
from firedeck.quantity import Kind, parse
from firedeck.surfaces.line_readings import sag_of_edge
from firedeck.terms import term
from firedeck.trace import COMMON_PRACTICE, DERIVED, Band, Step

A_LITTLE = 5.0
"""An edge may be so much longer than the span of a limit and still speak of it [mm]."""

AS_READ = {"leaf": "leaves", "foil": "foil", "paper": "paper", "light": "light"}
"""How a line says by what it was read."""

NOT_THE_FACE = ("thread-mouth", "liner", "insert", "burr", "dowel")


@dataclass(frozen=True)
class Edge:
    """The straightedge itself: how far it may be out over its length, and its height, where they are known [mm]."""

    said: float | None = None
    height: float | None = None

    @property
    def error(self) -> float:
        """What a bracket of leaves is widened by."""
        return self.said or 0.0


def lines_of_leaves(readings: FaceReadings, frame: Frame, edge: Edge) -> Iterator[FaceLine]:
    """Bracket every line that lay on the face itself."""
    for line in readings.lines:
        if line.readings and line.stands_on == "face":
            yield _leaf_line(line, frame, edge)


def short_lines(
    readings: FaceReadings, frame: Frame, edge: Edge, spans: Sequence[float]
) -> Iterator[FaceLine]:
    """Let every line that is no longer than a span speak of the limit written for that span."""
    for line in readings.lines:
        if line.readings and line.stands_on == "face":
            for span in spans:
                if _length(line) <= span + A_LITTLE:
                    found = _leaf_line(line, frame, edge)
                    yield replace(
                        found, name=f"in any {span:g} mm {found.direction}, {found.name}", span=span
                    )


def _leaf_line(line: Line, frame: Frame, edge: Edge) -> FaceLine:
    """Bracket the largest gap on a line by its leaves, or what it is out of straight where it lay on end leaves."""
    worst = max(line.readings, key=lambda reading: (_leaf(reading.goes, 0.0), _stop(reading)))
    start, end = frame.place(*point(line.start)), frame.place(*point(line.end))
    step, low, high = _over_end_leaves(line) if line.laid.startswith(ON_LEAVES) else _by_its_leaves(line)
    open_above = any(reading.stops.strip() == "none" for reading in line.readings)
    if open_above:
        step = _at_least(line, low)
    more = tuple(_of_the_edge(line, edge, (low, high)))
    ends = tuple(one.value for one in more[-2:]) if more else (low, high)
    why = f"between the {worst.by} that goes and the one that stops" + (
        ", and what the edge adds" if more else ""
    )
    if open_above:
        why, more = "at least what goes: nothing stopped", more[:-1]
    return FaceLine(
        name=line.name,
        direction=line.direction or way_of(start, end),
        gap=step.value,
        band=Band(ends[0], ends[1], 0.95, why),
        place=_at(worst, start, end),
        step=step,
        more=more,
        by=AS_READ[worst.by],
        open_above=open_above,
    )


def _at_least(line: Line, low: float) -> Step:
    """Where nothing stopped at some place the gap is known from below only."""
    return Step.work_out(
        f"Largest gap on {line.name} is at least what goes: nothing stopped",
        "goes",
        {"goes": (low, "mm")},
        ("gap", "mm"),
        COMMON_PRACTICE,
    )


def _by_its_leaves(line: Line) -> tuple[Step, float, float]:
    """At least what goes, less than what stops."""
    low = max(_leaf(reading.goes, 0.0) for reading in line.readings)
    high = max(_stop(reading) for reading in line.readings)
    step = Step.work_out(
        f"Largest gap on {line.name}: what goes, and what stops",
        "(goes + stops) / 2",
        {"goes": (low, "mm"), "stops": (high, "mm")},
        ("gap", "mm"),
        COMMON_PRACTICE,
    )
    return step, low, high


def _over_end_leaves(line: Line) -> tuple[Step, float, float]:
    """Take the end leaves off every reading: what is left over is a hollow, what is lacking a crown; the ends are nought."""
    thick = _leaf(line.laid.removeprefix(ON_LEAVES), 0.0)
    least = [_leaf(reading.goes, 0.0) - thick for reading in line.readings]
    most = [_stop(reading) - thick for reading in line.readings]
    low = max(0.0, *least) + max(0.0, *(-one for one in most))
    high = max(0.0, *most) + max(0.0, *(-one for one in least))
    step = Step.work_out(
        f"Out of straight on {line.name}, laid on equal leaves at its ends: hollow and crown over the line of both ends",
        "(at_least + less_than) / 2",
        {"at_least": (low, "mm"), "less_than": (high, "mm")},
        ("gap", "mm"),
        DERIVED,
    )
    return step, low, high


def _of_the_edge(line: Line, edge: Edge, ends: Place) -> Iterator[Step]:
    """Widen the bracket by the error of the edge, and upwards by its sag where its height is known."""
    sag = None
    if edge.height:
        sag = sag_of_edge(_length(line), edge.height)
        yield sag
    if sag is None and not edge.error:
        return
    error = {"edge_error": (edge.error, "mm")}
    yield Step.work_out(
        f"{line.name}: at least, with the error of the edge",
        "max(goes - edge_error, 0)",
        {"goes": (ends[0], "mm"), **error},
        ("gap_at_least", "mm"),
        DERIVED,
    )
    yield Step.work_out(
        f"{line.name}: less than, with the error{' and the sag' if sag else ''} of the edge",
        "stops + edge_error" + (" + sag" if sag else ""),
        {"stops": (ends[1], "mm"), **error, **({"sag": sag.figure()} if sag else {})},
        ("gap_less_than", "mm"),
        DERIVED,
    )


def _length(line: Line) -> float:
    (x, y), (to_x, to_y) = point(line.start), point(line.end)
    return float(((to_x - x) ** 2 + (to_y - y) ** 2) ** 0.5)


def _stop(reading: LeafReading) -> float:
    plausible = term("face_flatness").plausible
    return _leaf(reading.stops, plausible[1] if plausible else 3.0)


def _leaf(text: str, none: float) -> float:
    """Read a leaf, or "none"."""
    if text.strip() == "none":
        return none
    try:
        return parse(text, Kind.LENGTH).value
    except BadQuantity:
        return none


def _at(reading: LeafReading, start: Place, end: Place) -> Place:
    length = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
    share = reading.at.value / length if length else 0.0
    return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))


def single_gaps(readings: FaceReadings) -> Iterator[FaceLine]:
    """Take a single figure as the largest gap of its direction, or of all ways the edge was laid ("any")."""
    single = {
        "whichever way": readings.largest_gap,
        "along": readings.largest_gap_along,
        "across": readings.largest_gap_across,
        "at the bridges": readings.largest_gap_at_bridges,
    }
    for words, quantity in single.items():
        if quantity is not None:
            step = Step.work_out(
                f"Largest gap {words}, as read",
                "reading",
                {"reading": (quantity.value, "mm")},
                ("gap", "mm"),
                DERIVED,
            )
            direction = {"at the bridges": "across", "whichever way": ANY}.get(words, words)
            yield FaceLine(f"largest gap {words}", direction, step.value, None, (0.0, 0.0), step)
