"""How a bolt and its joint share a pull, against a published finite-element table: 5 points, hundredths of the preload.

The article prints proportions ("about 1") and leaves open whether the outer wall it pulls at may lean. Kept upright, with
every proportion as described, all seventeen rows are within 3 points; free to lean, seven are within 5 and ten miss by 6 to
19. Nothing is fitted. With proportions as far off as they may have been read, a fifth, the loads sweep a band; the rows
that lie outside it are listed for either wall.
"""

from itertools import product
from pathlib import Path

import numpy as np
import pytest
from bolt_head import PRELOAD, Shape, bolt_loads
from cases import published, read

from firedeck.fasteners import joint_diagram

TABLE = read(Path(__file__).parent / "table.csv")
PULLS = tuple(float(row["pull"]) for row in TABLE)
PRINTED = np.array([float(row["bolt"]) for row in TABLE])
FREE, UPRIGHT = Shape(), Shape(upright=True)
MISSES = tuple(pull for pull in PULLS if pull >= 10000.0)
"""Pulls [lbf] at which a wall free to lean is more than 5 points off, proportions as described."""
READ_TO = 0.2
"""How far a proportion called "about 1" may be off, read from a figure; our own."""
SHEETS = (1.0, 30.0)
"""Gasket from as soft as steel one shank radius thick to thirty times that."""
OUTSIDE = {
    False: (10000.0, 12000.0, 13000.0, 14000.0, 16000.0, 17000.0, 18000.0),
    True: (4000.0, 5000.0, 6000.0, 8000.0, 9000.0),
}
"""Rows more than half a point outside the swept band, by whether the wall is upright."""


def points_off(shape):
    """Ours less printed, row by row, in hundredths of the preload."""
    return (bolt_loads(PULLS, shape) - PRINTED) / PRELOAD * 100.0


@published(__file__, "table.csv")
def test_every_row_is_within_5_points_where_the_wall_stays_upright(row):
    assert abs(points_off(UPRIGHT)[PULLS.index(float(row["pull"]))]) < 5.0


@published(__file__, "table.csv")
def test_rows_that_miss_where_the_wall_leans(row):
    missed = abs(points_off(FREE)[PULLS.index(float(row["pull"]))])
    if float(row["pull"]) in MISSES:
        assert 5.0 < missed < 20.0
    else:
        assert missed < 5.0


@pytest.mark.slow
@pytest.mark.parametrize("upright", [False, True])
def test_rows_outside_the_band_of_what_the_article_leaves_open(upright):
    ends = (1.0 - READ_TO, 1.0 + READ_TO)
    shapes = [Shape(t, h, 2.0 * r, s, upright) for t, h, r, s in product(ends, ends, (0.9, 1.1), SHEETS)]
    off = np.array([points_off(shape) for shape in shapes])
    outside = np.maximum(off.min(axis=0), -off.max(axis=0))
    assert tuple(pull for pull, far in zip(PULLS, outside, strict=True) if far > 0.5) == OUTSIDE[upright]
    assert outside.max() < 3.0


def test_the_bolt_first_loses_load():
    """GAM-091: the least is printed at 5,000 lbf, 2.0 points below the preload; a thicker flange dips less."""
    leans = bolt_loads(PULLS, FREE)
    assert PRELOAD - leans.min() == pytest.approx(PRELOAD - PRINTED.min(), rel=0.15)
    assert PULLS[int(leans.argmin())] in (4000.0, 5000.0)
    thin, thick = (bolt_loads(PULLS, Shape(thickness=one)).min() for one in (1.0 - READ_TO, 1.0 + READ_TO))
    assert thin < leans.min() < thick < PRELOAD


def test_the_bolt_hardly_loses_load_where_the_wall_stays_upright():
    """A miss that 5 points hide: 0.4 points at 2,000 lbf, where 2.0 at 5,000 lbf are printed."""
    stands = bolt_loads(PULLS, UPRIGHT)
    assert 0.0 < (PRELOAD - stands.min()) / PRELOAD * 100.0 < 0.6


@published(__file__, "table.csv")
def test_the_textbook_column_is_the_bolt_joint_diagram(row):
    """C = 1/9: the bolt takes a ninth of the pull until the parts part at 16,875 lbf, then all of it."""
    pull = float(row["pull"])
    wanted = joint_diagram(1.0, 8.0, PRELOAD, pull).bolt_load
    assert wanted == pytest.approx(float(row["textbook"]), rel=1e-4)


def test_the_textbook_alone_would_miss():
    """The plain diagram misses the printed finite elements by 12 points: the check sees more than the force balance."""
    textbook = np.array([float(row["textbook"]) for row in TABLE])
    assert np.abs(textbook - PRINTED).max() / PRELOAD > 0.10
