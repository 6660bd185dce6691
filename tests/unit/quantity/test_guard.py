"""The classic slips of units are named, and nothing is changed."""

import pytest

from firedeck.errors import BadQuantity
from firedeck.quantity import Kind, parse, slips

NAMED = [
    ("30 mm", Kind.FINISH, 0.0001, 0.005, "30 µin"),
    ("30 thou", Kind.FINISH, 0.0001, 0.005, "30 µin"),
    ("5 mm", Kind.LENGTH, 0.0, 0.3, "5 thou"),
    ("3.5 mm", Kind.LENGTH, 50.0, 200.0, "3.5 in"),
    ("90 in", Kind.LENGTH, 50.0, 200.0, "90 mm"),
    ("220 ft-lb", Kind.TORQUE, 10_000.0, 40_000.0, "220 lbf·in"),
    ("65 in-lb", Kind.TORQUE, 50_000.0, 150_000.0, "65 lbf·ft"),
    ("9 N·m", Kind.TORQUE, 50_000.0, 150_000.0, "9 kgf·m"),
    ("175 bar", Kind.PRESSURE_GAUGE, 0.5, 4.0, "175 psi"),
    ("12 psi", Kind.PRESSURE_GAUGE, 0.5, 4.0, "12 bar"),
    ("190 °C", Kind.TEMPERATURE, -30.0, 120.0, "190 °F"),
    ("36.6 cc", Kind.VOLUME, 300_000.0, 900_000.0, "36.6 cu in"),
]


@pytest.mark.parametrize(("text", "kind", "low", "high", "meant"), NAMED)
def test_names_the_slip(text: str, kind: Kind, low: float, high: float, meant: str) -> None:
    typed = parse(text, kind)
    said = slips(typed, low, high)
    assert said is not None
    assert said.startswith(f"{text} is outside")
    assert meant in said.split(":")[-1]
    assert "\n" not in said
    assert typed == parse(text, kind)


def test_quiet_inside_and_at_the_ends() -> None:
    assert slips(parse("0.3 mm", Kind.LENGTH), 0.0, 0.3) is None
    assert slips(parse("0 mm", Kind.LENGTH), 0.0, 0.3) is None


def test_no_slip_explains_it() -> None:
    said = slips(parse("5000 mm", Kind.LENGTH), 50.0, 60.0)
    assert said is not None
    assert said.endswith("check the reading and its unit")


def test_a_crossed_range_is_refused() -> None:
    with pytest.raises(BadQuantity):
        slips(parse("1 mm", Kind.LENGTH), 2.0, 1.0)
