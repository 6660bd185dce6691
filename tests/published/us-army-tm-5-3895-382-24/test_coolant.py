"""Open boiling of the coolant table comes back out of the sum."""

import pytest
from cases import Row, published

from firedeck.diagnosis import coolant_boiling


@published(__file__, "coolant.csv")
def test_open_boiling(row: Row) -> None:
    assert coolant_boiling(row["coolant"], 0.0, 0.0).boiling == pytest.approx(float(row["expected"]), abs=1.0)
