"""The resting rule for many faces at once is the resting rule for one."""

import numpy as np
import pytest

from firedeck.surfaces.edge import lay, lay_on_end_leaves
from firedeck.surfaces.resting import rest

LENGTH, PLACES = 400.0, 20


def halves(heights: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Split profiles (m, n) at the weight in the middle, as the posterior does."""
    at = np.linspace(-LENGTH / 2, LENGTH / 2, len(heights)).astype(np.float32)
    middle = len(heights) // 2
    tops = 1000 * heights.astype(np.float32)[:, None, :]
    stations = at[:, None, None]
    return tops[:middle], tops[middle:], stations[:middle], stations[middle:]


def profiles(kind: str, number: int = 60) -> np.ndarray:
    chance, u = np.random.default_rng(3), np.linspace(-1, 1, PLACES)[:, None]
    rough = chance.normal(0, 0.003, (PLACES, number))
    bow = chance.uniform(0.02, 0.12, number) * u**2
    return {"hollow": bow, "crown": -bow, "rough": 5 * rough, "both": rough - bow * u}[kind] + rough


@pytest.mark.parametrize("kind", ["hollow", "crown", "rough", "both"])
def test_every_edge_lies_as_one_edge_does(kind):
    heights = profiles(kind)
    edges = rest(*halves(heights))
    stations = np.linspace(0.0, LENGTH, PLACES)
    for number, profile in enumerate(heights.T):
        laid = lay(stations, profile, LENGTH / 2)
        under = edges.height[0, number] + edges.slope[0, number] * (stations - LENGTH / 2) - 1000 * profile
        assert under == pytest.approx(1000 * laid.gap, abs=0.05)


def test_the_edge_never_cuts_into_the_face():
    heights = profiles("rough", 400)
    edges = rest(*halves(heights))
    at = np.linspace(-LENGTH / 2, LENGTH / 2, PLACES)[:, None]
    assert (edges.height + edges.slope * at - 1000 * heights).min() > -0.01


def test_end_leaves_are_two_high_ends():
    hollow = profiles("hollow")
    raised = hollow.copy()
    raised[[0, -1]] += 0.05
    edges = rest(*halves(raised))
    stations = np.linspace(0.0, LENGTH, PLACES)
    for number, profile in enumerate(hollow.T):
        laid = lay_on_end_leaves(stations, profile, 0.05)
        at = stations - LENGTH / 2
        assert edges.height[0, number] + edges.slope[0, number] * at - 1000 * profile == pytest.approx(
            1000 * laid.gap, abs=0.01
        )
