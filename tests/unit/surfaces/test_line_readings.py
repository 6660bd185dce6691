"""Lines read by steps: heights from angles, bridge and depths, and a band that holds what it says it holds."""

import math

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.surfaces.at_rest import resting
from firedeck.surfaces.line_readings import ReadLine, by_angles, by_bridge, by_height, gap_error, sag_of_edge

SECOND = math.pi / 180 / 3600


def largest(line: ReadLine) -> float:
    return resting(line.stations, line.heights).gap


def hollow(stations: np.ndarray, depth: float) -> np.ndarray:
    share = stations / stations[-1]
    return -4 * depth * share * (1 - share) + 0.004 * np.sin(9 * share)


def test_an_even_tilt_of_mirror_or_foot_counts_for_nothing() -> None:
    angles = np.array([8.0, 8.0, 11.0, 15.0, 8.0, 9.0, 14.0]) * SECOND
    assert largest(by_angles(angles, 100.0)) == pytest.approx(
        largest(by_angles(angles + 0.01, 100.0)), abs=1e-5
    )


def test_a_bridge_gives_back_the_line_it_was_moved_along() -> None:
    heights = hollow(np.arange(9.0) * 25.0, 0.06)
    heights -= np.linspace(heights[0], heights[-1], 9)
    bends = heights[1:-1] - (heights[:-2] + heights[2:]) / 2
    line = by_bridge(bends, 50.0)
    assert line.heights == pytest.approx(heights, abs=1e-12)
    assert line.stations.tolist() == (np.arange(9.0) * 25.0).tolist()


def test_depths_are_heights_turned_over() -> None:
    at, depths = np.array([0.0, 40.0, 90.0]), np.array([25.0, 25.06, 25.0])
    assert largest(by_height(at, depths, deeper_is_more=True)) == pytest.approx(0.06)


def test_a_nought_set_wrongly_bends_a_bridge_line_but_no_depths() -> None:
    bridge, depths = (
        by_bridge(np.full(7, -0.004), 50.0),
        by_height(np.arange(9.0), -0.001 * np.arange(9.0) ** 0.5),
    )
    shifted = by_bridge(np.full(7, -0.004) - 0.002, 50.0)
    assert largest(shifted) - largest(bridge) <= gap_error(bridge, 0.002).value
    assert largest(shifted) - largest(bridge) == pytest.approx(
        0.002 * gap_error(bridge, 1.0).inputs["alike"][0]
    )
    assert gap_error(depths, 0.002).inputs["alike"][0] == 0.0


def _read_again(kind: str, sign: float, rng: np.random.Generator, error: float) -> tuple[float, ReadLine]:
    """Read an invented line with an instrument whose error is normal, 95 % within what is said."""
    heights = sign * hollow(np.arange(9.0) * 50.0, rng.uniform(0.02, 0.12))
    out = rng.normal(0.0, error / 2, 9)
    if kind == "angles":
        steps = np.diff(heights) / 50.0
        true, read = (by_angles(np.arctan(steps) + extra, 50.0) for extra in (0.0, out[:8] / 50.0))
    elif kind == "bridge":
        bends = heights[1:-1] - (heights[:-2] + heights[2:]) / 2
        true, read = (
            by_bridge(bends + extra, 100.0) for extra in (0.0, out[:7] + rng.normal(0.0, error / 2))
        )
    else:
        true, read = (by_height(np.arange(9.0) * 50.0, heights + extra) for extra in (0.0, out))
    return largest(true), read


@pytest.mark.parametrize("sign", [1.0, -1.0], ids=["hollow", "crown"])
@pytest.mark.parametrize("kind", ["angles", "bridge", "heights"])
def test_the_band_holds_the_true_gap_as_often_as_it_says(kind: str, sign: float) -> None:
    rng = np.random.default_rng(5)
    held = 0
    for _ in range(1000):
        true, read = _read_again(kind, sign, rng, 0.004)
        error = 0.004 / 50.0 if kind == "angles" else 0.004
        held += abs(largest(read) - true) <= gap_error(read, error, "rad" if kind == "angles" else "mm").value
    assert held >= 0.94 * 1000  # 95 %, less what a thousand tries scatter


def test_sag_of_an_edge_against_the_beam_of_the_textbook() -> None:
    width, height, length = 6.0, 40.0, 600.0
    line_load, inertia = 7.7e-5 * width * height, width * height**3 / 12
    beam = 5 * line_load * length**4 / (384 * 206_000.0 * inertia)
    assert sag_of_edge(length, height).value == pytest.approx(beam)


@pytest.mark.parametrize(
    "act",
    [
        lambda: by_angles(np.array([0.1]), 50.0),
        lambda: by_bridge(np.array([]), 50.0),
        lambda: by_bridge(np.array([0.1]), 0.0),
        lambda: by_height(np.array([0.0, 2.0, 1.0]), np.zeros(3)),
        lambda: by_height(np.array([0.0, 1.0]), np.zeros(2)),
        lambda: sag_of_edge(600.0, 0.0),
    ],
)
def test_what_cannot_be_read_is_refused(act) -> None:
    with pytest.raises(OutOfRange):
        act()
