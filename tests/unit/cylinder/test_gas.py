"""Cranking compression, altitude, textbook cycles and firing pressure: how they hang together."""

import math

import pytest

from firedeck.cylinder.cranking import altitude_compression, cranking_exponent, cranking_pressure
from firedeck.cylinder.firing_cycle import Burn, firing_cycle
from firedeck.cylinder.gas_heat import mixture, temperature_where
from firedeck.cylinder.ideal_cycle import ideal_cycle
from firedeck.cylinder.peak_pressure import Firing, peak_pressure
from firedeck.cylinder.working_gas import ColdAir, LinearHeatAir, gas_named
from firedeck.errors import JobError, OutOfRange

START = {"ratio": 16.0, "pressure": 0.1, "temperature": 20.0}


def test_exponent_and_pressure_are_each_other_backwards() -> None:
    gauge = cranking_pressure(ratio=9.5, exponent=1.27).gauge
    assert cranking_exponent(9.5, gauge).exponent == pytest.approx(1.27)


def test_late_closing_and_altitude_lower_the_reading() -> None:
    plain = cranking_pressure(ratio=9.8)
    late = cranking_pressure(ratio=9.8, valve_closing=math.radians(48), rod=143.0, stroke=86.0)
    high = cranking_pressure(ratio=9.8, altitude=2_000_000.0)
    assert late.gauge < plain.gauge
    assert high.gauge < plain.gauge
    assert plain.band is not None
    assert plain.band.low < plain.gauge < plain.band.high


def test_altitude_there_and_back() -> None:
    up = altitude_compression(1.2, 1_500_000.0).gauge
    assert altitude_compression(up, 0.0, 1_500_000.0).gauge == pytest.approx(1.2)


def test_cranking_refuses_half_a_set() -> None:
    with pytest.raises(JobError, match="altitude with barometer"):
        cranking_pressure(ratio=9.0, altitude=0.0, barometer=0.1)
    with pytest.raises(JobError, match="without rod, stroke"):
        cranking_pressure(ratio=9.0, valve_closing=0.8)
    with pytest.raises(OutOfRange, match="ratio"):
        cranking_pressure(ratio=1.0)
    with pytest.raises(OutOfRange, match="exponent"):
        cranking_pressure(ratio=9.0, exponent=1.6)


@pytest.mark.parametrize("gas", [ColdAir(), gas_named("variable"), LinearHeatAir(0.7, 1e-4, 1.35)])
def test_gas_functions_are_each_other_backwards(gas: ColdAir) -> None:
    assert gas.of_energy(gas.energy(900.0)) == pytest.approx(900.0)
    assert gas.of_enthalpy(gas.energy(900.0) + gas.gas_constant * 900.0) == pytest.approx(900.0)
    assert gas.squeezed(gas.squeezed(300.0, 9.0), 1 / 9.0) == pytest.approx(300.0)


def test_heat_curves_meet_at_the_knee() -> None:
    for name in ("air", "burnt"):
        curve = mixture(name)
        assert curve.energy(1000.0 - 1e-6) == pytest.approx(curve.energy(1000.0), abs=1e-5)
        assert curve.volume_entropy(1000.0 - 1e-6) == pytest.approx(curve.volume_entropy(1000.0), abs=1e-8)
        assert curve.heat_capacity(999.999) == pytest.approx(curve.heat_capacity(1000.0), rel=1e-4)


def test_temperature_outside_the_curves_is_refused() -> None:
    air = mixture("air")
    with pytest.raises(OutOfRange, match="valid from 200 to 6000"):
        temperature_where(air.energy(6000.0) + 1.0, air.energy, air.heat_capacity, "energy")


def test_dual_cycle_lies_between_otto_and_diesel() -> None:
    heat = 1200.0
    otto = ideal_cycle(kind="otto", heat=heat, **START)
    diesel = ideal_cycle(kind="diesel", heat=heat, **START)
    dual = ideal_cycle(kind="dual", heat=heat, pressure_ratio=1.5, **START)
    assert otto.efficiency > dual.efficiency > diesel.efficiency
    peaks = [found.peak_pressure or 0.0 for found in (otto, dual, diesel)]
    assert peaks == sorted(peaks, reverse=True)
    assert peaks[-1] > 0.0
    assert dual.heat_in == pytest.approx(heat)


def test_textbook_efficiencies() -> None:
    cutoff = 2.0
    diesel = ideal_cycle(kind="diesel", cutoff_ratio=cutoff, **START).efficiency
    assert diesel == pytest.approx(1 - (cutoff**1.4 - 1) / (1.4 * 16**0.4 * (cutoff - 1)))
    otto = ideal_cycle(kind="otto", pressure_ratio=2.0, **START).efficiency
    assert otto == pytest.approx(1 - 16**-0.4)


