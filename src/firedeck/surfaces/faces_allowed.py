"""Faces the readings allow, as plain arrays: shapes, dips, and their heights at any places."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.face_model import Plan, shape_terms
from firedeck.surfaces.laying import Laying, Stations
from firedeck.surfaces.points import Array
from firedeck.surfaces.resting import Floats

Counts = npt.NDArray[np.intp]

NOTHING_LEFT = np.float32(-25.0)
"""Logarithm of a depth that is nothing; smaller ones would only be slow to work with [1]."""

LEAST_DEPTH = 1e-9


@dataclass(frozen=True)
class Sampled:
    """Faces the readings allow: shapes and bow of the edge (13, n) [µm], dips (4, 8, n), how many each has (n,).

    A dip is x, y [mm], depth [µm] and the logarithm of its size [mm]. ``spoilt`` (l,) is the share of the
    faces for which a line stood on something or is better thrown away; ``stages`` how many it took.
    """

    plan: Plan
    layings: tuple[Laying, ...]
    shapes: Floats
    dips: Floats
    count: Counts
    spoilt: Floats
    stages: int

    @property
    def number(self) -> int:
        """How many faces there are [count]."""
        return int(self.count.size)

    def spread_out(self, number: int) -> Counts:
        """Numbers of faces spread evenly over all of them.

        Parameters
        ----------
        number : int
            How many [count].

        Returns
        -------
        ndarray of int
            Their numbers [count].

        Source
        ------
        derived
        """
        return np.linspace(0, self.number - 1, number).astype(np.intp)


def squares(x: Array, y: Array) -> Floats:
    """Take places so that :func:`depth_of` is one product of matrices.

    Parameters
    ----------
    x, y : ndarray, shape (p,)
        Places [mm].

    Returns
    -------
    ndarray, shape (p, 4)
        Square of the distance from nought, x, y and 1 [mm², mm, 1].

    Source
    ------
    derived
    """
    return np.column_stack((x**2 + y**2, x, y, np.ones_like(x))).astype(np.float32)


def depth_of(dips: Floats, places: Floats) -> Floats:
    """Depth of one dip on each face at each place.

    Parameters
    ----------
    dips : ndarray, shape (4, n)
        Middle x, y [mm], depth [µm], logarithm of the size [mm].
    places : ndarray, shape (p, 4)
        Places, as :func:`squares` gives them.

    Returns
    -------
    ndarray, shape (p, n)
        Depth, positive downwards [µm].

    Valid for
    ---------
    Places within some metres: the square of a distance then is right to 0.01 mm² or better.

    Source
    ------
    derived

    Examples
    --------
    >>> dip = np.array([[0.0], [0.0], [50.0], [np.log(10.0)]], dtype=np.float32)
    >>> depth_of(dip, squares(np.array([0.0, 10.0]), np.zeros(2)))[:, 0].round(1).tolist()
    [50.0, 30.299999237060547]
    """
    x, y, depth, size = dips.astype(np.float64)
    per = -0.5 * np.exp(-2.0 * size)
    rest = per * (x * x + y * y) + np.log(np.maximum(depth, LEAST_DEPTH))
    far = places @ np.stack((per, -2.0 * per * x, -2.0 * per * y, rest)).astype(np.float32)
    np.maximum(far, NOTHING_LEFT, out=far)
    return np.asarray(np.exp(far, out=far))


def heights_at(sampled: Sampled, places: Stations, pick: Counts) -> Floats:
    """Heights of chosen faces at all stations of layings; end leaves and bow of the edge left out.

    Parameters
    ----------
    sampled : Sampled
        Faces the readings allow [µm].
    places : Stations
        Stations of layings [mm].
    pick : ndarray of int, shape (k,)
        Numbers of the faces [count].

    Returns
    -------
    ndarray, shape (p, k)
        Heights, a hole far below [µm].

    Source
    ------
    derived
    """
    at = squares(places.x, places.y)
    heights: Floats = (
        shape_terms(sampled.plan, places.x, places.y).astype(np.float32) @ sampled.shapes[:12, pick]
    )
    heights += np.minimum(places.raised, 0.0).astype(np.float32)[:, None]
    for slot in range(int(sampled.count[pick].max(initial=0))):
        has = np.flatnonzero(sampled.count[pick] > slot)
        heights[:, has] -= depth_of(sampled.dips[:, slot, pick[has]], at)
    return np.asarray(heights)


def heights_on(sampled: Sampled, pick: Counts, x: Array, y: Array) -> Array:
    """Heights of chosen faces at places.

    Parameters
    ----------
    sampled : Sampled
        Faces the readings allow [µm].
    pick : ndarray of int, shape (k,)
        Numbers of the faces [count].
    x, y : ndarray, shape (p,)
        Places [mm].

    Returns
    -------
    ndarray, shape (p, k)
        Heights, tilt as it comes [µm].

    Source
    ------
    derived
    """
    heights = shape_terms(sampled.plan, x, y) @ sampled.shapes[:12, pick].astype(np.float64)
    at = squares(x, y)
    for slot in range(int(sampled.count[pick].max(initial=0))):
        has = np.flatnonzero(sampled.count[pick] > slot)
        heights[:, has] -= depth_of(sampled.dips[:, slot, pick[has]], at)
    return np.asarray(heights)
