"""An edge at rest on a measured line, against a search over all tilts; a crown is no flat line."""

import numpy as np
import pytest

from firedeck.surfaces.at_rest import OFF_MIDDLE, SHARE_OFF, resting
from firedeck.surfaces.edge import gap_on_high_points, lay

STATIONS = np.arange(9) * 50.0


def by_search(stations: np.ndarray, heights: np.ndarray) -> float:
    """Tilt the edge in 200,001 steps; where it goes over from one high point to the next it lies on both."""
    middle, length = (stations[0] + stations[-1]) / 2, stations[-1] - stations[0]
    off = min(OFF_MIDDLE, SHARE_OFF * length)
    over = heights[:, None] - stations[:, None] * np.linspace(-0.004, 0.004, 200_001)
    touched = stations[over.argmax(axis=0)]
    low, high = np.minimum(touched[1:], touched[:-1]), np.maximum(touched[1:], touched[:-1])
    able = (low <= middle + off) & (high >= middle - off)
    gaps = over.max(axis=0) - over.min(axis=0)
    return float(np.minimum(gaps[1:], gaps[:-1])[able].min())


def drawn() -> list[np.ndarray]:
    rng = np.random.default_rng(11)
    u = STATIONS / 200 - 1
    return [
        rng.uniform(-0.1, 0.1) * u**2 + rng.uniform(-0.03, 0.03) * u**3 + rng.normal(0, 0.004, 9) + 0.02 * u
        for _ in range(60)
    ]


@pytest.mark.parametrize("heights", drawn())
def test_against_a_search_over_all_tilts(heights: np.ndarray) -> None:
    assert resting(STATIONS, heights).gap == pytest.approx(by_search(STATIONS, heights), abs=2e-5)


@pytest.mark.parametrize("heights", drawn())
def test_never_less_than_over_all_high_points_nor_more_than_with_the_weight_in_the_middle(heights) -> None:
    gap = resting(STATIONS, heights).gap
    assert gap >= gap_on_high_points(STATIONS, heights).max() - 1e-12
    assert gap <= lay(STATIONS, heights).gap.max() + 1e-12


@pytest.mark.parametrize("heights", drawn()[:20])
def test_tilt_shift_and_the_other_end_change_nothing(heights: np.ndarray) -> None:
    gap = resting(STATIONS, heights).gap
    assert resting(STATIONS, heights + 0.3 + 0.002 * STATIONS).gap == pytest.approx(gap, abs=1e-12)
    assert resting(STATIONS, heights[::-1].copy()).gap == pytest.approx(gap, abs=1e-12)


@pytest.mark.parametrize("sign", [-1.0, 1.0])
@pytest.mark.parametrize("number", [5, 6, 9, 41])
def test_a_bow_shows_as_much_as_a_crown_as_it_does_as_a_hollow(sign: float, number: int) -> None:
    stations = np.linspace(0.0, 400.0, number)
    share = 1.0 if number % 2 else 1.0 - 1.0 / (number - 1) ** 2
    heights = sign * 0.12 * (stations / 200 - 1) ** 2
    assert resting(stations, heights).gap == pytest.approx(0.12 * share)


def test_a_falling_end_counts_whole_where_the_edge_lies_on_the_rest() -> None:
    heights = np.array([0.0, 0.0, 0.0, 0.0, 0.0, 0.0, -0.02, -0.06, -0.1])
    assert resting(STATIONS, heights).gap == pytest.approx(0.1)
