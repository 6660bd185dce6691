"""Starts learnt from joints that have settled: right where the matter is straight, or bent with the mean tension."""

import numpy as np
import pytest

from firedeck.joint.foresight import NONE, learnt

RNG = np.random.default_rng(5)
SLOPES, BEND = RNG.normal(size=(20, 6)), RNG.normal(size=(20, 6))


def closures(share, bend):
    return SLOPES @ share + bend * BEND @ (share * share.mean(axis=0)) + 0.3


@pytest.mark.parametrize(("joints", "bend"), [(12, 0.0), (40, 0.0), (40, 2.0)])
def test_what_is_learnt_is_met_by_joints_never_seen(joints, bend):
    seen, new = RNG.normal(0.0, 0.1, (6, joints)), RNG.normal(0.0, 0.1, (6, 9))
    found = learnt(seen, [closures(seen, bend), np.zeros((20, joints))])
    assert found.curved == (joints > 20)
    assert found.of(0, new) == pytest.approx(closures(new, bend), abs=1e-9)
    assert found.of(1, new) == pytest.approx(np.zeros((20, 9)), abs=1e-9)


def test_bolts_that_all_scatter_alike_teach_what_they_can():
    alike = np.tile(RNG.normal(0.0, 0.1, 40), (6, 1))
    found = learnt(alike, [closures(alike, 0.0)])
    assert found.of(0, alike[:, :5]) == pytest.approx(closures(alike[:, :5], 0.0), abs=1e-9)


def test_from_too_few_nothing_is_learnt():
    few = RNG.normal(0.0, 0.1, (6, 8))
    assert learnt(few, [closures(few, 0.0)]) is NONE
    assert (NONE.of(3, few) == 0.0).all()
