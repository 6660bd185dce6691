"""Measured points of a face: what they must be before anything is worked out from them."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from firedeck.errors import OutOfRange

Array = npt.NDArray[np.float64]
PointsLike = Array | Sequence[Sequence[float]]

SAME_PLACE = 1e-6
"""Two places nearer than this [mm] are one place."""


def as_points(points: PointsLike, fewest: int = 3) -> Array:
    """Check measured points and return them as one array.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        One row per point: x, y and height z, positive out of the metal [mm].
    fewest : int
        Fewest points that make sense [count].

    Returns
    -------
    ndarray, shape (n, 3)
        The same as floats [mm].

    Raises
    ------
    OutOfRange
        If a row is not three numbers, a number is not finite, or there are too few points.

    Source
    ------
    derived

    Examples
    --------
    >>> as_points([(0, 0, 0.01), (100, 0, 0.0), (0, 50, 0.02)]).shape
    (3, 3)
    """
    try:
        array = np.asarray(points, dtype=np.float64)
    except ValueError:
        raise OutOfRange("points", "rows of different length", "x, y and z for every point") from None
    if array.ndim != 2 or array.shape[1] != 3:
        raise OutOfRange("points", f"shape {array.shape}", "x, y and z for every point")
    if len(array) < fewest:
        raise OutOfRange("points", f"{len(array)} points", f"at least {fewest} points")
    if not np.isfinite(array).all():
        row = int(np.flatnonzero(~np.isfinite(array).all(axis=1))[0]) + 1
        raise OutOfRange("points", f"point {row} is not a finite number", "finite x, y and z")
    return array


def one_per_place(points: Array) -> Array:
    """Average readings of one place.

    Parameters
    ----------
    points : ndarray, shape (n, 3)
        Measured points [mm].

    Returns
    -------
    ndarray, shape (m, 3)
        One point for each place, m at most n, sorted by x and y [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> one_per_place(np.array([[0.0, 0.0, 0.25], [5.0, 0.0, 1.0], [0.0, 0.0, 0.75]])).tolist()
    [[0.0, 0.0, 0.5], [5.0, 0.0, 1.0]]
    """
    _, first, place = np.unique(
        np.round(points[:, :2] / (10 * SAME_PLACE)), axis=0, return_index=True, return_inverse=True
    )
    heights = np.bincount(place.ravel(), points[:, 2]) / np.bincount(place.ravel())
    return np.column_stack((points[first, :2], heights))


def extent(points: Array) -> float:
    """Return the larger side of the box that holds the points, at least :data:`SAME_PLACE`.

    Parameters
    ----------
    points : ndarray, shape (n, 3)
        Measured points [mm].

    Returns
    -------
    float
        Larger side along x or y [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> extent(np.array([[0.0, 0.0, 0.1], [400.0, 140.0, 0.2]]))
    400.0
    """
    return max(float(np.ptp(points[:, :2], axis=0).max()), SAME_PLACE)
