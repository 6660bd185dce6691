"""The printed compression and altitude table, beside the pressure and the density of standard air.

A gauge reads air pressure times what the engine makes of it, so firedeck carries a reading by pressure. The printed
table goes by density and leaves the reading higher; both are shown, neither is bent to the other.
"""

import pytest
from cases import Row, printed_half_digit, published

from firedeck import sums

HIGHEST_GAP = 0.04
"""So far the table lies above the pressure of standard air up to 6000 ft."""


def _carried(altitude: str) -> float:
    answer = sums.find_sum("altitude-compression").run(gauge="150 psi", altitude=altitude)
    by_pressure = answer.results["gauge"].value
    return float(by_pressure) / float(
        sums.find_sum("altitude-compression").run(gauge="150 psi", altitude="0 ft").results["gauge"].value
    )


@published(__file__, "factors.csv", where=lambda row: row["follows"] == "density")
def test_even_thousands_are_the_density_of_standard_air(row: Row) -> None:
    density = sums.find_sum("standard-atmosphere").run(altitude=row["altitude"]).results["density_ratio"]
    assert density.value == pytest.approx(float(row["factor"]), abs=printed_half_digit(row["factor"]))


@published(__file__, "factors.csv", where=lambda row: row["follows"] == "line")
def test_the_others_fall_in_a_straight_line(row: Row) -> None:
    thousands = float(row["altitude"].split()[0]) / 1000
    assert 1 - 0.0267 * thousands == pytest.approx(
        float(row["factor"]), abs=2 * printed_half_digit(row["factor"])
    )


@published(__file__, "factors.csv")
def test_ours_goes_by_pressure_and_lies_below_the_table(row: Row) -> None:
    ours, printed = _carried(row["altitude"]), float(row["factor"])
    assert 0.0 < printed - ours < HIGHEST_GAP
    pressure = sums.find_sum("standard-atmosphere").run(altitude=row["altitude"]).results["pressure"].value
    assert ours == pytest.approx(pressure / 0.101325, rel=1e-6)


def test_the_sum_says_that_printed_tables_leave_more() -> None:
    answer = sums.find_sum("altitude-compression").run(gauge="150 psi", altitude="5000 ft")
    assert any("density" in text for text in answer.assumptions)
