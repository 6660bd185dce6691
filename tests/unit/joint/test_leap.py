"""Leaps: fewer rounds to the same end, and none that leads astray is kept."""

import numpy as np
import pytest

from firedeck.joint.leap import Leap


def rounds(leaps, target, bent=0.0):
    """Go round x <- 0.9 x + 0.1 target, bent, until the step is small."""
    leap, x = Leap(np.ones(len(target))), np.zeros((len(target), 1))
    for count in range(1, 1000):
        step = 0.1 * (target[:, None] - x) - bent * np.sin(3.0 * (x - target[:, None]))
        if np.abs(step).max() < 1e-8:
            return count, x[:, 0]
        x = x + step
        if leaps:
            x, _ = leap.further(x, x.copy(), step)
    return 1000, x[:, 0]


def test_a_straight_way_is_leapt_at_once():
    target = np.array([1.0, -2.0, 0.5])
    count, end = rounds(True, target)
    assert count <= 4
    assert end == pytest.approx(target, abs=1e-6)
    assert rounds(False, target)[0] > 100


def test_a_bent_way_ends_where_plain_rounds_end():
    target = np.array([0.3, -0.2, 0.5, 0.1])
    count, end = rounds(True, target, bent=0.03)
    plain_count, plain = rounds(False, target, bent=0.03)
    assert end == pytest.approx(plain, abs=1e-6)
    assert count < plain_count


def test_a_leap_that_makes_it_worse_is_taken_back():
    leap = Leap(np.ones(1))
    first, second = np.array([[1.0]]), np.array([[0.9]])
    leap.further(first, first, first)
    plain = np.array([[1.9]])
    leapt, _ = leap.further(plain, plain, second)
    assert leapt[0, 0] > 5.0
    back, _ = leap.further(leapt + 3.0, leapt + 3.0, np.array([[3.0]]))
    assert back[0, 0] == plain[0, 0]


def test_columns_keep_their_own_memory():
    leap = Leap(np.ones(2))
    rng = np.random.default_rng(1)
    x, step = rng.normal(size=(2, 3)), rng.normal(size=(2, 3))
    leap.further(x, x, step)
    leap.keep(np.array([True, False, True]))
    alone = Leap(np.ones(2))
    alone.further(x[:, 2:], x[:, 2:], step[:, 2:])
    nxt = rng.normal(size=(2, 2))
    assert leap.further(nxt, nxt, nxt)[0][:, 1] == pytest.approx(
        alone.further(nxt[:, 1:], nxt[:, 1:], nxt[:, 1:])[0][:, 0]
    )
