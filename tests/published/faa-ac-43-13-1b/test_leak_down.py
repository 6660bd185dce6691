"""Leak areas and readings against worked figures, and the restrictor rule of the table."""

import pytest
from cases import Row, published

from firedeck.diagnosis import leak_down
from firedeck.quantity import Kind, parse
from firedeck.tables import rows


def length(text: str) -> float:
    return parse(text, Kind.LENGTH).value


def pressure(text: str) -> float:
    return parse(text, Kind.PRESSURE_GAUGE).value


@published(__file__, "leak_down.csv")
def test_leak_down(row: Row) -> None:
    given = (
        {"reading": pressure(row["reading"])} if row["reading"] else {"leak_hole": length(row["leak_hole"])}
    )
    found = leak_down(pressure(row["supply"]), restrictor=length(row["restrictor"]), **given)
    if row["expected_reading"]:
        assert found.reading == pytest.approx(pressure(row["expected_reading"]), abs=pressure("0.1 psi"))
        return
    bore_area = 3.14159265 / 4 * length(row["restrictor"]) ** 2
    assert found.area is not None
    assert found.area / bore_area == pytest.approx(float(row["area_over_restrictor"]), rel=0.005)
    assert found.hole == pytest.approx(length(row["expected_hole"]), rel=0.005)


@published(__file__, "rules.csv")
def test_rules_of_the_table(row: Row) -> None:
    bore = length(row["bore"])
    kind = Kind.SHARE if row["name"] == "leak_share" else Kind.LENGTH
    fitting = [
        parse(rule["value"], kind).exact
        for rule in rows("leak_down_rules")
        if rule["name"] == row["name"]
        and bore >= length(rule["from_bore"])
        and (not rule["below_bore"] or bore < length(rule["below_bore"]))
    ]
    assert fitting == [parse(row["expected"], kind).exact]


def test_the_limit_is_sixty_of_eighty_psi() -> None:
    share = parse("25 %", Kind.SHARE).value
    assert leak_down(pressure("80 psi"), reading=pressure("60 psi")).share == pytest.approx(share)
