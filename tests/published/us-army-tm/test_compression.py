"""The spread of compression a manual prints: held, met and passed."""

import pytest
from cases import published

from firedeck import sums
from firedeck.quantity import Kind, parse


@published(__file__, "compression.csv")
def test_spread_of_the_manual(row):
    answer = sums.find_sum("compression-spread").run(readings=row["readings"], limit_rule=row["rule"])
    assert answer.results["spread"].value == pytest.approx(parse(row["spread"], Kind.PRESSURE_GAUGE).value)
    assert answer.results["outcome_by_rule"].value[row["rule"]] == row["outcome"]
