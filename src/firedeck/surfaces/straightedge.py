"""Gaps under a straightedge along the book's lines, worked out from measured points."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.errors import BadQuantity, OutOfRange
from firedeck.quantity import Kind, parse
from firedeck.surfaces.at_rest import LineGap, rest_gap
from firedeck.surfaces.edge import gap_on_high_points, upper_hull
from firedeck.surfaces.interpolation import sheet
from firedeck.surfaces.leaf import largest_felt_gap
from firedeck.surfaces.lines import Profile, columns_across, diagonals, line_between, rows_along
from firedeck.surfaces.points import PointsLike
from firedeck.trace import DERIVED, Step

WORDS = ("along", "across", "diagonals", "all")


@dataclass(frozen=True)
class StraightedgeGaps:
    """The largest gap on every line, the worst line first among equals, and the written sums.

    ``at_rest`` is the worst line with the edge at rest under its own weight, on a crown held level.
    """

    lines: tuple[LineGap, ...]
    worst: LineGap
    at_rest: LineGap
    steps: tuple[Step, ...]


def straightedge_gaps(points: PointsLike, lines: str, leaf_width: float = 0.0) -> StraightedgeGaps:
    """Largest gap under a straightedge on its high points, line by line.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z, positive out of the metal [mm].
    lines : str
        Lines parted by commas: along, across, diagonals, all, or from/to as x/y/x/y with units [text].
    leaf_width : float
        Width of the leaf along the edge; nought for the largest gap itself [mm].

    Returns
    -------
    StraightedgeGaps
        Gap, place and sum for every line, and the largest gap at rest [mm].

    Raises
    ------
    OutOfRange
        If a line is not understood, has under three points, or leaves the measured points.

    Valid for
    ---------
    A true edge that reaches over the whole line; rocked over its high points a crown shows nothing, at rest it does.

    Source
    ------
    derived

    Examples
    --------
    >>> face = [(x, y, 1e-6 * (x - 200) ** 2) for x in (0, 100, 200, 300, 400) for y in (0, 70, 140)]
    >>> found = straightedge_gaps(face, "along")
    >>> round(found.worst.gap, 6), found.worst.place
    (0.04, (200.0, 0.0))
    """
    asked = profiles(points, lines)
    found = tuple(line_gap(profile, leaf_width) for profile in asked)
    worst = max(found, key=lambda line: line.gap)
    at_rest = max((rest_gap(profile) for profile in asked), key=lambda line: line.gap)
    return StraightedgeGaps(found, worst, at_rest, (*(line.step for line in found), at_rest.step))


def line_gap(profile: Profile, leaf_width: float = 0.0) -> LineGap:
    """Largest gap under an edge on the high points of one line.

    Parameters
    ----------
    profile : Profile
        Heights along the line [mm].
    leaf_width : float
        Width of the leaf along the edge [mm].

    Returns
    -------
    LineGap
        Gap, station, place and the written sum [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> stations, heights = np.array([0.0, 50.0, 100.0]), np.array([0.0, -0.05, 0.0])
    >>> line_gap(Profile("edge", (0.0, 0.0), (100.0, 0.0), stations, heights)).gap
    0.05
    """
    gap = gap_on_high_points(profile.stations, profile.heights)
    _, station = largest_felt_gap(profile.stations, gap, leaf_width)
    lowest = station if leaf_width == 0.0 else _lowest_under(profile, station, leaf_width)
    step = _chord_step(profile, lowest)
    return LineGap(profile.name, step.value, station, profile.place(station), step)


def _lowest_under(profile: Profile, station: float, width: float) -> float:
    """Station under the leaf where the gap is smallest: that is the gap it feels."""
    left, right = station - width / 2, station + width / 2
    inside = profile.stations[(profile.stations > left) & (profile.stations < right)]
    places = np.concatenate(([left, right], inside))
    gap = gap_on_high_points(profile.stations, profile.heights)
    return float(places[np.interp(places, profile.stations, gap).argmin()])


def _chord_step(profile: Profile, station: float) -> Step:
    ends_line = np.interp(profile.stations, profile.stations[[0, -1]], profile.heights[[0, -1]])
    over = profile.heights - ends_line
    hull = upper_hull(profile.stations, over)
    ends = profile.stations[hull]
    chord = int(np.clip(np.searchsorted(ends, station, side="right") - 1, 0, len(hull) - 2))
    first, second = hull[chord], hull[chord + 1]
    return Step.work_out(
        f"Gap under the edge on its two high points, heights over the line through both ends, {profile.name}",
        "from_height + (to_height - from_height) * (at - from_at) / (to_at - from_at) - height",
        {
            "from_at": (float(profile.stations[first]), "mm"),
            "from_height": (float(over[first]), "mm"),
            "to_at": (float(profile.stations[second]), "mm"),
            "to_height": (float(over[second]), "mm"),
            "at": (station, "mm"),
            "height": (float(np.interp(station, profile.stations, over)), "mm"),
        },
        ("gap", "mm"),
        DERIVED,
    )


def profiles(points: PointsLike, lines: str) -> tuple[Profile, ...]:
    """Lines of heights over measured points, by the words a mechanic uses.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z [mm].
    lines : str
        Lines parted by commas, or by semicolons where decimal commas are used: along (each row),
        across (each column), diagonals, all, or from/to as ``0 mm/0 mm/400 mm/140 mm`` [text].

    Returns
    -------
    tuple of Profile
        The lines in the order asked for [mm].

    Raises
    ------
    OutOfRange
        If a line is not understood or there is none with three points.

    Source
    ------
    derived

    Examples
    --------
    >>> face = [(x, y, 0.0) for x in (0, 100, 200) for y in (0, 70, 140)]
    >>> [line.name for line in profiles(face, "along, 0 mm/0 mm/200 mm/140 mm")][-1]
    '0/0 to 200/140 mm'
    """
    asked = [part.strip() for part in lines.split(";" if ";" in lines else ",") if part.strip()]
    found: list[Profile] = []
    for part in asked:
        found.extend(_asked(points, part))
    if not found:
        raise OutOfRange("lines", lines, "no line here has three points: name one as x/y/x/y with units")
    return tuple(found)


def _asked(points: PointsLike, part: str) -> Sequence[Profile]:
    match part:
        case "along":
            return rows_along(points)
        case "across":
            return columns_across(points)
        case "diagonals":
            return diagonals(sheet(points))
        case "all":
            return (*rows_along(points), *columns_across(points), *diagonals(sheet(points)))
    cells = part.split("/")
    if len(cells) != 4:
        allowed = f"{', '.join(WORDS)}, or x/y/x/y with units such as 0 mm/0 mm/400 mm/140 mm"
        raise OutOfRange("lines", part, allowed)
    try:
        x, y, to_x, to_y = (parse(cell, Kind.LENGTH).value for cell in cells)
    except BadQuantity as fault:
        raise OutOfRange("lines", f"{fault.found} in {part}", fault.allowed) from fault
    return (line_between(sheet(points), (x, y), (to_x, to_y)),)
