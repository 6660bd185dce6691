"""Load columns: where forces go in, and, by the same numbers, where movements are read.

A column is a set of nodal weights. As a load it says how one unit is spread over the nodes; as an observation it reads
the movement at the same place with the same weights. Because both are one, G = F^T K^-1 F is symmetric and no work is
lost between points and mesh. Spreading is linear between nodes, and linear beyond the last brick of metal where a point
lies just off it, so every column keeps its force and its moments exactly.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.fem.brick import CORNERS, Floats
from firedeck.fem.grid import LEAST_SHARE, Body, Ints

X, Y, Z = 0, 1, 2
"""Directions."""
CARRIES = 0.3
"""A brick with less metal than this hands its load to the nearest one with more, if one is within a brick's edge."""


@dataclass(frozen=True)
class Face:
    """A flat side of a body: number of its z plane, and whether the metal lies above it."""

    plane: int
    upward: bool


@dataclass(frozen=True)
class Columns:
    """``count`` sparse columns as triplets: degree of freedom (3 * grid node + direction), column, weight."""

    dof: Ints = field(repr=False)
    column: Ints = field(repr=False)
    weight: Floats = field(repr=False)
    count: int


def joined(parts: Sequence[Columns]) -> Columns:
    """Put sets of columns one after the other.

    Parameters
    ----------
    parts : sequence of Columns
        Sets of columns [1].

    Returns
    -------
    Columns
        All of them, in order [1].

    Source
    ------
    derived

    Examples
    --------
    >>> one = Columns(np.array([2]), np.array([0]), np.array([1.0]), 1)
    >>> joined([one, one]).column.tolist()
    [0, 1]
    """
    starts = np.cumsum([0, *(part.count for part in parts)])
    return Columns(
        np.concatenate([part.dof for part in parts]),
        np.concatenate([part.column + start for part, start in zip(parts, starts[:-1], strict=True)]),
        np.concatenate([part.weight for part in parts]),
        int(starts[-1]),
    )


def node_columns(body: Body, nodes: Ints, direction: int, mean: bool = False) -> Columns:
    """Single nodes as columns, or their mean as one.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm].
    nodes : ndarray, shape (n,)
        Grid nodes [1].
    direction : int
        X, Y or Z [1].
    mean : bool
        One column that is the mean of all nodes [1].

    Returns
    -------
    Columns
        One column per node, or one [1].

    Raises
    ------
    OutOfRange
        If a node is not on metal.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.array([0.0, 1.0])
    >>> cube = Body(edge, edge, edge, np.ones((1, 1, 1)), Material(1.0, 0.0))
    >>> node_columns(cube, np.array([1, 3]), Z, mean=True).weight.tolist()
    [0.5, 0.5]
    """
    if not body.touched.ravel()[nodes].all():
        raise OutOfRange("column", "a node off the metal", "nodes of metal are wanted")
    count = 1 if mean else len(nodes)
    column = np.zeros(len(nodes), dtype=np.int64) if mean else np.arange(len(nodes))
    return Columns(
        3 * nodes + direction, column, np.full(len(nodes), 1.0 / len(nodes) if mean else 1.0), count
    )


def face_points(
    body: Body,
    face: Face,
    x: Floats,
    y: Floats,
    *,
    direction: int = Z,
    groups: Ints | None = None,
    weights: Floats | None = None,
) -> Columns:
    """Points on a face as columns, spread bilinearly over the nodes of the brick they lie on.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm].
    face : Face
        The face they lie on [1].
    x, y : ndarray, shape (n,)
        Places [mm].
    direction : int
        X, Y or Z [1].
    groups : ndarray, shape (n,), optional
        Column of each point; by default every point is its own [1].
    weights : ndarray, shape (n,), optional
        Load of each point per unit of its column; by default 1 [1].

    Returns
    -------
    Columns
        One column per group [1].

    Raises
    ------
    OutOfRange
        If a point lies farther off the metal than the longest edge of a brick of the face.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.array([0.0, 2.0])
    >>> cube = Body(edge, edge, edge, np.ones((1, 1, 1)), Material(1.0, 0.0))
    >>> face_points(cube, Face(0, upward=True), np.array([0.5]), np.array([1.0])).weight.tolist()
    [0.375, 0.375, 0.125, 0.125]
    """
    layer = face.plane if face.upward else face.plane - 1
    i, j = _nearest_metal(body, x, y, layer)
    s = (x - body.x[i]) / (body.x[i + 1] - body.x[i])
    t = (y - body.y[j]) / (body.y[j + 1] - body.y[j])
    share = np.stack([(1 - s) * (1 - t), (1 - s) * t, s * (1 - t), s * t], axis=1)
    if weights is not None:
        share = share * weights[:, None]
    _, ny, nz = body.nodes
    corner = CORNERS[::2, :2]
    nodes = ((i[:, None] + corner[:, 0]) * ny + j[:, None] + corner[:, 1]) * nz + face.plane
    column = np.arange(len(x)) if groups is None else groups
    count = int(column.max()) + 1 if len(column) else 0
    whole = Columns((3 * nodes + direction).ravel(), np.repeat(column, 4), share.ravel(), count)
    return whole if groups is None else _summed(whole)


def _summed(columns: Columns) -> Columns:
    """Add up triplets of the same degree of freedom and column."""
    key = columns.dof * columns.count + columns.column
    keys, place = np.unique(key, return_inverse=True)
    weight = np.bincount(place, weights=columns.weight).astype(np.float64)
    return Columns(keys // columns.count, keys % columns.count, weight, columns.count)


def _nearest_metal(body: Body, x: Floats, y: Floats, layer: int) -> tuple[Ints, Ints]:
    """Brick of a layer each point lies on, or the nearest one with enough metal."""
    share = body.share[:, :, layer]
    i = np.clip(np.searchsorted(body.x, x, side="right") - 1, 0, share.shape[0] - 1)
    j = np.clip(np.searchsorted(body.y, y, side="right") - 1, 0, share.shape[1] - 1)
    off = np.flatnonzero(share[i, j] < CARRIES)
    reach = max(float(np.diff(body.x).max()), float(np.diff(body.y).max()))
    for least in (CARRIES, LEAST_SHARE):
        metal = np.argwhere(share >= least)
        if len(off) and len(metal):
            far = _distances(body, metal, x[off], y[off])
            near = far.min(axis=1) <= reach
            i[off[near]], j[off[near]] = metal[far[near].argmin(axis=1)].T
            off = off[~near]
    if len(off):
        place = f"({x[off[0]]:.1f}, {y[off[0]]:.1f}) mm lies off the metal"
        raise OutOfRange("point on a face", place, f"within {reach:.1f} mm of it")
    return i, j


def _distances(body: Body, bricks: Ints, x: Floats, y: Floats) -> Floats:
    """Distance of points from bricks as seen from above, shape (points, bricks)."""
    a, b = bricks.T
    far_x = np.maximum(0.0, np.maximum(body.x[a] - x[:, None], x[:, None] - body.x[a + 1]))
    far_y = np.maximum(0.0, np.maximum(body.y[b] - y[:, None], y[:, None] - body.y[b + 1]))
    far: Floats = np.hypot(far_x, far_y)
    return far
