"""Scatter: the draws, and every column the joint it claims to be."""

import numpy as np
import pytest
from unit.joint.plate_joint import inline

from firedeck.errors import OutOfRange
from firedeck.joint.clamped import Case
from firedeck.joint.newton import settle
from firedeck.joint.scatter import course_of, draws, scattered
from firedeck.joint.states import Service, worst_of

PLATE = inline(bores=2, ring=14, rows=2)
JOINT = PLATE.joint
SPRINGS = JOINT.springs
BOLTS = len(SPRINGS.stiffness)
SERVICE = Service(PLATE.weight, 80.0 * PLATE.warm, {name: 8.0 * load for name, load in PLATE.gas.items()})
COURSE = course_of(JOINT, np.full(BOLTS, 48e3), SERVICE)


def lowest_by_the_judge(tensions):
    """Life of one joint, each case settled by Newton; lowest line load by ring and judged case."""
    held = SPRINGS.turned_to(SPRINGS.fresh(), range(BOLTS), tensions)
    w = settle(JOINT, Case(held, SERVICE.rest)).w
    state = SPRINGS.let_go(w, SPRINGS.remembered(w, held))
    firing = [SERVICE.firing(name) for name in SERVICE.fires]
    run = [settle(JOINT, Case(state, load), w).w for load in (SERVICE.hot, *firing)]
    state = worst_of(state, SPRINGS.remembered(np.stack(run, axis=1), state))
    forces = [settle(JOINT, Case(state, load), w).forces for load in (SERVICE.rest, *firing)]
    rings = [np.flatnonzero(JOINT.places.of("ring", name)) for name in JOINT.places.names("ring")]
    return np.array([[(f[ring] / SPRINGS.share[ring]).min() for f in forces] for ring in rings])


def test_draws_have_the_widths_asked_for_and_come_again():
    found = draws(8, 4000, common=0.2, individual=0.1)
    assert found == pytest.approx(draws(8, 4000, common=0.2, individual=0.1))
    common = found.mean(axis=0).std()
    assert common == pytest.approx(0.1, rel=0.08)
    assert (found - found.mean(axis=0)).std() == pytest.approx(0.05, rel=0.1)
    assert np.abs(found - 1.0).max() <= 1.5 * 0.3


def test_no_scatter_is_no_scatter():
    assert (draws(3, 5, 0.0, 0.0) == 1.0).all()
    with pytest.raises(OutOfRange):
        draws(3, 5, 0.5, 0.4)


def test_every_column_meets_the_judge():
    tensions = 48e3 * draws(BOLTS, 40, common=0.2, individual=0.17)
    found = scattered(JOINT, COURSE, tensions)
    for column in (0, 7, 23, 39):
        assert np.abs(found.lowest[:, :, column] - lowest_by_the_judge(tensions[:, column])).max() < 0.1
    assert sum(count for _, count in found.ways) == 40 * (1 + 3 + 3)


def test_joints_come_back_in_their_order_whatever_they_were_settled_with(monkeypatch):
    tensions = 48e3 * draws(BOLTS, 60, common=0.2, individual=0.17)
    together = scattered(JOINT, COURSE, tensions)
    monkeypatch.setattr("firedeck.joint.scatter.CHUNK", 16)
    monkeypatch.setattr("firedeck.joint.scatter.LEARN_FROM", 20)
    in_portions = scattered(JOINT, COURSE, tensions)
    assert np.abs(in_portions.lowest - together.lowest).max() < 0.05
    assert sum(count for _, count in in_portions.ways) == 60 * (1 + 3 + 3)


def test_the_common_part_hurts_more_than_the_individual():
    together = scattered(JOINT, COURSE, 48e3 * draws(BOLTS, 60, common=0.25, individual=0.0))
    apart = scattered(JOINT, COURSE, 48e3 * draws(BOLTS, 60, common=0.0, individual=0.25))
    assert together.band("1", "1")[0] < apart.band("1", "1")[0]


def test_a_wider_scatter_is_a_wider_band():
    widths = []
    for half in (0.05, 0.2):
        low, high = scattered(JOINT, COURSE, 48e3 * draws(BOLTS, 60, half, half)).band("2", "2")
        widths.append(high - low)
    assert widths[1] > 2.0 * widths[0]


def test_tensions_below_nought_are_refused():
    with pytest.raises(OutOfRange):
        scattered(JOINT, COURSE, np.full((BOLTS, 1), -1.0))
