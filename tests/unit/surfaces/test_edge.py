"""Where a straightedge lies, and what a leaf feels under it."""

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.surfaces.edge import Lies, gap_on_high_points, lay, lay_on_end_leaves, upper_hull
from firedeck.surfaces.leaf import felt_gap, largest_felt_gap

LINE = np.linspace(0.0, 400.0, 9)
HOLLOW = 0.1 * (LINE / 200 - 1) ** 2
CROWN = -HOLLOW


def test_on_a_hollow_the_edge_rests_on_its_ends_and_shows_all_of_it() -> None:
    laid = lay(LINE, HOLLOW)
    assert laid.lies is Lies.RESTS
    assert laid.contacts == (0.0, 400.0)
    assert laid.gap.max() == pytest.approx(0.1)
    assert np.allclose(laid.gap, gap_on_high_points(LINE, HOLLOW))


def test_on_a_crown_the_high_points_show_nothing_but_the_edge_rocks() -> None:
    laid = lay(LINE, CROWN, weight_at=190.0)
    assert gap_on_high_points(LINE, CROWN).max() == pytest.approx(0.0, abs=1e-15)
    assert laid.lies is Lies.ROCKS
    assert laid.contacts == (150.0, 200.0)
    assert laid.gap.max() > 0.1
    assert laid.drop == (pytest.approx(laid.gap[0]), pytest.approx(laid.gap[-1]))


def test_the_edge_lies_on_the_chord_under_its_weight_and_never_in_the_metal() -> None:
    rng = np.random.default_rng(2)
    for _ in range(40):
        stations = np.sort(rng.uniform(0, 400, 20))
        heights = rng.normal(size=20)
        at = rng.uniform(stations[0], stations[-1])
        laid = lay(stations, heights, at)
        assert laid.contacts[0] <= at <= laid.contacts[1]
        edge = heights + laid.gap
        straight = np.polyfit(stations, edge, 1)
        assert np.allclose(np.polyval(straight, stations), edge, atol=1e-9)
        assert laid.gap.min() == 0.0


def test_hull_is_that_of_exhaustive_chords() -> None:
    rng = np.random.default_rng(5)
    stations, heights = np.arange(12.0), rng.normal(size=12)
    highest = heights.copy()
    for left in range(12):
        for right in range(left + 1, 12):
            inside = stations[left : right + 1]
            chord = np.interp(inside, stations[[left, right]], heights[[left, right]])
            highest[left : right + 1] = np.maximum(highest[left : right + 1], chord)
    assert np.allclose(gap_on_high_points(stations, heights), highest - heights)
    assert {0, 11} <= set(upper_hull(stations, heights).tolist())


def test_end_leaves_lift_the_edge_off_a_crown() -> None:
    laid = lay_on_end_leaves(LINE, CROWN, 0.15)
    assert laid.lies is Lies.ON_END_LEAVES
    assert (laid.gap[0], laid.gap[4], laid.gap[-1]) == pytest.approx((0.15, 0.05, 0.15))
    with pytest.raises(OutOfRange, match=r"leaves of 0\.100 mm or more"):
        lay_on_end_leaves(LINE, CROWN, 0.05)


def test_a_leaf_feels_the_smallest_gap_over_its_width() -> None:
    gap = np.array([0.0, 0.04, 0.1, 0.04, 0.0])
    stations = np.array([0.0, 40.0, 50.0, 60.0, 100.0])
    assert felt_gap(stations, gap, np.array([50.0]), 0.0) == pytest.approx([0.1])
    assert felt_gap(stations, gap, np.array([50.0, 0.0]), 10.0) == pytest.approx([0.07, 0.0])
    assert largest_felt_gap(stations, gap, 10.0) == (pytest.approx(0.07), pytest.approx(50.0))
    assert largest_felt_gap(stations, gap, 30.0) == (pytest.approx(0.035), pytest.approx(50.0))


@pytest.mark.parametrize("width", [3.0, 10.0, 41.0])
def test_the_best_place_of_a_leaf_is_found_exactly(width: float) -> None:
    rng = np.random.default_rng(8)
    for _ in range(20):
        stations = np.concatenate(([0.0], np.sort(rng.uniform(0, 400, 15)), [400.0]))
        gap = rng.uniform(0, 0.1, 17)
        found, at = largest_felt_gap(stations, gap, width)
        tried = felt_gap(stations, gap, np.linspace(width / 2, 400 - width / 2, 4001), width)
        assert found >= tried.max() - 1e-12
        assert found == pytest.approx(felt_gap(stations, gap, np.array([at]), width)[0], abs=1e-12)


@pytest.mark.parametrize(
    ("act", "says"),
    [
        (lambda: lay(LINE, HOLLOW, 401.0), "between 0 and 400 mm"),
        (lambda: upper_hull(LINE[::-1], HOLLOW), "further than the one before"),
        (lambda: upper_hull(LINE[:1], HOLLOW[:1]), "two or more stations"),
        (lambda: lay_on_end_leaves(LINE, HOLLOW, 0.0), "thicker than nothing"),
        (lambda: felt_gap(LINE, HOLLOW, np.array([20.0]), 400.0), "under the 400 mm of the line"),
        (lambda: felt_gap(LINE, HOLLOW, np.array([-1.0]), 10.0), "0 to 400 mm"),
    ],
)
def test_what_cannot_be_laid_is_one_line(act, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        act()
