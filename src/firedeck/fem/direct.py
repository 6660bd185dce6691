"""The plain way: the whole stiffness as a sparse matrix, solved at once. Slow; the check of the quick way."""

from typing import TYPE_CHECKING

import numpy as np

from firedeck.fem.brick import CORNERS, Floats, mixing, stiffness_terms
from firedeck.fem.columns import Columns
from firedeck.fem.grid import Body, Ints

if TYPE_CHECKING:
    from scipy.sparse import csr_array


def stiffness_matrix(body: Body) -> "csr_array":
    """Whole stiffness of a body, straight into rows from the stencil of each node.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm], [MPa].

    Returns
    -------
    csr_array, shape (3 n, 3 n)
        Stiffness over the n grid nodes that belong to metal, in grid order [N/mm].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.array([0.0, 1.0])
    >>> stiffness_matrix(Body(edge, edge, edge, np.ones((1, 1, 1)), Material(1.0, 0.0))).shape
    (24, 24)
    """
    from scipy.sparse import csr_array

    used = np.flatnonzero(body.touched)
    number = np.full(body.touched.size, -1, dtype=np.int64)
    number[used] = np.arange(len(used))
    blocks = _stencils(body)[used]
    neighbour = _neighbours(body)[used]
    there = neighbour >= 0
    there[there] &= number[neighbour[there]] >= 0
    node, spot = np.nonzero(there)
    data = blocks[node, spot]
    columns = 3 * number[neighbour[node, spot]][:, None] + np.arange(3)
    ends = np.concatenate([[0], np.cumsum(np.repeat(3 * there.sum(axis=1), 3))])
    row_of = 3 * node[:, None] + np.arange(3)
    order = np.argsort(row_of.ravel(), kind="stable")
    values = data.reshape(-1, 3)[order]
    places = np.repeat(columns, 3, axis=0)[order]
    return csr_array((values.ravel(), places.ravel(), ends), shape=(3 * len(used), 3 * len(used)))


def _stencils(body: Body) -> Floats:
    """Stiffness between every node and its 27 neighbours, shape (nodes, 27, 3, 3)."""
    nx, ny, nz = body.bricks
    terms = stiffness_terms(body.material).reshape(6, 8, 3, 8, 3)
    dx, dy, dz = np.meshgrid(np.diff(body.x), np.diff(body.y), np.diff(body.z), indexing="ij")
    weights = mixing(dx.ravel(), dy.ravel(), dz.ravel()) * body.share.reshape(-1, 1)
    found = np.zeros((*body.nodes, 27, 3, 3))
    for a, (i, j, k) in enumerate(CORNERS):
        for b, other in enumerate(CORNERS):
            di, dj, dk = other - (i, j, k) + 1
            block = (weights @ terms[:, a, :, b, :].reshape(6, 9)).reshape(nx, ny, nz, 3, 3)
            found[i : nx + i, j : ny + j, k : nz + k, 9 * di + 3 * dj + dk] += block
    return found.reshape(-1, 27, 3, 3)


def _neighbours(body: Body) -> Ints:
    """Grid node of each of the 27 neighbours, -1 outside the grid, shape (nodes, 27)."""
    ids = np.full([n + 2 for n in body.nodes], -1, dtype=np.int64)
    mx, my, mz = body.nodes
    ids[1:-1, 1:-1, 1:-1] = np.arange(mx * my * mz).reshape(body.nodes)
    spots = [(i, j, k) for i in range(3) for j in range(3) for k in range(3)]
    return np.stack([ids[i : mx + i, j : my + j, k : mz + k].ravel() for i, j, k in spots], axis=1)


def solve(body: Body, columns: Columns, held: Ints) -> Floats:
    """Movements of the whole body under every column, solved at once.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm], [MPa].
    columns : Columns
        m loads [1].
    held : ndarray, shape (h,)
        Degrees of freedom kept at nought, 3 * grid node + direction [1].

    Returns
    -------
    ndarray, shape (3 * grid nodes, m)
        Movements, nought where there is no metal [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> from firedeck.fem.columns import node_columns
    >>> edge = np.array([0.0, 1.0])
    >>> cube = Body(edge, edge, edge, np.ones((1, 1, 1)), Material(1000.0, 0.0))
    >>> top = np.array([1, 3, 5, 7])
    >>> foot = np.sort(np.concatenate([3 * (top - 1) + way for way in range(3)]))
    >>> round(float(solve(cube, node_columns(cube, top, 2, mean=True), foot)[5, 0]), 9)
    0.001
    """
    from scipy.sparse.linalg import spsolve

    whole = 3 * body.touched.size
    metal = np.repeat(body.touched.ravel(), 3)
    place = np.cumsum(metal) - 1
    free = metal.copy()
    free[held] = False
    K = stiffness_matrix(body)[place[free]][:, place[free]].tocsc()
    F = dense(columns, whole)
    moved = np.zeros((whole, columns.count))
    moved[free] = spsolve(K, F[free]).reshape(-1, columns.count)
    return moved


def dense(columns: Columns, dofs: int) -> Floats:
    """Columns as a full matrix.

    Parameters
    ----------
    columns : Columns
        m sparse columns [1].
    dofs : int
        Degrees of freedom of the grid [1].

    Returns
    -------
    ndarray, shape (dofs, m)
        The same weights [1].

    Source
    ------
    derived

    Examples
    --------
    >>> dense(Columns(np.array([1]), np.array([0]), np.array([2.0]), 1), 3).ravel().tolist()
    [0.0, 2.0, 0.0]
    """
    F = np.zeros((dofs, columns.count))
    np.add.at(F, (columns.dof, columns.column), columns.weight)
    return F
