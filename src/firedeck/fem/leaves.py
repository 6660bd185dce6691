"""The bricks of a leaf, added into its front."""

import numpy as np

from firedeck.fem.brick import CORNERS, Floats, mixing, stiffness_terms
from firedeck.fem.grid import Body, Ints
from firedeck.fem.nested import Piece, Tree

ROW, COLUMN = np.tril_indices(24)
"""Entries of a brick's stiffness that are added; the others are the same turned over."""


class Leaves:
    """Assembles the bricks of leaves."""

    def __init__(self, body: Body, tree: Tree, held: Ints) -> None:
        self._body = body
        self._rank = tree.rank.reshape(body.nodes)
        self._terms = stiffness_terms(body.material)[:, ROW, COLUMN]
        self._edges = tuple(np.diff(planes) for planes in (body.x, body.y, body.z))
        self._held = np.zeros(3 * len(tree.order), dtype=bool)
        places = 3 * tree.rank[held // 3] + held % 3
        self._held[places[places >= 0]] = True

    def stiffness(self, piece: Piece) -> Floats:
        """Stiffness of a leaf over its own nodes, then its border, three movements each; the lower triangle only.

        Held movements get a stiffness of one and nothing else.
        """
        nodes = np.concatenate([np.arange(piece.first, piece.first + piece.own), piece.border])
        x0, x1, y0, y1, z0, z1 = piece.box
        i, j, k = np.nonzero(self._body.share[x0:x1, y0:y1, z0:z1])
        i, j, k = i + x0, j + y0, k + z0
        ranks = self._rank[tuple(axis[:, None] + CORNERS[:, way] for way, axis in enumerate((i, j, k)))]
        dofs = (3 * np.searchsorted(nodes, ranks)[:, :, None] + np.arange(3)).reshape(-1, 24)
        one, other = dofs[:, ROW], dofs[:, COLUMN]
        count = 3 * len(nodes)
        places = np.maximum(one, other) + count * np.minimum(one, other)
        x, y, z = self._edges
        weights = mixing(x[i], y[j], z[k]) * self._body.share[i, j, k][:, None]
        entries = np.bincount(places.ravel(), (weights @ self._terms).ravel(), count * count)
        K: Floats = entries.astype(np.float64, copy=False).reshape((count, count), order="F")
        held = np.flatnonzero(self._held[(3 * nodes[:, None] + np.arange(3)).ravel()])
        K[held, :] = 0.0
        K[:, held] = 0.0
        K[held, held] = 1.0
        return K
