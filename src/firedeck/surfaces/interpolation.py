"""Heights between measured points: straight between neighbours, never beyond the outermost.

Points on a full grid of rows and columns are joined cell by cell (bilinear), so that turning or
mirroring the face changes nothing; other points are joined in triangles.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from firedeck.errors import OutOfRange
from firedeck.surfaces.points import Array, PointsLike, as_points, extent, one_per_place

ON_ONE_LINE = 1e-4
"""Rows and columns: coordinates within this share of the face's length are one row."""


@dataclass(frozen=True)
class Grid:
    """Full rows and columns of points: ``x`` (m,) and ``y`` (k,) rising, ``z`` (k, m)."""

    x: Array
    y: Array
    z: Array


@dataclass(frozen=True)
class Sheet:
    """A face joined from its points: a grid, or else triangles.

    ``edges`` (e, 2) are the joined pairs of points where there is no grid.
    """

    points: Array
    grid: Grid | None
    triangles: Any
    edges: npt.NDArray[np.intp]


def groups(values: Array, tolerance: float) -> npt.NDArray[np.intp]:
    """Number the groups of nearly equal values, rising.

    Parameters
    ----------
    values : ndarray, shape (n,)
        Coordinates [mm].
    tolerance : float
        A step larger than this begins a new group [mm].

    Returns
    -------
    ndarray of int, shape (n,)
        Group number of each value, 0 for the smallest [count].

    Source
    ------
    derived

    Examples
    --------
    >>> groups(np.array([35.0, 0.0, 35.001, 70.0]), 0.04).tolist()
    [1, 0, 1, 2]
    """
    order = np.argsort(values, kind="stable")
    steps = np.concatenate(([0], np.cumsum(np.diff(values[order]) > tolerance)))
    numbers = np.empty(len(values), dtype=np.intp)
    numbers[order] = steps
    return numbers


def sheet(points: PointsLike) -> Sheet:
    """Join measured points to a face; readings of one place are averaged.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z [mm].

    Returns
    -------
    Sheet
        The joined face [mm].

    Raises
    ------
    OutOfRange
        If the points lie on one line.

    Source
    ------
    derived

    Examples
    --------
    >>> face = sheet([(x, y, 0.001 * x) for x in (0, 50, 100) for y in (0, 40)])
    >>> face.grid.z.shape
    (2, 3)
    """
    array = as_points(points)
    tolerance = ON_ONE_LINE * extent(array)
    columns, rows = groups(array[:, 0], tolerance), groups(array[:, 1], tolerance)
    shape = (rows.max() + 1, columns.max() + 1)
    counts = np.zeros(shape)
    np.add.at(counts, (rows, columns), 1.0)
    if min(shape) > 1 and counts.min() > 0:
        z = np.zeros(shape)
        np.add.at(z, (rows, columns), array[:, 2])
        x = np.bincount(columns, array[:, 0]) / np.bincount(columns)
        y = np.bincount(rows, array[:, 1]) / np.bincount(rows)
        return Sheet(array, Grid(x, y, z / counts), None, np.empty((0, 2), dtype=np.intp))
    return _triangles(array)


def _triangles(points: Array) -> Sheet:
    from scipy.spatial import Delaunay, QhullError

    joined = one_per_place(points)
    try:
        found = Delaunay(joined[:, :2])
    except (QhullError, ValueError):
        raise OutOfRange("points", "points on one line", "points spread over the face") from None
    corners = found.simplices
    pairs = np.sort(np.vstack((corners[:, :2], corners[:, 1:], corners[:, ::2])), axis=1)
    return Sheet(joined, None, found, np.unique(pairs, axis=0))


def _heights(face: Sheet, places: Array) -> Array:
    """Heights at places (m, 2); nan beyond the outermost points, which never leaves this file."""
    return _on_grid(face.grid, places) if face.grid is not None else _on_triangles(face, places)


def covers(face: Sheet, places: Array) -> npt.NDArray[np.bool_]:
    """Tell which places lie among the measured points.

    Parameters
    ----------
    face : Sheet
        A face as :func:`sheet` makes it [mm].
    places : ndarray, shape (m, 2)
        x and y [mm].

    Returns
    -------
    ndarray of bool, shape (m,)
        True where a height can be read without extending the face [1].

    Source
    ------
    derived

    Examples
    --------
    >>> face = sheet([(x, y, 0.001 * x) for x in (0, 50, 100) for y in (0, 40)])
    >>> covers(face, np.array([[25.0, 10.0], [125.0, 10.0]])).tolist()
    [True, False]
    """
    return ~np.isnan(_heights(face, places))


def _on_grid(grid: Grid, places: Array) -> Array:
    column, u, inside_x = _cell(grid.x, places[:, 0])
    row, v, inside_y = _cell(grid.y, places[:, 1])
    z = grid.z
    front = (1 - u) * z[row, column] + u * z[row, column + 1]
    back = (1 - u) * z[row + 1, column] + u * z[row + 1, column + 1]
    return np.where(inside_x & inside_y, (1 - v) * front + v * back, np.nan)


def _cell(lines: Array, values: Array) -> tuple[npt.NDArray[np.intp], Array, npt.NDArray[np.bool_]]:
    near = ON_ONE_LINE * float(lines[-1] - lines[0])
    inside = (values >= lines[0] - near) & (values <= lines[-1] + near)
    held = np.clip(values, lines[0], lines[-1])
    cell = np.clip(np.searchsorted(lines, held, side="right") - 1, 0, len(lines) - 2)
    return cell, (held - lines[cell]) / (lines[cell + 1] - lines[cell]), inside


def _on_triangles(face: Sheet, places: Array) -> Array:
    found = face.triangles
    which = found.find_simplex(places, tol=1e-6)
    to_local = found.transform[which]
    first = np.einsum("nij,nj->ni", to_local[:, :2], places - to_local[:, 2])
    shares = np.column_stack((first, 1.0 - first.sum(axis=1)))
    heights = (shares * face.points[found.simplices[which], 2]).sum(axis=1)
    return np.where(which >= 0, heights, np.nan)


def heights_at(face: Sheet, places: Array, what: str) -> Array:
    """Heights at places that must all lie among the measured points.

    Parameters
    ----------
    face : Sheet
        A face as :func:`sheet` makes it [mm].
    places : ndarray, shape (m, 2)
        x and y [mm].
    what : str
        What the places are, for the message [text].

    Returns
    -------
    ndarray, shape (m,)
        Heights [mm].

    Raises
    ------
    OutOfRange
        If a place lies beyond the outermost points: nothing is extended.

    Source
    ------
    derived

    Examples
    --------
    >>> face = sheet([(x, y, 0.001 * x) for x in (0, 50, 100) for y in (0, 40)])
    >>> round(float(heights_at(face, np.array([[25.0, 10.0]]), "ring")[0]), 6)
    0.025
    >>> heights_at(face, np.array([[125.0, 10.0]]), "ring")
    Traceback (most recent call last):
    ...
    firedeck.errors.OutOfRange: ring: found x 125 mm, y 10 mm; only places among the measured points
    """
    heights = _heights(face, places)
    beyond = np.flatnonzero(np.isnan(heights))
    if len(beyond):
        x, y = places[beyond[0]]
        raise OutOfRange(what, f"x {x:g} mm, y {y:g} mm", "only places among the measured points")
    return heights
