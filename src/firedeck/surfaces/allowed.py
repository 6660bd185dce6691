"""A figure as the readings allow it: its middle and the ends of its band."""

from dataclasses import dataclass

import numpy as np

from firedeck.surfaces.points import Array

SHARE = (0.025, 0.985)
WIDENED = (0.006, 0.021)
"""What is added below and above these shares of the faces [mm], so that the band holds 95 % of faces: more
above, where a dip that no line passes is."""

WEIGHTS = {0.1: 0.3, 0.5: 0.4, 0.9: 0.3}
"""The figure told is a mean of the faces a tenth from the low end, in the middle and a tenth from the high end (a rule of
Swanson's, `memory`): faces with a dip beside the lines are few and far off, and the middle alone is too flat."""


@dataclass(frozen=True)
class Estimate:
    """What the readings allow of one figure: what is likely, and the ends of the band that holds 95 % [mm]."""

    value: float
    low: float
    high: float


def estimate(values: Array) -> Estimate:
    """Take a mean that no few faces rule and the widened band of a figure from the faces that are allowed.

    Parameters
    ----------
    values : ndarray, shape (n,)
        The figure of every face, nought or more [mm].

    Returns
    -------
    Estimate
        What is likely, and both ends [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> found = estimate(np.linspace(0.04, 0.06, 101))
    >>> round(found.value, 4), round(found.low, 4), round(found.high, 4)
    (0.05, 0.0345, 0.0807)
    """
    low, high = (float(one) for one in np.quantile(values, SHARE))
    likely = float(np.quantile(values, list(WEIGHTS)) @ list(WEIGHTS.values()))
    return Estimate(likely, max(low - WIDENED[0], 0.0), high + WIDENED[1])
