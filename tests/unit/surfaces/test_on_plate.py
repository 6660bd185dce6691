"""A face on a plate: held against linear programming, and what must not change."""

import numpy as np
import pytest
from scipy.optimize import linprog

from firedeck.errors import OutOfRange
from firedeck.surfaces.on_plate import gap_to_plate


def drawn(number: int) -> np.ndarray:
    rng = np.random.default_rng(number)
    count = int(rng.integers(3, 300))
    places = np.column_stack((rng.uniform(0, 400, count), rng.uniform(0, 160, count)))
    if number % 3 == 0:  # rows and columns, where many points stand alike
        places = np.unique(np.round(places / 40) * 40, axis=0)
    return np.column_stack((places, rng.normal(0, 0.03, len(places))))


@pytest.mark.parametrize("number", range(30))
def test_the_plane_is_the_lowest_at_the_middle(number):
    """Second way: the least mean gap over all planes that lie on or over every point."""
    points = drawn(number)
    gap = gap_to_plate(points)
    terms = np.column_stack((np.ones(len(points)), points[:, :2] - points[:, :2].mean(axis=0)))
    best = linprog([1, 0, 0], A_ub=-terms, b_ub=-points[:, 2], bounds=[(None, None)] * 3)
    assert gap.min() >= 0.0
    assert (gap < 1e-9).sum() >= 3
    assert gap.mean() == pytest.approx((terms @ best.x - points[:, 2]).mean(), abs=1e-9)


def test_tilt_and_shift_change_nothing():
    points = drawn(7)
    tilted = points.copy()
    tilted[:, 2] += 0.3 + 2e-4 * points[:, 0] - 1e-4 * points[:, 1]
    assert gap_to_plate(tilted) == pytest.approx(gap_to_plate(points), abs=1e-9)


@pytest.mark.parametrize("points", [[(0, 0, 0), (1, 0, 0)], [(0, 0, 0), (1, 1, 0), (2, 2, 0), (3, 3, 0.1)]])
def test_points_on_one_line_are_refused(points):
    with pytest.raises(OutOfRange):
        gap_to_plate(points)
