"""Nested dissection of a grid: in what order to eliminate nodes so that the least fills in.

A box of bricks is cut by the plane with the fewest nodes whose halves both keep a fair share; the plane's nodes are
eliminated after both halves. The halves are cut again, down to leaves of about two hundred nodes. Each piece of the tree has
*own* nodes, eliminated there, and *border* nodes, which it shares with the rest of the body and hands upwards.
"""

from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from firedeck.fem.brick import CORNERS
from firedeck.fem.grid import Body, Ints

LEAF = 200
"""A box with no more nodes than this is not cut further."""
FAIR = 0.3
"""Least share of a box's bricks either half must keep."""
Box = tuple[int, int, int, int, int, int]


@dataclass(frozen=True)
class Piece:
    """One piece of the tree: bricks ``box`` = (x0, x1, y0, y1, z0, z1), its two halves (or none), its nodes.

    Nodes are named by their place in the order of elimination; own ones are ``first`` to ``first + own - 1``.
    """

    box: Box
    halves: tuple[int, ...]
    first: int
    own: int
    border: Ints = field(repr=False)


@dataclass(frozen=True)
class Tree:
    """Pieces, halves before wholes, the root last.

    ``order``: grid node of each place of the order; ``rank``: place of each grid node, -1 off the metal; ``parent``: the
    piece above each, their number above the root.
    """

    pieces: tuple[Piece, ...]
    order: Ints = field(repr=False)
    rank: Ints = field(repr=False)
    parent: Ints = field(repr=False)


def dissect(body: Body, leaf: int = LEAF) -> Tree:
    """Cut a body into a tree of pieces.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm].
    leaf : int
        Most nodes of a piece that is not cut further [1].

    Returns
    -------
    Tree
        Pieces with their own and border nodes, and the order of elimination [1].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> planes = np.arange(9.0)
    >>> tree = dissect(Body(planes, planes[:3], planes[:3], np.ones((8, 2, 2)), Material(1.0, 0.3)), 60)
    >>> len(tree.order), tree.pieces[-1].own, len(tree.pieces[-1].border)
    (81, 9, 0)
    """
    boxes, halves = _cut(body, leaf)
    return _ordered(body, boxes, halves)


def _cut(body: Body, leaf: int) -> tuple[list[Box], list[tuple[int, ...]]]:
    """Boxes of bricks with their halves, halves before wholes."""
    counts = _Counts(body)
    boxes: list[Box] = []
    halves: list[tuple[int, ...]] = []

    def grow(box: Box) -> int | None:
        if counts.bricks(box) == 0:
            return None
        cut = _best_cut(box, counts, leaf)
        parts: list[int] = []
        if cut is not None:
            parts = [part for part in map(grow, _halved(box, *cut)) if part is not None]
            if len(parts) == 1:
                return parts[0]
        boxes.append(box)
        halves.append(tuple(parts))
        return len(boxes) - 1

    nx, ny, nz = body.bricks
    grow((0, nx, 0, ny, 0, nz))
    return boxes, halves


class _Counts:
    """Running sums of nodes and bricks, so that any box is counted at once."""

    def __init__(self, body: Body) -> None:
        nodes, self._bricks = _running(body.touched), _running(body.share > 0.0)
        self._turned = [
            [np.moveaxis(running, axis, 0) for axis in range(3)] for running in (nodes, self._bricks)
        ]

    def bricks(self, box: Box) -> int:
        """Bricks of metal in a box."""
        x0, x1, y0, y1, z0, z1 = box
        C = self._bricks
        upper = int(C[x1, y1, z1]) - int(C[x0, y1, z1]) - int(C[x1, y0, z1]) + int(C[x0, y0, z1])
        lower = int(C[x1, y1, z0]) - int(C[x0, y1, z0]) - int(C[x1, y0, z0]) + int(C[x0, y0, z0])
        return upper - lower

    def along(self, box: Box, axis: int) -> tuple[Ints, Ints]:
        """Nodes on each plane of a box, and bricks below each plane."""
        lows, highs = box[0::2], box[1::2]
        p, q = (other for other in range(3) if other != axis)

        def strip(running: Ints, beyond: int) -> Ints:
            part = running[lows[axis] : highs[axis] + 1 + beyond]
            a0, a1, b0, b1 = lows[p], highs[p] + beyond, lows[q], highs[q] + beyond
            summed: Ints = part[:, a1, b1] - part[:, a0, b1] - part[:, a1, b0] + part[:, a0, b0]
            return summed

        nodes, bricks = strip(self._turned[0][axis], 1), strip(self._turned[1][axis], 0)
        return nodes[1:] - nodes[:-1], bricks - bricks[0]


def _running(mask: np.ndarray) -> Ints:
    padded = np.zeros([n + 1 for n in mask.shape], dtype=np.int64)
    padded[1:, 1:, 1:] = mask
    return padded.cumsum(0).cumsum(1).cumsum(2)


