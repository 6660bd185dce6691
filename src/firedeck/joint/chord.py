"""The quick way: springs of fixed slope, one operator made once, any number of states as columns.

With v = w - w_load and fixed slopes D₀ the joint of straight springs is v = B (D₀ v - ψ) + Q r. Going round,

    v ← B (D₀ v - ψ(w_load + v)) + Q r,

shrinks the error by (I+S)⁻¹ S (I - D/D₀), S = D₀½ A D₀½, so it settles wherever every slope D lies between nought and
2 D₀ (proof: docs/method/joint.md). *Fast* takes D₀ from a state near by and knows nothing of far ones; *safe*
takes 0.55 of the steepest slope each spring can have, and settles from anywhere. Bolts held at a tension have no
slope at all; they are put in exactly, not by going round.

x = D₀ v - ψ stands still for every spring that stays on one straight piece of slope D₀, so a round costs only the
springs that do not. Few columns take leaps (leap.py), which halve the rounds.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from firedeck.errors import OutOfRange
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.laws import Floats
from firedeck.joint.leap import Bools, Leap
from firedeck.joint.springs import Ints, Springs, State

SAFE_SHARE = 0.55
"""Share of the steepest slope that the safe operator takes; a half would be just enough."""
LEAST_SHARE = 0.02
"""Share of the steepest slope that the fast operator gives to springs that are open where it is made."""

ENOUGH = 0.1
"""Share of the tolerance below which what a spring misses is left for a later round."""
LEAPERS = 64
"""Columns up to which leaps are taken: for more the rounds cost less than the leaps."""
FEW = 0.3
"""Share of all springs up to which only the rows of those that miss are multiplied."""
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
        if self.short is None:
            return (self.B if rows is None else self.B[rows].T) @ x
        part = self.short if rows is None else self.short[rows].T
        return (part @ x.astype(np.float32)).astype(np.float64)


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
    from scipy.linalg import cholesky, solve, solve_triangular

    if not (slope > 0.0).all():
        raise OutOfRange("operator", f"a slope of {slope.min():g}", "slopes above nought")
    root = np.sqrt(slope)
    HA = root[:, None] * joint.A
    C = HA * root
    C[np.diag_indices_from(C)] += 1.0
    L = cholesky(C, lower=True, overwrite_a=True, check_finite=False)
    W = solve_triangular(L, np.column_stack([HA, root[:, None] * joint.R]), lower=True, check_finite=False)
    n = len(slope)
    B = joint.A - W[:, :n].T @ W[:, :n]
    moved = joint.R - W[:, :n].T @ W[:, n:]
    Q = solve(joint.R.T @ (slope[:, None] * moved), moved.T, assume_a="sym", check_finite=False).T
    B += Q @ moved.T
    return Operator(0.5 * (B + B.T), np.ascontiguousarray(Q), slope, way)


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
    columns = start.shape[1]
    part, given = spread(case.state, case.load, columns)
    held = np.flatnonzero(part.least[:, 0] == part.most[:, 0]) + springs.points
    bolts, leap = _Held(made, held), Leap(made.slope)
    slope, scale = made.slope[:, None], springs.scale[:, None]
    w, pull = start.copy(), np.zeros_like(start)
    left, rounds, on = np.full(columns, np.inf), np.zeros(columns, dtype=np.int64), np.arange(columns)
    x = slope * (start - given.w) - springs.force(start, part)
    x[held] = -part.least[held - springs.points]
    v = bolts.follow(made.given_way(x) + made.Q @ given.r)
    for count in range(1, stop.rounds + 1):
        miss = slope * v - springs.force(given.w + v, part) - x
        miss[held] = 0.0
        missed = np.abs(miss) / scale
        residual = missed.max(axis=0)
        done = residual <= stop.tolerance
        if done.any() or count == stop.rounds:
            w[:, on], pull[:, on], left[on], rounds[on] = given.w + v, bolts.forces(v, x), residual, count
            keep = ~done
            on, v, x, miss, missed = on[keep], v[:, keep], x[:, keep], miss[:, keep], missed[:, keep]
            part, given = _columns(part, keep), Load(given.w[:, keep], given.r[:, keep])
            leap.keep(keep)
        if not len(on) or not np.isfinite(residual).all():
            break
        moved = np.flatnonzero((missed > ENOUGH * stop.tolerance).any(axis=1))
        if len(moved) > FEW * len(miss):
            v += bolts.follow(made.given_way(miss))
            x += miss
        else:
            v += bolts.follow(made.given_way(miss[moved], moved))
            x[moved] += miss[moved]
        if len(on) <= LEAPERS:
            x, v = leap.further(x, v, miss)
    return Round(w, pull, left, rounds)


class _Held:
    """Bolts held at a tension, put into a step of the operator exactly."""

    def __init__(self, made: Operator, held: Ints) -> None:
        self._held, self._slope = held, made.slope
        self._pull = made.B[:, held] * made.slope[held]
        self._inverse = np.linalg.inv(np.eye(len(held)) - self._pull[held])

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


def spread(state: State, load: Load, columns: int) -> tuple[State, Load]:
    """Give a state and a load as many columns as are asked for.

    Parameters
    ----------
    state : State
        With or without columns [mm], [N].
    load : Load
        With or without columns [mm], [N].
    columns : int
        How many [1].

    Returns
    -------
    tuple of State and Load
        Both with columns [mm], [N].

    Source
    ------
    derived
    """
    wide = State(*(_wide(part, columns) for part in _parts(state)))
    return wide, Load(_wide(load.w, columns), _wide(load.r, columns))


def _columns(state: State, keep: Bools) -> State:
    return State(*(part[:, keep] for part in _parts(state)))


def _parts(state: State) -> Sequence[Floats]:
    return state.permanent_set, state.shortening, state.least, state.most


def _wide(values: Floats, columns: int) -> Floats:
    return np.broadcast_to(values[:, None], (len(values), columns)) if values.ndim == 1 else values
