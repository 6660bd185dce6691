"""Coolant under its cap: height, glycol, and what is refused."""

import pytest

from firedeck.diagnosis import coolant_boiling
from firedeck.diagnosis.ambient import ambient_pressure
from firedeck.diagnosis.steam import boiling_of_water, pressure_of_steam
from firedeck.errors import OutOfRange, TableGap


@pytest.mark.parametrize(("altitude", "pascal"), [(0, 101325), (500, 95461), (2000, 79495), (4000, 61640)])
def test_standard_atmosphere(altitude: float, pascal: float) -> None:
    assert ambient_pressure(altitude * 1000.0).value * 1e6 == pytest.approx(pascal, abs=1.0)


@pytest.mark.parametrize("temperature", [20.0, 100.0, 150.0, 300.0])
def test_the_two_steam_equations_are_each_other_turned_round(temperature: float) -> None:
    pressure = pressure_of_steam(temperature)[-1].value
    assert boiling_of_water(pressure)[-1].value == pytest.approx(temperature, abs=1e-6)


def test_height_takes_the_same_off_as_a_weaker_cap() -> None:
    high = coolant_boiling("water", 0.1, 2e6).boiling
    drop = ambient_pressure(0.0).value - ambient_pressure(2e6).value
    assert high == pytest.approx(coolant_boiling("water", 0.1 - drop, 0.0).boiling)


def test_glycols_boil_higher_than_water_and_ethylene_highest() -> None:
    water, propylene, ethylene = (
        coolant_boiling(coolant, 0.1, 0.0).boiling for coolant in ("water", "propylene 50 %", "ethylene 50 %")
    )
    assert water < propylene < ethylene < water + 12.0


def test_glycol_figures_name_their_source() -> None:
    sources = {step.source for step in coolant_boiling("propylene 50 %", 0.0, 0.0).steps}
    assert "memory" in sources


@pytest.mark.parametrize(
    ("cap", "altitude", "says"),
    [(-0.1, 0.0, "cap_pressure"), (0.6, 0.0, "cap_pressure"), (0.1, 2e7, "altitude")],
)
def test_out_of_range(cap: float, altitude: float, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        coolant_boiling("water", cap, altitude)


def test_unknown_coolant_names_the_known() -> None:
    with pytest.raises(TableGap, match=r"ethylene 50 %"):
        coolant_boiling("beer", 0.0, 0.0)


@pytest.mark.parametrize("pressure", [0.0, 23.0])
def test_saturation_line_ends(pressure: float) -> None:
    with pytest.raises(OutOfRange, match="pressure"):
        boiling_of_water(pressure)


def test_saturation_temperature_ends() -> None:
    with pytest.raises(OutOfRange, match="temperature"):
        pressure_of_steam(400.0)
