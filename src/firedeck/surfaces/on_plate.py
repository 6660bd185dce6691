"""A face lying on a flat plate under its own weight: on three high points about its middle, and the gap elsewhere."""

import numpy as np
import numpy.typing as npt

from firedeck.errors import DidNotConverge, OutOfRange
from firedeck.surfaces.points import Array, PointsLike, as_points

MOST = 500
FAR = 1.0e3
"""Three helpers stand this many sizes of the face away, as deep below it; none of them stays a contact [1]."""
CLOSE = 1e-12


def gap_to_plate(points: PointsLike) -> Array:
    """Gap between a face and the plate it lies on.

    The plate is the plane over all points that lies lowest at their middle, where the weight is: it touches in three
    points about the middle. A contact is exchanged for the point that stands out most until none stands out.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z, positive out of the metal [mm].

    Returns
    -------
    ndarray, shape (n,)
        Gap at each point, nought at the contacts [mm].

    Raises
    ------
    OutOfRange
        If there are fewer than three points, or all lie on one line.
    DidNotConverge
        If the exchange does not end.

    Valid for
    ---------
    A stiff part on a true plate, its weight over the middle of the points. On a crown it may rock: one way of
    lying is taken.

    Source
    ------
    derived

    Examples
    --------
    >>> hollow = [(x, y, 1e-6 * x * x) for x in (-100.0, 0.0, 100.0) for y in (-50.0, 50.0)]
    >>> gap_to_plate(hollow).round(3).tolist()
    [0.0, 0.0, 0.01, 0.01, 0.0, 0.0]
    """
    given = as_points(points)
    middle = given[:, :2].mean(axis=0)
    xy = given[:, :2] - middle
    size = float(np.abs(xy).max(initial=0.0))
    if len(given) < 3 or np.linalg.matrix_rank(xy, tol=1e-6 * max(size, 1.0)) < 2:
        raise OutOfRange("points", f"{len(given)}", "three or more, not on one line")
    height = given[:, 2]
    span = float(np.ptp(height)) or 1.0
    angles = np.array([0.5, 7.0 / 6.0, 11.0 / 6.0]) * np.pi + 0.1234
    helpers = FAR * size * np.column_stack((np.cos(angles), np.sin(angles)))
    places = np.column_stack((np.ones(len(xy) + 3), np.vstack((xy, helpers)) / size))
    z = np.concatenate((height - height.max(), np.full(3, -FAR * span)))
    return _over(places, z, [len(xy), len(xy) + 1, len(xy) + 2])[: len(xy)]


def _over(places: Array, z: Array, contacts: list[int]) -> Array:
    scale = float(np.ptp(z[:-3])) or 1.0
    for _ in range(MOST):
        gap = places @ np.linalg.solve(places[contacts], z[contacts]) - z
        lowest = int(gap.argmin())
        if gap[lowest] >= -CLOSE * scale * FAR:
            gap[contacts] = 0.0
            return np.asarray(np.maximum(gap, 0.0))
        contacts[_leaves(places, contacts, lowest)] = lowest
    raise DidNotConverge("contacts of a plate", MOST, float(-gap.min()))


def _leaves(places: Array, contacts: list[int], enters: int) -> int:
    """Choose the contact that leaves, so that the middle stays within the triangle of the three."""
    base = places[contacts].T
    share: npt.NDArray[np.float64] = np.linalg.solve(base, np.array([1.0, 0.0, 0.0]))
    moves = np.linalg.solve(base, places[enters])
    steps = np.where(moves > 1e-12, np.maximum(share, 0.0) / np.where(moves > 1e-12, moves, 1.0), np.inf)
    return int(steps.argmin())
