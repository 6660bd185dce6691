"""Smallest band of parallel planes (or lines, or levels) around measured heights, by exchange.

Minimise the largest distance t over all planes: the best plane is held by at most four contact
points. Their weights w balance: high and low points have the same sum, the same centre of gravity,
and t is the weighted height of the highs less that of the lows. One exchange takes the point that
stands out most into the set of contacts and drops the one whose weight first falls to nothing; this
is the simplex method on the balance of weights, started from points that balance by themselves and
kept from going in circles by the lexicographic rule.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.errors import DidNotConverge
from firedeck.surfaces.points import Array

Rows = npt.NDArray[np.intp]

_EQUAL = 1e-9
"""Relative to the largest height. A point that stands out by less is a contact, and figures that differ by less are
equal: round readings tie, and rounding, which is another on every machine, must not choose between them."""


@dataclass(frozen=True)
class Contacts:
    """Who holds the zone: row numbers, signs (+1 high, -1 low), weights that sum to 1 on each side.

    ``width`` is the width of the zone, ``fit`` (n,) the height of the middle plane at each row,
    ``exchanges`` how many rounds it took.
    """

    rows: tuple[int, ...]
    signs: tuple[int, ...]
    weights: tuple[float, ...]
    width: float
    fit: Array
    exchanges: int


def independent_columns(shape: Array) -> Array:
    """Return an orthogonal basis of the columns, each of mean square one, without the idle ones.

    Parameters
    ----------
    shape : ndarray, shape (n, k)
        Values of k shapes at n places, such as 1, x, y [mm].

    Returns
    -------
    ndarray, shape (n, r)
        Basis of the same space, r at most k [1].

    Source
    ------
    derived

    Examples
    --------
    >>> independent_columns(np.array([[1.0, 0.0, 0.0], [1.0, 1.0, 2.0], [1.0, 2.0, 4.0]])).shape
    (3, 2)
    """
    scale = np.abs(shape).max(axis=0)
    columns: list[Array] = []
    for column in (shape / np.where(scale > 0, scale, 1.0)).T:
        left = column
        for _twice in range(2):  # once more, so that rounding leaves nothing of the ones before
            for before in columns:
                left = left - before * (before @ left) / len(shape)
        size = float(np.sqrt(left @ left / len(shape)))
        if size > 1e-9:
            columns.append(left / size)
    return np.column_stack(columns)


def first_largest(values: Array, equal: float = _EQUAL) -> int:
    """Find the first of the largest values, those that rounding alone parts counted as equal.

    Parameters
    ----------
    values : ndarray, shape (n,)
        Any figures [1].
    equal : float
        How far apart figures may be that count as equal [1].

    Returns
    -------
    int
        Its place.

    Source
    ------
    derived

    Examples
    --------
    >>> first_largest(np.array([0.1, 0.3 - 1e-15, 0.3]))
    1
    """
    return int((values >= values.max() - equal).argmax())


def smallest_zone(basis: Array, heights: Array) -> Contacts:
    """Find the combination of shapes with the smallest largest distance from the heights.

    Parameters
    ----------
    basis : ndarray, shape (n, r)
        Independent shapes at the n places, as :func:`independent_columns` gives them [1].
    heights : ndarray, shape (n,)
        Heights with any large tilt already taken out, so that rounding stays small [mm].

    Returns
    -------
    Contacts
        At most r + 1 contact points, their weights, the width and the middle plane [mm].

    Raises
    ------
    DidNotConverge
        If the exchange does not end, which exact arithmetic rules out.

    Valid for
    ---------
    Any number of points, also coincident, collinear and coplanar ones.

    Source
    ------
    derived

    Examples
    --------
    >>> level = np.ones((3, 1))
    >>> smallest_zone(level, np.array([0.0, 3.0, 1.0])).width
    3.0
    """
    scale = float(np.abs(heights).max())
    if scale == 0.0:
        return Contacts((), (), (), 0.0, np.zeros_like(heights), 0)
    z = heights / scale
    rows, signs = _start(basis)
    start = _columns(basis, rows, signs)
    target = np.zeros(len(rows))
    target[0] = 1.0
    most = 200 + 20 * len(heights)
    for exchange in range(most):
        inverse = np.linalg.inv(_columns(basis, rows, signs))
        multipliers = (signs * z[rows]) @ inverse
        left = z - basis @ multipliers[1:]
        outside = np.abs(left) - multipliers[0]
        if outside.max() <= _EQUAL:
            touching = _touching(rows, signs, inverse @ target)
            width = sum(sign * weight * float(heights[row]) for row, sign, weight in touching)
            return Contacts(
                rows=tuple(row for row, _, _ in touching),
                signs=tuple(sign for _, sign, _ in touching),
                weights=tuple(weight for _, _, weight in touching),
                width=width,
                fit=heights - scale * left,
                exchanges=exchange,
            )
        worst = first_largest(np.where(outside > _EQUAL, outside, 0.0))
        sign = 1.0 if left[worst] > 0 else -1.0
        entering = np.asarray(inverse @ np.concatenate(([1.0], sign * basis[worst])), dtype=np.float64)
        out = _leaving(entering, np.column_stack((inverse @ target, inverse @ start)))
        rows[out], signs[out] = worst, sign
    raise DidNotConverge("exchange of contact points", most, float(outside.max()) * scale)


def _start(basis: Array) -> tuple[Rows, Array]:
    """Pick r places the shapes can tell apart, the first of them twice: as a high and as a low."""
    remaining = basis.copy()
    chosen = []
    for _ in range(basis.shape[1]):
        size = np.einsum("ij,ij->i", remaining, remaining)
        row = first_largest(size)
        chosen.append(row)
        direction = remaining[row] / np.sqrt(size[row])
        remaining = remaining - np.outer(remaining @ direction, direction)
    rows = np.array([*chosen, chosen[0]])
    signs = np.ones(len(rows))
    signs[-1] = -1.0
    return rows, signs


def _columns(basis: Array, rows: Rows, signs: Array) -> Array:
    return np.vstack((np.ones(len(rows)), signs * basis[rows].T))


def _leaving(entering: Array, table: Array) -> int:
    """Lexicographic ratio test: the row whose weight, and in a tie whose history, falls out first."""
    able = np.flatnonzero(entering > 1e-9)
    ratios = table[able] / entering[able, None]
    for column in range(ratios.shape[1]):
        smallest = ratios[:, column].min()
        keep = ratios[:, column] <= smallest + 1e-11 * max(1.0, abs(smallest))
        able, ratios = able[keep], ratios[keep]
        if len(able) == 1:
            break
    return int(able[0])


def _touching(rows: Rows, signs: Array, weights: Array) -> list[tuple[int, int, float]]:
    """Row, sign and weight of the points that carry weight, the high ones first."""
    touching = [
        (int(row), int(sign), 2.0 * float(weight))
        for row, sign, weight in zip(rows, signs, weights, strict=True)
        if weight > 1e-9
    ]
    return sorted(touching, key=lambda contact: (-contact[1], contact[0]))
