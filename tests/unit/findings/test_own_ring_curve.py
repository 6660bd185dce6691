"""A gasket's own press test takes the place of the law of its ring, and of nothing else."""

from pathlib import Path

import pytest

from firedeck.findings.joint_gasket import gasket_given
from firedeck.job import read_text
from firedeck.joint.law_table import laws_of

TEXT = (Path(__file__).parents[3] / "examples" / "jobs" / "inline-four.toml").read_text(encoding="utf-8")
ROWS = "closure [mm], load [N/mm]\n0,0\n0.05,60\n0.1,180\n0.15,170\n0.2,400\n0.19,150\n"


def given(more=""):
    text = TEXT.replace('name = "steel"\n', f'name = "steel"\n{more}', 1)
    said = []
    return gasket_given(read_text(text).joint("head"), said.append), said


def test_the_ring_is_pressed_as_it_was_read():
    found, said = given(f'ring_curve = """{ROWS}"""\n')
    assert found.laws["ring"].load == (0.0, 60.0, 175.0, 175.0, 400.0)
    assert found.laws["half-bead"] == laws_of("multi-layer-steel")["half-bead"]
    assert any("own curve" in line and "1.2%" in line for line in said)


def test_without_one_the_law_of_its_construction_is_taken():
    found, said = given()
    assert found.laws["ring"] == laws_of("multi-layer-steel")["ring"]
    assert not any("own curve" in line for line in said)
    assert found.name != given(f'ring_curve = """{ROWS}"""\n')[0].name


def test_loads_in_mpa_are_spread_over_the_width_of_the_ring():
    found, _ = given(f'ring_width = "3 mm"\nring_curve = """{ROWS.replace("N/mm", "MPa")}"""\n')
    assert found.laws["ring"].load[-1] == pytest.approx(3.0 * 400.0)
