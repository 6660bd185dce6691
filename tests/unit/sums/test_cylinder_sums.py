"""The sums of the cylinder as they are called from outside: names, arguments, results, refusals."""

import pytest

from firedeck import sums
from firedeck.errors import FiredeckError, JobError

PUBLIC = {
    "compression-ratio": {"swept_volume": "cc", "clearance_volume": "cc", "ratio": "1"},
    "cut-for-ratio": {"cut": "mm", "volume": "cc"},
    "chamber-cut": {"volume_change": "cc", "volume_per_cut": "cc/mm", "cut_per_cc": "mm/cc"},
    "squish": {"squish": "mm"},
    "intake-face-cut": {"flange_cut": "mm", "end_rail_cut": "mm", "port_shift": "mm"},
    "cam-timing-shift": {"cam_angle": "deg", "crank_angle": "deg"},
    "valve-to-piston": {"intake": "mm", "exhaust": "mm"},
    "cranking-pressure": {"gauge": "MPa", "absolute": "MPa"},
    "cranking-exponent": {"exponent": "1"},
    "altitude-compression": {"gauge": "MPa"},
    "standard-atmosphere": {"pressure": "MPa", "temperature": "°C", "density_ratio": "1"},
    "ideal-cycle": {
        "states": None,
        "peak_pressure": "MPa",
        "efficiency": "1",
        "mean_effective_pressure": "MPa",
    },
    "peak-pressure": {"peak": "MPa", "peak_low": "MPa", "peak_high": "MPa", "against_stock": "1"},
    "gas-force": {"force": "N"},
    "gasket-class": {"class": None, "thickness": "mm", "deciding_value": "mm", "neighbour_spread": "mm"},
    "liner-step": {"spread_within": "mm", "step_between": "mm", "verdict": None},
    "pressed-thickness": {"thinnest": "mm", "thickest": "mm"},
}
CALLS: dict[str, dict[str, str]] = {
    "pressed-thickness": {"free_thickness": "0.060 in", "construction": "composite"},
    "compression-ratio": {"swept_volume": "36.6 cu in", "clearance_volume": "61 cc"},
    "cut-for-ratio": {
        "swept_volume": "571.5 cc",
        "clearance_volume": "79.45 cc",
        "ratio": "9:1",
        "volume_per_cut": "0.12 cc/thou",
    },
    "chamber-cut": {"volume_before": "91 cc", "volume_after": "75.2 cc", "cut": "0.100 in"},
    "squish": {"deck_clearance": "20 thou", "gasket_thickness": "0.041 in"},
    "intake-face-cut": {"vee_angle": "90°", "flange_lean": "10 deg", "cut": "0.030 in"},
    "cam-timing-shift": {"cut": "-0.070 in", "teeth": "34", "pitch": "6.4 mm"},
    "valve-to-piston": {
        "intake": "2.6 mm",
        "exhaust": "3.1 mm",
        "cut": "0.006 in",
        "gasket_change": "-0.05 mm",
        "limits": "0.080, 0.100 in",
    },
    "cranking-pressure": {"ratio": "9.9", "altitude": "5000 ft"},
    "cranking-exponent": {"ratio": "9.9", "gauge": "175 psi"},
    "altitude-compression": {"gauge": "175 psi", "altitude": "5000 ft"},
    "standard-atmosphere": {"altitude": "1500 m"},
    "ideal-cycle": {
        "kind": "otto",
        "ratio": "8",
        "pressure": "14.7 psia",
        "temperature": "70 F",
        "lower_heating_value": "44 MJ/kg",
        "air_fuel_ratio": "15",
        "gas": "variable",
    },
    "peak-pressure": {"ratio": "9.5", "boost": "8 psi", "fuel": "petrol", "phasing": "12 deg"},
    "gas-force": {"peak": "1100 psi", "seal_diameter": "4 in"},
    "gasket-class": {
        "protrusions": "0.95/0.98, 1.02/0.99, 0.96/0.97, 0.94/0.95 mm",
        "classes": "0.91 mm/1.00 mm/1.53 mm, 1.01 mm/1.10 mm/1.63 mm, 1.11 mm/1.20 mm/1.73 mm",
        "rule": "highest",
    },
    "liner-step": {"readings": "4/4.5/4, 5/5/4.5 thou", "limits": "0.001, 0.002 in"},
}


