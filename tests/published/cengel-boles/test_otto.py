"""The otto cycle of a textbook, with heat capacities that grow and with cold air."""

import pytest
from cases import Row, published

from firedeck.cylinder.ideal_cycle import ideal_cycle
from firedeck.cylinder.working_gas import gas_named


@published(__file__, "otto.csv")
def test_otto(row: Row) -> None:
    found = ideal_cycle(
        kind="otto",
        ratio=8.0,
        pressure=0.1,
        temperature=290.0 - 273.15,
        heat=800.0,
        gas=gas_named(row["gas"]),
    )
    where = found.states[int(row["corner"]) - 1] if row["corner"] else found
    assert getattr(where, row["quantity"]) == pytest.approx(
        float(row["expected"]), abs=float(row["tolerance"])
    )
