"""The faces as read: gaps under the edge along the book's lines, and the smallest out-of-flat by any tilt."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from firedeck.errors import BadQuantity, OutOfRange
from firedeck.findings.allowed_lines import lines_allowed
from firedeck.findings.blue import BlueFound, Otherwise, blue_found, otherwise
from firedeck.findings.face_line import FaceLine
from firedeck.findings.face_lines import ReadWith, face_map, read_with, said
from firedeck.findings.finding import Findings
from firedeck.findings.leaf_lines import NOT_THE_FACE, Edge, lines_of_leaves, short_lines, single_gaps
from firedeck.findings.measured_lines import error_of_points, lines_of_points, stepped_lines
from firedeck.findings.ring_band import places_on_rings
from firedeck.job import Job, Joint
from firedeck.job.frame import Frame, Place, point, set_frame
from firedeck.job.paths import join_path
from firedeck.job.schema.readings import FaceReadings, Line
from firedeck.quantity.columns import read_columns
from firedeck.surfaces.face_map import FaceMap
from firedeck.surfaces.flatness import Flatness, flatness
from firedeck.surfaces.points import Array
from firedeck.surfaces.shape import long_shapes
from firedeck.tables.limits import published_limits
from firedeck.trace import COMMON_PRACTICE, Missing, Rank, Step

LATEST = ("after-machining", "after-cleaning", "before")
SHAPES = ("long_bow", "cross_bow", "twist")


@dataclass(frozen=True)
class LaidLine:
    """Where an edge lay or a line was stepped, in the frame of the joint."""

    name: str
    start: Place
    end: Place


@dataclass(frozen=True)
class FaceFound:
    """One face: its points in the frame of the joint, its lines, and how it was taken.

    ``edge_true_to`` is how true the edge is said to be over its length [mm], None where nobody says it;
    ``taken_true_to`` is what the face was worked out with. ``unused`` are other sets of the same face and time.
    With enough lines ``allowed`` is the face they allow, or ``unmapped`` why not; ``lay_next`` says where the edge tells
    most, and ``disagree`` which lines do not fit the others.
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
    shape: tuple[Step, ...] = ()
    temperature: float | None = None
    laid: tuple[LaidLine, ...] = ()
    rocked: tuple[str, ...] = ()
    unmapped: str = ""
    blue: BlueFound | None = None
    blue_otherwise: tuple[Otherwise, ...] = ()
    edge_true_to: float | None = None
    taken_true_to: float = 0.0
    unused: tuple[str, ...] = ()

    def lines_of(self, direction: str, span: float | None = None) -> tuple[FaceLine, ...]:
        """Return the lines of one direction; the whole ones, or those that speak of one span."""
        return tuple(line for line in self.lines if (line.direction, line.span) == (direction, span))

    def spans(self) -> tuple[float, ...]:
        """Return the spans any line speaks of."""
        return tuple(sorted({line.span for line in self.lines if line.span is not None}))

    def heights(self) -> Array | None:
        """Return the points read, or the middle of what the leaves allow; None where the face is known by lines only."""
        if self.points:
            return np.array(self.points)
        if self.allowed is None:
            return None
        return np.column_stack((self.allowed.places, self.allowed.heights))


@dataclass(frozen=True)
class Faces:
    """The faces of one joint that were read, the latest reading of each; the others are missing."""

    id: ClassVar[str] = "faces"
    faces: tuple[FaceFound, ...]
    missing: tuple[Missing, ...]

    def face(self, which: str) -> FaceFound | None:
        """Return the head's or the block's face, if it was read."""
        return next((found for found in self.faces if found.face == which), None)


def find(job: Job, joint: Joint | None, _found: Findings) -> Faces | Missing:
    """Read the latest set of each face; what was read before the cut says nothing of a face that has been cut."""
    assert joint is not None
    found = []
    missing = []
    for which in ("head", "block"):
        latest = _latest(joint.readings.faces, which)
        if latest is None:
            missing.append(unread(joint, which))
        elif _cut_since(joint, latest):
            missing.append(unread_since(joint, which))
        else:
            face = _face(job, joint, latest)
            found.append(replace(face, unused=tuple(_beside(joint.readings.faces, latest))))
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


def unread_since(joint: Joint, which: str) -> Missing:
    """Say that a face has to be read again after its cut."""
    return replace(unread(joint, which), measure=f"flatness of the {which} face once more, after its cut")


def _cut_since(joint: Joint, latest: FaceReadings) -> bool:
    """Tell whether the face was cut after it was read."""
    cut = joint.cut.head if latest.face == "head" else joint.cut.block
    return joint.cut.done and bool(cut and cut.value) and latest.when != "after-machining"


def _latest(faces: Sequence[FaceReadings], which: str) -> FaceReadings | None:
    readable = [face for face in faces if face.face == which and _says_something(face)]
    return min(readable, key=lambda face: LATEST.index(face.when), default=None)


def _beside(faces: Sequence[FaceReadings], latest: FaceReadings) -> Iterator[str]:
    """Name other sets of the same face and time: one set makes one face."""
    for other in faces:
        alike = (other.face, other.when) == (latest.face, latest.when)
        if alike and other.name != latest.name and _says_something(other):
            yield other.name


