"""Faces of a closed form: twist, bow, one low corner."""

import numpy as np
import pytest
from cases import Row, published

from firedeck.surfaces.edge import gap_on_high_points
from firedeck.surfaces.flatness import flatness
from firedeck.surfaces.interpolation import sheet
from firedeck.surfaces.lines import columns_across, diagonals, rows_along
from firedeck.surfaces.shape import long_shapes
from firedeck.surfaces.straightness import straightness


def grid(columns: int, rows: int) -> np.ndarray:
    places = [(x, y) for x in np.linspace(-200, 200, columns) for y in np.linspace(-75, 75, rows)]
    return np.column_stack((np.array(places), np.zeros(len(places))))


def face(shape: str) -> np.ndarray:
    points = grid(3, 3) if shape == "corner" else grid(9, 5)
    x, y = points[:, 0] / 200, points[:, 1] / 75
    if shape == "corner":
        points[(x == 1) & (y == 1), 2] = -0.120
    else:
        points[:, 2] = 0.040 * x * y if shape == "twist" else 0.100 * (1 - x**2)
    return points


@published(__file__, "shapes.csv")
def test_measures(row: Row) -> None:
    found = getattr(flatness(face(row["shape"])), row["measure"])
    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


def test_an_edge_along_and_across_misses_a_twist_and_the_diagonals_show_half_each() -> None:
    points = face("twist")
    straight = [*rows_along(points), *columns_across(points)]
    assert len(straight) == 14
    assert max(straightness(line.stations, line.heights).minimum_zone for line in straight) < 1e-15
    up, down = diagonals(sheet(points))
    assert [straightness(line.stations, line.heights).end_point for line in (up, down)] == pytest.approx(
        [0.04, 0.04]
    )
    hollow, crown = (gap_on_high_points(line.stations, line.heights).max() for line in (up, down))
    assert (hollow, crown) == (pytest.approx(0.04), pytest.approx(0.0, abs=1e-15))


def test_the_shapes_are_found_again() -> None:
    twisted, bowed = long_shapes(face("twist")), long_shapes(face("bow"))
    assert (twisted.twist, twisted.long_bow, twisted.cross_bow) == pytest.approx((0.04, 0.0, 0.0), abs=1e-12)
    assert (bowed.twist, bowed.long_bow, bowed.cross_bow) == pytest.approx((0.0, 0.1, 0.0), abs=1e-12)
