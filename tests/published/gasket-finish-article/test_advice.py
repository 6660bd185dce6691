"""Finish for head gaskets: what the advice says, and which of it becomes a fallback limit."""

from collections.abc import Mapping

import pytest
from cases import Row, printed_half_digit, published

from firedeck.quantity import Kind, in_unit, parse
from firedeck.tables import one, pick, published_limits
from firedeck.trace import Context, Limit, Rank


def row_of(row: Row) -> dict[str, float]:
    """Bounds of our table for a row of advice [mm]."""

    def fits(ours: Mapping[str, str]) -> bool:
        named = all(ours[name] == row[name] for name in ("construction", "faces", "word"))
        return named and all(ours[end].removesuffix(" µin") == row[f"{end}_uin"] for end in ("low", "high"))

    found = one("finish_by_gasket", row["id"], fits)
    return {end: parse(found[end], Kind.FINISH).value for end in ("low", "high") if found[end]}


@published(__file__, "advice.csv")
def test_the_table_says_what_the_advice_says(row: Row) -> None:
    found = row_of(row)
    for end, value in found.items():
        assert in_unit(value, Kind.FINISH, "uin") == pytest.approx(float(row[f"{end}_uin"]), rel=1e-12)
        printed = row[f"{end}_um"]
        assert not printed or value * 1000 == pytest.approx(
            float(printed), abs=printed_half_digit(printed) * 1.01
        )
    assert found.keys() == {end for end in ("low", "high") if row[f"{end}_uin"]}


def limits(**context: str) -> list[Limit]:
    asked = Context(**context)
    return [
        one for one in published_limits() if one.quantity == "surface_finish" and one.applies.covers(asked)
    ]


@published(__file__, "advice.csv", where=lambda row: row["construction"] and row["word"] == "accept")
def test_accepted_ranges_of_a_construction_are_fallback_limits(row: Row) -> None:
    material = {"material": "aluminium"} if row["faces"] else {}
    found = row_of(row)
    assert any(
        (limit.low, limit.high) == (found.get("low"), found.get("high"))
        for limit in limits(construction=row["construction"], **material)
    )


@published(__file__, "advice.csv", where=lambda row: row["id"] == "SUR-100")
def test_a_guide_of_one_maker_is_no_fallback_for_other_gaskets(row: Row) -> None:
    found = row_of(row)
    for limit in limits(construction="composite", material=row["faces"]):
        assert (limit.low, limit.high) != (found["low"], found["high"])


@published(__file__, "advice.csv", where=lambda row: row["id"] == "SUR-099")
def test_disagreeing_sources_for_steel_layers_stand_side_by_side(row: Row) -> None:
    picked = pick("surface_finish", Context(part="head", construction="multi-layer-steel", direction="any"))
    assert picked.winner is not None
    published_ones = [limit.high for limit in (picked.winner, *picked.rivals) if limit.rank is Rank.PUBLISHED]
    assert published_ones == pytest.approx([30 * 25.4e-6, 50 * 25.4e-6, 60 * 25.4e-6])
    assert row_of(row)["high"] in [pytest.approx(high) for high in published_ones]
