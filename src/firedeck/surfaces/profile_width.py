"""Mean width of the crests and valleys of a roughness profile, RSm."""

import numpy as np

from firedeck.surfaces.points import Array
from firedeck.trace import Step

COUNTS = 0.1
"""A crest or valley counts if it reaches this share of Rz beyond the mean line."""


def width_step(profile: Array, step: float, height: float) -> Step | None:
    """Mean width of a crest together with its valley.

    A crest begins where the profile last rose through its mean line before reaching a tenth of Rz above it, after having
    been a tenth of Rz below; what stays nearer to the line is no crest.

    Parameters
    ----------
    profile : ndarray, shape (n,)
        Heights over the mean line at equal steps [mm].
    step : float
        Distance between heights [mm].
    height : float
        Rz of the profile [mm].

    Returns
    -------
    Step or None
        RSm as a written sum; None where fewer than two crests begin [mm].

    Source
    ------
    iso-21920-2 RSm, with the height discrimination of iso-4287

    Examples
    --------
    >>> wave = np.sin(2 * np.pi * (np.arange(1000) + 0.5) / 100)
    >>> round(width_step(wave, 0.01, 2.0).value, 9)
    1.0
    """
    begins = _begins(profile, COUNTS * height)
    if len(begins) < 2:
        return None
    figures = {
        "last_begins": (float(begins[-1]) * step, "mm"),
        "first_begins": (float(begins[0]) * step, "mm"),
        "crests": (float(len(begins) - 1), "1"),
    }
    return Step.work_out(
        "Mean width of a crest with its valley",
        "(last_begins - first_begins) / crests",
        figures,
        ("RSm", "mm"),
        "iso-21920-2",
    )


def _begins(profile: Array, reach: float) -> list[float]:
    """Places, in steps, where crests that count begin: the last rise through the mean line before each."""
    counts = np.flatnonzero(np.abs(profile) >= reach)
    above = profile[counts] > 0.0
    rises = counts[1:][above[1:] & ~above[:-1]]
    found = []
    for rise in rises:
        below = int(np.flatnonzero(profile[:rise] < 0.0)[-1])
        low, high = profile[below], profile[below + 1]
        found.append(below + float(-low / (high - low)))
    return found
