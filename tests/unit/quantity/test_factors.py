"""The table of factors: every unit can be typed by its own name, and a second opinion agrees."""

from fractions import Fraction

import pint
import pytest

from firedeck.errors import BadQuantity
from firedeck.quantity import UNITS, Kind, Unit, core_unit, from_unit, in_unit, json_unit, parse
from firedeck.quantity.units import find

SECOND_OPINION = {
    Kind.LENGTH: "mm", Kind.FINISH: "mm", Kind.AREA: "mm**2", Kind.VOLUME: "mm**3", Kind.ANGLE: "degree",
    Kind.FORCE: "N", Kind.TORQUE: "N*mm", Kind.STRESS: "MPa", Kind.PRESSURE_GAUGE: "MPa",
    Kind.PRESSURE_ABSOLUTE: "MPa", Kind.TEMPERATURE_CHANGE: "delta_degC", Kind.STIFFNESS: "N/mm",
    Kind.LINE_LOAD: "N/mm", Kind.MASS: "kg", Kind.TIME: "s", Kind.DISTANCE: "mm", Kind.SPEED: "rpm",
}  # fmt: skip
THEIR_NAME = {
    "in": "inch", "µin": "microinch", "thou": "thou", "cc": "cm**3", "cu in": "inch**3", "in²": "inch**2",
    "deg": "degree", "N·m": "N*m", "N·mm": "N*mm", "N·cm": "N*cm", "kN·m": "kN*m", "daN·m": "daN*m",
    "kgf·m": "kgf*m", "kgf·cm": "kgf*cm", "lbf·ft": "lbf*ft", "lbf·in": "lbf*inch", "kip/in": "1000*lbf/inch",
    "kgf/cm²": "kgf/cm**2", "kgf/mm²": "kgf/mm**2", "psig": "psi", "psia": "psi", "bar gauge": "bar",
    "bar abs": "bar", "kPa abs": "kPa", "Mpsi": "megapsi", "lbf/in": "lbf/inch", "Mlbf/in": "1e6*lbf/inch",
    "mm²": "mm**2", "cm²": "cm**2", "m²": "m**2", "mm³": "mm**3", "l": "litre", "°C": "delta_degC",
    "°F": "delta_degF", "K": "kelvin", "kip": "1000*lbf", "N/µm": "N/micrometer",
}  # fmt: skip

ALL = [pytest.param(kind, row, id=f"{kind}:{row.name}") for kind in Kind for row in UNITS[kind]]
OTHERS = [pytest.param(kind, row, id=f"{kind}:{row.name}") for kind in SECOND_OPINION for row in UNITS[kind]]


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize(("kind", "row"), OTHERS)
def test_second_opinion(registry: pint.UnitRegistry, kind: Kind, row: Unit) -> None:
    theirs = (1 * registry(THEIR_NAME.get(row.name, row.name))).to(SECOND_OPINION[kind]).magnitude
    widest = 2e-7 if "Hg" in row.name else 1e-12  # the registry takes mercury at a rounded density
    assert float(row.factor) == pytest.approx(theirs, rel=widest)


@pytest.mark.parametrize(("kind", "row"), ALL)
def test_every_spelling_finds_its_own_row(kind: Kind, row: Unit) -> None:
    assert find(row.name, kind) is row
    for spelling in row.spellings:
        assert find(spelling, kind) is row


@pytest.mark.parametrize(("kind", "row"), ALL)
def test_there_and_back(kind: Kind, row: Unit) -> None:
    assert in_unit(from_unit(Fraction(5, 4), kind, row.name or "1"), kind, row.name or "1") == pytest.approx(
        1.25
    )


@pytest.mark.parametrize("row", sorted({row for rows in UNITS.values() for row in rows}, key=str), ids=str)
def test_every_row_names_its_source(row: Unit) -> None:
    assert row.source in {"si-brochure", "nist-sp811", "generic-ours"}
    assert row.factor > 0


@pytest.mark.parametrize("kind", [kind for kind in Kind if json_unit(kind)])
def test_json_units_are_units_of_their_kind(kind: Kind) -> None:
    unit = json_unit(kind)
    assert unit is not None
    assert in_unit(1.0, kind, unit) > 0


def test_core_units_have_factor_one() -> None:
    for kind in SECOND_OPINION:
        if kind is not Kind.ANGLE:
            assert from_unit(1, kind, core_unit(kind)) == 1.0
    assert from_unit(1, Kind.ANGLE, "rad") == pytest.approx(1.0, rel=1e-15)


def test_published_equivalents() -> None:
    """Printed in the guide of `nist-sp811`, to its digits."""
    assert parse("1 lbf·ft", Kind.TORQUE).value / 1000 == pytest.approx(1.355818, abs=5e-7)
    assert parse("1 psi", Kind.STRESS).value * 1000 == pytest.approx(6.894757, abs=5e-7)
    assert parse("1 inHg", Kind.PRESSURE_ABSOLUTE).value * 1000 == pytest.approx(3.386389, abs=5e-7)
    assert parse("1 cu in", Kind.VOLUME).value / 1000 == pytest.approx(16.38706, abs=5e-6)


def test_an_unknown_unit_is_answered_with_the_known_ones() -> None:
    with pytest.raises(BadQuantity, match="units of a length: mm, cm"):
        in_unit(1.0, Kind.LENGTH, "furlong")
