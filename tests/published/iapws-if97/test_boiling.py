"""The saturation line against its own check values, and water under a cap."""

import pytest
from cases import Row, published

from firedeck.diagnosis import coolant_boiling
from firedeck.diagnosis.steam import boiling_of_water, pressure_of_steam
from firedeck.quantity import Kind, in_unit, parse


def fahrenheit(text: str, coolant: str = "water") -> float:
    cap = parse(text, Kind.PRESSURE_GAUGE).value
    return in_unit(coolant_boiling(coolant, cap, 0.0).boiling, Kind.TEMPERATURE, "°F")


@published(__file__, "boiling.csv")
def test_boiling(row: Row) -> None:
    tolerance = float(row["tolerance"])
    wanted = float(row["expected"].removesuffix("°F"))
    match row["kind"]:
        case "temperature":
            found = boiling_of_water(float(row["given"]))[-1].value + 273.15
        case "pressure":
            found = pressure_of_steam(float(row["given"]) - 273.15)[-1].value
        case "rule":
            # how far three degrees a pound overshoots
            found = 212.0 + 3.0 * float(row["given"].removesuffix("psi")) - fahrenheit(row["given"])
        case _:
            found = fahrenheit(row["given"])
    assert found == pytest.approx(wanted, abs=tolerance)


def test_265_fahrenheit_belongs_to_half_glycol() -> None:
    assert fahrenheit("15 psi", "ethylene 50 %") == pytest.approx(265.0, abs=2.0)