def _says_something(face: FaceReadings) -> bool:
    single = (face.largest_gap, face.largest_gap_along, face.largest_gap_across, face.largest_gap_at_bridges)
    by_blue = face.touched is not None and face.touched.film is not None
    return bool(face.points or face.lines or face.stepped or any(single) or face.found_by_shop or by_blue)


def _face(job: Job, joint: Joint, readings: FaceReadings) -> FaceFound:
    frame = set_frame(
        readings, joint.layout, join_path(("joint", joint.name, "readings", "faces", readings.name))
    )
    points = _points(readings, frame)
    spans = _spans(joint)
    edge = _edge(job, readings)
    tools = read_with(job, readings, edge.said)
    allowed, unmapped = (None, "") if points else _allowed(joint, readings, frame, tools, spans)
    lines = [
        *lines_of_points(points, error_of_points(readings), spans),
        *stepped_lines(readings, frame, spans),
        *(lines_allowed(allowed) if allowed else _bracketed(readings, frame, edge, spans)),
        *single_gaps(readings),
    ]
    face = FaceFound(
        name=readings.name,
        face=readings.face,
        when=readings.when,
        points=points,
        lines=tuple(lines),
        spoilt=tuple(line.name for line in readings.lines if line.stands_on in NOT_THE_FACE),
        flatness=flatness(points) if len(points) >= 4 else None,
        conditions=readings.conditions,
        error=error_of_points(readings) or None,
        found_by_shop=readings.found_by_shop or "",
        shops_word=_shops_word(readings) if readings.found_by_shop and not lines else None,
        allowed=allowed,
        lay_next=tuple(said(one, frame) for one in allowed.next) if allowed else (),
        disagree=tuple(one.says for one in allowed.spoilt) if allowed else (),
        temperature=readings.temperature.value if readings.temperature else None,
        laid=tuple(_laid(readings, frame)),
        rocked=() if allowed else tuple(line.name for line in readings.lines if _rocked(line)),
        unmapped=unmapped,
        blue=blue_found(readings, frame),
        edge_true_to=edge.said if readings.lines else None,
        taken_true_to=tools.edge_true_to if allowed else edge.error,
    )
    return replace(face, shape=_shape(face), blue_otherwise=_otherwise(joint, face))


def _rocked(line: Line) -> bool:
    """Tell whether the edge rocked on the face itself; on a burr it says nothing of the face."""
    return line.laid == "rocks" and line.stands_on not in NOT_THE_FACE


def _allowed(
    joint: Joint, readings: FaceReadings, frame: Frame, tools: ReadWith, spans: Sequence[float]
) -> tuple[FaceMap | None, str]:
    """Work the face out from its lines; or say why it cannot be, so that each line stands for itself."""
    try:
        return face_map(joint, readings, frame, tools, spans), ""
    except (OutOfRange, BadQuantity) as fault:
        return None, str(fault)


def _otherwise(joint: Joint, face: FaceFound) -> tuple[Otherwise, ...]:
    """Hold the blue against the face as read; what leaves allow is out by half of its band, points by their error."""
    if face.blue is None:
        return ()
    allowed = face.allowed
    out = face.error or 0.0 if allowed is None else float((allowed.high - allowed.low).mean() / 2)
    return otherwise(face.blue, face.heights(), out, places_on_rings(joint))


def _bracketed(
    readings: FaceReadings, frame: Frame, edge: Edge, spans: Sequence[float]
) -> Iterator[FaceLine]:
    """Take every line of leaves by itself, where there are too few for a face."""
    yield from lines_of_leaves(readings, frame, edge)
    yield from short_lines(readings, frame, edge, spans)


def _laid(readings: FaceReadings, frame: Frame) -> Iterator[LaidLine]:
    ends = [(line.name, line.start, line.end) for line in readings.lines]
    ends += [(line.name, line.start, line.end) for line in readings.stepped]
    for name, start, end in ends:
        yield LaidLine(name, frame.place(*point(start)), frame.place(*point(end)))


def _edge(job: Job, readings: FaceReadings) -> Edge:
    """Take how true the edge is as this set says it, else as the tools do."""
    tools = job.document.tools
    said = readings.edge_true_to or readings.error or tools.straightedge_error
    height = tools.straightedge_height
    return Edge(said.value if said else None, height.value if height else None)


def _spans(joint: Joint) -> tuple[float, ...]:
    """Return the spans that a limit of the papers, or one of the tables that can win, is written for."""
    papers = {one.span.value for one in joint.limits if one.quantity == "face_flatness" and one.span}
    tables = {
        limit.applies.span
        for limit in published_limits()
        if limit.quantity == "face_flatness" and limit.applies.span and limit.rank is not Rank.MEMORY
    }
    return tuple(sorted(papers | tables))


def _shape(face: FaceFound) -> tuple[Step, ...]:
    """Fit long bow, cross bow and twist where the face is known well enough to tell them apart."""
    heights = face.heights()
    if heights is None:
        return ()
    try:
        found = long_shapes(heights)
    except OutOfRange:
        return ()
    return tuple(step for step in found.steps if set(step.result) & set(SHAPES))


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