def _best_cut(box: Box, counts: _Counts, leaf: int) -> tuple[int, int] | None:
    """Axis and plane of the best cut; None for a leaf."""
    edges = [box[1] - box[0], box[3] - box[2], box[5] - box[4]]
    nodes = (edges[0] + 1) * (edges[1] + 1) * (edges[2] + 1)
    if nodes <= leaf:
        return None
    if nodes <= 4 * leaf:
        axis = edges.index(max(edges))
        return axis, box[2 * axis] + edges[axis] // 2
    best: tuple[int, int, int] | None = None
    for axis in range(3):
        if edges[axis] < 2:
            continue
        planes, below = counts.along(box, axis)
        share = below[1:-1] / below[-1]
        fair = (share >= FAIR) & (share <= 1.0 - FAIR)
        if not fair.any():
            continue
        worth = np.where(fair, planes[1:-1] + np.abs(share - 0.5), np.inf)
        place = int(worth.argmin())
        if best is None or planes[place + 1] < best[0]:
            best = int(planes[place + 1]), axis, box[2 * axis] + place + 1
    if best is None:
        axis = edges.index(max(edges))
        return axis, box[2 * axis] + edges[axis] // 2
    return best[1], best[2]


def _halved(box: Box, axis: int, plane: int) -> tuple[Box, Box]:
    low, high = list(box), list(box)
    low[2 * axis + 1] = plane
    high[2 * axis] = plane
    return (low[0], low[1], low[2], low[3], low[4], low[5]), (
        high[0],
        high[1],
        high[2],
        high[3],
        high[4],
        high[5],
    )


def _ordered(body: Body, boxes: list[Box], halves: list[tuple[int, ...]]) -> Tree:
    """Give every node its place in the order, and every piece its own and border nodes.

    A node is eliminated in the smallest piece that holds all leaves touching it. Within a piece nodes come in the order of
    those leaves, last and first, so that what a half hands upwards lies together in the front above.
    """
    parent = np.full(len(boxes), len(boxes), dtype=np.int64)
    for number, parts in enumerate(halves):
        parent[list(parts)] = number
    leaf, node = _touching(body, boxes, halves)
    first_leaf, last_leaf = (np.full(body.touched.size, -1, dtype=np.int64) for _ in range(2))
    last_leaf[node] = leaf
    first_leaf[node[::-1]] = leaf[::-1]
    owner = first_leaf.copy()
    while (low := owner < last_leaf).any():
        owner[low] = parent[owner[low]]
    metal = np.flatnonzero(owner >= 0)
    order = metal[np.lexsort((first_leaf[metal], last_leaf[metal], owner[metal]))]
    rank = np.full(body.touched.size, -1, dtype=np.int64)
    rank[order] = np.arange(len(order))
    first = np.searchsorted(owner[order], np.arange(len(boxes) + 1))
    borders = handed_up(parent, leaf, rank[node], owner[node])
    pieces = tuple(
        Piece(box, parts, int(start), int(stop - start), border)
        for box, parts, start, stop, border in zip(boxes, halves, first[:-1], first[1:], borders, strict=True)
    )
    return Tree(pieces, order, rank, parent)


def _touching(body: Body, boxes: list[Box], halves: list[tuple[int, ...]]) -> tuple[Ints, Ints]:
    """Leaves and the grid nodes their metal touches, in pairs, by leaf and node."""
    leaf_of = np.zeros(body.bricks, dtype=np.int64)
    for number, (x0, x1, y0, y1, z0, z1) in enumerate(boxes):
        if not halves[number]:
            leaf_of[x0:x1, y0:y1, z0:z1] = number
    i, j, k = np.nonzero(body.share > 0.0)
    _, my, mz = body.nodes
    corner = (CORNERS[:, 0] * my + CORNERS[:, 1]) * mz + CORNERS[:, 2]
    nodes = ((i * my + j) * mz + k)[:, None] + corner
    pairs = distinct((leaf_of[i, j, k][:, None] * body.touched.size + nodes).ravel())
    return pairs // body.touched.size, pairs % body.touched.size


def distinct(keys: Ints) -> Ints:
    """Different keys, rising; sorting is quicker here than the hashing of numpy's own."""
    keys = np.sort(keys)
    return keys[np.diff(keys, prepend=-1) > 0]


def handed_up(parent: Ints, piece: Ints, item: Ints, end: Ints) -> tuple[Ints, ...]:
    """What each piece has of its own or gets from below, while items rise from piece to piece.

    Parameters
    ----------
    parent : ndarray, shape (pieces,)
        The piece above each; that of the root is the number of pieces [1].
    piece, item : ndarray, shape (n,)
        Pieces and the items they bring in [1].
    end : ndarray, shape (n,)
        The piece where each item rises no further; it is not counted there [1].

    Returns
    -------
    tuple of ndarray
        Items of each piece, rising [1].

    Source
    ------
    derived

    Examples
    --------
    >>> one, root = np.array([0, 1]), np.array([2, 2, 3])
    >>> [each.tolist() for each in handed_up(root, one, np.array([7, 5]), np.array([3, 2]))]
    [[7], [5], [7]]
    """
    count = int(item.max()) + 1 if len(item) else 1
    risen = [np.empty(0, dtype=np.int64)]
    while len(piece):
        rises = piece < end
        piece, item, end = piece[rises], item[rises], end[rises]
        risen.append(piece * count + item)
        piece = parent[piece]
    pairs = distinct(np.concatenate(risen))
    ends = np.searchsorted(pairs, count * np.arange(len(parent) + 1))
    return tuple(
        pairs[start:stop] - number * count for number, (start, stop) in enumerate(pairwise(ends.tolist()))
    )
