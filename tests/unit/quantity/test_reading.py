"""What people type in a workshop, and the exact core number it is."""

import math
from fractions import Fraction

import pytest

from firedeck.errors import BadQuantity
from firedeck.quantity import Kind, parse

INCH = Fraction("25.4")
LBF = Fraction("4.4482216152605")
FOOT_POUND = LBF * INCH * 12
PSI = LBF / INCH**2

READ = [
    (Kind.LENGTH, ".005 in", INCH * 5 / 1000, "in"),
    (Kind.LENGTH, '0.004"', Fraction("0.1016"), "in"),
    (Kind.LENGTH, "0.004''", Fraction("0.1016"), "in"),
    (Kind.LENGTH, "0.004”", Fraction("0.1016"), "in"),
    (Kind.LENGTH, "0.004 in.", Fraction("0.1016"), "in"),
    (Kind.LENGTH, "5 thou", Fraction("0.127"), "thou"),
    (Kind.LENGTH, "5 thousandths of an inch", Fraction("0.127"), "thou"),
    (Kind.LENGTH, "a thou and a half", Fraction("0.0381"), "thou"),
    (Kind.LENGTH, "1 1/2 thou", Fraction("0.0381"), "thou"),
    (Kind.LENGTH, "1½ thou", Fraction("0.0381"), "thou"),
    (Kind.LENGTH, "one and a half thou", Fraction("0.0381"), "thou"),
    (Kind.LENGTH, "half a thou", Fraction("0.0127"), "thou"),
    (Kind.LENGTH, "0.13mm", Fraction("0.13"), "mm"),
    (Kind.LENGTH, "2,5 mm", Fraction("2.5"), "mm"),
    (Kind.LENGTH, "2,5000 mm", Fraction("2.5"), "mm"),
    (Kind.LENGTH, "0.13\u00a0mm", Fraction("0.13"), "mm"),
    (Kind.LENGTH, "\uff15 mm", Fraction(5), "mm"),
    (Kind.LENGTH, "1/16 in", INCH / 16, "in"),
    (Kind.LENGTH, "¼ in", INCH / 4, "in"),
    (Kind.LENGTH, "2 1/2 in", Fraction("63.5"), "in"),
    (Kind.LENGTH, '2-1/2"', Fraction("63.5"), "in"),
    (Kind.LENGTH, "three quarters of an inch", INCH * 3 / 4, "in"),
    (Kind.LENGTH, "3 hundredths of a mm", Fraction("0.03"), "mm"),
    (Kind.LENGTH, "2 tenths mm", Fraction("0.2"), "mm"),
    (Kind.LENGTH, "half a tenth of a mm", Fraction("0.05"), "mm"),
    (Kind.LENGTH, "1e-3 in", Fraction("0.0254"), "in"),
    (Kind.LENGTH, "2.0e-5 mm", Fraction("0.00002"), "mm"),
    (Kind.LENGTH, "-0.5 mm", Fraction("-0.5"), "mm"),
    (Kind.LENGTH, "\u22120.5 mm", Fraction("-0.5"), "mm"),
    (Kind.LENGTH, "+ 0.1 mm", Fraction("0.1"), "mm"),
    (Kind.LENGTH, "25 µm", Fraction("0.025"), "µm"),
    (Kind.LENGTH, "5 INCHES", INCH * 5, "in"),
    (Kind.LENGTH, "0", Fraction(0), ""),
    (Kind.TORQUE, "65 Nm", Fraction(65000), "N·m"),
    (Kind.TORQUE, "65 nm", Fraction(65000), "N·m"),
    (Kind.TORQUE, "65 N·m", Fraction(65000), "N·m"),
    (Kind.TORQUE, "65 N×m", Fraction(65000), "N·m"),
    (Kind.TORQUE, "65 N m", Fraction(65000), "N·m"),
    (Kind.TORQUE, "48 ft-lb", 48 * FOOT_POUND, "lbf·ft"),
    (Kind.TORQUE, "48 lb-ft", 48 * FOOT_POUND, "lbf·ft"),
    (Kind.TORQUE, "48 lbs ft", 48 * FOOT_POUND, "lbf·ft"),
    (Kind.TORQUE, "48 ft. lbs.", 48 * FOOT_POUND, "lbf·ft"),
    (Kind.TORQUE, "48 ft/lbs", 48 * FOOT_POUND, "lbf·ft"),
    (Kind.TORQUE, "48 foot-pounds", 48 * FOOT_POUND, "lbf·ft"),
    (Kind.TORQUE, "48 lbf·ft", 48 * FOOT_POUND, "lbf·ft"),
    (Kind.TORQUE, "220 in-lb", 220 * FOOT_POUND / 12, "lbf·in"),
    (Kind.TORQUE, "220 lbf·in", 220 * FOOT_POUND / 12, "lbf·in"),
    (Kind.TORQUE, "9 kgf·m", Fraction("88259.85"), "kgf·m"),
    (Kind.TORQUE, "9 mkg", Fraction("88259.85"), "kgf·m"),
    (Kind.TORQUE, "9 kgm", Fraction("88259.85"), "kgf·m"),
    (Kind.TORQUE, "6 daN·m", Fraction(60000), "daN·m"),
    (Kind.PRESSURE_GAUGE, "175 psi", 175 * PSI, "psi"),
    (Kind.PRESSURE_GAUGE, "175 psig", 175 * PSI, "psig"),
    (Kind.PRESSURE_GAUGE, "175 lb/sq in", 175 * PSI, "psi"),
    (Kind.PRESSURE_GAUGE, "12 bar", Fraction("1.2"), "bar"),
    (Kind.PRESSURE_GAUGE, "1200 kPa", Fraction("1.2"), "kPa"),
    (Kind.PRESSURE_ABSOLUTE, "14.7 psia", Fraction("14.7") * PSI, "psia"),
    (Kind.PRESSURE_ABSOLUTE, "14.7 psi", Fraction("14.7") * PSI, "psi"),
    (Kind.PRESSURE_ABSOLUTE, "1 bar abs", Fraction("0.1"), "bar abs"),
    (Kind.PRESSURE_ABSOLUTE, "1013.25 hPa", Fraction("0.101325"), "hPa"),
    (Kind.PRESSURE_ABSOLUTE, "1013.25 mbar", Fraction("0.101325"), "mbar"),
    (Kind.PRESSURE_ABSOLUTE, "1 mmHg", Fraction("0.000133322387415"), "mmHg"),
    (Kind.PRESSURE_ABSOLUTE, "1 inHg", Fraction("0.000133322387415") * INCH, "inHg"),
    (Kind.FINISH, "30 µin", Fraction("0.000762"), "µin"),
    (Kind.FINISH, "30 μin", Fraction("0.000762"), "µin"),
    (Kind.FINISH, "30 microinch", Fraction("0.000762"), "µin"),
    (Kind.FINISH, "30 uin", Fraction("0.000762"), "µin"),
    (Kind.FINISH, "0.8 µm", Fraction("0.0008"), "µm"),
    (Kind.TEMPERATURE, "20 °C", Fraction(20), "°C"),
    (Kind.TEMPERATURE, "68 F", Fraction(20), "°F"),
    (Kind.TEMPERATURE, "68 °F", Fraction(20), "°F"),
    (Kind.TEMPERATURE, "-40 f", Fraction(-40), "°F"),
    (Kind.TEMPERATURE, "293 K", Fraction("19.85"), "K"),
    (Kind.TEMPERATURE_CHANGE, "60 K", Fraction(60), "K"),
    (Kind.TEMPERATURE_CHANGE, "60 °C", Fraction(60), "°C"),
    (Kind.TEMPERATURE_CHANGE, "108 F", Fraction(60), "°F"),
    (Kind.VOLUME, "600 cc", Fraction(600000), "cc"),
    (Kind.VOLUME, "600 cm3", Fraction(600000), "cc"),
    (Kind.VOLUME, "600 cm³", Fraction(600000), "cc"),
    (Kind.VOLUME, "1.3 l", Fraction(1300000), "l"),
    (Kind.VOLUME, "36.6 cu in", Fraction("36.6") * INCH**3, "cu in"),
    (Kind.VOLUME, "36.6 in3", Fraction("36.6") * INCH**3, "cu in"),
    (Kind.AREA, "10 cm2", Fraction(1000), "cm²"),
    (Kind.AREA, "18 sq in", 18 * INCH**2, "in²"),
    (Kind.FORCE, "100 lbf", 100 * LBF, "lbf"),
    (Kind.FORCE, "60 pounds", 60 * LBF, "lbf"),
    (Kind.FORCE, "5 kip", 5000 * LBF, "kip"),
    (Kind.FORCE, "45 kN", Fraction(45000), "kN"),
    (Kind.STRESS, "120 ksi", 120000 * PSI, "ksi"),
    (Kind.STRESS, "30 Mpsi", 30 * 10**6 * PSI, "Mpsi"),
    (Kind.STRESS, "207 GPa", Fraction(207000), "GPa"),
    (Kind.STRESS, "640 N/mm²", Fraction(640), "MPa"),
    (Kind.STIFFNESS, "1000 lbf/in", 1000 * LBF / INCH, "lbf/in"),
    (Kind.STIFFNESS, "6.5 Mlbf/in", Fraction("6.5") * 10**6 * LBF / INCH, "Mlbf/in"),
    (Kind.STIFFNESS, "5 N/mm", Fraction(5), "N/mm"),
    (Kind.STIFFNESS, "5 kN/mm", Fraction(5000), "kN/mm"),
    (Kind.STIFFNESS, "500 MN/m", Fraction(500000), "MN/m"),
    (Kind.LINE_LOAD, "250 N/mm", Fraction(250), "N/mm"),
    (Kind.MASS, "10 lb", Fraction("4.5359237"), "lb"),
    (Kind.TIME, "2 min", Fraction(120), "min"),
    (Kind.TIME, "48 h", Fraction(172800), "h"),
    (Kind.TIME, "3 days", Fraction(259200), "day"),
    (Kind.TIME, "2 weeks", Fraction(1209600), "week"),
    (Kind.DISTANCE, "1000 km", Fraction(10**9), "km"),
    (Kind.DISTANCE, "3000000 km", Fraction(3 * 10**12), "km"),
    (Kind.DISTANCE, "500 miles", Fraction(804672000), "mile"),
    (Kind.SPEED, "180 rpm", Fraction(180), "rpm"),
    (Kind.SPEED, "180 1/min", Fraction(180), "rpm"),
    (Kind.SPEED, "180 r/min", Fraction(180), "rpm"),
    (Kind.SPEED, "180 min⁻¹", Fraction(180), "rpm"),
    (Kind.RATIO, "9.8", Fraction("9.8"), ""),
    (Kind.RATIO, "9.8:1", Fraction("9.8"), ":1"),
    (Kind.RATIO, "9.8 : 1", Fraction("9.8"), ":1"),
    (Kind.RATIO, "9.8 to 1", Fraction("9.8"), ":1"),
    (Kind.SHARE, "75 %", Fraction(3, 4), "%"),
    (Kind.SHARE, "0.75", Fraction(3, 4), ""),
    (Kind.COUNT, "six", Fraction(6), ""),
    (Kind.HARDNESS, "95 HB", Fraction(95), "HB"),
    (Kind.HARDNESS, "HRB 60", Fraction(60), "HRB"),
]

