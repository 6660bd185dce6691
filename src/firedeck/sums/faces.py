"""Sums of faces: flatness, flatness within a span, gaps under the straightedge, union jack."""

from dataclasses import replace

from firedeck.quantity import Columns, Kind
from firedeck.sums.face_file import as_json, read_face
from firedeck.sums.measured import foot_steps, lengths, xyz
from firedeck.sums.registry import Figure, SumResult, a_sum
from firedeck.sums.written import written
from firedeck.surfaces.at_rest import LineGap
from firedeck.surfaces.flatness import flatness
from firedeck.surfaces.local import LocalWorst, local_flatness
from firedeck.surfaces.plane import Plane
from firedeck.surfaces.straightedge import straightedge_gaps
from firedeck.surfaces.union_jack import union_jack

UM = 1000.0
"""Micrometres in a millimetre, for heights that are printed in µm."""


def _with_file(answer: SumResult, columns: Columns) -> SumResult:
    return replace(answer, assumptions=(*columns.assumptions, *answer.assumptions))


@a_sum("flatness")
def flatness_sum(*, points: Columns) -> SumResult:
    """Flatness of measured points: smallest by any tilt, least squares, and plain range."""
    found = flatness(lengths("flatness points", points, ("x", "y", "z")))
    results = {
        "minimum_zone": Figure(found.minimum_zone, Kind.LENGTH),
        "least_squares": Figure(found.least_squares, Kind.LENGTH),
        "least_squares_peak": Figure(found.least_squares_peak, Kind.LENGTH),
        "least_squares_valley": Figure(found.least_squares_valley, Kind.LENGTH),
        "rms": Figure(found.rms, Kind.LENGTH),
        "plane": Figure(_plane(found.plane) | _plane(found.zone_plane, "minimum_zone_")),
        "range": Figure(found.range, Kind.LENGTH),
        "high_points": Figure([xyz(point) for point in found.high_points]),
        "low_points": Figure([xyz(point) for point in found.low_points]),
    }
    return _with_file(written(found, results), points)


def _plane(plane: Plane, which: str = "") -> dict[str, float]:
    return {
        f"{which}slope_x": plane.slope_x,
        f"{which}slope_y": plane.slope_y,
        f"{which}height_mm": plane.height,
    }


@a_sum("local-flatness")
def local_flatness_sum(*, points: Columns, span: float) -> SumResult:
    """Flatness within any span: worst stretch of a row along, of a column across, and worst square."""
    found = local_flatness(lengths("local-flatness points", points, ("x", "y", "z")), span)
    results: dict[str, Figure] = {}
    for words, worst in (("", found.worst), ("_across", found.across), ("_square", found.square)):
        if worst is not None:
            results[f"worst{words}"] = Figure(worst.worst, Kind.LENGTH)
            results[f"where{words}"] = Figure(_where(worst))
    return _with_file(written(found, results), points)


def _where(worst: LocalWorst) -> dict[str, object]:
    start, end = worst.start, worst.end
    from_to = {"from_x_mm": start[0], "from_y_mm": start[1], "to_x_mm": end[0], "to_y_mm": end[1]}
    return {"line": worst.name, **from_to}


@a_sum("straightedge-gaps")
def straightedge_gaps_sum(*, points: Columns, lines: str, leaf_width: float = 0.0) -> SumResult:
    """Largest gap under a straightedge on the high points of each line, and at rest, where a crown shows too."""
    found = straightedge_gaps(lengths("straightedge-gaps points", points, ("x", "y", "z")), lines, leaf_width)
    results = {
        "largest_gap": Figure(found.worst.gap, Kind.LENGTH),
        "where": Figure({"line": found.worst.name, **xyz(found.worst.place)}),
        "lines": Figure([_line(line) for line in found.lines]),
        "largest_at_rest": Figure(found.at_rest.gap, Kind.LENGTH),
        "where_at_rest": Figure({"line": found.at_rest.name, **xyz(found.at_rest.place)}),
    }
    return _with_file(written(found, results), points)


def _line(line: LineGap) -> dict[str, object]:
    return {"line": line.name, "largest_gap_mm": line.gap, **xyz(line.place), "at_mm": line.station}


@a_sum("straightedge-face", meant={"lines": "line_readings"})
def straightedge_face_sum(*, lines: str) -> SumResult:
    """A face from straightedge lines with go/no-go leaves: flatness with its band, and heights."""
    read = read_face(lines)
    found = read.found()
    said = as_json(read, found)
    results = {
        "flatness": Figure(found.flatness.value, Kind.LENGTH),
        "flatness_low": Figure(found.flatness.low, Kind.LENGTH),
        "flatness_high": Figure(found.flatness.high, Kind.LENGTH),
        "heights": Figure([_height(one) for one in said["heights"]]),
        "spoilt": Figure([one.says for one in found.spoilt]),
    }
    return written(found, results)


def _height(one: dict[str, float]) -> dict[str, object]:
    in_mm: dict[str, object] = {f"{key}_mm": one[key] for key in ("x", "y", "z", "low", "high")}
    return {**in_mm, "seen": bool(one["seen"])}


@a_sum("union-jack", meant={"readings": "angle_readings"})
def union_jack_sum(*, readings: Columns, foot: float) -> SumResult:
    """Heights of a plate from angles along eight lines, with both closures."""
    found = union_jack(foot_steps("union-jack readings", readings), foot)
    results = {
        "corners": Figure(_in_um(found.corners)),
        "mid_sides": Figure(_in_um(found.mid_sides)),
        "closures": Figure(_in_um(found.closures)),
        "least_squares": Figure(found.flatness.least_squares * UM, unit="µm"),
        "minimum_zone": Figure(found.flatness.minimum_zone * UM, unit="µm"),
        "range": Figure(found.flatness.range * UM, unit="µm"),
        "heights": Figure(
            [
                {"line": at.line, "x_mm": at.x, "y_mm": at.y, "height_um": at.height * UM}
                for at in found.heights
            ]
        ),
    }
    return _with_file(written(found, results), readings)


def _in_um(heights: dict[str, float]) -> dict[str, float]:
    return {f"{name}_um": height * UM for name, height in heights.items()}
