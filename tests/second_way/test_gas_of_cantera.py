"""Compression of air a second way: entropies and mixtures of Cantera, which shares no table with the cycle here."""

import cantera
import pytest

from firedeck.cylinder.firing_cycle import Burn, firing_cycle
from firedeck.cylinder.gas_heat import mixture
from firedeck.cylinder.ideal_cycle import ideal_cycle
from firedeck.cylinder.working_gas import RealAir

AIR = "N2:0.78084, O2:0.20946, AR:0.00970"
PASCAL = 1e6
CELSIUS = 273.15


@pytest.fixture(scope="module")
def gas() -> cantera.Solution:
    return cantera.Solution("air.yaml")


@pytest.mark.parametrize("ratio", [7.0, 9.9, 13.0, 17.0, 22.0])
@pytest.mark.parametrize("celsius", [-10.0, 20.0, 60.0, 110.0])
@pytest.mark.parametrize("bar", [0.8, 1.0, 2.2])
def test_end_of_compression_within_three_per_cent(
    gas: cantera.Solution, ratio: float, celsius: float, bar: float
) -> None:
    gas.TPX = celsius + CELSIUS, bar * 1e5, AIR
    gas.SV = gas.entropy_mass, gas.volume_mass / ratio
    found = ideal_cycle(
        kind="otto",
        ratio=ratio,
        pressure=bar / 10,
        temperature=celsius,
        gas=RealAir(mixture("air")),
        heat=100.0,
    ).states[1]
    assert found.kelvin == pytest.approx(gas.T, rel=0.03)
    assert found.pressure * PASCAL == pytest.approx(gas.P, rel=0.03)
    assert found.kelvin == pytest.approx(gas.T, rel=0.002), "it should be far closer than it must"


@pytest.mark.parametrize("kelvin", [300.0, 700.0, 1200.0, 2200.0])
def test_heat_capacity_of_air(gas: cantera.Solution, kelvin: float) -> None:
    gas.TPX = kelvin, 1e5, AIR
    assert mixture("air").heat_capacity(kelvin) == pytest.approx(gas.cv_mass / 1000, rel=0.003)


@pytest.mark.parametrize("ratio", [8.0, 11.0, 18.0])
def test_a_stroke_in_steps_without_fire_ends_where_cantera_does(gas: cantera.Solution, ratio: float) -> None:
    found = firing_cycle(ratio, 0.095, 340.0, Burn(9.0, 55.0, 2.0, 0.0, 0.0))
    gas.TPX = 340.0, 0.095 * PASCAL, AIR
    gas.SV = gas.entropy_mass, gas.volume_mass / ratio
    assert found.compression_end * PASCAL == pytest.approx(gas.P, rel=0.03)
    assert found.peak * PASCAL == pytest.approx(gas.P, rel=0.03)
