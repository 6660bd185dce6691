"""The faces as read: gaps under the edge along the book's lines, and the smallest out-of-flat by any tilt."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from firedeck.errors import BadQuantity, OutOfRange
from firedeck.findings.face_lines import face_map, said
from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.job.frame import Frame, Place, point, set_frame
from firedeck.job.schema.readings import FaceReadings, LeafReading, Line
from firedeck.quantity import Kind, parse
from firedeck.quantity.columns import read_columns
from firedeck.surfaces.face_map import RUN, FaceMap
from firedeck.surfaces.flatness import Flatness, flatness
from firedeck.surfaces.straightedge import straightedge_gaps
from firedeck.terms import term
from firedeck.trace import COMMON_PRACTICE, DERIVED, Band, Missing, Step

LATEST = ("after-machining", "after-cleaning", "before")
NOT_THE_FACE = ("thread-mouth", "liner", "insert", "burr", "dowel")


@dataclass(frozen=True)
class FaceLine:
    """The largest gap under the edge on one line; ``band`` is what the leaves allow."""

    name: str
    direction: str
    gap: float
    band: Band | None
    place: Place
    step: Step


@dataclass(frozen=True)
class FaceFound:
    """One face: its points in the frame of the joint, its lines, and how it was taken.

    With enough lines ``allowed`` is the face they allow; ``lay_next`` says where the edge tells most, and
    ``disagree`` which lines do not fit the others.
    """

    name: str
    face: str
    when: str
    points: tuple[tuple[float, float, float], ...]
    lines: tuple[FaceLine, ...]
    spoilt: tuple[str, ...]
    flatness: Flatness | None
    conditions: tuple[str, ...]
    error: float | None
    found_by_shop: str
    shops_word: Step | None
    allowed: FaceMap | None = None
    lay_next: tuple[str, ...] = ()
    disagree: tuple[str, ...] = ()

    def lines_of(self, direction: str) -> tuple[FaceLine, ...]:
        """Return the lines of one direction."""
        return tuple(line for line in self.lines if line.direction == direction)


@dataclass(frozen=True)
class Faces:
    """The faces of one joint that were read, the latest reading of each; the others are missing."""

    id: ClassVar[str] = "faces"
    faces: tuple[FaceFound, ...]
    missing: tuple[Missing, ...]

    def face(self, which: str) -> FaceFound | None:
        """Return the head's or the block's face, if it was read."""
        return next((found for found in self.faces if found.face == which), None)


def find(_job: Job, joint: Joint | None, _found: Findings) -> Faces | Missing:
    """Read the latest set of each face."""
    assert joint is not None
    found = []
    missing = []
    for which in ("head", "block"):
        latest = _latest(joint.readings.faces, which)
        if latest is None:
            missing.append(unread(joint, which))
        else:
            found.append(_face(joint, latest))
    return Faces(tuple(found), tuple(missing)) if found else missing[0]


def unread(joint: Joint, which: str) -> Missing:
    """Say how a face is read."""
    return Missing(
        paths=(f"joint.{joint.name}.readings.faces",),
        measure=f"flatness of the {which} face: along both edges and the middle, both diagonals, across between bores",
        tool="straightedge and feeler leaves",
        how="Clean and cold, edge on its narrow side; note on each line the thickest leaf that enters and the "
        "thinnest that does not, and where. A new or just-machined face is read too.",
    )


def _latest(faces: Sequence[FaceReadings], which: str) -> FaceReadings | None:
    readable = [face for face in faces if face.face == which and _says_something(face)]
    return min(readable, key=lambda face: LATEST.index(face.when), default=None)


def _says_something(face: FaceReadings) -> bool:
    single = (face.largest_gap_along, face.largest_gap_across, face.largest_gap_at_bridges)
    return bool(face.points or face.lines or any(single) or face.found_by_shop)


def _face(joint: Joint, readings: FaceReadings) -> FaceFound:
    frame = set_frame(readings, joint.layout, f"joint.{joint.name}.readings.faces.{readings.name}")
    points = _points(readings, frame)
    allowed = None if points else face_map(joint, readings, frame)
    by_leaves = _lines_allowed(allowed) if allowed else _lines_of_leaves(readings, frame)
    lines = [*_lines_of_points(points), *by_leaves, *_single_gaps(readings)]
    return FaceFound(
        name=readings.name,
        face=readings.face,
        when=readings.when,
        points=points,
        lines=tuple(lines),
        spoilt=tuple(line.name for line in readings.lines if line.stands_on in NOT_THE_FACE),
        flatness=flatness(points) if len(points) >= 4 else None,
        conditions=readings.conditions,
        error=readings.error.value if readings.error else None,
        found_by_shop=readings.found_by_shop or "",
        shops_word=_shops_word(readings) if readings.found_by_shop and not lines else None,
        allowed=allowed,
        lay_next=tuple(said(one, frame) for one in allowed.next) if allowed else (),
        disagree=tuple(one.says for one in allowed.spoilt) if allowed else (),
    )


def _shops_word(readings: FaceReadings) -> Step:
    """Count a shop's word as what it is: a finding without a figure."""
    over = float(readings.found_by_shop == "over-limit")
    return Step.work_out(
        f"The {readings.face} face as the shop found it: places over the limit, at least",
        "places",
        {"places": (over, "1")},
        ("places_over", "1"),
        COMMON_PRACTICE,
    )


