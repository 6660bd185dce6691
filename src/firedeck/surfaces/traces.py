"""A trace as a tester saves it: places and heights, which must lie at equal steps."""

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.points import Array
from firedeck.surfaces.roughness import Roughness, roughness

_UNEVEN = 0.01
"""Largest difference between two steps, as a share of the step."""


def equal_step(x: Array) -> float:
    """Step of a trace whose places lie at equal distances.

    Parameters
    ----------
    x : ndarray, shape (n,)
        Places along the trace, rising [mm].

    Returns
    -------
    float
        The step [mm].

    Raises
    ------
    OutOfRange
        If there are fewer than three places, they do not rise, or two steps differ by more than 1 %.

    Source
    ------
    derived

    Examples
    --------
    >>> equal_step(np.array([0.0, 0.5, 1.0]))
    0.5
    """
    if len(x) < 3:
        raise OutOfRange("profile", f"{len(x)} places", "at least three")
    steps = np.diff(x)
    step = float(x[-1] - x[0]) / (len(x) - 1)
    uneven = np.flatnonzero(~(np.abs(steps - step) <= _UNEVEN * step))
    if not step > 0.0 or len(uneven):
        place = int(uneven[0]) if len(uneven) else 0
        found = f"a step of {steps[place]:g} mm at x {x[place]:g} mm"
        raise OutOfRange("profile", found, f"rising places at equal steps, here {step:g} mm")
    return step


def roughness_of(
    *,
    trace: tuple[Array, Array] | None = None,
    heights: Array | None = None,
    step: float | None = None,
    cutoff: float | None = None,
    sections: int = 5,
    kind: str = "gaussian",
) -> Roughness:
    """Roughness of a saved trace, or of heights typed in with their step.

    Parameters
    ----------
    trace : tuple of ndarray, optional
        Places (n,) along the trace and heights (n,) over them [mm].
    heights : ndarray, shape (n,), optional
        Heights at equal steps [mm].
    step : float, optional
        Distance between those heights [mm].
    cutoff : float, optional
        Cut-off of the filter; chosen from the trace's own Ra if left out [mm].
    sections : int
        Number of sections for Rz, Rp and Rv [count].
    kind : str
        gaussian or none [text].

    Returns
    -------
    Roughness
        The figures and their written sums [mm].

    Raises
    ------
    OutOfRange
        If neither or both are given, or the trace does not do for :func:`roughness`.

    Source
    ------
    iso-21920-2 definitions of the parameters

    Examples
    --------
    >>> round(roughness_of(heights=np.array([0.0, 0.002] * 10), step=0.1, kind="none").Ra, 6)
    0.001
    """
    if (trace is None) == (heights is None):
        found = "both" if trace is not None else "neither"
        raise OutOfRange("profile and heights", found, "a trace with places, or heights with their step")
    if trace is not None:
        if step is not None:
            raise OutOfRange("step", f"{step:g} mm beside a trace", "the trace's own places give the step")
        return roughness(trace[1], equal_step(trace[0]), cutoff, sections, kind)
    if step is None or heights is None:
        raise OutOfRange("step", "nothing", "the distance between two heights")
    return roughness(heights, step, cutoff, sections, kind)