DEGREES = [
    ("90°", 90, "deg"), ("90 deg", 90, "deg"), ("+90°", 90, "deg"), ("1/4 turn", 90, "turn"),
    ("a quarter turn", 90, "turn"), ("quarter of a turn", 90, "turn"), ("half a turn", 180, "turn"),
    ("one turn", 360, "turn"), ("1 1/2 turns", 540, "turn"), ("a turn and a half", 540, "turn"),
    ("5/4 turn", 450, "turn"), ("three-quarter turn", 270, "turn"), ("3600 arcsec", 1, "arcsec"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "text", "exact", "unit"), READ)
def test_reads_exactly(kind: Kind, text: str, exact: Fraction, unit: str) -> None:
    found = parse(text, kind)
    assert (found.exact, found.unit, found.kind) == (exact, unit, kind)
    assert found.value == float(exact)


@pytest.mark.parametrize(("text", "degrees", "unit"), DEGREES)
def test_angles_are_exact_in_degrees_and_valued_in_radians(text: str, degrees: int, unit: str) -> None:
    found = parse(text, Kind.ANGLE)
    assert (found.exact, found.unit) == (degrees, unit)
    assert found.value == math.radians(degrees)


def test_a_radian_is_itself() -> None:
    assert parse("1 rad", Kind.ANGLE).value == pytest.approx(1.0, rel=1e-15)


@pytest.mark.parametrize("text", ["0.02 mm/m", "20 µm/m", "20 um per m", "0.00024 in/ft", "0.24 thou/ft"])
def test_a_level_is_read_in_its_own_slope(text: str) -> None:
    """A slope of 0.02 mm in a metre lifts the far pad of a 100 mm foot by 2 µm."""
    assert 100.0 * math.tan(parse(text, Kind.ANGLE).value) == pytest.approx(0.002, rel=1e-6)


def test_the_text_stays_as_typed() -> None:
    assert str(parse("  ½ \u00b5in ", Kind.FINISH)) == "  ½ \u00b5in "


@pytest.mark.parametrize("kind", [Kind.CHOICE, Kind.TEXT])
def test_words_are_no_quantity(kind: Kind) -> None:
    with pytest.raises(BadQuantity, match="has no number"):
        parse("oil", kind)
