"""Smallest zone by exchange against two other methods, and on points that are hard for it."""

from itertools import combinations

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.surfaces.flatness import flatness
from firedeck.surfaces.straightness import straightness


def by_linear_programming(points: np.ndarray) -> float:
    from scipy.optimize import linprog

    middle = points.mean(axis=0)
    scale = np.abs(points[:, :2] - middle[:2]).max(axis=0)
    x, y = ((points[:, :2] - middle[:2]) / np.where(scale > 0, scale, 1.0)).T
    z = points[:, 2] - middle[2]
    one = np.ones(len(points))
    above = np.column_stack((-x, -y, -one, -one))
    below = np.column_stack((x, y, one, -one))
    found = linprog(
        [0, 0, 0, 1],
        A_ub=np.vstack((above, below)),
        b_ub=np.concatenate((-z, z)),
        bounds=[(None, None)] * 3 + [(0, None)],
    )
    return 2 * float(found.fun)


def by_exhaustive_search(points: np.ndarray) -> float:
    """Every pair of parallel planes held by three points and one, or by two and two, that holds all points."""
    best = np.inf
    for four in combinations(range(len(points)), 4):
        for first, second, third, fourth in ((0, 1, 2, 3), (0, 2, 1, 3), (0, 3, 1, 2)):
            a, b, c, d = (points[four[place]] for place in (first, second, third, fourth))
            best = min(best, _zone(points, b - a, d - c))
    for three in combinations(range(len(points)), 3):
        a, b, c = (points[place] for place in three)
        best = min(best, _zone(points, b - a, c - a))
    return best


def _zone(points: np.ndarray, one: np.ndarray, other: np.ndarray) -> float:
    """Range over planes that run parallel to both directions; infinite if those are parallel in plan."""
    sides = np.array([one[:2], other[:2]])
    if abs(np.linalg.det(sides)) < 1e-9 * (np.abs(sides).max() ** 2 + 1e-30):
        return np.inf
    slopes = np.linalg.solve(sides, [one[2], other[2]])
    return float(np.ptp(points[:, 2] - points[:, :2] @ slopes))


def random_points(seed: int, number: int, kind: str) -> np.ndarray:
    rng = np.random.default_rng(seed)
    places = rng.uniform(0, [400, 150], (number, 2))
    if kind == "on whole numbers":
        return rng.integers(0, 4, (number, 3)).astype(float)
    if kind == "bowed":
        return np.column_stack(
            (places, 0.1 * (places[:, 0] / 200 - 1) ** 2 + 0.003 * rng.normal(size=number))
        )
    return np.column_stack((places, rng.normal(size=number)))


@pytest.mark.parametrize("kind", ["rough", "bowed", "on whole numbers"])
@pytest.mark.parametrize("seed", range(6))
def test_exhaustive_search_agrees(seed: int, kind: str) -> None:
    points = random_points(seed, 9, kind)
    assert flatness(points).minimum_zone == pytest.approx(by_exhaustive_search(points), abs=1e-9)


@pytest.mark.parametrize("kind", ["rough", "bowed", "on whole numbers"])
@pytest.mark.parametrize("number", [3, 4, 5, 12, 60, 400])
def test_linear_programming_agrees(number: int, kind: str) -> None:
    points = random_points(number, number, kind)
    assert flatness(points).minimum_zone == pytest.approx(by_linear_programming(points), abs=1e-8)


@pytest.mark.parametrize("tilt", [0.0, 0.05, 3.0])
def test_a_flat_face_has_no_zone_however_it_is_tilted(tilt: float) -> None:
    points = [(x, y, tilt * x - 2 * tilt * y + 7) for x in range(0, 401, 50) for y in range(0, 141, 35)]
    assert flatness(points).minimum_zone == pytest.approx(0.0, abs=1e-11)


def test_three_points_lie_in_a_plane() -> None:
    found = flatness([(0, 0, 0.1), (400, 0, -0.2), (0, 140, 0.05)])
    assert found.minimum_zone == pytest.approx(0.0, abs=1e-15)
    assert found.least_squares == pytest.approx(0.0, abs=1e-15)


def test_two_readings_of_one_place_hold_their_difference() -> None:
    corners = [(0, 0, 0.0), (400, 0, 0.0), (0, 140, 0.0), (400, 140, 0.0)]
    found = flatness([*corners, (200, 70, 0.01), (200, 70, -0.03)])
    assert found.minimum_zone == pytest.approx(0.04)


def test_every_point_doubled_changes_nothing() -> None:
    points = random_points(3, 40, "bowed")
    once, twice = flatness(points), flatness(np.vstack((points, points)))
    assert twice.minimum_zone == pytest.approx(once.minimum_zone, rel=1e-12)


def test_points_on_one_line_give_its_straightness_and_say_so() -> None:
    stations = np.arange(0.0, 401.0, 40.0)
    heights = np.sin(stations / 50) / 20
    places = np.column_stack((stations * 0.8, stations * 0.6, heights))
    found = flatness(places)
    assert found.minimum_zone == pytest.approx(straightness(stations, heights).minimum_zone, rel=1e-9)
    assert "one line" in found.notes[0].text


def test_points_that_all_coincide_hold_their_range() -> None:
    found = flatness([(5, 5, 0.0), (5, 5, 0.02), (5, 5, 0.01)])
    assert found.minimum_zone == pytest.approx(0.02)


def test_ten_thousand_points_of_a_full_grid_agree_with_the_closed_form() -> None:
    points = [(4.0 * i, 1.5 * j, 0.1 * (i / 49.5 - 1) ** 2) for i in range(100) for j in range(100)]
    found = flatness(points)
    middle = 0.1 * (0.5 / 49.5) ** 2
    assert found.minimum_zone == pytest.approx(0.1 - middle, rel=1e-9)


def test_contacts_show_that_no_plane_is_closer() -> None:
    points = random_points(11, 200, "bowed")
    found = flatness(points)
    zone, balance_x, balance_y, outside = found.steps[:4]
    assert zone.value == found.minimum_zone
    weights = [number for name, (number, _) in zone.inputs.items() if name.startswith("weight")]
    assert min(weights) > 0
    assert sum(weights) == pytest.approx(2.0)
    assert (balance_x.value, balance_y.value, outside.value) == pytest.approx((0.0, 0.0, 0.0), abs=1e-10)
    over = points[:, 2] - found.zone_plane.at(points)
    assert np.ptp(over) == pytest.approx(found.minimum_zone, rel=1e-9)


@pytest.mark.parametrize(
    ("points", "says"),
    [
        ([(0, 0, 0), (1, 0, 0)], "2 points; at least 3 points"),
        ([(0, 0), (1, 0), (0, 1)], "x, y and z for every point"),
        ([(0, 0, 0), (1, 0), (0, 1, 0)], "rows of different length"),
        ([(0, 0, 0), (1, 0, float("nan")), (0, 1, 0)], "point 2 is not a finite number"),
        ([(0, 0, 0), (1, 0, float("inf")), (0, 1, 0)], "point 2 is not a finite number"),
    ],
)
def test_what_is_no_face_is_one_line(points: list, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        flatness(points)
