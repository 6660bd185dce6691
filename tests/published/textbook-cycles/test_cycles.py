"""Worked cycles of textbooks."""

import pytest
from cases import Row, published

from firedeck.cylinder.ideal_cycle import IdealCycle, ideal_cycle, mean_effective_pressure
from firedeck.cylinder.working_gas import LinearHeatAir

BAR = 0.1
BOOK_ZERO = 273.0
"""The book takes this many kelvin at 0 °C."""


def cycle(row: Row) -> IdealCycle:
    start = {"kind": row["kind"], "ratio": float(row["ratio"]), "pressure": float(row["pressure"]) * BAR}
    temperature = float(row["kelvin"]) - 273.15
    if row["given"] == "peak":
        squeezed = start["pressure"] * start["ratio"] ** 1.4
        return ideal_cycle(
            **start, temperature=temperature, pressure_ratio=float(row["value"]) * BAR / squeezed
        )
    if row["given"] == "cutoff":
        return ideal_cycle(**start, temperature=temperature, cutoff_ratio=float(row["value"]))
    if row["given"] == "none":
        return ideal_cycle(**start, temperature=temperature)
    heating, air = (float(part) for part in row["value"].split("/"))
    gas = LinearHeatAir(0.71, 0.0 if row["given"] == "fuel-constant" else 20e-5, float(row["exponent"]))
    return ideal_cycle(
        **start, temperature=temperature, lower_heating_value=heating, air_fuel_ratio=air, gas=gas
    )


def figure(found: IdealCycle, row: Row) -> float:
    name = row["quantity"]
    if name == "heat_in_over_out":
        return found.heat_in / found.heat_out
    if not row["corner"]:
        value = float(getattr(found, name))
        return value / BAR if name == "mean_effective_pressure" else value
    state = found.states[int(row["corner"]) - 1]
    by_name = {
        "pressure": state.pressure / BAR,
        "psia": state.pressure / 0.00689475729,
        "kelvin": state.kelvin,
        "celsius": state.kelvin - BOOK_ZERO,
        "rankine": state.kelvin * 1.8,
    }
    return by_name[name]


@published(__file__, "cycles.csv")
def test_cycle(row: Row) -> None:
    assert figure(cycle(row), row) == pytest.approx(
        float(row["expected"]), abs=float(row["tolerance"]) * 1.0001
    )


@published(__file__, "mean_pressure.csv")
def test_mean_effective_pressure(row: Row) -> None:
    step = mean_effective_pressure(*(float(row[name]) for name in ("work", "pressure", "kelvin", "ratio")))
    assert step.value * 1000 == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))
