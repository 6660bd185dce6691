"""Condensation of a body to its load columns: G = F^T K^-1 F, without ever keeping a factor.

G is minus the Schur complement of [[K, F], [F^T, 0]] after K is eliminated. The columns of F ride along as border
unknowns that are never eliminated: a column joins a front where its first loaded node is eliminated and moves up with
it. Fronts are dense and go through Cholesky, one triangular solve and one symmetric product each; what is left of a
front is added into the front above and forgotten.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from firedeck.fem.brick import Floats
from firedeck.fem.columns import Columns
from firedeck.fem.fronts import Front, eliminated, fitted
from firedeck.fem.grid import Body, Ints
from firedeck.fem.leaves import Leaves
from firedeck.fem.nested import LEAF, Piece, Tree, dissect, distinct, handed_up

MOVING, BEGINNING = 50.0, 5e6
"""Multiplications that take as long as putting one entry of a front in its place, and as beginning a front; measured."""


@dataclass(frozen=True)
class Plan:
    """A body ready to be condensed: its tree, how many columns, their loads by place in the order, and what is held."""

    body: Body = field(repr=False)
    tree: Tree = field(repr=False)
    columns: int
    held: Ints = field(repr=False)
    loads: "_Loads" = field(repr=False)
    riding: tuple[Ints, ...] = field(repr=False)

    @cached_property
    def leaves(self) -> Leaves:
        """What assembles its leaves."""
        return Leaves(self.body, self.tree, self.held)


@dataclass(frozen=True)
class _Loads:
    """Entries of F sorted by place in the order of elimination."""

    node: Ints
    direction: Ints
    column: Ints
    weight: Floats

    def within(self, piece: Piece) -> slice:
        """Entries on the own nodes of a piece."""
        start, stop = np.searchsorted(self.node, (piece.first, piece.first + piece.own))
        return slice(int(start), int(stop))


def plan(body: Body, columns: Columns, held: Ints, leaf: int = LEAF) -> Plan:
    """Order the elimination of a body.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm], [MPa].
    columns : Columns
        Loads that are also observations [1].
    held : ndarray, shape (h,)
        Degrees of freedom kept at nought, 3 * grid node + direction [1].
    leaf : int
        Most nodes of a piece that is not cut further [1].

    Returns
    -------
    Plan
        What :func:`condense` and :func:`condense_piece` work on [1].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.columns import node_columns
    >>> planes = np.array([0.0, 1.0, 2.0])
    >>> from firedeck.fem.brick import Material
    >>> block = Body(planes, planes, planes, np.ones((2, 2, 2)), Material(1000.0, 0.3))
    >>> len(plan(block, node_columns(block, np.array([26]), 2), np.array([0])).tree.order)
    27
    """
    tree = dissect(body, leaf)
    rank = tree.rank[columns.dof // 3]
    loose = (rank >= 0) & ~np.isin(columns.dof, held)
    order = np.argsort(rank[loose], kind="stable")
    loads = _Loads(
        rank[loose][order],
        columns.dof[loose][order] % 3,
        columns.column[loose][order],
        columns.weight[loose][order],
    )
    return Plan(body, tree, columns.count, held, loads, _riding(tree, loads))


def condense(body: Body, columns: Columns, held: Ints) -> Floats:
    """Movement of every column per unit load of every column.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm], [MPa].
    columns : Columns
        m loads that are also observations [1].
    held : ndarray, shape (h,)
        Degrees of freedom kept at nought, 3 * grid node + direction [1].

    Returns
    -------
    ndarray, shape (m, m)
        G = F^T K^-1 F, symmetric [mm/N] for columns that are unit forces.

    Raises
    ------
    OutOfRange
        If a piece of the body is loose, so that it has no stiffness.

    Source
    ------
    derived

    Examples
    --------
    A bar 2 mm long, 1 mm by 1 mm, of 1000 MPa, pulled by 1 N and free to narrow, stretches 0.002 mm:

    >>> from firedeck.fem.brick import Material
    >>> from firedeck.fem.columns import node_columns
    >>> one, long = np.array([0.0, 1.0]), np.array([0.0, 1.0, 2.0])
    >>> bar = Body(one, one, long, np.ones((1, 1, 2)), Material(1000.0, 0.0))
    >>> end = np.flatnonzero(bar.places()[:, 2] == 2.0)
    >>> foot = np.flatnonzero(bar.places()[:, 2] == 0.0)
    >>> held = np.sort(np.concatenate([3 * foot, 3 * foot + 1, 3 * foot + 2]))
    >>> round(float(condense(bar, node_columns(bar, end, 2, mean=True), held)[0, 0]), 9)
    0.002
    """
    return finish(plan(body, columns, held), {})


def finish(whole: Plan, ready: Mapping[int, Front]) -> Floats:
    """Condense what is left of a body, some of whose pieces are already done.

    Parameters
    ----------
    whole : Plan
        The body [1].
    ready : mapping of int to Front
        Pieces already condensed by :func:`condense_piece`, by their number [N/mm].

    Returns
    -------
    ndarray, shape (m, m)
        G = F^T K^-1 F [mm/N].

    Source
    ------
    derived
    """
    root = condense_piece(whole, len(whole.tree.pieces) - 1, ready)
    lower = np.tril(root.rest)
    G = np.zeros((whole.columns, whole.columns))
    G[np.ix_(root.columns, root.columns)] = -(lower + np.tril(lower, -1).T)
    return G


def condense_piece(whole: Plan, number: int, ready: Mapping[int, Front] | None = None) -> Front:
    """Eliminate everything inside one piece of the tree.

    Parameters
    ----------
    whole : Plan
        The body [1].
    number : int
        Number of the piece; the last is the whole body [1].
    ready : mapping of int to Front, optional
        Pieces below it that are already done [N/mm].

    Returns
    -------
    Front
        What is left on its border nodes and its columns [N/mm].

    Raises
    ------
    OutOfRange
        If a part of the body is loose.

    Source
    ------
    derived
    """
    done = dict(ready or {})
    with np.errstate(
        invalid="ignore", over="ignore"
    ):  # above the diagonal of a front lies whatever was there
        for this in below(whole.tree, number, done):
            halves = [done.pop(part) for part in whole.tree.pieces[this].halves]
            done[this] = _eliminate(whole, this, halves)
    return done[number]


def below(tree: Tree, number: int, ready: Mapping[int, Front]) -> Iterator[int]:
    """Pieces to do for one piece, in order.

    Parameters
    ----------
    tree : Tree
        The cuts of the body [1].
    number : int
        Number of the piece [1].
    ready : mapping of int to Front
        Pieces that need not be done again [N/mm].

    Returns
    -------
    iterator of int
        Numbers, halves before wholes [1].

    Source
    ------
    derived
    """
    if number in ready:
        return
    for part in tree.pieces[number].halves:
        yield from below(tree, part, ready)
    yield number


def work(whole: Plan) -> Floats:
    """Work each piece costs with everything below it, for sharing a body out among processes.

    Parameters
    ----------
    whole : Plan
        The body [1].

    Returns
    -------
    ndarray, shape (pieces,)
        Multiplications, each with its addition, and all else counted as such by the time it takes [1].

    Source
    ------
    derived
    """
    total = np.zeros(len(whole.tree.pieces))
    for number, (piece, riding) in enumerate(zip(whole.tree.pieces, whole.riding, strict=True)):
        own, far = 3.0 * piece.own, 3.0 * len(piece.border) + len(riding)
        sums = own**3 / 6 + own**2 * far / 2 + own * far**2 / 2
        alone = sums + MOVING * (own + far) ** 2 + BEGINNING
        total[number] = alone + sum(total[half] for half in piece.halves)
    return total


def _eliminate(whole: Plan, number: int, halves: list[Front]) -> Front:
    """Assemble one front and take its own nodes out."""
    piece, columns = whole.tree.pieces[number], whole.riding[number]
    own, far = 3 * piece.own, 3 * len(piece.border)
    B = np.zeros((far + len(columns), own), order="F")
    if halves:
        A = np.zeros((own, own), order="F")
        fits = [fitted(piece, columns, half) for half in halves]
        for fit in fits:
            fit.add_inner(A, B)
    else:
        K = whole.leaves.stiffness(piece)
        A = np.asfortranarray(K[:own, :own])
        B[:far] = K[own:, :own]
    entries = whole.loads.within(piece)
    rows = far + np.searchsorted(columns, whole.loads.column[entries])
    places = 3 * (whole.loads.node[entries] - piece.first) + whole.loads.direction[entries]
    np.add.at(B, (rows, places), whole.loads.weight[entries])
    rest = eliminated(A, B)
    if halves:
        for fit in fits:
            fit.add_outer(rest)
    else:
        rest[:far, :far] += K[own:, own:]
    return Front(piece.border, columns, rest)


def _riding(tree: Tree, loads: _Loads) -> tuple[Ints, ...]:
    """Columns that ride along in each piece, rising: all that load a node in it or below it."""
    first = np.array([piece.first for piece in tree.pieces], dtype=np.int64)
    owner = np.searchsorted(first, loads.node, side="right") - 1
    every = int(loads.column.max()) + 1 if len(loads.column) else 1
    pairs = distinct(owner * every + loads.column)
    end = np.full(len(pairs), len(tree.pieces), dtype=np.int64)
    return handed_up(tree.parent, pairs // every, pairs % every, end)
