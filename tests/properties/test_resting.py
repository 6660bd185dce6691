"""Rules of an edge at rest that hold for any face, as the posterior lays it."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from firedeck.surfaces.resting import rest

CALM = settings(max_examples=60, deadline=None)
PLACES = 18
AT = np.linspace(-170.0, 170.0, PLACES).astype(np.float32)
profiles = st.lists(st.integers(-150, 150), min_size=PLACES, max_size=PLACES).map(
    lambda heights: np.array(heights, dtype=np.float32)
)


def gap(heights: np.ndarray) -> np.ndarray:
    """Lay one edge with its weight in the middle; return the gap at every place [µm]."""
    half, tops, at = PLACES // 2, heights[:, None, None], AT[:, None, None]
    edge = rest(tops[:half], tops[half:], at[:half], at[half:])
    return np.asarray(edge.height[0, 0] + edge.slope[0, 0] * AT - heights)


@CALM
@given(profiles)
def test_it_lies_on_both_sides_of_its_weight_and_cuts_nowhere(heights):
    under = gap(heights)
    assert under.min() > -0.02
    assert under[: PLACES // 2].min() < 0.02
    assert under[PLACES // 2 :].min() < 0.02


@CALM
@given(profiles)
def test_mirrored(heights):
    assert gap(heights[::-1]) == pytest.approx(gap(heights)[::-1], abs=0.02)


@CALM
@given(profiles, st.integers(-500, 500), st.integers(-200, 200))
def test_tilt_and_shift(heights, shift, tilt):
    turned = heights + np.float32(shift) + np.float32(tilt / 170.0) * AT
    assert gap(turned) == pytest.approx(gap(heights), abs=0.02)


@CALM
@given(profiles, st.integers(0, PLACES - 1), st.integers(1, 100))
def test_a_place_that_is_cut_away_never_closes_there(heights, place, by):
    before = gap(heights)
    assume(before[place] > 0.02)
    lower = heights.copy()
    lower[place] -= by
    assert gap(lower) == pytest.approx(before + by * (np.arange(PLACES) == place), abs=0.02)
