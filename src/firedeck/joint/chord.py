"""The quick way: springs of fixed slope, one operator made once, any number of states as columns.

With v = w - w_load and fixed slopes D₀ the joint of straight springs is v = B (D₀ v - ψ) + Q r. Going round,

    v ← B (D₀ v - ψ(w_load + v)) + Q r,

shrinks the error by (I+S)⁻¹ S (I - D/D₀), S = D₀½ A D₀½, so it settles wherever every slope D lies between nought and
2 D₀ (proof: docs/method/joint.md). *Fast* takes D₀ from a state near by and knows nothing of far ones; *safe*
takes 0.55 of the steepest slope each spring can have, and settles from anywhere. Bolts held at a tension have no
slope at all; they are put in exactly, not by going round.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.laws import Floats
from firedeck.joint.springs import Ints, Springs, State

SAFE_SHARE = 0.55
"""Share of the steepest slope that the safe operator takes; a half would be just enough."""
LEAST_SHARE = 0.02
"""Share of the steepest slope that the fast operator gives to springs that are open where it is made."""

KINK = 1e-7
"""How far to either side a slope is looked at: a spring just crushed stands at a corner of its law [mm]."""


@dataclass(frozen=True)
class Stop:
    """When to stop: force left over per share [N/mm or MPa], rounds at most [1]."""

    tolerance: float = 1e-3
    rounds: int = 400


STANDARD = Stop()
"""Stop at a thousandth of a newton per millimetre."""


@dataclass(frozen=True)
class Operator:
    """B (n, n) [mm/N], Q (n, k) and the slopes D₀ (n,) [N/mm] they were made with."""

    B: Floats
    Q: Floats
    slope: Floats
    way: str


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


def fast_operator(joint: ClampedJoint, w: Floats, state: State) -> Operator:
    """Operator for states near a known one.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    w : ndarray, shape (n,)
        Closures of the known state [mm].
    state : State
        What the springs remember there [mm], [N].

    Returns
    -------
    Operator
        Made with the slopes of the known state [mm/N].

    Source
    ------
    derived
    """
    springs = joint.springs
    beside = [springs.slope(w + aside, state) for aside in (-KINK, KINK)]
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
    states, load = spread(case.state, case.load, columns)
    held = np.flatnonzero(states.least[:, 0] == states.most[:, 0]) + springs.points
    again = _Held(made, held)
    w, pull, left, rounds = (
        start.copy(),
        np.zeros_like(start),
        np.full(columns, np.inf),
        np.zeros(columns, dtype=np.int64),
    )
    on = np.arange(columns)
    part, given, v = states, load, start - load.w
    psi = springs.force(start, part)
    for count in range(1, stop.rounds + 1):
        x = made.slope[:, None] * v - psi
        v = again.closures(x, given.r, part.least[held - springs.points])
        psi = springs.force(given.w + v, part)
        forces = made.slope[:, None] * v - x
        forces[held] = psi[held]
        miss = psi - forces
        residual = np.abs(miss / springs.scale[:, None]).max(axis=0)
        done = residual <= stop.tolerance
        if done.any() or count == stop.rounds:
            keep = ~done
            w[:, on], pull[:, on], left[on], rounds[on] = given.w + v, forces, residual, count
            on, v, psi = on[keep], v[:, keep], psi[:, keep]
            part, given = _columns(part, keep), Load(given.w[:, keep], given.r[:, keep])
        if not len(on) or not np.isfinite(residual).all():
            break
    return Round(w, pull, left, rounds)


class _Held:
    """One step of the operator, bolts held at a tension put in exactly."""

    def __init__(self, made: Operator, held: Ints) -> None:
        self._made, self._held = made, held
        d = made.slope[held]
        self._pull = made.B[:, held] * d
        self._inverse = np.linalg.inv(np.eye(len(held)) - self._pull[held]) if len(held) else None

    def closures(self, x: Floats, r: Floats, tension: Floats) -> Floats:
        """Closures of the joint of straight springs, shape (n, m)."""
        made, held = self._made, self._held
        if self._inverse is None:
            plain: Floats = made.B @ x + made.Q @ r
            return plain
        x = x.copy()
        x[held] = -tension
        free = made.B @ x + made.Q @ r
        free += self._pull @ (self._inverse @ free[held])
        return free


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


def _columns(state: State, keep: Floats | Ints) -> State:
    return State(*(part[:, keep] for part in _parts(state)))


def _parts(state: State) -> Sequence[Floats]:
    return state.permanent_set, state.shortening, state.least, state.most


def _wide(values: Floats, columns: int) -> Floats:
    return np.broadcast_to(values[:, None], (len(values), columns)) if values.ndim == 1 else values
