"""Lines of a face measured by points or step by step: the gap an edge would show, and what the instrument adds."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.findings.face_line import FaceLine, usual_error, way_of
from firedeck.job.frame import Frame, point
from firedeck.job.schema.readings import FaceReadings, SteppedLine
from firedeck.quantity import Kind
from firedeck.surfaces.at_rest import rest_gap, resting
from firedeck.surfaces.line_readings import ReadLine, by_angles, by_bridge, by_height, gap_error
from firedeck.surfaces.lines import Profile
from firedeck.surfaces.straightedge import profiles
from firedeck.trace import Band, Step

WAYS = (("along", "along"), ("across", "across"), ("diagonals", "diagonal"))
ANGLES = ("autocollimator", "level")


@dataclass(frozen=True)
class Read:
    """One measured line in the frame of the joint, and how far a reading may be out."""

    profile: Profile
    direction: str
    line: ReadLine
    error: float
    by: str = "points"

    @property
    def unit(self) -> str:
        """Unit of its readings."""
        return "rad" if self.by in ANGLES else "mm"


def lines_of_points(
    points: Sequence[tuple[float, float, float]], error: float, spans: Sequence[float]
) -> Iterator[FaceLine]:
    """Lay an edge along rows, columns and diagonals of measured points, and a short one in every span asked for."""
    reads = []
    for words, direction in WAYS if points else ():
        try:
            found = profiles(points, words)
        except OutOfRange:
            continue
        for profile in found:
            line = ReadLine(profile.stations, profile.heights, np.eye(len(profile.stations)))
            reads.append(Read(profile, direction, line, error))
    yield from _gaps(reads, spans)


def stepped_lines(readings: FaceReadings, frame: Frame, spans: Sequence[float]) -> Iterator[FaceLine]:
    """Lay an edge on every line that was read step by step."""
    yield from _gaps([_stepped(line, frame) for line in readings.stepped], spans)


def error_of_points(readings: FaceReadings) -> float:
    """Return how far a point may be out: as said, as usual for the instrument named, or nought where nothing is said."""
    if readings.error is not None:
        return readings.error.value
    return usual_error(readings.points_by, Kind.LENGTH)[0] if readings.points_by else 0.0


def _stepped(given: SteppedLine, frame: Frame) -> Read:
    foot = given.foot.value if given.foot else 0.0
    readings = np.array([one.value for one in given.angles or given.reads])
    if given.by in ANGLES:
        line = by_angles(readings, foot)
    elif given.by == "bridge-dial":
        line = by_bridge(readings, foot)
    else:
        stations = np.array([one.value for one in given.at])
        line = by_height(stations, readings, deeper_is_more=given.by == "depth-micrometer")
    said = given.angle_error if given.by in ANGLES else given.error
    kind = Kind.ANGLE if given.by in ANGLES else Kind.LENGTH
    error = said.value if said is not None else usual_error(given.by, kind)[0]
    start, end = frame.place(*point(given.start)), frame.place(*point(given.end))
    profile = Profile(given.name, start, end, line.stations, line.heights)
    return Read(profile, given.direction or way_of(start, end), line, error, given.by)


def _gaps(reads: Sequence[Read], spans: Sequence[float]) -> Iterator[FaceLine]:
    for read in reads:
        yield _whole(read)
    for span in spans:
        worst = [line for read in reads if (line := _worst_in(read, span))]
        for way in dict.fromkeys(line.direction for line in worst):
            yield max((line for line in worst if line.direction == way), key=lambda line: line.gap)


def _whole(read: Read) -> FaceLine:
    found = rest_gap(read.profile)
    band, more = _band(found.gap, read)
    line = FaceLine(read.profile.name, read.direction, found.gap, band, found.place, found.step, more)
    return replace(line, by=read.by)


def _worst_in(read: Read, span: float) -> FaceLine | None:
    """Lay an edge as long as the span over every stretch of a line; None where no stretch holds three readings."""
    stations, heights = read.line.stations, read.line.heights
    worst, best = -1.0, None
    for first, start in enumerate(stations):
        last = int(np.searchsorted(stations, start + span + 1e-6, side="right"))
        if last - first >= 3:
            gap = resting(stations[first:last], heights[first:last]).gap
            if gap > worst:
                worst, best = gap, slice(first, last)
    if best is None:
        return None
    profile = Profile(read.profile.name, read.profile.start, read.profile.end, stations[best], heights[best])
    found = rest_gap(profile)
    part = ReadLine(stations[best], heights[best], read.line.weights[best])
    band, more = _band(found.gap, Read(profile, read.direction, part, read.error, read.by))
    name = f"in any {span:g} mm {read.direction}, {read.profile.name}"
    return FaceLine(name, read.direction, found.gap, band, found.place, found.step, more, span, read.by)


def _band(gap: float, read: Read) -> tuple[Band | None, tuple[Step, ...]]:
    if not read.error:
        return None, ()
    out = gap_error(read.line, read.error, read.unit)
    low, high = max(gap - out.value, 0.0), gap + out.value
    return Band(low, high, 0.95, "the gap as measured, and the error of the instrument"), (out,)
