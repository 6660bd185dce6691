"""Grades of surface plates."""

import pytest
from cases import Row, printed_half_digit, published

from firedeck.surfaces.surface_plate import plate_tolerance

UIN = 25.4e-6
INCH = 25.4


@published(__file__, "plates.csv")
def test_formula_and_listed_grades(row: Row) -> None:
    sides = float(row["length_in"]) * INCH, float(row["width_in"]) * INCH
    exact = plate_tolerance(*sides).tolerance / UIN
    assert exact == pytest.approx(float(row["formula_uin"]), abs=printed_half_digit(row["formula_uin"]))
    for grade in ("AA", "A", "B"):
        listed = float(row[f"listed_{grade}"])
        assert plate_tolerance(*sides, grade).tolerance / UIN == pytest.approx(listed, rel=0.15)


@published(__file__, "metric.csv")
def test_metric_form(row: Row) -> None:
    small, large = (plate_tolerance(side, side).tolerance * 1000 for side in (1.0, 1001.0))
    per_square = (large - small) / (2 * 1001.0**2 - 2)
    assert per_square == pytest.approx(float(row["per_mm2_um"]), abs=float(row["tolerance"]))
    assert small == pytest.approx(float(row["constant_um"]), abs=0.0005)
