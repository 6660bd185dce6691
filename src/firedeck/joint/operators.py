"""Operators of the quick way: the joint with springs of fixed slopes, solved once for any offsets of the springs.

With slopes D₀ and S = D₀½ A D₀½ the closures that offsets x and loads r bring are v = B x + Q r,

    B = D₀⁻½ (I - (I + S)⁻¹) D₀⁻½ + Q R̃ᵀ,    R̃ = D₀⁻½ (I + S)⁻¹ D₀½ R,    Q = R̃ (Rᵀ D₀ R̃)⁻¹

so one inverse, of a matrix that is at least the unit matrix, is all it takes (docs/method/joint.md).
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from firedeck.errors import OutOfRange
from firedeck.joint.clamped import ClampedJoint
from firedeck.joint.laws import Floats
from firedeck.joint.springs import Ints, State

SAFE_SHARE = 0.55
"""Share of the steepest slope that the safe operator takes; a half would be just enough."""
LEAST_SHARE = 0.02
"""Share of the steepest slope that the fast operator gives to springs that are open where it is made."""
KINK = 1e-7
"""How far to either side a slope is looked at: a spring just crushed stands at a corner of its law [mm]."""


@dataclass(frozen=True)
class Operator:
    """B (n, n) [mm/N], Q (n, k) and the slopes D₀ (n,) [N/mm] they were made with.

    ``short``: B in numbers of half the length, which are read twice as fast.
    """

    B: Floats = field(repr=False)
    Q: Floats = field(repr=False)
    slope: Floats = field(repr=False)
    way: str
    short: NDArray[np.float32] = field(repr=False)

    def roughly(self, x: Floats, rows: Ints | None = None) -> Floats:
        """Closures that offsets bring, B x, in short numbers.

        Parameters
        ----------
        x : ndarray, shape (n, m), or (len(rows), m)
            Offsets of all springs, or of some [N].
        rows : ndarray of int, optional
            Which springs; all if not given [1].

        Returns
        -------
        ndarray, shape (n, m)
            Closures, to seven digits [mm].

        Source
        ------
        derived
        """
        part = self.short if rows is None else self.short[rows].T
        found: Floats = (part @ x.astype(np.float32, copy=False)).astype(x.dtype, copy=False)
        return found


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
    return Operator(B, np.ascontiguousarray(Q), slope, way, B.astype(np.float32))
