"""Planes through measured points: least squares, smallest zone, and a plane on three corners."""

from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.exchange import Contacts, independent_columns, smallest_zone
from firedeck.surfaces.points import Array, PointsLike, as_points, extent
from firedeck.trace import DERIVED, Step

DIGITS = 9
"""Decimals kept of sums of products [mm²]: what lies below is left by adding up, nothing is read as fine."""


@dataclass(frozen=True)
class Plane:
    """z = slope_x · x + slope_y · y + height, all in mm; ``height`` is at x = y = 0."""

    slope_x: float
    slope_y: float
    height: float

    def at(self, places: Array) -> Array:
        """Height of the plane at places (n, 2 or more) [mm]."""
        return np.asarray(self.slope_x * places[:, 0] + self.slope_y * places[:, 1] + self.height)


@dataclass(frozen=True)
class LeastSquares:
    """The least-squares plane, the heights left over it (n,), and whether the points span a plane."""

    plane: Plane
    left: Array
    spans: bool
    steps: tuple[Step, ...]


def _plane_through(points: Array, heights: Array) -> Plane:
    """Plane with the given heights over the points' places; of the least slope where several fit."""
    middle = points.mean(axis=0)
    about = points - middle
    level = float(heights.mean())
    slopes, *_ = np.linalg.lstsq(about[:, :2] / extent(points), heights - level, rcond=1e-9)
    slope_x, slope_y = (float(slope) / extent(points) for slope in slopes)
    return Plane(slope_x, slope_y, level - slope_x * float(middle[0]) - slope_y * float(middle[1]))


def least_squares_plane(points: PointsLike) -> LeastSquares:
    """Plane with the smallest sum of squared heights left over.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z, positive out of the metal [mm].

    Returns
    -------
    LeastSquares
        Plane, heights over it and the written sums [mm].

    Raises
    ------
    OutOfRange
        If there are fewer than three points.

    Valid for
    ---------
    Heights small against the extent (distances are taken along z).

    Source
    ------
    derived

    Examples
    --------
    >>> found = least_squares_plane([(0, 0, 0.0), (100, 0, 0.1), (0, 100, 0.0), (100, 100, 0.1)])
    >>> round(found.plane.slope_x, 9), bool(abs(found.left).max() < 1e-12)
    (0.001, True)
    """
    array = as_points(points)
    about = array - array.mean(axis=0)
    basis = independent_columns(np.column_stack((np.ones(len(array)), about[:, :2])))
    left = about[:, 2] - basis @ (basis.T @ about[:, 2]) / len(array)
    plane = _plane_through(array, array[:, 2] - left)
    spans = basis.shape[1] == 3
    return LeastSquares(plane, left, spans, _slope_steps(about) if spans else ())


def _slope_steps(about: Array) -> tuple[Step, ...]:
    sums = (about.T @ about).round(DIGITS) + 0.0
    figures = {
        "sum_xx": (float(sums[0, 0]), "mm²"),
        "sum_yy": (float(sums[1, 1]), "mm²"),
        "sum_xy": (float(sums[0, 1]), "mm²"),
        "sum_xz": (float(sums[0, 2]), "mm²"),
        "sum_yz": (float(sums[1, 2]), "mm²"),
    }
    above = {"x": "(sum_xz * sum_yy - sum_yz * sum_xy)", "y": "(sum_yz * sum_xx - sum_xz * sum_xy)"}
    return tuple(
        Step.work_out(
            f"Least-squares slope along {axis}, from sums about the mean point",
            f"{above[axis]} / (sum_xx * sum_yy - sum_xy**2)",
            figures,
            (f"slope_{axis}", "1"),
            DERIVED,
        )
        for axis in "xy"
    )


def smallest_zone_plane(points: Array, left: Array) -> tuple[Contacts, Plane]:
    """Middle plane of the closest pair of parallel planes that hold all points between them.

    Parameters
    ----------
    points : ndarray, shape (n, 3)
        x, y and height z [mm].
    left : ndarray, shape (n,)
        The heights over some plane near them, which keeps rounding small [mm].

    Returns
    -------
    tuple of Contacts and Plane
        Who holds the zone, over that plane, and the middle plane of the zone over z = 0 [mm].

    Valid for
    ---------
    Heights small against the extent (distances are taken along z).

    Source
    ------
    derived

    Examples
    --------
    >>> face = np.array([(0, 0, 0.0), (100, 0, 0.0), (0, 100, 0.0), (100, 100, 0.1)])
    >>> contacts, _ = smallest_zone_plane(face, least_squares_plane(face).left)
    >>> round(contacts.width, 9)
    0.05
    """
    about = points[:, :2] - points[:, :2].mean(axis=0)
    basis = independent_columns(np.column_stack((np.ones(len(points)), about)))
    flat = float(np.abs(left).max()) <= 1e-13 * max(float(np.abs(points[:, 2]).max()), 1e-3)
    contacts = smallest_zone(basis, np.zeros_like(left) if flat else left)
    return contacts, _plane_through(points, points[:, 2] - left + contacts.fit)


def three_corner_range(points: PointsLike, corners: PointsLike | None = None) -> tuple[float, Plane]:
    """Range of heights when three corners are set to nought, as on a plate with three jacks.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z [mm].
    corners : array_like, shape (3, 3), optional
        The three points set to nought; else those nearest to the corners (least x, least y), (most x,
        least y) and (least x, most y) of the box round the points [mm].

    Returns
    -------
    tuple of float and Plane
        Highest less lowest over the plane of the three corners, and that plane [mm].

    Raises
    ------
    OutOfRange
        If the three corners lie on one line.

    Source
    ------
    derived

    Examples
    --------
    >>> face = [(0, 0, 0.0), (100, 0, 0.0), (0, 100, 0.0), (100, 100, 0.1)]
    >>> three_corner_range(face)[0]
    0.1
    """
    array = as_points(points)
    if corners is None:
        low, high = array[:, :2].min(axis=0), array[:, :2].max(axis=0)
        places = np.array([low, (high[0], low[1]), (low[0], high[1])])
        away = ((array[:, None, :2] - places) ** 2).sum(axis=2)
        three = array[away.argmin(axis=0)]
    else:
        three = as_points(corners)
    sides = three[1:, :2] - three[0, :2]
    if abs(float(np.linalg.det(sides))) < 1e-9 * extent(array) ** 2:
        raise OutOfRange("corners", "three corners on one line", "three corners that span the face")
    plane = _plane_through(three, three[:, 2])
    return float(np.ptp(array[:, 2] - plane.at(array))), plane