def test_otto_without_heat_gives_compression_and_efficiency() -> None:
    found = ideal_cycle(kind="otto", **START)
    assert len(found.states) == 2
    assert found.efficiency == pytest.approx(1 - 16**-0.4)
    assert found.peak_pressure is None
    assert found.mean_effective_pressure is None


def test_temperature_limit_is_the_highest_temperature() -> None:
    for kind, more in (("otto", {}), ("diesel", {}), ("dual", {"pressure_ratio": 1.2})):
        found = ideal_cycle(kind=kind, temperature_limit=1900.0, **more, **START)
        assert max(state.celsius for state in found.states) == pytest.approx(1900.0)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"kind": "diesel"}, "found nothing without heat"),
        ({"kind": "otto", "gas": gas_named("variable")}, "hangs on the heat"),
        ({"kind": "otto", "heat": 800.0, "temperature_limit": 1900.0}, "with temperature_limit"),
        ({"kind": "diesel", "pressure_ratio": 1.5}, "pressure_ratio"),
        ({"kind": "dual", "heat": 800.0}, "without pressure_ratio"),
        ({"kind": "wankel", "heat": 800.0}, "allowed: otto"),
        ({"kind": "otto", "lower_heating_value": 44000.0}, "without air_fuel_ratio"),
    ],
)
def test_cycle_refusals(given: dict[str, object], said: str) -> None:
    with pytest.raises(JobError, match=said) as caught:
        ideal_cycle(**START, **given)  # type: ignore[arg-type]
    assert "\n" not in str(caught.value)


def test_more_heat_than_given_and_too_low_a_limit() -> None:
    with pytest.raises(OutOfRange, match="takes more heat"):
        ideal_cycle(kind="dual", heat=200.0, pressure_ratio=3.0, **START)
    with pytest.raises(OutOfRange, match="temperature_limit"):
        ideal_cycle(kind="otto", temperature_limit=100.0, **START)


def test_firing_cycle_without_heat_is_the_motored_engine() -> None:
    """Burning late and without heat, so that the gas is air up to top dead centre."""
    found = firing_cycle(10.0, 0.1, 320.0, Burn(80.0, 50.0, 2.0, 1e-9, 0.0))
    assert found.peak == pytest.approx(found.compression_end, rel=1e-4)
    assert found.peak_angle == 0.0


def test_compression_end_of_air_as_in_air_tables() -> None:
    """Air tables give relative volumes of 621.2 at 300 K and 62.13 at 730 K (from memory)."""
    assert gas_named("variable").squeezed(300.0, 621.2 / 62.13) == pytest.approx(730.0, abs=1.0)


def test_energy_balance_of_the_steps() -> None:
    found = peak_pressure(Firing(9.5, 0.08))
    (balance,) = [step for step in found.steps if "energy_balance" in step.result]
    assert balance.value == pytest.approx(1.0, abs=1e-4)
    assert balance.source == "run:firing-cycle"


def test_later_burn_and_thinner_air_lower_the_peak() -> None:
    early, late = (peak_pressure(Firing(10.0, phasing=math.radians(angle))).peak for angle in (6, 20))
    assert late < early
    assert peak_pressure(Firing(10.0, altitude=2_000_000.0)).peak < peak_pressure(Firing(10.0)).peak


def test_against_stock_goes_with_the_stock_given() -> None:
    boosted = Firing(9.0, 0.1)
    assert peak_pressure(boosted, boosted).against_stock == 1.0
    assert peak_pressure(boosted, Firing(9.0, 0.06)).against_stock > 1.0
    assert peak_pressure(boosted).against_stock > peak_pressure(boosted, Firing(9.0, 0.06)).against_stock
    assert peak_pressure(Firing(10.0)).against_stock == 1.0


def test_labels_of_the_firing_pressure() -> None:
    found = peak_pressure(Firing(10.0))
    assert {note.source for note in found.assumptions} == {"generic-ours"}
    assert "without detonation" in found.cautions[0].text


@pytest.mark.parametrize(
    ("firing", "fault"),
    [
        (Firing(2.0), OutOfRange),
        (Firing(10.0, -0.1), OutOfRange),
        (Firing(10.0, 2.0), OutOfRange),
        (Firing(10.0, phasing=2.0), OutOfRange),
        (Firing(10.0, charge_temperature=400.0), OutOfRange),
        (Firing(10.0, fuel="coal"), JobError),
        (Firing(10.0, altitude=2e7), OutOfRange),
    ],
)
def test_firing_refusals(firing: Firing, fault: type[Exception]) -> None:
    with pytest.raises(fault):
        peak_pressure(firing)
