"""Gasket factor and seating stress of the pressure-vessel code, as held in the table."""

import pytest
from cases import Row, published

from firedeck.gasket.constructions import code_factors
from firedeck.quantity import Kind, parse


@published(__file__, "factors.csv")
def test_factors(row: Row) -> None:
    found = code_factors(row["key"])
    assert found.factor == float(row["m"])
    assert found.seating_stress == pytest.approx(parse(row["y"], Kind.STRESS).value, rel=1e-12)
