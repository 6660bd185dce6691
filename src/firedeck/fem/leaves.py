"""The bricks of a leaf, added into its front."""

from functools import lru_cache

import numpy as np

from firedeck.fem.brick import CORNERS, Floats, mixing, stiffness_terms
from firedeck.fem.fronts import three
from firedeck.fem.grid import Body, Ints
from firedeck.fem.nested import Piece, Tree


class Leaves:
    """Assembles the bricks of leaves."""

    def __init__(self, body: Body, tree: Tree, held: Ints) -> None:
        self._body = body
        self._tree = tree
        self._terms = stiffness_terms(body.material).reshape(6, 576)
        self._edges = tuple(np.diff(planes) for planes in (body.x, body.y, body.z))
        self._ids = np.arange(body.touched.size).reshape(body.nodes)
        self._held = np.zeros(3 * body.touched.size, dtype=bool)
        self._held[held] = True

    def add(self, A: Floats, B: Floats, C: Floats, piece: Piece) -> None:
        """Add the bricks of a leaf into its front; held movements get a stiffness of one and nothing else."""
        x0, x1, y0, y1, z0, z1 = piece.box
        nodes = self._ids[x0 : x1 + 1, y0 : y1 + 1, z0 : z1 + 1].ravel()
        K = self._stiffness(piece)
        held = self._held[(3 * nodes[:, None] + np.arange(3)).ravel()]
        if held.any():
            K[held, :] = 0.0
            K[:, held] = 0.0
            K[held, held] = 1.0
        rank = self._tree.rank[nodes]
        local = np.flatnonzero((rank >= piece.first) & (rank < piece.first + piece.own))
        rim = np.empty(0, dtype=np.int64)
        if len(piece.border):
            spot = np.minimum(np.searchsorted(piece.border, rank), len(piece.border) - 1)
            on_rim = np.flatnonzero(piece.border[spot] == rank)
            rim = on_rim[np.argsort(rank[on_rim])]
        own, far = three(local), three(rim)
        A[:] = K[np.ix_(own, own)]
        B[: len(far)] = K[np.ix_(far, own)]
        C[: len(far), : len(far)] = K[np.ix_(far, far)]

    def _stiffness(self, piece: Piece) -> Floats:
        x0, x1, y0, y1, z0, z1 = piece.box
        shape = (x1 - x0, y1 - y0, z1 - z0)
        dx, dy, dz = np.meshgrid(
            self._edges[0][x0:x1], self._edges[1][y0:y1], self._edges[2][z0:z1], indexing="ij"
        )
        share = self._body.share[x0:x1, y0:y1, z0:z1].ravel()
        weights = mixing(dx.ravel(), dy.ravel(), dz.ravel()) * share[:, None]
        count = 3 * (shape[0] + 1) * (shape[1] + 1) * (shape[2] + 1)
        flat = np.bincount(_places(shape), weights=(weights @ self._terms).ravel(), minlength=count * count)
        return flat.astype(np.float64, copy=False).reshape(count, count)


@lru_cache(maxsize=256)
def _places(shape: tuple[int, int, int]) -> Ints:
    """Where the entries of each brick's stiffness go in the dense matrix of a leaf."""
    nx, ny, nz = shape
    i, j, k = (axis.ravel()[:, None] for axis in np.meshgrid(range(nx), range(ny), range(nz), indexing="ij"))
    nodes = ((i + CORNERS[:, 0]) * (ny + 1) + j + CORNERS[:, 1]) * (nz + 1) + k + CORNERS[:, 2]
    dofs = (3 * nodes[:, :, None] + np.arange(3)).reshape(len(nodes), 24)
    count = 3 * (nx + 1) * (ny + 1) * (nz + 1)
    places: Ints = (dofs[:, :, None] * count + dofs[:, None, :]).ravel()
    return places
