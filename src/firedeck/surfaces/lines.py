"""Lines over a face as books lay the straightedge: along, across, diagonal, or from place to place."""

from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.interpolation import ON_ONE_LINE, Sheet, groups, heights_at
from firedeck.surfaces.points import Array, PointsLike, as_points, extent

Place = tuple[float, float]

FEWEST_ON_A_LINE = 3


@dataclass(frozen=True)
class Profile:
    """Heights along one line: ``stations`` (n,) rising from the start, ``heights`` (n,), all in mm."""

    name: str
    start: Place
    end: Place
    stations: Array
    heights: Array

    @property
    def length(self) -> float:
        """From first to last station [mm]."""
        return float(self.stations[-1] - self.stations[0])

    def place(self, station: float) -> Place:
        """x and y of a station [mm]."""
        whole = float(np.hypot(self.end[0] - self.start[0], self.end[1] - self.start[1]))
        share = station / whole
        return (
            self.start[0] + share * (self.end[0] - self.start[0]),
            self.start[1] + share * (self.end[1] - self.start[1]),
        )


def rows_along(points: PointsLike) -> tuple[Profile, ...]:
    """Every row of points along the face (equal y) as a line; none if most points are in no row.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z [mm].

    Returns
    -------
    tuple of Profile
        Rows of at least three points, y rising [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> [row.name for row in rows_along([(x, y, 0.0) for x in (0, 50, 100) for y in (0, 40)])]
    ['along y 0 mm', 'along y 40 mm']
    """
    return _rows(as_points(points), 0)


def columns_across(points: PointsLike) -> tuple[Profile, ...]:
    """Every column of points across the face (equal x) as a line; none if most points are in no column.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z [mm].

    Returns
    -------
    tuple of Profile
        Columns of at least three points, x rising [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> [row.name for row in columns_across([(x, y, 0.0) for x in (0, 50) for y in (0, 40, 80)])]
    ['across x 0 mm', 'across x 50 mm']
    """
    return _rows(as_points(points), 1)


def _rows(points: Array, along: int) -> tuple[Profile, ...]:
    tolerance = ON_ONE_LINE * extent(points)
    numbers = groups(points[:, 1 - along], tolerance)
    found, held = [], 0
    for number in range(int(numbers.max()) + 1):
        row = points[numbers == number]
        if np.ptp(row[:, 1 - along]) > 2 * tolerance:
            continue
        held += len(row)
        row = _averaged(row[np.argsort(row[:, along], kind="stable")], along)
        if len(row) >= FEWEST_ON_A_LINE:
            place = f"{'xy'[1 - along]} {row[:, 1 - along].mean():g} mm"
            name = f"{('along', 'across')[along]} {place}"
            found.append(_profile(name, row, row[:, along] - row[0, along]))
        else:
            held -= len(row)
    return tuple(found) if 2 * held >= len(points) else ()


def _averaged(row: Array, along: int) -> Array:
    """Readings of one place in a row become their mean."""
    numbers = groups(row[:, along], ON_ONE_LINE * extent(row))
    counts = np.bincount(numbers)
    return np.column_stack([np.bincount(numbers, row[:, axis]) / counts for axis in range(3)])


def _profile(name: str, row: Array, stations: Array) -> Profile:
    start, end = ((float(x), float(y)) for x, y in row[[0, -1], :2])
    return Profile(name, start, end, stations, row[:, 2])


def line_between(face: Sheet, start: Place, end: Place, name: str = "") -> Profile:
    """Heights along a line from place to place, with a station wherever it crosses a join of points.

    Parameters
    ----------
    face : Sheet
        The joined face [mm].
    start, end : tuple of float
        x and y of the ends [mm].
    name : str
        Name of the line; else its ends [text].

    Returns
    -------
    Profile
        The line [mm].

    Raises
    ------
    OutOfRange
        If an end lies beyond the measured points, or the ends are one place.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.surfaces.interpolation import sheet
    >>> face = sheet([(x, y, 0.001 * x) for x in (0, 50, 100) for y in (0, 40)])
    >>> line_between(face, (0.0, 0.0), (100.0, 40.0)).stations.round(3).tolist()
    [0.0, 53.852, 107.703]
    """
    name = name or f"{start[0]:g}/{start[1]:g} to {end[0]:g}/{end[1]:g} mm"
    whole = float(np.hypot(end[0] - start[0], end[1] - start[1]))
    if whole < ON_ONE_LINE * extent(face.points):
        raise OutOfRange(f"line {name}", "two ends at one place", "a line with a length")
    shares = np.unique(np.concatenate(([0.0, 1.0], _crossings(face, start, end))).round(9))
    places = np.asarray(start) + shares[:, None] * (np.asarray(end) - np.asarray(start))
    heights = heights_at(face, places, f"line {name}")
    return Profile(name, start, end, shares * whole, heights)


def _crossings(face: Sheet, start: Place, end: Place) -> Array:
    """Shares of the way, between 0 and 1, at which the line crosses a join between points."""
    way = np.asarray(end) - np.asarray(start)
    with np.errstate(divide="ignore", invalid="ignore"):
        if face.grid is not None:
            shares = np.concatenate(((face.grid.x - start[0]) / way[0], (face.grid.y - start[1]) / way[1]))
        else:
            first, second = (face.points[face.edges[:, which], :2] for which in (0, 1))
            side = second - first
            off = first - np.asarray(start)
            across = way[0] * side[:, 1] - way[1] * side[:, 0]
            shares = (off[:, 0] * side[:, 1] - off[:, 1] * side[:, 0]) / across
            on_edge = (off[:, 0] * way[1] - off[:, 1] * way[0]) / across
            shares = shares[(on_edge >= -1e-9) & (on_edge <= 1 + 1e-9)]
    return np.asarray(shares[np.isfinite(shares) & (shares > 0.0) & (shares < 1.0)])


def diagonals(face: Sheet) -> tuple[Profile, Profile]:
    """Lines between the points nearest to opposite corners of the face.

    Parameters
    ----------
    face : Sheet
        The joined face [mm].

    Returns
    -------
    tuple of Profile
        From (least x, least y), and from (least x, most y) [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.surfaces.interpolation import sheet
    >>> face = sheet([(x, y, 0.0) for x in (0, 50, 100) for y in (0, 40)])
    >>> [line.name for line in diagonals(face)]
    ['diagonal 0/0 to 100/40 mm', 'diagonal 0/40 to 100/0 mm']
    """
    low, high = face.points[:, :2].min(axis=0), face.points[:, :2].max(axis=0)
    corners = np.array([low, high, (low[0], high[1]), (high[0], low[1])])
    away = ((face.points[:, None, :2] - corners) ** 2).sum(axis=2)
    ends = [(float(x), float(y)) for x, y in face.points[away.argmin(axis=0), :2]]
    first, second = (
        line_between(face, start, end, f"diagonal {start[0]:g}/{start[1]:g} to {end[0]:g}/{end[1]:g} mm")
        for start, end in ((ends[0], ends[1]), (ends[2], ends[3]))
    )
    return first, second