def _points(readings: FaceReadings, frame: Frame) -> tuple[tuple[float, float, float], ...]:
    if not readings.points:
        return ()
    columns = read_columns(readings.points)
    rows = zip(columns.column("x"), columns.column("y"), columns.column("z"), strict=True)
    return tuple((*frame.place(x, y), z) for x, y, z in rows)


def _lines_of_points(points: Sequence[tuple[float, float, float]]) -> Iterator[FaceLine]:
    for words, direction in (("along", "along"), ("across", "across"), ("diagonals", "diagonal")):
        try:
            gaps = straightedge_gaps(points, words) if points else None
        except OutOfRange:
            continue
        for line in gaps.lines if gaps else ():
            yield FaceLine(line.name, direction, line.gap, None, line.place, line.step)


def _lines_allowed(allowed: FaceMap) -> Iterator[FaceLine]:
    """Put the faces that the leaves allow through the resting rule, along the lines laid and the book's lines.

    The line with the largest gap of its direction stands for all of them, each face with its own worst line.
    """
    for line in allowed.lines:
        peers = [one.gap.value for one in allowed.lines if one.direction == line.direction]
        gap = allowed.worst[line.direction] if line.gap.value == max(peers) else line.gap
        step = Step.work_out(
            f"Largest gap under a true edge, {line.name}: the middle of all faces the leaves allow",
            "middle",
            {"middle": (gap.value, "mm")},
            ("gap", "mm"),
            RUN,
        )
        band = Band(gap.low, gap.high, 0.95, "what the leaves on all lines allow")
        yield FaceLine(line.name, line.direction, step.value, band, line.at, step)


def _lines_of_leaves(readings: FaceReadings, frame: Frame) -> Iterator[FaceLine]:
    for line in readings.lines:
        if line.readings and line.stands_on == "face":
            yield _leaf_line(line, frame)


def _leaf_line(line: Line, frame: Frame) -> FaceLine:
    """Bracket the largest gap on a line by its leaves: at least what goes, less than what stops."""
    worst = max(line.readings, key=lambda reading: (_leaf(reading.goes, 0.0), _stop(reading)))
    low = max(_leaf(reading.goes, 0.0) for reading in line.readings)
    high = max(_stop(reading) for reading in line.readings)
    start, end = frame.place(*point(line.start)), frame.place(*point(line.end))
    step = Step.work_out(
        f"Largest gap on {line.name}: the leaf that goes, and the one that stops",
        "(goes + stops) / 2",
        {"goes": (low, "mm"), "stops": (high, "mm")},
        ("gap", "mm"),
        COMMON_PRACTICE,
    )
    band = Band(low, high, 0.95, "between the leaf that goes and the leaf that stops")
    return FaceLine(
        line.name, line.direction or _direction(start, end), step.value, band, _at(worst, start, end), step
    )


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


def _direction(start: Place, end: Place) -> str:
    along, across = abs(end[0] - start[0]), abs(end[1] - start[1])
    if across <= 0.1 * along:
        return "along"
    return "across" if along <= 0.5 * across else "diagonal"


def _at(reading: LeafReading, start: Place, end: Place) -> Place:
    length = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
    share = reading.at.value / length if length else 0.0
    return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))


def _single_gaps(readings: FaceReadings) -> Iterator[FaceLine]:
    """Take a single figure typed for a direction as that direction's largest gap."""
    single = {
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
            direction = "across" if words == "at the bridges" else words
            yield FaceLine(f"largest gap {words}", direction, step.value, None, (0.0, 0.0), step)
