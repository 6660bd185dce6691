"""The clamped joint against what can be worked out on paper: the bolt-joint diagram as the stiff limit, force balance."""

import numpy as np
import pytest
from unit.joint.plate_joint import inline

from firedeck.fasteners import joint_diagram
from firedeck.joint.chord import Stop, go_round, safe_operator
from firedeck.joint.clamped import Case, ClampedJoint, Load, Places
from firedeck.joint.laws import Law, Per
from firedeck.joint.newton import settle
from firedeck.joint.springs import Springs

GASKET = Law("straight", Per.AREA, (0.0, 1.0), (0.0, 400.0), 400.0, 400.0, 0.0, 0.0, "generic-ours")
KB, AREA, PRELOAD = 3.0e5, 500.0, 40e3


def stiff(points=4, bolts=2):
    """Rigid bodies, a gasket of straight springs in a square, two bolts on the middle line."""
    x = np.array([-1.0, 1.0, 1.0, -1.0, -0.5, 0.5]) * 50.0
    y = np.array([-1.0, -1.0, 1.0, 1.0, 0.0, 0.0]) * 50.0
    springs = Springs(
        laws=(GASKET,),
        law_of=np.zeros(points, dtype=int),
        share=np.full(points, AREA),
        stiffness=np.full(bolts, KB),
        least=np.zeros(bolts),
        most=np.full(bolts, 1e6),
    )
    sign = np.where(np.arange(points + bolts) < points, -1.0, 1.0)
    R = np.stack([sign, sign * y, -sign * x], axis=1)
    places = Places(x, y, ("body",) * points + ("bolt",) * bolts, ("p",) * points + ("a", "b"))
    return ClampedJoint(places, springs, np.zeros((6, 6)), R)


def tightened(joint, load):
    springs = joint.springs
    held = springs.turned_to(springs.fresh(), [0, 1], np.full(2, PRELOAD))
    w = settle(joint, Case(held, load)).w
    return springs.let_go(w, springs.remembered(w, held))


@pytest.mark.parametrize("share", [0.0, 0.25, 0.5, 0.9])
def test_rigid_bodies_are_the_bolt_joint_diagram(share):
    """Bolt and gasket share an outside pull as in Shigley's diagram (9th edition, section 8-7) until they part."""
    joint = stiff()
    state = tightened(joint, joint.nothing())
    members = 4 * AREA * 400.0
    diagram = joint_diagram(2 * KB, members, 2 * PRELOAD, 1.0)
    parts_at = 2 * PRELOAD / (1.0 - diagram.load_fraction)
    pull = share * parts_at
    found = settle(joint, Case(state, Load(np.zeros(6), np.array([pull, 0.0, 0.0]))))
    wanted = joint_diagram(2 * KB, members, 2 * PRELOAD, pull) if pull else None
    bolt = wanted.bolt_load if wanted else 2 * PRELOAD
    assert found.forces[4:].sum() == pytest.approx(bolt, rel=1e-9)
    assert found.forces[:4].sum() == pytest.approx(bolt - pull, rel=1e-9)


def test_beyond_parting_the_bolts_carry_all():
    joint = stiff()
    state = tightened(joint, joint.nothing())
    found = settle(joint, Case(state, Load(np.zeros(6), np.array([300e3, 0.0, 0.0]))))
    assert found.forces[4:].sum() == pytest.approx(300e3, rel=1e-9)
    assert (found.forces[:4] == 0.0).all()


def test_a_pull_beside_the_middle_tips_the_head_as_a_lever_would():
    joint = stiff()
    state = tightened(joint, joint.nothing())
    pull, arm = 20e3, 20.0
    found = settle(joint, Case(state, Load(np.zeros(6), np.array([pull, 0.0, -pull * arm]))))
    x = joint.places.x
    moment = float(x[4:] @ found.forces[4:] - x[:4] @ found.forces[:4])
    assert moment == pytest.approx(pull * arm, rel=1e-9)


@pytest.mark.parametrize("pressure", [0.0, 6.0, 12.0])
def test_forces_balance_to_a_thousand_millionth(pressure):
    plate = inline(bores=3, ring=16, rows=2)
    joint, springs = plate.joint, plate.joint.springs
    held = springs.turned_to(springs.fresh(), range(8), np.linspace(40e3, 60e3, 8))
    load = plate.weight + pressure * plate.gas["2"] + 50.0 * plate.warm
    judge = settle(joint, Case(held, load))
    quick = go_round(safe_operator(joint), springs, Case(held, load), load.w[:, None], Stop(1e-3, 2000))
    for forces in (judge.forces, quick.forces[:, 0]):
        left = joint.R.T @ forces - load.r
        size = np.abs(joint.R).T @ np.abs(forces)
        assert np.abs(left / size).max() < 1e-9
