"""Firing pressure against ranges recalled, and what detonation adds."""

import pytest
from cases import Row, published

from firedeck.cylinder.peak_pressure import Firing, peak_pressure
from firedeck.quantity import Kind, parse
from firedeck.tables import rows


def pressure(text: str) -> float:
    return parse(text, Kind.PRESSURE_GAUGE).value


@published(__file__, "firing.csv")
def test_our_band_meets_the_range_recalled(row: Row) -> None:
    found = peak_pressure(Firing(float(row["ratio"]), pressure(row["boost"])))
    low, high = pressure(row["low"]), pressure(row["high"])
    assert found.band.low < high
    assert found.band.high > low
    assert found.peak == pytest.approx((low + high) / 2, rel=0.25)


@published(__file__, "knock.csv")
def test_knock_table(row: Row) -> None:
    (held,) = [swing for swing in rows("knock") if swing["severity"] == row["severity"]]
    assert (float(held["low"]) * 10, float(held["high"]) * 10) == (float(row["low"]), float(row["high"]))
    assert held["source"] == "memory"


@published(__file__, "all_aluminium.csv")
def test_a_firing_pressure_in_print(row: Row) -> None:
    (held,) = [engine for engine in rows("peak_pressures") if engine["engine"] == row["engine"]]
    assert held["low"] == held["high"] == row["expected"]
    found = peak_pressure(Firing(15.5, pressure("2 bar"), fuel="diesel"))
    assert found.band.low < pressure(row["expected"]) < found.band.high
