"""The Gaussian profile filter that parts waviness from roughness."""

from dataclasses import dataclass
from math import log, pi, sqrt

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.points import Array
from firedeck.trace import Step

ALPHA = sqrt(log(2.0) / pi)
"""Makes the filter pass half of a wave as long as the cut-off."""

_SOURCE = "iso-16610-21"


@dataclass(frozen=True)
class Transmission:
    """Shares, 0 to 1, of a sine wave that the mean line keeps and that the roughness keeps."""

    mean_line_share: float
    roughness_share: float
    steps: tuple[Step, ...]


def transmission(wavelength: float, cutoff: float) -> Transmission:
    """Share of a sine wave that passes the Gaussian filter.

    Parameters
    ----------
    wavelength : float
        Length of the wave [mm].
    cutoff : float
        Cut-off of the filter [mm].

    Returns
    -------
    Transmission
        Share kept by the mean line and by the roughness profile [1].

    Raises
    ------
    OutOfRange
        If a length is not positive.

    Valid for
    ---------
    The middle of a long profile, half a cut-off or more from its ends.

    Source
    ------
    iso-16610-21 transmission of the Gaussian filter

    Examples
    --------
    >>> transmission(wavelength=0.4, cutoff=0.8).mean_line_share
    0.0625
    """
    _positive("wavelength", wavelength)
    _positive("cut-off", cutoff)
    mean_line = Step.work_out(
        "Share of the wave in the mean line",
        "2 ** (-(cutoff / wavelength) ** 2)",
        {"cutoff": (cutoff, "mm"), "wavelength": (wavelength, "mm")},
        ("mean_line_share", "1"),
        _SOURCE,
    )
    roughness = Step.work_out(
        "Share of the wave in the roughness",
        "1 - mean_line_share",
        {"mean_line_share": mean_line.figure()},
        ("roughness_share", "1"),
        _SOURCE,
    )
    return Transmission(mean_line.value, roughness.value, (mean_line, roughness))


def _positive(name: str, length: float) -> None:
    if not length > 0.0:
        raise OutOfRange(name, f"{length:g} mm", "longer than nothing")


def weighting(x: Array, cutoff: float) -> Array:
    """Weighting function of the Gaussian filter.

    Parameters
    ----------
    x : ndarray, shape (n,)
        Distance from the middle of the weighting [mm].
    cutoff : float
        Cut-off [mm].

    Returns
    -------
    ndarray, shape (n,)
        Weight, of unit area [1/mm].

    Raises
    ------
    OutOfRange
        If the cut-off is not positive.

    Source
    ------
    iso-16610-21 weighting function

    Examples
    --------
    >>> weighting(np.array([0.0, 0.4]), 0.8).round(6).tolist()
    [2.661168, 0.075703]
    """
    _positive("cut-off", cutoff)
    return np.asarray(np.exp(-pi * (x / (ALPHA * cutoff)) ** 2) / (ALPHA * cutoff))


def mean_line(heights: Array, step: float, cutoff: float) -> Array:
    """Mean line of a profile by the Gaussian filter.

    Weights reach one cut-off to each side; at the ends those beyond the profile are left out and the
    rest scaled to a sum of one, so the last half cut-off at each end is not to be used.

    Parameters
    ----------
    heights : ndarray, shape (n,)
        Heights at equal steps [mm].
    step : float
        Distance between heights [mm].
    cutoff : float
        Cut-off [mm].

    Returns
    -------
    ndarray, shape (n,)
        Mean line [mm].

    Raises
    ------
    OutOfRange
        If the step is not positive or so wide that the cut-off holds fewer than eight.

    Source
    ------
    iso-16610-21 linear profile filter

    Examples
    --------
    >>> wave = np.sin(2 * np.pi * np.arange(2000) * 0.004 / 0.8)
    >>> round(float(mean_line(wave, 0.004, 0.8)[1050]), 4)
    0.5
    """
    _positive("step", step)
    _positive("cut-off", cutoff)
    if step > cutoff / 8.0:
        allowed = f"at most an eighth of the cut-off, {cutoff / 8.0:g} mm"
        raise OutOfRange("step", f"{step:g} mm", allowed)
    reach = int(cutoff / step)
    weights = weighting(step * np.arange(-reach, reach + 1, dtype=np.float64), cutoff)
    size = 1 << (len(heights) + len(weights) - 1).bit_length()
    spectrum = np.fft.rfft(weights, size)
    level = float(heights.mean())
    summed, total = (
        np.fft.irfft(np.fft.rfft(values, size) * spectrum, size)[reach : reach + len(heights)]
        for values in (heights - level, np.ones_like(heights))
    )
    return np.asarray(level + summed / total)
