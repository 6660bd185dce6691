"""Flatness within any span: along a row, across, and in any square of the span."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.errors import OutOfRange
from firedeck.surfaces.flatness import flatness
from firedeck.surfaces.lines import Place, Profile, columns_across, rows_along
from firedeck.surfaces.plane import least_squares_plane, smallest_zone_plane
from firedeck.surfaces.points import SAME_PLACE, Array, PointsLike, as_points
from firedeck.surfaces.straightness import straightness, zone_of_line
from firedeck.trace import DERIVED, Note, Step

_MOST_WINDOWS = 5000
_NO_ROWS = Note("the points lie on no rows, so squares of the span are judged, not stretches along", DERIVED)


@dataclass(frozen=True)
class LocalWorst:
    """The worst place: how far out within the span, from where to where, and the sums."""

    worst: float
    name: str
    start: Place
    end: Place
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class LocalFlatness:
    """Worst in any span: of a row along, of a column across (None without rows), of any square."""

    along: LocalWorst | None
    across: LocalWorst | None
    square: LocalWorst
    steps: tuple[Step, ...]
    cautions: tuple[Note, ...] = ()

    @property
    def worst(self) -> LocalWorst:
        """What a limit per span speaks about: the worst stretch along; without rows, the worst square."""
        return self.square if self.along is None else self.along


def local_flatness(points: PointsLike, span: float) -> LocalFlatness:
    """Flatness within any span, as limits such as "0.02 mm in any 100 mm" mean it.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z [mm].
    span : float
        Length of the stretch, and side of the square [mm].

    Returns
    -------
    LocalFlatness
        Smallest zone of the worst stretch along, across, and of the worst square [mm].

    Raises
    ------
    OutOfRange
        If the span is not positive, or so short that no three points lie within it.

    Valid for
    ---------
    Dips that hold at least one point: what lies between points is not seen.

    Source
    ------
    derived

    Examples
    --------
    >>> dip = {(100.0, 35.0): -0.02}
    >>> face = [(x, y, dip.get((x, y), 0.0)) for x in (0.0, 50.0, 100.0, 150.0) for y in (0.0, 35.0, 70.0)]
    >>> found = local_flatness(face, 100.0)
    >>> round(found.along.worst, 6), found.along.start, found.along.end
    (0.02, (50.0, 35.0), (150.0, 35.0))
    """
    array = as_points(points)
    if not span > 0.0:
        raise OutOfRange("span", f"{span:g} mm", "longer than nothing")
    along = _worst_stretch(rows_along(array), span)
    across = _worst_stretch(columns_across(array), span)
    square = _worst_square(array, span)
    steps = tuple(step for part in (along, across, square) if part is not None for step in part.steps)
    return LocalFlatness(along, across, square, steps, () if along else (_NO_ROWS,))


def _worst_stretch(lines: tuple[Profile, ...], span: float) -> LocalWorst | None:
    worst, best = -1.0, None
    for line in lines:
        for first, last in _stretches(line.stations, span):
            part = slice(first, last)
            zone = zone_of_line(line.stations[part], line.heights[part]).width
            if zone > worst:
                worst, best = zone, (line, part)
    if best is None:
        return None
    line, part = best
    stations = line.stations[part]
    found = straightness(stations, line.heights[part])
    start, end = line.place(float(stations[0])), line.place(float(stations[-1]))
    return LocalWorst(found.minimum_zone, line.name, start, end, found.steps)


def _stretches(stations: Array, span: float) -> list[tuple[int, int]]:
    """First and beyond-last station of every stretch that no other contains, of three stations or more."""
    lasts = np.searchsorted(stations, stations + span + SAME_PLACE, side="right")
    return [
        (first, int(last))
        for first, last in enumerate(lasts)
        if last - first >= 3 and (first == 0 or last > lasts[first - 1])
    ]


def _windows(points: Array, span: float) -> list[tuple[float, float]]:
    """Lower corners of the squares tried: every pair of a column and a row, or corners on each point."""
    x, y = (np.unique(points[:, axis].round(6)) for axis in (0, 1))
    if len(x) * len(y) <= _MOST_WINDOWS:
        return [(float(a), float(b)) for a in x for b in y]
    shifts = ((0.0, 0.0), (span, 0.0), (0.0, span), (span, span))
    return [(float(p[0]) - dx, float(p[1]) - dy) for p in points for dx, dy in shifts]


def _worst_square(points: Array, span: float) -> LocalWorst:
    """Try the squares in the order of what they could be at most, and stop when none can be worse."""
    over = least_squares_plane(points).left
    tried = []
    for x, y in _windows(points, span):
        inside = _inside(points, x, y, span)
        if inside.sum() >= 3:
            tried.append((float(np.ptp(over[inside])), (x, y)))
    if not tried:
        raise OutOfRange("span", f"{span:g} mm", "a span that holds at least three of the points")
    tried.sort(key=lambda window: -window[0])
    worst, best = -1.0, tried[0][1]
    for at_most, corner in tried:
        if at_most <= worst:
            break
        inside = _inside(points, *corner, span)
        zone = smallest_zone_plane(points[inside], over[inside])[0].width
        if zone > worst:
            worst, best = zone, corner
    (x, y), found = best, flatness(points[_inside(points, *best, span)])
    return LocalWorst(found.minimum_zone, f"square of {span:g} mm", (x, y), (x + span, y + span), found.steps)


def _inside(points: Array, x: float, y: float, span: float) -> npt.NDArray[np.bool_]:
    low, high = np.array([x, y]) - SAME_PLACE, np.array([x, y]) + span + SAME_PLACE
    return np.asarray(((points[:, :2] >= low) & (points[:, :2] <= high)).all(axis=1))
