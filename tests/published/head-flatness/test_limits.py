"""Flatness limits: of one engine from its own papers, of the trade where nothing else is known."""

import pytest
from cases import Row, printed_half_digit, published

from firedeck.quantity import Kind, parse
from firedeck.surfaces.verdict import LeafReading, judge_line
from firedeck.tables import pick, published_limits, rows
from firedeck.tables.bank import bank_flatness_limits
from firedeck.trace import Context, Limit, Measure, Outcome, Rank


def length(text: str) -> float:
    return parse(text, Kind.LENGTH).value


@published(__file__, "one_engine.csv")
def test_a_manual_limit_wins_for_its_engine_and_is_no_default(row: Row) -> None:
    high = length(row["limit"])
    context = Context(part=row["part"], direction=row["direction"])
    printed = Limit("face_flatness", None, high, Measure.UNDER_THE_EDGE, context, Rank.MANUAL, row["source"])
    assert pick("face_flatness", context, [printed]).winner is printed
    assert pick("face_flatness", context).winner is None
    assert not [limit for limit in published_limits() if limit.rank is Rank.MANUAL]
    assert not row["second_unit"] or length(row["second_unit"]) == pytest.approx(high, abs=0.002)


@published(__file__, "one_engine.csv")
def test_a_leaf_of_the_limit_that_stops_holds_and_one_over_it_that_goes_fails(row: Row) -> None:
    high = length(row["limit"])
    holds = judge_line([LeafReading(100.0, None, high)], high)
    fails = judge_line([LeafReading(100.0, high + 0.01, None)], high)
    assert (holds.outcome, fails.outcome) == (Outcome.HOLDS, Outcome.FAILS)


@published(__file__, "trade.csv")
def test_rules_of_the_trade(row: Row) -> None:
    limits = {
        "bank": lambda: bank_flatness_limits(int(row["cylinders"]))[0],
        "across": lambda: pick("both_faces_flatness", Context(direction="across")).winner,
        "diesel head": lambda: pick("face_flatness", Context(part="head", duty="diesel")).winner,
    }
    limit = limits[row["rule"]]()
    assert limit is not None
    assert limit.high == pytest.approx(float(row["limit_in"]) * 25.4, rel=1e-12)
    if row["limit_mm"]:
        assert limit.high == pytest.approx(float(row["limit_mm"]), abs=printed_half_digit(row["limit_mm"]))
    assert limit.rank is Rank.PUBLISHED


@published(__file__, "general.csv")
def test_general_figures_stand_side_by_side(row: Row) -> None:
    asked = {key: row[key] or None for key in ("part", "material", "construction", "direction")}
    found = pick("face_flatness", Context(**asked))
    assert found.winner is not None
    wanted = [float(cell) * 25.4 for cell in row["limits_in"].split()]
    same_rank = [one.high for one in (found.winner, *found.rivals) if one.rank == row["rank"]]
    assert found.winner.rank == row["rank"]
    assert same_rank == [pytest.approx(high) for high in wanted]


@published(__file__, "examples.csv")
def test_books_of_other_engines_are_examples_and_never_picked(row: Row) -> None:
    number = row["source"].split(",")[0]
    held = [
        one
        for one in rows("flatness_examples")
        if one["where"].startswith(number) and one["part"] == row["part"]
    ]
    assert [one[row["direction"]] for one in held] == [row["limit"]]
    picked = pick("face_flatness", Context(part=row["part"], direction=row["direction"]))
    assert picked.winner is None


@published(__file__, "leaf.csv")
def test_a_leaf_brackets_the_gap(row: Row) -> None:
    goes = None if row["goes"] == "none" else float(row["goes"])
    found = judge_line([LeafReading(50.0, goes, float(row["stops"]))], limit=0.035, leaves=(0.03, 0.04))
    assert (found.low, found.high) == (float(row["at_least"]), float(row["less_than"]))
    assert found.outcome is Outcome.CANNOT_TELL
