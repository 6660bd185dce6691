"""How much readings would tell of a figure; invented numbers."""

import numpy as np

from firedeck.surfaces.worth_knowing import less_told, share_told

FIGURE = np.random.default_rng(11).normal(0, 20, 200)
FIGURE -= FIGURE.mean()


def test_many_readings_that_know_nothing_tell_nothing():
    gaps = np.random.default_rng(12).normal(0, 40, (60, 200))
    gaps -= gaps.mean(axis=1, keepdims=True)
    plain = np.linalg.lstsq(gaps.T, FIGURE, rcond=None)[0]
    assert 1 - ((FIGURE - plain @ gaps) ** 2).sum() / (FIGURE**2).sum() > 0.2
    assert share_told(FIGURE, gaps, np.full(60, 4.0)) < 0.02


def test_readings_as_noisy_as_the_figure_are_followed_half_way():
    """Half of each deviation is left, which is a quarter of the scatter in squares."""
    noise = np.array([FIGURE.std()])
    assert abs(share_told(FIGURE, FIGURE[None], noise) - 0.75) < 0.01
    assert share_told(FIGURE, FIGURE[None], np.array([1.0])) > 0.99


def test_what_was_told_is_not_told_again():
    left = less_told(FIGURE[None], FIGURE[None], np.array([2.0]))[0]
    assert left.std() < 0.02 * FIGURE.std()
    other = np.random.default_rng(13).normal(0, 40, (1, 200))
    assert less_told(FIGURE[None], other, np.array([4.0]))[0].std() > 0.9 * FIGURE.std()
