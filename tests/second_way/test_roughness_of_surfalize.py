"""Roughness a second way: surfalize, a general library of surface texture, filters with scipy and shares no line with ours.

It takes the Gaussian over four widths and reflects the ends, we over one cut-off and drop the ends: on the middle of a
long trace both must agree to the tail that is cut off. Its steps are in µm. Traces are levelled first: where a whole
section lies above the line it takes the distance of its lowest place for a depth.
"""

import numpy as np
import pytest
from surfalize import Profile

from firedeck.surfaces.gaussian import mean_line
from firedeck.surfaces.roughness import roughness

NAMES = ("Ra", "Rq", "Rt", "Rsk", "Rku", "Rz", "Rp", "Rv")
STEP = 0.001


def ground(seed: int, ra: float = 0.0012, length: float = 9.6) -> np.ndarray:
    """Random heights with a short memory, as a ground face has, on a wave and a slope; invented."""
    rng = np.random.default_rng(seed)
    x = np.arange(0.0, length, STEP)
    noise = np.convolve(rng.normal(size=len(x) + 60), np.hanning(61), "valid")
    return ra * 1.25 * noise / noise.std() + 0.004 * np.sin(x) + 0.002 * x


def milled(feed: float = 0.18, height: float = 0.006) -> np.ndarray:
    """Cusps of a fly cutter; invented."""
    phase = (np.arange(0.0, 9.6, STEP) / feed) % 1.0
    return height * (2.0 * phase - 1.0) ** 2


TRACES = {**{f"ground {seed}": ground(seed) for seed in (1, 2, 3)}, "milled": milled()}


@pytest.mark.parametrize("name", TRACES)
def test_parameters_of_one_profile(name: str) -> None:
    heights = TRACES[name][:8000] - mean_line(TRACES[name][:8000], STEP, 0.8)
    ours = roughness(heights, STEP, kind="none")
    theirs = Profile(1000.0 * (heights - heights.mean()), 1000.0 * STEP)
    for which in NAMES:
        scale = 1.0 if which in ("Rsk", "Rku") else 1000.0
        assert getattr(ours, which) * scale == pytest.approx(float(getattr(theirs, which)()), rel=1e-6), which


@pytest.mark.parametrize("cutoff", [0.25, 0.8])
@pytest.mark.parametrize("name", TRACES)
def test_mean_line_of_the_gaussian_filter(name: str, cutoff: float) -> None:
    heights = TRACES[name]
    theirs = Profile(1000.0 * heights, 1000.0 * STEP).filter("lowpass", 1000.0 * cutoff)
    inside = slice(round(cutoff / STEP), -round(cutoff / STEP))
    ours = mean_line(heights, STEP, cutoff)
    apart = np.abs(1000.0 * ours - np.asarray(theirs.data).ravel())[inside].max()
    assert apart < 0.002 * 1000.0 * float(np.ptp(heights))


@pytest.mark.parametrize("name", TRACES)
def test_roughness_after_the_filter(name: str) -> None:
    heights = TRACES[name]
    ours = roughness(heights, STEP, 0.8)
    rough = Profile(1000.0 * heights, 1000.0 * STEP).filter("highpass", 800.0)
    first = (len(heights) - 4000) // 2
    middle = Profile(np.asarray(rough.data).ravel()[first : first + 4000], 1000.0 * STEP)
    for which in ("Ra", "Rq", "Rz", "Rt"):
        assert 1000.0 * getattr(ours, which) == pytest.approx(float(getattr(middle, which)()), rel=0.01), (
            which
        )
