"""The judge: semismooth Newton on the compliance form, with a line search that cannot be fooled.

The equilibrium is the least point of a convex function of (z, q), z standing for the forces:

    E = ½ zᵀ A z + Φ(w_load + R q - A z) - rᵀ q,      Φ' = ψ

Each round replaces ψ by its tangent, solves that exactly, and walks towards it as far as E falls. A is never
inverted: points that share a cell make it singular. Derivation: docs/method/joint.md.
"""

from dataclasses import dataclass

import numpy as np

from firedeck.errors import DidNotConverge
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.laws import Floats

MOST_ROUNDS = 60
TOLERANCE = 1e-9
"""Left-over force, as a share of the largest one, at which the judge is content."""


@dataclass(frozen=True)
class Balance:
    """A joint at rest: closures w [mm], forces [N], rigid motion q [mm and rad].

    ``forces`` balance the loads and fit the elastic bodies; ``residual`` is the largest force by which they
    still miss the laws, per share [N/mm or MPa]; ``rounds`` how many it took.
    """

    w: Floats
    forces: Floats
    q: Floats
    residual: float
    rounds: int


def settle(joint: ClampedJoint, case: Case, start: Floats | None = None) -> Balance:
    """Find the equilibrium of a joint by Newton's way.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    case : Case
        What springs remember, how bolts are held, loads of shapes (n,) and (k,) [mm], [N].
    start : ndarray, shape (n,), optional
        Closures to begin at [mm].

    Returns
    -------
    Balance
        Closures and forces [mm], [N].

    Raises
    ------
    DidNotConverge
        If the loads part the joint, or it does not settle.

    Valid for
    ---------
    Laws that never fall; small movements.

    Source
    ------
    derived
    """
    springs, state, load = joint.springs, case.state, case.load
    w = load.w if start is None else start
    slope = 0.5 * springs.steepest if start is None else _held_down(joint, springs.slope(w, state))
    psi = springs.force(w, state)
    aim, q = linear_joint(joint, load, slope, slope * (w - load.w) - psi)
    w, z = aim, psi + slope * (aim - w)
    left = np.inf
    for rounds in range(1, MOST_ROUNDS + 1):
        psi = springs.force(w, state)
        left = float(np.abs((psi - z) / springs.scale).max())
        if left <= TOLERANCE * max(float(np.abs(z / springs.scale).max()), 1.0):
            return Balance(w, psi, q, left, rounds)
        slope = _held_down(joint, springs.slope(w, state))
        aim, aim_q = linear_joint(joint, load, slope, slope * (w - load.w) - psi)
        dw, dz, dq = aim - w, psi + slope * (aim - w) - z, aim_q - q
        step = _step(joint, case, (w, q), (dw, dz, dq))
        w, z, q = w + step * dw, z + step * dz, q + step * dq
    raise DidNotConverge("the clamped joint", MOST_ROUNDS, left)


def linear_joint(joint: ClampedJoint, load: Load, slope: Floats, x: Floats) -> tuple[Floats, Floats]:
    """Solve the joint with straight springs, force = slope * (w - w_load) - x.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    load : Load
        Loads [mm], [N].
    slope : ndarray, shape (n,)
        Slopes [N/mm].
    x : ndarray, shape (n,)
        Offsets of the springs [N].

    Returns
    -------
    tuple of ndarray
        Closures (n,) [mm] and rigid motion (k,) [mm and rad].

    Source
    ------
    derived
    """
    from scipy.linalg import cho_factor, cho_solve, solve

    on = np.flatnonzero(slope > 0.0)
    root = np.sqrt(slope[on])
    A_on = joint.A[:, on]
    C = A_on[on] * root[:, None] * root
    C[np.diag_indices_from(C)] += 1.0
    factor = cho_factor(C, lower=True, overwrite_a=True, check_finite=False)
    both = np.column_stack([joint.A @ x, joint.R])
    both -= (A_on * root) @ cho_solve(factor, root[:, None] * both[on], check_finite=False)
    given, moved = both[:, 0], both[:, 1:]
    hold = joint.R.T @ (slope[:, None] * moved)
    q = solve(hold, load.r + moved.T @ x, assume_a="sym", check_finite=False)
    return load.w + given + moved @ q, q


def _held_down(joint: ClampedJoint, slope: Floats) -> Floats:
    """Give every spring a trace of slope where the springs alone would let the head move freely."""
    hold = joint.R.T @ (slope[:, None] * joint.R)
    full = joint.R.T @ (joint.springs.steepest[:, None] * joint.R)
    scale = np.sqrt(np.diag(full))
    least = float(np.linalg.eigvalsh(hold / scale / scale[:, None])[0])
    if least > 1e-9:
        return slope
    return np.maximum(slope, 1e-6 * joint.springs.steepest)


def _step(
    joint: ClampedJoint, case: Case, here: tuple[Floats, Floats], way: tuple[Floats, Floats, Floats]
) -> float:
    """How far to walk: to the lowest point of E along the way, or all of it when that is nearly as good."""
    (w, q), (dw, dz, dq), load = here, way, case.load
    Az, dAz = load.w + joint.R @ q - w, joint.R @ dq - dw
    still, bend, pull = float(dz @ Az), float(dz @ dAz), float(load.r @ dq)

    def fall(t: float) -> float:
        return still + t * bend - pull + float(joint.springs.force(w + t * dw, case.state) @ dw)

    at_start, at_end = fall(0.0), fall(1.0)
    if at_start >= 0.0 or at_end <= 0.5 * abs(at_start):
        return 1.0
    low, high = 0.0, 1.0
    for _ in range(30):
        middle = 0.5 * (low + high)
        slope = fall(middle)
        if abs(slope) <= 1e-3 * abs(at_start):
            return middle
        low, high = (middle, high) if slope < 0.0 else (low, middle)
    return 0.5 * (low + high)
