"""Dense fronts: what is left of a piece when its own nodes are gone, and how halves are added together."""

from dataclasses import dataclass, field

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.fem.brick import Floats
from firedeck.fem.grid import Ints
from firedeck.fem.nested import Piece

Run = tuple[int, int, int]
ROUNDING = 1e-12
"""A pivot that has lost all but this share of its stiffness is a free motion, not a stiff part."""


@dataclass(frozen=True)
class Front:
    """What is left of a piece: ``rest`` on its ``border`` nodes (three movements each), then its ``columns``.

    Only the lower triangle of ``rest`` is filled.
    """

    border: Ints = field(repr=False)
    columns: Ints = field(repr=False)
    rest: Floats = field(repr=False)


def eliminated(A: Floats, B: Floats) -> Floats:
    """Return -B A^-1 B^T, the lower triangle only; A and B are used up."""
    from scipy.linalg.blas import dsyrk, dtrsm
    from scipy.linalg.lapack import dpotrf

    rest = np.empty((len(B), len(B)), order="F")
    if not A.size:
        rest[:] = 0.0
        return rest
    before = A.diagonal().copy()
    L, fault = dpotrf(A, lower=1, overwrite_a=1, clean=0)
    if fault or (L.diagonal() ** 2 < ROUNDING * before).any():
        allowed = "every part must hang on the rest, and the whole must be held"
        raise OutOfRange("body", "a loose part without stiffness", allowed)
    if B.size:
        B = dtrsm(1.0, L, B, side=1, lower=1, trans_a=1, overwrite_b=1)
        rest = dsyrk(-1.0, B, beta=0.0, c=rest, lower=1, overwrite_c=1)
    return rest


@dataclass(frozen=True)
class Fit:
    """Where a half lies in the front above it: ``inner`` rows among the nodes eliminated there, ``outer`` among the rest."""

    rest: Floats = field(repr=False)
    cut: int
    inner: list[Run]
    outer: list[Run]

    def add_inner(self, A: Floats, B: Floats) -> None:
        """Add what touches the nodes that are eliminated next."""
        _add_lower(A, self.rest[: self.cut, : self.cut], self.inner)
        _add_block(B, self.rest[self.cut :, : self.cut], self.outer, self.inner)

    def add_outer(self, rest: Floats) -> None:
        """Add what touches only the nodes and columns that stay."""
        _add_lower(rest, self.rest[self.cut :, self.cut :], self.outer)


def fitted(piece: Piece, columns: Ints, half: Front) -> Fit:
    """Find the place of a half in the front above it."""
    mine = int(np.searchsorted(half.border, piece.first + piece.own))
    inner = _runs(half.border[:mine] - piece.first, 3)
    border = _runs(np.searchsorted(piece.border, half.border[mine:]), 3)
    riding = _runs(np.searchsorted(columns, half.columns), 1)
    far, below = 3 * len(piece.border), 3 * (len(half.border) - mine)
    beyond = [(far + to, below + start, below + stop) for to, start, stop in riding]
    return Fit(half.rest, 3 * mine, inner, border + beyond)


def _runs(places: Ints, each: int) -> list[Run]:
    """Unbroken runs of rising places with so many rows each: first row there, first row here, end of the rows here."""
    if not len(places):
        return []
    breaks = np.flatnonzero(places[1:] - places[:-1] != 1) + 1
    starts = [0, *breaks.tolist()]
    stops = [*breaks.tolist(), len(places)]
    rows = places[starts].tolist()
    return [
        (each * row, each * start, each * stop) for row, start, stop in zip(rows, starts, stops, strict=True)
    ]


def _add_block(target: Floats, source: Floats, rows: list[Run], columns: list[Run]) -> None:
    for to, start, stop in columns:
        strip, part = target[:, to : to + stop - start], source[:, start:stop]
        for row, first, last in rows:
            strip[row : row + last - first] += part[first:last]


def _add_lower(target: Floats, source: Floats, runs: list[Run]) -> None:
    """Add the lower triangle of a symmetric block; the runs rise, so it stays a lower triangle."""
    for number, (to, start, stop) in enumerate(runs):
        strip, part = target[:, to : to + stop - start], source[:, start:stop]
        for row, first, last in runs[number:]:
            strip[row : row + last - first] += part[first:last]
