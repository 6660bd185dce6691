"""The judge: balance, uniqueness, joints that are parted."""

import numpy as np
import pytest
from unit.joint.plate_joint import inline

from firedeck.errors import DidNotConverge, JobError, OutOfRange
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.newton import settle

PLATE = inline(bores=3, ring=16, rows=2)
JOINT = PLATE.joint
BOLTS = np.arange(len(JOINT.springs.stiffness))


def held(tension):
    springs = JOINT.springs
    return springs.turned_to(springs.fresh(), BOLTS, np.broadcast_to(tension, BOLTS.shape).astype(float))


def tightened(tension=50e3):
    state = held(tension)
    found = settle(JOINT, Case(state, PLATE.weight))
    return JOINT.springs.let_go(found.w, JOINT.springs.remembered(found.w, state)), found


def misses(case, found):
    """What is left of both equations."""
    psi = JOINT.springs.force(found.w, case.state)
    first = found.w + JOINT.A @ psi - JOINT.R @ found.q - case.load.w
    second = JOINT.R[:, 0] @ psi - case.load.r[0]
    return np.abs(first).max(), abs(second) / np.abs(psi).sum()


@pytest.mark.parametrize("bar", [0.0, 60.0, 120.0, 200.0])
def test_both_equations_hold(bar):
    state, _ = tightened()
    case = Case(state, PLATE.weight + 0.1 * bar * PLATE.gas["1"] + 60.0 * PLATE.warm)
    give, force = misses(case, settle(JOINT, case))
    assert give < 1e-9
    assert force < 1e-9


def test_the_answer_does_not_depend_on_where_the_search_begins():
    state, first = tightened()
    case = Case(state, PLATE.weight + 9.0 * PLATE.gas["2"])
    known = settle(JOINT, case).forces
    rng = np.random.default_rng(2)
    for scale in (0.01, 0.1, 1.0):
        start = first.w + scale * rng.normal(size=len(first.w))
        assert settle(JOINT, case, start).forces == pytest.approx(known, abs=1e-3)


def test_few_rounds_are_enough():
    state, first = tightened()
    assert settle(JOINT, Case(held(50e3), PLATE.weight)).rounds <= 8
    assert settle(JOINT, Case(state, PLATE.weight + 8.0 * PLATE.gas["1"]), first.w).rounds <= 8


def test_slack_bolts_leave_the_head_lying_on_the_gasket():
    found = settle(JOINT, Case(JOINT.springs.fresh(), PLATE.weight))
    assert found.forces[: JOINT.springs.points].sum() == pytest.approx(150.0)


def test_a_joint_parted_by_gas_is_an_error_of_ours():
    with pytest.raises(DidNotConverge):
        settle(JOINT, Case(held(2e3), PLATE.weight + 20.0 * PLATE.gas["1"]))


def test_a_compliance_that_does_not_fit_is_refused():
    with pytest.raises(JobError):
        ClampedJoint(JOINT.places, JOINT.springs, JOINT.A[:-1, :-1], JOINT.R)
    crooked = JOINT.A.copy()
    crooked[0, 1] *= 2.0
    with pytest.raises(OutOfRange, match="symmetric"):
        ClampedJoint(JOINT.places, JOINT.springs, crooked, JOINT.R)


def test_loads_add_and_scale():
    double = PLATE.gas["1"] + PLATE.gas["1"]
    assert (2.0 * PLATE.gas["1"]).w == pytest.approx(double.w)
    assert isinstance(double, Load)
