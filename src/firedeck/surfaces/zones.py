"""Smallest out-of-flat by any tilt, for many faces at once: the exchange of contacts of all of them side by side."""

from typing import Any

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.exchange import independent_columns, smallest_zone
from firedeck.surfaces.face_model import shape_terms
from firedeck.surfaces.faces_allowed import Counts, Sampled, heights_on
from firedeck.surfaces.points import Array

MOST_EXCHANGES = 60
"""Exchanges after which a face is worked out by itself, by the rule that never goes in circles."""

NEAR = 1e-9


def smallest_zones(sampled: Sampled, pick: Counts, x: Array, y: Array) -> Array:
    """Smallest out-of-flat of chosen faces, at given places and at the bottom of every dip.

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
    ndarray, shape (k,)
        Smallest zone of each [µm].

    Source
    ------
    derived
    """
    at = np.stack((np.repeat(x[:, None], len(pick), axis=1), np.repeat(y[:, None], len(pick), axis=1)))
    dips, has = sampled.dips[:, :, pick].astype(np.float64), _alive(sampled, pick)
    own = np.where(has, dips[:2], np.array([x[0], y[0]])[:, None, None])
    heights = np.concatenate((heights_on(sampled, pick, x, y), _at_dips(sampled, pick, own)))
    at = np.concatenate((at, own), axis=1)
    return zones_of(np.concatenate((np.ones_like(at[:1]), at)), heights)


def _alive(sampled: Sampled, pick: Counts) -> npt.NDArray[np.bool_]:
    return np.arange(sampled.dips.shape[1])[:, None] < sampled.count[pick]


def _at_dips(sampled: Sampled, pick: Counts, own: Array) -> Array:
    """Heights of every face at places of its own (2, m, k)."""
    terms = shape_terms(sampled.plan, own[0].ravel(), own[1].ravel()).reshape(*own.shape[1:], -1)
    heights = np.einsum("mkj,jk->mk", terms, sampled.shapes[:12, pick].astype(np.float64))
    x, y, depth, size = sampled.dips[:, :, pick].astype(np.float64)
    far = ((own[0][:, None] - x) ** 2 + (own[1][:, None] - y) ** 2) * (-0.5 * np.exp(-2.0 * size))
    return np.asarray(heights - (np.exp(far) * np.where(_alive(sampled, pick), depth, 0.0)).sum(axis=1))


def zones_of(shapes: Array, heights: Array) -> Array:
    """Smallest zones of many sets of heights, each at places of its own.

    Parameters
    ----------
    shapes : ndarray, shape (3, p, k)
        1, x and y of every place of every set; the first places are the same for all sets [mm].
    heights : ndarray, shape (p, k)
        Heights [µm].

    Returns
    -------
    ndarray, shape (k,)
        Smallest zone of each set [µm].

    Valid for
    ---------
    Places that do not all lie on one line.

    Source
    ------
    derived

    Examples
    --------
    >>> at = np.array([(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0), (0.5, 0.5)])
    >>> shapes = np.repeat(np.column_stack((np.ones(5), at)).T[:, :, None], 2, axis=2)
    >>> zones_of(shapes, np.array([[0.0, 0.0, 0.0, 0.0, -6.0], [1.0, 0.0, 0.0, 1.0, 0.0]]).T).round(9).tolist()
    [6.0, 1.0]
    """
    middle, span = shapes.mean(axis=(1, 2)), np.ptp(shapes, axis=(1, 2))
    shapes = (shapes - np.append(0.0, middle[1:])[:, None, None]) / np.append(1.0, span[1:])[:, None, None]
    zones = np.empty(heights.shape[1])
    left = np.arange(heights.shape[1])
    rows, signs = _start(shapes, len(left))
    tolerance = NEAR * np.abs(heights).max()
    for _ in range(MOST_EXCHANGES):
        face = np.arange(len(left))
        inverse = np.linalg.inv(_contacts(shapes[:, rows, left[:, None]], signs))
        held = np.einsum("ki,kij->kj", signs * heights[rows, left[:, None]], inverse)
        over = heights[:, left] - np.einsum("jpk,kj->pk", shapes[:, :, left], held[:, 1:])
        worst = np.abs(over).argmax(axis=0)
        most = over[worst, face]
        zones[left] = 2.0 * held[:, 0]
        more = np.abs(most) > held[:, 0] + tolerance
        if not more.any():
            return zones
        left, rows, signs, inverse, worst, most = (
            part[more] for part in (left, rows, signs, inverse, worst, most)
        )
        face, sign = np.arange(len(left)), np.sign(most)
        entering = np.einsum(
            "kij,jk->ki", inverse, np.vstack((np.ones(len(left)), sign * shapes[:, worst, left]))
        )
        able = entering > NEAR
        weight = np.where(able, inverse[:, :, 0] / np.where(able, entering, 1.0), np.inf)
        out = weight.argmin(axis=1)
        rows[face, out], signs[face, out] = worst, sign
    for number in left:
        zones[number] = _alone(shapes[:, :, number].T, heights[:, number])
    return zones


def _start(shapes: Array, number: int) -> tuple[Counts, Array]:
    """Contacts that balance by themselves: one place as high and low, and two that stand away from it."""
    x, y = shapes[1:, :, 0]
    one = int((x + y).argmin())
    two = int(np.hypot(x - x[one], y - y[one]).argmax())
    three = int(np.abs((x[two] - x[one]) * (y - y[one]) - (y[two] - y[one]) * (x - x[one])).argmax())
    rows = np.tile([one, two, three, one], (number, 1)).astype(np.intp)
    return rows, np.tile([1.0, 1.0, 1.0, -1.0], (number, 1))


def _contacts(at: Array, signs: Array) -> npt.NDArray[Any]:
    """Columns 1, sign, sign x, sign y of the four contacts of every set (k, 4, 4)."""
    return np.concatenate((np.ones_like(signs)[:, None], np.moveaxis(signs * at, 0, 1)), axis=1)


def _alone(shape: Array, heights: Array) -> float:
    basis = independent_columns(shape)
    return smallest_zone(basis, heights - basis @ (basis.T @ heights) / len(heights)).width
