"""Somebody's own curve: noise ironed out and shown, a falling curve refused."""

from dataclasses import replace

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.joint.law_fitting import Measured, fitted, never_falling
from firedeck.joint.laws import Per

CLEAN = Measured(
    "mine", Per.LINE, (0.0, 0.1, 0.2, 0.3), (0.0, 40.0, 90.0, 160.0), 4000.0, 900.0, "generic-ours"
)


def test_a_clean_curve_is_left_as_it_is():
    found = fitted(CLEAN)
    assert found.law.load == CLEAN.load
    assert found.moved == (0.0, 0.0, 0.0, 0.0)
    assert found.steps[0].value == 0.0


def test_noise_is_ironed_out_and_shown():
    found = fitted(replace(CLEAN, load=(0.0, 42.0, 40.0, 160.0)))
    assert found.law.load == (0.0, 41.0, 41.0, 160.0)
    assert found.moved == (0.0, -1.0, 1.0, 0.0)
    assert found.steps[0].value == pytest.approx(1.0 / 160.0)


def test_a_curve_that_falls_is_refused():
    with pytest.raises(OutOfRange, match="loads that fall"):
        fitted(replace(CLEAN, load=(0.0, 120.0, 60.0, 160.0)))


def test_nothing_is_read_beyond_the_last_point_without_a_slope():
    with pytest.raises(OutOfRange, match="no last slope"):
        fitted(replace(CLEAN, last_slope=None))


def test_a_curve_that_begins_loaded_gets_the_point_where_it_began():
    found = fitted(replace(CLEAN, load=(20.0, 40.0, 90.0, 160.0))).law
    assert found.load[0] == 0.0
    assert found.closure[0] == pytest.approx(-20.0 / 4000.0)


def test_the_nearest_rising_curve_is_nearest():
    rng = np.random.default_rng(5)
    noisy = np.cumsum(rng.normal(1.0, 3.0, 12))
    best = never_falling(noisy)
    assert (np.diff(best) >= 0.0).all()
    for _ in range(200):
        other = np.sort(best + rng.normal(0.0, 1.0, 12))
        assert ((other - noisy) ** 2).sum() >= ((best - noisy) ** 2).sum()
