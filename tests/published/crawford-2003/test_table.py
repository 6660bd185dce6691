"""How a bolt and its joint share a pull, against a published finite-element table: 5 points, hundredths of the preload.

With the flange as thick as it is described, about 1 shank radius, six of the seventeen rows are within 5 points and
eleven miss by up to 19; all eleven are named here. With 1.35, chosen by the last row alone, all are within 5.
"""

from pathlib import Path

import numpy as np
import pytest
from bolt_head import PRELOAD, bolt_loads
from cases import published, read

from firedeck.fasteners import joint_diagram

TABLE = read(Path(__file__).parent / "table.csv")
PULLS = tuple(float(row["pull"]) for row in TABLE)
DESCRIBED, FITTED = 1.0, 1.35
"""Thickness of the flange over shank radius: as the figure was read, and such that the clamp is gone at 22,000 lbf."""
MISSES = tuple(pull for pull in PULLS if pull >= 9000.0)
"""Pulls [lbf] at which the flange as described is more than 5 points off."""


def points_off(row, thickness):
    found = bolt_loads(PULLS, thickness)[PULLS.index(float(row["pull"]))]
    return float(found - float(row["bolt"])) / PRELOAD * 100.0


@published(__file__, "table.csv")
def test_every_row_is_within_5_points_once_the_thickness_is_known(row):
    assert abs(points_off(row, FITTED)) < 5.0


@published(__file__, "table.csv")
def test_rows_that_miss_with_the_thickness_as_described(row):
    missed = abs(points_off(row, DESCRIBED))
    if float(row["pull"]) in MISSES:
        assert 5.0 < missed < 20.0
    else:
        assert missed < 5.0


@pytest.mark.parametrize("thickness", [DESCRIBED, FITTED])
def test_the_bolt_first_loses_load(thickness):
    """GAM-091: the least is printed at 5,000 lbf, 2 points below the preload; a thicker flange dips less."""
    found = bolt_loads(PULLS, thickness)
    assert found.min() < PRELOAD - 100.0
    assert PULLS[int(found.argmin())] in (4000.0, 5000.0)
    assert bolt_loads(PULLS, DESCRIBED).min() < bolt_loads(PULLS, FITTED).min()


@published(__file__, "table.csv")
def test_the_textbook_column_is_the_bolt_joint_diagram(row):
    """C = 1/9: the bolt takes a ninth of the pull until the parts part at 16,875 lbf, then all of it."""
    pull = float(row["pull"])
    wanted = joint_diagram(1.0, 8.0, PRELOAD, pull).bolt_load
    assert wanted == pytest.approx(float(row["textbook"]), rel=1e-4)


def test_the_textbook_alone_would_miss():
    """The plain diagram misses the printed finite elements by 12 points: the check sees more than the force balance."""
    textbook, fe = (np.array([float(row[name]) for row in TABLE]) for name in ("textbook", "bolt"))
    assert np.abs(textbook - fe).max() / PRELOAD > 0.10
