"""Core numbers for people."""

import pytest

from firedeck.errors import BadQuantity
from firedeck.quantity import Kind, number, parse, show, show_both

SHOWN = [
    ("4 thou", Kind.LENGTH, "0.102 mm", "0.0040 in"),
    ("0.0001 in", Kind.LENGTH, "0.0025 mm", "0.00010 in"),
    ("100 mm", Kind.LENGTH, "100.0 mm", "3.9370 in"),
    ("0 mm", Kind.LENGTH, "0 mm", "0 in"),
    ("65 N·m", Kind.TORQUE, "65 N·m", "48 lbf·ft"),
    ("220 in-lb", Kind.TORQUE, "24.9 N·m", "220 lbf·in"),
    ("175 psi", Kind.PRESSURE_GAUGE, "12.1 bar", "175 psi"),
    ("1.013 bar", Kind.PRESSURE_ABSOLUTE, "1.013 bar abs", "14.7 psia"),
    ("600 cc", Kind.VOLUME, "600 cc", "36.61 cu in"),
    ("32 µin", Kind.FINISH, "0.81 µm", "32 µin"),
    ("0.8 µm", Kind.FINISH, "0.8 µm", "31 µin"),
    ("68 F", Kind.TEMPERATURE, "20 °C", "68 °F"),
    ("60 K", Kind.TEMPERATURE_CHANGE, "60 K", "108 °F"),
    ("640 MPa", Kind.STRESS, "640 MPa", "92.8 ksi"),
    ("207 GPa", Kind.STRESS, "207 GPa", "30 Mpsi"),
    ("45 kN", Kind.FORCE, "45 kN", "10116 lbf"),
    ("18 sq in", Kind.AREA, "116.1 cm²", "18 sq in"),
    ("500 kN/mm", Kind.STIFFNESS, "500 kN/mm", "2.86 Mlbf/in"),
    ("1/4 turn", Kind.ANGLE, "90°", "90°"),
    ("75 %", Kind.SHARE, "75 %", "75 %"),
    ("9.8:1", Kind.RATIO, "9.8", "9.8"),
    ("6", Kind.COUNT, "6", "6"),
    ("48 h", Kind.TIME, "48 h", "48 h"),
    ("2 weeks", Kind.TIME, "14 days", "14 days"),
    ("1000 km", Kind.DISTANCE, "1000 km", "621 miles"),
    ("1500 m", Kind.DISTANCE, "1500 m", "4921 ft"),
    ("180 rpm", Kind.SPEED, "180 rpm", "180 rpm"),
]


@pytest.mark.parametrize(("text", "kind", "metric", "inch"), SHOWN)
def test_shown_in_both_families(text: str, kind: Kind, metric: str, inch: str) -> None:
    value = parse(text, kind).value
    assert (show(value, kind, "mm"), show(value, kind, "inch")) == (metric, inch)


def test_a_small_reading_is_never_shown_as_nought() -> None:
    assert show(-0.0000012, Kind.LENGTH, "mm") == "-0.0000012 mm"


def test_both_in_one() -> None:
    assert show_both(0.1016, Kind.LENGTH, first="inch") == "0.0040 in (0.102 mm)"
    assert show_both(3.0, Kind.COUNT) == "3"


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0"), (-0.0, "0"), (1 / 3, "0.333333"), (1234567.8, "1234570"), (-25.4, "-25.4"),
     (999999.96, "1000000"), (1.5e-9, "1.5e-9"), (2.5e15, "2.5e15"), (24, "24")],
)  # fmt: skip
def test_six_digits(value: float, text: str) -> None:
    assert number(value) == text


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_only_finite_numbers_are_shown(value: float) -> None:
    with pytest.raises(BadQuantity):
        show(value, Kind.LENGTH, "mm")
    with pytest.raises(BadQuantity):
        number(value)


def test_words_are_not_shown_as_numbers() -> None:
    with pytest.raises(BadQuantity):
        show(1.0, Kind.TEXT, "mm")
