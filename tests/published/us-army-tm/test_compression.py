"""The spread of compression a manual prints: held, met and passed."""

import pytest
from cases import published

from firedeck import sums
from firedeck.quantity import Kind, parse

SAID = {"held": ("20 psi", "holds"), "met": ("25 psi", "at-limit"), "passed": ("30 psi", "fails")}


@published(__file__, "compression.csv")
def test_spread_of_the_manual(row):
    for column, (spread, outcome) in SAID.items():
        answer = sums.find_sum("compression-spread").run(readings=row[column], limit_rule=row["rule"])
        assert answer.results["spread"].value == pytest.approx(parse(spread, Kind.PRESSURE_GAUGE).value)
        assert answer.results["outcome_by_rule"].value[row["rule"]] == outcome
