"""A spread rule of one engine, given as its book gives it, and the table of cap tests."""

from cases import Row, published

from firedeck.diagnosis import compression_spread
from firedeck.quantity import Kind, parse_list
from firedeck.tables import rows


@published(__file__, "spread.csv")
def test_spread_rule(row: Row) -> None:
    readings = tuple(one.value for one in parse_list(row["readings"], Kind.PRESSURE_GAUGE))
    found = compression_spread(readings, limit_rule="25 psi")
    assert found.outcome_by_rule["25 psi"] == row["expected"]
    assert found.suspects == (() if row["expected"] == "holds" else (3,))


def test_the_rule_of_one_engine_is_no_default() -> None:
    assert "25 psi" not in compression_spread((3.7, 3.6)).outcome_by_rule
    (example,) = [row for row in rows("compression_rules") if row["use"] == "example"]
    assert example["bound"] == "25 psi"


@published(__file__, "caps.csv")
def test_cap_table(row: Row) -> None:
    found = [
        (one["low"], one["high"], one["minutes"])
        for one in rows("cap_tests")
        if one["name"] == row["name"] and one["source"] == row["from"]
    ]
    assert found == [(row["low"], row["high"], row["minutes"])]
