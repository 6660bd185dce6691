"""A point of a ring stands for its whole arc: force, middle and length stay, and single forces go."""

import numpy as np
import pytest
from unit.joint.geometry.invented import three

from firedeck.joint.geometry.castings import block_section, head_section
from firedeck.joint.geometry.loading import ARC, arcs
from firedeck.joint.geometry.points import gasket_points

PLAN = three()
POINTS = gasket_points(PLAN, head_section("aluminium-overhead-cam", 70.0), block_section("closed-deck", 70.0))
SPREAD = arcs(PLAN, POINTS)
RING = np.array([kind == "ring" for kind in POINTS.kind])


def test_every_point_keeps_its_force_and_its_middle():
    assert np.bincount(SPREAD.of, SPREAD.weight) == pytest.approx(np.ones(POINTS.count))
    assert np.bincount(SPREAD.of, SPREAD.weight * SPREAD.x) == pytest.approx(POINTS.x, abs=1e-9)
    assert np.bincount(SPREAD.of, SPREAD.weight * SPREAD.y) == pytest.approx(POINTS.y, abs=1e-9)


def test_only_rings_are_spread():
    count = np.bincount(SPREAD.of)
    assert (count[RING] == ARC).all()
    assert (count[~RING] == 1).all()


def test_places_lie_evenly_along_the_ring():
    bore = PLAN.bores[1]
    mine = np.isin(
        SPREAD.of, np.flatnonzero([RING[n] and POINTS.place[n] == "2" for n in range(POINTS.count)])
    )
    x, y = SPREAD.x[mine] - bore.x, SPREAD.y[mine] - bore.y
    assert np.hypot(x, y) == pytest.approx(bore.ring / 2.0, rel=2e-3)
    turn = np.sort(np.arctan2(y, x))
    assert np.diff(turn) == pytest.approx(2 * np.pi / mine.sum(), abs=1e-9)
