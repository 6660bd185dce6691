"""What oil does by its volume, and what is left of the rise."""

import pytest

from firedeck.diagnosis import compression_spread, oil_gain
from firedeck.diagnosis.wet_test import read_wet
from firedeck.errors import OutOfRange
from firedeck.quantity import Kind, parse_list

PRINTED = 2e-5
"""Small differences are worked out from figures with six digits, as they are printed."""


def psi(text: str) -> tuple[float, ...]:
    return tuple(one.value for one in parse_list(f"{text} psi", Kind.PRESSURE_GAUGE))


def test_five_cc_on_450_at_9_9() -> None:
    assert round(oil_gain(450e3, 9.9, 5e3).gain, 2) == 0.13


@pytest.mark.parametrize("exponent", [1.2, 1.25, 1.3])
def test_gain_against_the_gas_law(exponent: float) -> None:
    clearance = 450.0 / 8.9
    volumes = [(450.0 + clearance, clearance), (450.0 + clearance - 5.0, clearance - 5.0)]
    dry, wet = (0.1 * (bottom / top) ** exponent - 0.1 for bottom, top in volumes)
    assert oil_gain(450e3, 9.9, 5e3, exponent).gain == pytest.approx(wet / dry - 1, rel=PRINTED)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"oil_volume": 0.0}, "oil_volume"),
        ({"oil_volume": 60e3}, "clearance volume, 50.56 cc"),
        ({"ratio": 1.0}, "ratio"),
        ({"swept_volume": -1.0}, "swept_volume"),
        ({"exponent": 2.0}, "exponent"),
    ],
)
def test_out_of_range(given: dict[str, float], says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        oil_gain(**{"swept_volume": 450e3, "ratio": 9.9, "oil_volume": 5e3, **given})


def test_a_percentage_misleads_on_a_tiny_reading() -> None:
    found = compression_spread(psi("75/15/105/105"), wet=psi("85/25/120/120"))
    assert [round(one.gain or 0.0, 2) for one in found.wet] == [0.13, 0.67, 0.14, 0.14]
    assert [one.percent_misleads for one in found.wet] == [False, True, False, False]
    assert not any(one.rings for one in found.wet)
    assert found.wet[1].rise == pytest.approx(psi("10/1")[0], rel=PRINTED)
    assert any("Dry reading of 2" in note.text for note in found.notes)


def test_oil_explains_an_even_gain() -> None:
    found = compression_spread(
        psi("137/133/119/133"), wet=psi("154/150/134/150"), oil_volume=5e3, swept_volume=450e3, ratio=9.9
    )
    assert found.oil is not None
    assert not any(one.rings for one in found.wet)
    assert all(abs(one.beyond_oil) < psi("3/1")[0] for one in found.wet)


def test_rings_rise_beyond_the_oil() -> None:
    found = compression_spread(
        psi("140/90/140"), wet=psi("158/140/158"), oil_volume=5e3, swept_volume=450e3, ratio=9.9
    )
    assert [one.rings for one in found.wet] == [False, True, False]
    assert any("rings or bore in 2" in note.text for note in found.notes)


def test_without_oil_figures_the_middle_rise_stands_in() -> None:
    found = compression_spread(psi("140/90/140"), wet=psi("158/140/158"), oil_volume=5e3)
    assert found.oil is None
    assert any("not all known" in note.text for note in found.assumed)


def test_nil_dry_has_no_percentage() -> None:
    readings, steps = read_wet((0.0, 1.0), (0.2, 1.1), None)
    assert readings[0].gain is None
    assert [step.says for step in steps if "gain" in step.says] == ["Cylinder 2: gain with oil"]


def test_the_note_of_diesels_stays_with_diesels_and_with_who_does_not_know() -> None:
    oil = oil_gain(450e3, 9.9, 5e3)
    said = {
        fuel: any("diesel" in note.text for note in oil.notes_for(fuel))
        for fuel in ("petrol", "diesel", None)
    }
    assert said == {"petrol": False, "diesel": True, None: True}


def test_the_oil_of_a_flat_engine_lies_on_one_wall():
    oil = oil_gain(450000.0, 9.9, 5000.0)
    assert any("lower wall" in note.text for note in oil.notes_for("petrol", "flat"))
    assert any("low side" in note.text for note in oil.notes_for("petrol", "vee"))
    assert any("Upright" in note.text for note in oil.notes_for("petrol", "inline"))


def bar(text: str) -> list[float]:
    return [float(one) / 10.0 for one in text.split("/")]


def test_oil_that_nobody_feels_is_not_taken_off_and_the_odd_cylinder_shows() -> None:
    found = compression_spread(
        bar("26/27/19/27"), wet=bar("30/31/29/31"), oil_volume=5e3, swept_volume=393e3, ratio=23.0
    )
    assert found.oil is not None
    assert not found.oil_felt
    assert [one.rings for one in found.wet] == [False, False, True, False]
    assert any("far less than the oil's volume" in note.text for note in found.assumed)


def test_oil_that_is_felt_is_taken_off_as_before() -> None:
    found = compression_spread(
        psi("137/133/119/133"), wet=psi("158/148/133/145"), oil_volume=5e3, swept_volume=450e3, ratio=9.9
    )
    assert found.oil_felt
    assert not any(one.rings for one in found.wet)
