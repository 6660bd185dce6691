"""The life of a joint: bedding in, heat, shaking down, what is judged, memory that only grows."""

import numpy as np
import pytest
from unit.joint.plate_joint import inline

from firedeck.errors import OutOfRange
from firedeck.joint.chord import Stop, fast_operator, safe_operator
from firedeck.joint.clamped import Case
from firedeck.joint.line_loads import read_off
from firedeck.joint.newton import settle
from firedeck.joint.springs import Springs
from firedeck.joint.states import Service, bedded_in, firing_name, judged, shaken_down

PLATE = inline(bores=3, ring=16, rows=2)
JOINT = PLATE.joint
SPRINGS = JOINT.springs
BOLTS = np.arange(len(SPRINGS.stiffness))
FIRES = {name: 8.0 * load for name, load in PLATE.gas.items()}
SERVICE = Service(PLATE.weight, 80.0 * PLATE.warm, FIRES)
FINE = Stop(tolerance=1e-5, rounds=3000)
NONE = np.zeros(len(BOLTS))


def tightened(joint=JOINT, tension=50e3):
    springs = joint.springs
    held = springs.turned_to(springs.fresh(), BOLTS, np.full(len(BOLTS), tension))
    w = settle(joint, Case(held, PLATE.weight)).w
    return springs.let_go(w, springs.remembered(w, held)), w


def life(service=SERVICE, joint=JOINT, settling=NONE):
    state, w = tightened(joint)
    operators = [fast_operator(joint, w, state), safe_operator(joint)]
    begun = bedded_in(joint, operators, (state, w), service.rest, settling)
    return operators, shaken_down(joint, operators, begun, service, FINE), begun


def pull(forces):
    return forces[SPRINGS.points :]


def test_bedding_in_loses_pull_and_settling_loses_more():
    _, _, without = life()
    _, _, more = life(settling=np.full(len(BOLTS), 0.01))
    assert (pull(without.forces) < 50e3).all()
    assert (pull(more.forces) < pull(without.forces)).all()


def test_the_memory_comes_to_rest_and_another_life_changes_nothing():
    operators, once, _ = life()
    again = shaken_down(JOINT, operators, once, SERVICE, FINE)
    assert again.cycles <= 2
    assert again.state.permanent_set == pytest.approx(once.state.permanent_set, abs=1e-5)
    assert again.forces == pytest.approx(once.forces, rel=1e-3, abs=5.0)


def test_the_set_only_grows():
    _, once, begun = life()
    assert (once.state.permanent_set >= begun.state.permanent_set).all()


def test_the_order_of_firing_does_not_matter():
    backwards = Service(SERVICE.rest, SERVICE.warmth, dict(reversed(FIRES.items())))
    _, forth, _ = life()
    _, back, _ = life(backwards)
    assert back.state.permanent_set == pytest.approx(forth.state.permanent_set, abs=1e-9)
    assert back.forces == pytest.approx(forth.forces, abs=1e-3)


def test_judging_writes_nothing_and_meets_the_judge():
    operators, once, _ = life()
    found = judged(JOINT, operators, once, SERVICE, FINE)
    assert found.names[:2] == ("cold", "hot")
    assert len(found.names) == 2 + 2 * 3
    for name, load in (("hot", SERVICE.hot), (firing_name("2"), SERVICE.firing("2"))):
        alone = settle(JOINT, Case(once.state, load)).forces
        miss = (found.case(name)[1] - alone)[: SPRINGS.points] / SPRINGS.share
        assert np.abs(miss).max() < 1e-3
    assert found.case("cold")[1] == pytest.approx(once.forces, abs=1.0)


def test_an_unknown_case_says_which_there_are():
    operators, once, _ = life()
    with pytest.raises(OutOfRange, match="2 firing, hot"):
        judged(JOINT, operators, once, SERVICE).case("9 firing, hot")


def test_hot_raises_the_pull_and_firing_lowers_its_own_ring():
    operators, once, _ = life()
    found = judged(JOINT, operators, once, SERVICE)
    cold, hot, firing = (read_off(JOINT, found.case(name)[1]) for name in ("cold", "hot", firing_name("1")))
    assert sum(dict(hot.bolts).values()) > sum(dict(cold.bolts).values())
    assert firing.ring("1").lowest < hot.ring("1").lowest


def test_bolts_that_yield_when_hot_lose_far_more_than_elastic_ones():
    weak = Springs(
        SPRINGS.laws,
        SPRINGS.law_of,
        SPRINGS.share,
        SPRINGS.stiffness,
        SPRINGS.least,
        np.full(len(BOLTS), 52e3),
    )
    joint = type(JOINT)(JOINT.places, weak, JOINT.A, JOINT.R)
    _, yielded, begun = life(joint=joint)
    _, elastic, elastic_begun = life()
    lost = pull(begun.forces).mean() - pull(yielded.forces).mean()
    lost_elastic = pull(elastic_begun.forces).mean() - pull(elastic.forces).mean()
    assert lost > lost_elastic + 1000.0


def test_an_overheat_leaves_less_behind():
    operators, once, _ = life()
    hotter = Service(SERVICE.rest, SERVICE.warmth + 60.0 * PLATE.warm, {"none": JOINT.nothing()})
    after = shaken_down(JOINT, operators, once, hotter, FINE)
    assert pull(after.forces).sum() < pull(once.forces).sum()