@pytest.mark.parametrize("name", PUBLIC)
def test_results_and_units(name: str) -> None:
    found = sums.find_sum(name).run(**CALLS[name])
    printed = {key: figure.as_json()["unit"] for key, figure in found.results.items()}
    assert printed == PUBLIC[name]
    assert found.steps
    assert found.sources


NEEDED = [
    (name, left_out)
    for name, call in CALLS.items()
    for left_out in call
    if (name, left_out)
    not in {
        ("valve-to-piston", "limits"),
        ("cranking-pressure", "altitude"),
        ("ideal-cycle", "gas"),
        ("peak-pressure", "fuel"),
        ("peak-pressure", "phasing"),
        ("pressed-thickness", "construction"),
    }
]


@pytest.mark.parametrize(("name", "left_out"), NEEDED)
def test_a_needed_argument_left_out_is_one_line(name: str, left_out: str) -> None:
    given = {key: value for key, value in CALLS[name].items() if key != left_out}
    with pytest.raises(JobError, match=name) as caught:
        sums.find_sum(name).run(**given)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("name", PUBLIC)
@pytest.mark.parametrize("text", ["", "abc", "1,100 psi", "nan mm", "1e400 mm", "-1 furlong", "5 mm 5 mm"])
def test_nonsense_is_refused_in_one_line(name: str, text: str) -> None:
    for spoilt in CALLS[name]:
        with pytest.raises(FiredeckError) as caught:
            sums.find_sum(name).run(**{**CALLS[name], spoilt: text})
        assert "\n" not in str(caught.value)


def value(name: str, key: str, **given: str) -> object:
    return sums.find_sum(name).run(**given).results[key].as_json()["value"]


def test_inch_and_metric_give_the_same() -> None:
    inch = value("squish", "squish", deck_clearance="0.020 in", gasket_thickness="0.041 in")
    metric = value("squish", "squish", deck_clearance="0.508 mm", gasket_thickness="1.0414 mm")
    assert inch == pytest.approx(metric, rel=1e-12)


def test_a_plain_list_is_one_reading_per_piston() -> None:
    classes = CALLS["gasket-class"]["classes"]
    for text in ("0.95, 1.02, 0.98 mm", "0.95/1.02/0.98 mm", "0.95 mm; 1.02 mm; 0.98 mm"):
        given = {"protrusions": text, "classes": classes, "rule": "highest"}
        assert value("gasket-class", "class", **given) == "2"
        assert value("gasket-class", "neighbour_spread", **given) == pytest.approx(0.07)


def test_a_rule_of_the_book_is_needed() -> None:
    with pytest.raises(JobError, match="rule"):
        value("gasket-class", "class", **{**CALLS["gasket-class"], "rule": "lowest"})


def test_verdict_at_the_limit() -> None:
    given = {"readings": "0.10/0.12/0.11, 0.12/0.12/0.12 mm", "limits": "0.02, 0.05 mm"}
    assert value("liner-step", "verdict", **given) == "at-limit"


def test_corners_of_a_cycle_carry_their_units() -> None:
    corners = value("ideal-cycle", "states", **CALLS["ideal-cycle"])
    assert isinstance(corners, list)
    assert [corner["corner"] for corner in corners] == [1, 2, 3, 4]
    assert corners[0]["temperature_C"] == pytest.approx(21.111, abs=0.001)
    assert corners[0]["pressure_MPa"] == pytest.approx(0.10135, abs=0.00001)
