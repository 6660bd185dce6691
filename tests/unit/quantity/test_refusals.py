"""What is refused: one line each, with the readings it could have."""

import pytest

from firedeck.errors import BadQuantity
from firedeck.quantity import Kind, parse

TWO_READINGS = [
    (Kind.LENGTH, "0.15", "0.15 mm", "0.15 in"),
    (Kind.LENGTH, "+.030", "+.030 mm", "+.030 in"),
    (Kind.FINISH, "30", "30 µm", "30 µin"),
    (Kind.FINISH, "Ra 30", "30 µm", "30 µin"),
    (Kind.TORQUE, "60", "60 N·m", "60 lb-ft"),
    (Kind.TORQUE, "60 pounds", "60 lb-ft", "60 lb-in"),
    (Kind.TORQUE, "60 lbs", "60 lb-ft", "60 lb-in"),
    (Kind.TORQUE, "60 #", "60 lb-ft", "60 lb-in"),
    (Kind.PRESSURE_GAUGE, "150", "150 psi", "150 bar"),
    (Kind.PRESSURE_GAUGE, "60 pounds", "60 psi", "60 lbf"),
    (Kind.PRESSURE_GAUGE, "1,100 psi", "1100 psi", "1.100 psi"),
    (Kind.LENGTH, "60 lb", "60 lb-ft", "60 psi"),
    (Kind.LENGTH, "3 tenths", "0.3 mm", "0.0003 in"),
    (Kind.LENGTH, "tenths", "0.1 mm", "0.0001 in"),
    (Kind.LENGTH, "3 hundredths", "0.03 mm", "0.03 in"),
    (Kind.LENGTH, "hundredths", "0.01 mm", "0.01 in"),
    (Kind.LENGTH, "5 thousandths", "0.005 mm", "0.005 in"),
    (Kind.LENGTH, "5 mil", "5 mm", "5 thou"),
    (Kind.TEMPERATURE, "20", "20 °C", "20 °F"),
    (Kind.TEMPERATURE, "0", "0 °C", "0 °F"),
    (Kind.TEMPERATURE, "90°", "90 °C", "90 °F"),
    (Kind.LENGTH, "5 and a half", "5 and a half mm", "5 and a half in"),
    (Kind.VOLUME, "40", "40 cc", "40 cu in"),
    (Kind.HARDNESS, "95", "95 HB", "95 HV"),
    (Kind.ANGLE, "90", "90 deg", "90 turn"),
    (Kind.SHARE, "75", "75 %", "0.75"),
    (Kind.PRESSURE_ABSOLUTE, "5 psig", "psia", "bar abs"),
    (Kind.STRESS, "640", "640 MPa", "640 psi"),
]

ONE_LINE = [
    (Kind.LENGTH, "", "nothing is written"),
    (Kind.LENGTH, " \t ", "nothing is written"),
    (Kind.LENGTH, "x" * 10_000, "too many"),
    (Kind.LENGTH, "9" * 100 + " mm", "larger than"),
    (Kind.LENGTH, "1e13 mm", "larger than"),
    (Kind.SHARE, "1e571", "larger than"),
    (Kind.LENGTH, "1e-400 mm", "smaller than"),
    (Kind.LENGTH, "5, mm", "no unit of a length"),
    (Kind.LENGTH, "2 - 1/2 in", "not two numbers"),
    (Kind.LENGTH, "1, 100 mm", "no unit of a length"),
    (Kind.TORQUE, "65 N/m", "N/m is a unit of a stiffness"),
    (Kind.TIME, "1 h 30 min", "one number with one unit"),
    (Kind.LENGTH, "1/0 in", "divides by nought"),
    (Kind.LENGTH, "1,2,3 mm", "more than one decimal mark"),
    (Kind.LENGTH, "1.2.3 mm", "more than one decimal mark"),
    (Kind.LENGTH, "1.100,5 mm", "more than one decimal mark"),
    (Kind.LENGTH, "0,125 mm", "write a point, not a comma: 0.125 mm"),
    (Kind.LENGTH, "5 mm mm", "one number with one unit"),
    (Kind.LENGTH, "5 ft 6 in", "one number with one unit"),
    (Kind.LENGTH, "2-3 mm", "not two numbers"),
    (Kind.LENGTH, "2 to 3 mm", "not two numbers"),
    (Kind.LENGTH, "1 100 mm", "not two numbers"),
    (Kind.LENGTH, "160/168 mm", "no usual fraction"),
    (Kind.LENGTH, "9/8 in", "no usual fraction"),
    (Kind.LENGTH, "nan mm", "write a number"),
    (Kind.LENGTH, "inf mm", "write a number"),
    (Kind.LENGTH, "1_000 mm", "no unit of a length"),
    (Kind.LENGTH, "0x10 mm", "no unit of a length"),
    (Kind.LENGTH, "10² mm", "no unit of a length"),
    (Kind.LENGTH, "--5 mm", "write a number"),
    (Kind.LENGTH, "~5 mm", "write a number"),
    (Kind.LENGTH, "5 furlongs", "no unit of a length"),
    (Kind.LENGTH, "5 psi", "psi is a unit of a stress"),
    (Kind.LENGTH, "٣ mm", "ARABIC-INDIC DIGIT THREE"),
    (Kind.LENGTH, "±0.1 mm", "PLUS-MINUS SIGN"),
    (Kind.STRESS, "5 МРа", "CYRILLIC CAPITAL LETTER EM"),
    (Kind.STRESS, "640 mPa", "640 MPa"),
    (Kind.STIFFNESS, "500 mN/m", "500 MN/m"),
    (Kind.FINISH, "Ra 0.8 µm", "leave Ra out"),
    (Kind.FINISH, "-0.8 µm", "cannot be below nought"),
    (Kind.PRESSURE_ABSOLUTE, "-1 bar", "cannot be below nought"),
    (Kind.PRESSURE_GAUGE, "14 psia", "counts from vacuum"),
    (Kind.PRESSURE_GAUGE, "1 bar abs", "counts from vacuum"),
    (Kind.TEMPERATURE, "-300 °C", "colder"),
    (Kind.COUNT, "6.5", "whole number"),
    (Kind.RATIO, "1:9", "plain number"),
]


@pytest.mark.parametrize(("kind", "text", "one", "other"), TWO_READINGS)
def test_offers_both_readings(kind: Kind, text: str, one: str, other: str) -> None:
    with pytest.raises(BadQuantity) as refused:
        parse(text, kind)
    assert one in refused.value.allowed
    assert other in refused.value.allowed
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(("kind", "text", "says"), ONE_LINE)
def test_says_why_in_one_short_line(kind: Kind, text: str, says: str) -> None:
    with pytest.raises(BadQuantity) as refused:
        parse(text, kind)
    assert says in refused.value.allowed
    assert "\n" not in str(refused.value)
    assert len(str(refused.value)) < 260


def test_a_number_that_is_no_text_is_refused() -> None:
    with pytest.raises(BadQuantity, match="in quotes"):
        parse(5, Kind.LENGTH)  # type: ignore[arg-type]
