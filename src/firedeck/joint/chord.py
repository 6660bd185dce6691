"""The quick way: springs of fixed slope, one operator made once, any number of states as columns.

With v = w - w_load and fixed slopes D₀ the joint of straight springs is v = B (D₀ v - ψ) + Q r. Going round,

    v ← B (D₀ v - ψ(w_load + v)) + Q r,

shrinks the error by (I+S)⁻¹ S (I - D/D₀), S = D₀½ A D₀½, so it settles wherever every slope D lies between nought and
2 D₀ (proof: docs/method/joint.md). *Fast* takes D₀ from a state near by and knows nothing of far ones; *safe*
takes 0.55 of the steepest slope each spring can have, and settles from anywhere. Bolts held at a tension have no
slope at all; they are put in exactly, not by going round.

x = D₀ v - ψ stands still for every spring that stays on one straight piece of slope D₀, so a round costs only the
springs that do not. Leaps (leap.py) halve the rounds.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import DTypeLike, NDArray

from firedeck.errors import OutOfRange
from firedeck.joint.clamped import Case, ClampedJoint, columns_of, counted_in
from firedeck.joint.columns import tall
from firedeck.joint.laws import Floats
from firedeck.joint.leap import MEMORY, Leap
from firedeck.joint.springs import Ints, Springs, State

SAFE_SHARE = 0.55
"""Share of the steepest slope that the safe operator takes; a half would be just enough."""
LEAST_SHARE = 0.02
"""Share of the steepest slope that the fast operator gives to springs that are open where it is made."""

ENOUGH = 0.1
"""Share of the tolerance below which what a spring misses is left for a later round."""
MANY = 64
"""Columns from which on a shorter memory is quicker: there looking back costs as much as going on."""
MEMORY_OF_MANY = 3
"""Steps that leaps of many columns are made from."""
FEW = 0.7
"""Share of all springs up to which only the rows of those that miss are multiplied, where many columns share them."""
FEW_ALONE = 0.08
"""The same for a single column, where taking the rows out costs more than multiplying them."""
LEAVING = 0.3
"""Share of the columns that have settled at which these are taken out; until then they ride along."""
KINK = 1e-7
"""How far to either side a slope is looked at: a spring just crushed stands at a corner of its law [mm]."""


@dataclass(frozen=True)
class Stop:
    """When to stop: force left over per share [N/mm or MPa], rounds at most, fewer where another way follows."""

    tolerance: float = 1e-3
    rounds: int = 400
    quick: int = 80


STANDARD = Stop()
"""Stop at a thousandth of a newton per millimetre."""


@dataclass(frozen=True)
class Operator:
    """B (n, n) [mm/N], Q (n, k) and the slopes D₀ (n,) [N/mm] they were made with.

    ``short``: B in numbers of half the length, where a hundredth of a newton per millimetre is plenty.
    """

    B: Floats
    Q: Floats
    slope: Floats
    way: str
    short: NDArray[np.float32] | None = None

    @property
    def kind(self) -> DTypeLike:
        """Type of the numbers it works with."""
        return np.float64 if self.short is None else np.float32

    def in_short(self) -> "Operator":
        """The same operator with its products in numbers of half the length."""
        return replace(self, short=self.B.astype(np.float32))

    def given_way(self, x: Floats, rows: Ints | None = None) -> Floats:
        """Closures that offsets bring, B x.

        Parameters
        ----------
        x : ndarray, shape (n, m), or (len(rows), m)
            Offsets of all springs, or of some [N].
        rows : ndarray of int, optional
            Which springs; all if not given [1].

        Returns
        -------
        ndarray, shape (n, m)
            Closures [mm].

        Source
        ------
        derived
        """
        whole: Floats = self.B if self.short is None else self.short  # type: ignore[assignment]
        return whole @ x if rows is None else whole[rows].T @ x


@dataclass(frozen=True)
class Round:
    """Columns after going round: w (n, m) [mm], forces (n, m) [N] that balance, what they miss the laws by.

    ``residual`` per share [N/mm or MPa] and ``rounds``, both (m,).
    """

    w: Floats
    forces: Floats
    residual: Floats
    rounds: Ints


def safe_operator(joint: ClampedJoint) -> Operator:
    """Operator that settles from anywhere.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].

    Returns
    -------
    Operator
        Made with 0.55 of the steepest slope of each spring [mm/N].

    Source
    ------
    derived
    """
    return operator(joint, SAFE_SHARE * joint.springs.steepest, "safe")


def fast_operator(joint: ClampedJoint, w: Floats, state: State, aside: float = KINK) -> Operator:
    """Operator for states near a known one.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    w : ndarray, shape (n,)
        Closures of the known state [mm].
    state : State
        What the springs remember there [mm], [N].
    aside : float
        How far to either side the steeper slope is taken [mm].

    Returns
    -------
    Operator
        Made with the slopes of the known state [mm/N].

    Source
    ------
    derived
    """
    springs = joint.springs
    beside = [springs.slope(w + away, state) for away in (-aside, aside)]
    slope = np.maximum(np.maximum(*beside), LEAST_SHARE * springs.steepest)
    slope[springs.points :] = springs.stiffness
    return operator(joint, slope, "fast")


def operator(joint: ClampedJoint, slope: Floats, way: str) -> Operator:
    """Make the operator of given slopes.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    slope : ndarray, shape (n,)
        Slopes, all above nought [N/mm].
    way : str
        Name, for the record [text].

    Returns
    -------
    Operator
        B [mm/N], Q and the slopes [N/mm].

    Raises
    ------
    OutOfRange
        If a slope is not above nought.

    Source
    ------
    derived
    """
    from scipy.linalg import solve
    from scipy.linalg.lapack import dpotrf, dpotri

    if not (slope > 0.0).all():
        raise OutOfRange("operator", f"a slope of {slope.min():g}", "slopes above nought")
    root = np.sqrt(slope)
    S = joint.A * root
    S *= root[:, None]
    S[np.diag_indices_from(S)] += 1.0
    lower, _ = dpotri(dpotrf(S.T, lower=1, overwrite_a=1, clean=1)[0], lower=1, overwrite_c=1)
    inverse = lower + np.tril(lower, -1).T
    moved = inverse @ (root[:, None] * joint.R) / root[:, None]
    Q = solve(joint.R.T @ (slope[:, None] * moved), moved.T, assume_a="sym", check_finite=False).T
    B = -inverse
    B[np.diag_indices_from(B)] += 1.0
    B /= root
    B /= root[:, None]
    B += Q @ moved.T
    return Operator(B, np.ascontiguousarray(Q), slope, way)


def go_round(
    made: Operator,
    springs: Springs,
    case: Case,
    start: Floats,
    stop: Stop = STANDARD,
) -> Round:
    """Go round until every column has settled, or the rounds are up.

    Parameters
    ----------
    made : Operator
        The operator [mm/N].
    springs : Springs
        Springs of the joint [N/mm].
    case : Case
        What they remember and the loads, with or without columns; the same bolts held in every column [mm], [N].
    start : ndarray, shape (n, m)
        Closures to begin at [mm].
    stop : Stop
        When a column is left alone, and when all are [N/mm or MPa].

    Returns
    -------
    Round
        Closures, what is left over, and rounds, column by column [mm].

    Source
    ------
    derived
    """
    columns, kind = start.shape[1], made.kind
    now = counted_in(case, kind)
    pulls = tall(now.state.least, start), tall(now.state.most, start)
    held = np.flatnonzero(pulls[0][:, 0] == pulls[1][:, 0]) + springs.points
    bolts = _Held(made, held, kind)
    leap = Leap(made.slope, MEMORY if columns <= MANY else MEMORY_OF_MANY)
    slope = made.slope.astype(kind)[:, None]
    scale = (1.0 / springs.scale).astype(kind)[:, None]
    few = FEW_ALONE if columns == 1 else FEW
    w, pull = start.copy(), np.zeros_like(start)
    left, rounds, on = np.full(columns, np.inf), np.zeros(columns, dtype=np.int64), np.arange(columns)
    begin = start.astype(kind)
    x = slope * (begin - tall(now.load.w, begin)) - springs.force(begin, now.state)
    x[held] = -pulls[0][held - springs.points]
    v = bolts.follow(made.given_way(x) + made.Q.astype(kind) @ tall(now.load.r, begin))
    for count in range(1, stop.rounds + 1):
        miss = slope * v
        miss -= springs.force(v + tall(now.load.w, v), now.state)
        miss -= x
        miss[held] = 0.0
        missed = np.abs(miss)
        missed *= scale
        residual = missed.max(axis=0)
        done = residual <= stop.tolerance
        over = count == stop.rounds or not np.isfinite(residual).all()
        if over or done.mean() >= LEAVING:
            go, stay = done | over, ~(done | over)
            w[:, on[go]] = (v + tall(now.load.w, v))[:, go]
            pull[:, on[go]] = bolts.forces(v, x)[:, go]
            left[on[go]], rounds[on[go]] = residual[go], count
            if not stay.any():
                break
            on, v, x, miss, missed = on[stay], v[:, stay], x[:, stay], miss[:, stay], missed[:, stay]
            now = columns_of(now, stay)
            leap.keep(stay)
        moved = np.flatnonzero(missed.max(axis=1) > ENOUGH * stop.tolerance)
        if len(moved) > few * len(miss):
            v += bolts.follow(made.given_way(miss))
            x += miss
        else:
            v += bolts.follow(made.given_way(miss[moved], moved))
            x[moved] += miss[moved]
        x, v = leap.further(x, v, miss)
    return Round(w, pull, left, rounds)


class _Held:
    """Bolts held at a tension, put into a step of the operator exactly."""

    def __init__(self, made: Operator, held: Ints, kind: DTypeLike) -> None:
        self._held, self._slope = held, made.slope.astype(kind)
        pull = made.B[:, held] * made.slope[held]
        inverse = np.linalg.inv(np.eye(len(held)) - pull[held])
        self._pull, self._inverse = pull.astype(kind), inverse.astype(kind)

    def follow(self, v: Floats) -> Floats:
        """Closures when the held bolts give no slope, shape (n, m)."""
        if len(self._held):
            v += self._pull @ (self._inverse @ v[self._held])
        return v

    def forces(self, v: Floats, x: Floats) -> Floats:
        """Forces of the straight springs, shape (n, m)."""
        forces: Floats = self._slope[:, None] * v - x
        forces[self._held] = -x[self._held]
        return forces
