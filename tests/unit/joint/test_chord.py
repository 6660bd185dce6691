"""Fast and safe operators: the same answer as the judge, near and far from where they were made."""

import numpy as np
import pytest
from unit.joint.plate_joint import inline

from firedeck.errors import OutOfRange
from firedeck.joint.chord import Stop, go_round
from firedeck.joint.clamped import Case, side_by_side
from firedeck.joint.newton import linear_joint, settle
from firedeck.joint.operators import SAFE_SHARE, fast_operator, operator, safe_operator
from firedeck.joint.settling import settle_all

PLATE = inline(ring=16, rows=2)
JOINT = PLATE.joint
SPRINGS = JOINT.springs
BOLTS = np.arange(len(SPRINGS.stiffness))
SAFE = safe_operator(JOINT)
FINE = Stop(tolerance=1e-5, rounds=2000)


def held(tension):
    return SPRINGS.turned_to(SPRINGS.fresh(), BOLTS, np.broadcast_to(tension, BOLTS.shape).astype(float))


def tightened(tension):
    found = settle(JOINT, Case(held(tension), PLATE.weight))
    return SPRINGS.let_go(found.w, SPRINGS.remembered(found.w, held(tension))), found.w


def per_share(force):
    return (force / SPRINGS.scale)[: SPRINGS.points]


def test_one_step_of_an_operator_solves_the_joint_of_straight_springs():
    rng = np.random.default_rng(3)
    slope = SPRINGS.steepest * rng.uniform(0.1, 1.0, SPRINGS.count)
    load = PLATE.weight + 3.0 * PLATE.gas["2"]
    x = rng.normal(0.0, 1e3, SPRINGS.count)
    made = operator(JOINT, slope, "test")
    w, _ = linear_joint(JOINT, load, slope, x)
    assert load.w + made.B @ x + made.Q @ load.r == pytest.approx(w, rel=1e-9, abs=1e-9)


def test_its_eigenvalues_lie_between_nought_and_one():
    """The bound the proof of convergence rests on: 0 <= D0½ B D0½ <= 1."""
    root = np.sqrt(SAFE.slope)
    found = np.linalg.eigvalsh(root[:, None] * SAFE.B * root)
    assert found[0] > -1e-9
    assert found[-1] < 1.0 + 1e-9


@pytest.mark.parametrize(("made_at", "asked_at"), [(20e3, 50e3), (50e3, 70e3), (50e3, 130e3), (70e3, 5e3)])
def test_the_safe_operator_walks_far(made_at, asked_at):
    """Made at one tension, started there, asked at another far off: it settles on the judge's answer."""
    strong = inline(ring=16, rows=2)
    joint = strong.joint
    springs = type(joint.springs)(**{**vars_of(joint.springs), "most": np.full(len(BOLTS), 200e3)})
    joint = type(joint)(joint.places, springs, joint.A, joint.R)

    def at(tension):
        return springs.turned_to(springs.fresh(), BOLTS, np.full(len(BOLTS), tension))

    start = settle(joint, Case(at(made_at), strong.weight)).w
    asked = Case(at(asked_at), strong.weight)
    judge = settle(joint, asked)
    found = go_round(safe_operator(joint), springs, asked, start[:, None], FINE)
    assert found.residual[0] <= FINE.tolerance
    miss = ((found.forces[:, 0] - judge.forces) / springs.scale)[: springs.points]
    assert np.abs(miss).max() < 1e-3


def vars_of(springs):
    return {
        name: getattr(springs, name) for name in ("laws", "law_of", "share", "stiffness", "least", "most")
    }


def test_an_operator_with_too_little_slope_does_not_settle_far_off_and_the_chain_still_answers():
    """Why there is a safe one: slopes of a soft state, asked of a hard one."""
    soft, w = tightened(20e3)
    bold = operator(JOINT, np.maximum(0.02 * SPRINGS.slope(w, soft), 1.0), "bold")
    asked = Case(tightened(70e3)[0], PLATE.weight + 9.0 * PLATE.gas["2"])
    with np.errstate(over="ignore", invalid="ignore"):
        alone = go_round(bold, SPRINGS, asked, w[:, None], Stop(rounds=400))
    assert not alone.residual[0] <= 1e-3
    with np.errstate(over="ignore", invalid="ignore"):
        chain = settle_all(JOINT, [bold, SAFE], asked, w[:, None], Stop(rounds=2000))
    assert chain.ways[-1] == ("safe", 1)
    judge = settle(JOINT, asked).forces
    assert np.abs(per_share(chain.forces[:, 0] - judge)).max() < 0.05


def test_the_judge_takes_over_when_the_rounds_are_up():
    state, w = tightened(50e3)
    asked = Case(state, PLATE.weight + 9.0 * PLATE.gas["1"])
    chain = settle_all(JOINT, [SAFE], asked, w[:, None], Stop(rounds=1, quick=1))
    assert chain.ways == (("safe", 0), ("newton", 1))
    assert chain.forces[:, 0] == pytest.approx(settle(JOINT, asked).forces, abs=1e-3)


def test_columns_settle_as_they_would_alone():
    state, w = tightened(50e3)
    loads = [PLATE.weight + p * PLATE.gas[name] for name, p in (("1", 4.0), ("2", 9.0), ("4", 14.0))]
    fast = fast_operator(JOINT, w, state)
    start = np.repeat(w[:, None], 3, axis=1)
    together = settle_all(JOINT, [fast, SAFE], Case(state, side_by_side(loads)), start, FINE)
    for column, load in enumerate(loads):
        alone = settle(JOINT, Case(state, load)).forces
        assert np.abs(per_share(together.forces[:, column] - alone)).max() < 1e-3


def test_forces_balance_even_when_the_laws_are_met_only_roughly():
    state, w = tightened(50e3)
    load = PLATE.weight + 9.0 * PLATE.gas["1"]
    rough = go_round(SAFE, SPRINGS, Case(state, load), w[:, None], Stop(tolerance=1.0))
    assert JOINT.R[:, 0] @ rough.forces[:, 0] == pytest.approx(load.r[0], rel=1e-9)


def test_held_bolts_have_their_tension_exactly():
    found = go_round(SAFE, SPRINGS, Case(held(42e3), PLATE.weight), np.zeros((SPRINGS.count, 1)))
    assert (found.forces[SPRINGS.points :, 0] == 42e3).all()


def test_the_safe_share_is_above_a_half():
    assert 0.5 < SAFE_SHARE <= 1.0
    with pytest.raises(OutOfRange):
        operator(JOINT, np.zeros(SPRINGS.count), "none")
