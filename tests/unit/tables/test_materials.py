"""The table of materials as it is read."""

import pytest

from firedeck.errors import TableGap
from firedeck.tables import rows
from firedeck.tables.materials import material


@pytest.mark.parametrize("name", [row["material"] for row in rows("materials")])
def test_every_row_is_a_material(name):
    found = material(name)
    assert 30e3 < found.modulus[0] <= found.usual_modulus <= found.modulus[1] < 230e3
    assert 8e-6 < found.expansion[0] <= found.usual_expansion <= found.expansion[1] < 26e-6
    assert 0.2 < found.poisson < 0.4


def test_ways_of_writing():
    assert material("Gray Iron").name == "grey-iron"
    assert material("aluminum").name == "aluminium"


def test_a_material_nobody_knows():
    with pytest.raises(TableGap, match="steel"):
        material("cheese")
