"""The resting rule for many faces and many lines at once: the edge lies on the chord under its weight."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float32]

ROUNDS = 5
"""Rounds of the search for the chord; more change nothing that can be felt."""

TOUCHES = 0.02
"""An edge nearer than this touches [µm]."""


@dataclass(frozen=True)
class Edges:
    """How each edge lies on each face: ``height`` at the middle of the line, ``slope``, and both contacts."""

    height: Floats
    slope: Floats
    left: Floats
    right: Floats


def rest(left: Floats, right: Floats, left_at: Floats, right_at: Floats) -> Edges:
    """Find the chord of the upper hull under the weight.

    The support from the left of the weight falls and the one from the right rises with the slope of the edge;
    where both are equal the edge touches on both sides. That slope is found by Newton's rule between bounds.

    Parameters
    ----------
    left, right : ndarray, shape (m, l, n)
        Heights left and right of the weight, m places on l lines of n faces [µm].
    left_at, right_at : ndarray, shape (m, l, 1)
        Their stations from the middle of the line [mm].

    Returns
    -------
    Edges
        Height and slope (l, n), contacts (l, n) [µm].

    Valid for
    ---------
    A rigid edge that reaches over the whole line.

    Source
    ------
    derived

    Examples
    --------
    >>> at = np.array([0.0, 1.0], dtype=np.float32)[:, None, None]
    >>> crown = np.array([[-4.0, 0.0], [0.0, -1.0]], dtype=np.float32)[:, :, None, None]
    >>> edge = rest(crown[0], crown[1], at - 1.0, at + 0.5)
    >>> float(edge.left[0, 0]), float(edge.right[0, 0]), float(edge.slope[0, 0])
    (0.0, 0.5, 0.0)
    """
    slope = ((right[-1] - left[0]) / (right_at[-1] - left_at[0])).astype(np.float32)
    laid = _laid(left, right, left_at, right_at, slope)
    over = np.abs(laid[0] - laid[1]).max(axis=1)
    busy = np.flatnonzero(over > TOUCHES)
    if len(busy):
        found = _seek(left[:, busy], right[:, busy], left_at[:, busy], right_at[:, busy], slope[busy])
        for whole, part in zip((*laid, slope), found, strict=True):
            whole[busy] = part
    return Edges(np.maximum(laid[0], laid[1]), slope, laid[2], laid[3])


def _seek(
    left: Floats, right: Floats, left_at: Floats, right_at: Floats, slope: Floats
) -> tuple[Floats, ...]:
    low = np.full(slope.shape, -np.inf, dtype=np.float32)
    high = np.full(slope.shape, np.inf, dtype=np.float32)
    for _ in range(ROUNDS):
        from_left, from_right, x_left, x_right = _laid(left, right, left_at, right_at, slope)
        over = from_left - from_right
        low = np.where(over < 0, slope, low)
        high = np.where(over > 0, slope, high)
        step = slope - over / np.maximum(x_right - x_left, np.float32(1e-3))
        with np.errstate(invalid="ignore"):
            middle = 0.5 * (low + high)
        outside = ((step <= low) | (step >= high)) & np.isfinite(middle) & (over != 0)
        slope = np.where(outside, middle, step).astype(np.float32)
    return (*_laid(left, right, left_at, right_at, slope), slope)


def _laid(
    left: Floats, right: Floats, left_at: Floats, right_at: Floats, slope: Floats
) -> tuple[Floats, Floats, Floats, Floats]:
    from_left, x_left = _support(left, left_at, slope)
    from_right, x_right = _support(right, right_at, slope)
    return from_left, from_right, x_left, x_right


def _support(heights: Floats, at: Floats, slope: Floats) -> tuple[Floats, Floats]:
    over = heights - slope * at
    most = over.max(axis=0)
    return most, np.where(over >= most, at, np.float32(-1e9)).max(axis=0)
