"""The sums of the cylinder tests as a mechanic types them."""

import pytest

from firedeck.errors import FiredeckError
from firedeck.sums.cylinder_tests import (
    compression_spread,
    coolant_boiling,
    leak_down,
    leak_down_crank_torque,
    oil_in_wet_test,
)
from firedeck.sums.registry import SumResult


def printed(result: SumResult, name: str) -> tuple[object, object]:
    figure = result.results[name].as_json()
    return figure["value"], figure["unit"]


def test_compression_spread() -> None:
    result = compression_spread(readings="107, 60, 80, 105 psi")
    assert set(result.results) == {"lowest_over_highest", "spread", "suspects", "pattern", "outcome_by_rule"}
    assert printed(result, "lowest_over_highest") == (pytest.approx(0.5607, abs=1e-4), "1")
    assert printed(result, "spread") == (pytest.approx(0.32405, abs=1e-4), "MPa")
    assert printed(result, "suspects") == ([2, 3], None)
    assert printed(result, "pattern") == ("adjacent pair low: 2-3", None)
    assert "common-practice" in result.sources


def test_compression_with_a_rule_and_wet_readings_by_slashes() -> None:
    result = compression_spread(
        readings="137/133/119/133 psi",
        wet="158/148/133/145 psi",
        limit_rule="10 psi",
        oil_volume="5 cc",
        swept_volume="450 cc",
        ratio="9.9",
    )
    assert printed(result, "suspects") == ([3], None)
    outcomes, unit = printed(result, "outcome_by_rule")
    assert outcomes == {"10 psi": "fails", "10 %": "fails", "15 %": "holds", "25 %": "holds"}
    assert unit is None
    assert any("disagree" in caution for caution in result.cautions)
    assert any("oil" in assumption for assumption in result.assumptions)


def test_oil_in_wet_test() -> None:
    result = oil_in_wet_test(swept_volume="450 cc", ratio="9.9", oil_volume="5 cc")
    assert printed(result, "gain_without_leak") == (pytest.approx(0.13, abs=0.005), "1")


def test_leak_down() -> None:
    result = leak_down(supply="50 psi", restrictor="1 mm", reading="40 psi")
    assert set(result.results) == {"leak_percent", "leak_area", "leak_hole", "reading"}
    assert printed(result, "leak_percent") == (pytest.approx(20.0), "%")
    assert printed(result, "leak_hole")[1] == "mm"
    assert printed(result, "leak_area")[1] == "mm²"


def test_leak_down_from_a_hole() -> None:
    result = leak_down(
        supply="80 psi", restrictor="0.040 in", leak_hole="0.040 in", restrictor_length="0.25 in"
    )
    assert printed(result, "reading") == (pytest.approx(0.4261, abs=0.0007), "MPa")


def test_leak_down_crank_torque() -> None:
    result = leak_down_crank_torque(
        bore="86 mm", stroke="86 mm", rod="143 mm", supply="100 psi", crank_angle="10 deg"
    )
    assert printed(result, "torque") == (pytest.approx(38773, abs=1), "N·mm")
    assert any("lock the crank" in caution for caution in result.cautions)


@pytest.mark.parametrize(
    ("coolant", "cap", "celsius"), [("water", "15 psi", 121.0), ("ethylene 50 %", "15 psi", 130.0)]
)
def test_coolant_boiling(coolant: str, cap: str, celsius: float) -> None:
    result = coolant_boiling(coolant=coolant, cap_pressure=cap, altitude="0 m")
    assert printed(result, "boiling") == (pytest.approx(celsius, abs=0.3), "°C")


@pytest.mark.parametrize(
    ("run", "given", "says"),
    [
        (compression_spread, {"readings": "100 psi"}, "readings"),
        (compression_spread, {"readings": "100,90 psi", "limit_rule": "bananas"}, "limit_rule"),
        (compression_spread, {"readings": "100,90 psi", "wet": "100,95,90 psi"}, "wet"),
        (leak_down, {"supply": "80 psi", "reading": "90 psi"}, "reading"),
        (leak_down, {"supply": "80 psi"}, "reading"),
        (leak_down, {"supply": "80", "reading": "70 psi"}, "supply"),
        (oil_in_wet_test, {"swept_volume": "450 cc", "ratio": "9.9", "oil_volume": "60 cc"}, "oil_volume"),
        (coolant_boiling, {"coolant": "beer", "cap_pressure": "7 psi", "altitude": "0 m"}, "coolant"),
    ],
)
def test_bad_arguments_say_which(run: object, given: dict[str, str], says: str) -> None:
    with pytest.raises(FiredeckError, match=says) as fault:
        run(**given)  # type: ignore[operator]
    assert "\n" not in str(fault.value)
