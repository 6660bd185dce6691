"""Rules no clamped joint breaks, whatever its shape."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from unit.joint.plate_joint import RING, inline

from firedeck.joint.chord import safe_operator
from firedeck.joint.clamped import Case
from firedeck.joint.laws import Law, Per
from firedeck.joint.newton import settle
from firedeck.joint.states import Service, bedded_in, shaken_down
from firedeck.joint.tightening import TurnTo, tighten

PLATES = st.builds(
    inline,
    bores=st.integers(1, 4),
    ring=st.integers(8, 16),
    rows=st.just(2),
    stiffness=st.floats(1e5, 4e5),
    height=st.floats(25.0, 70.0),
    law=st.floats(0.4, 2.5).map(RING.scaled),
)
TENSIONS = st.floats(20e3, 50e3)
PRESSURES = st.floats(3.0, 14.0)


def least_firing(plate, tension, pressure):
    """Lowest firing line load, and the mean of the rings when tightened."""
    joint, springs = plate.joint, plate.joint.springs
    bolts = len(springs.stiffness)
    held = springs.turned_to(springs.fresh(), range(bolts), np.full(bolts, tension))
    cold = settle(joint, Case(held, plate.weight))
    state = springs.let_go(cold.w, springs.remembered(cold.w, held))
    least = []
    for bore, gas in plate.gas.items():
        ring = np.flatnonzero(joint.places.of("ring", bore))
        forces = settle(joint, Case(state, plate.weight + pressure * gas), cold.w).forces
        least.append((forces[ring] / springs.share[ring]).min())
    rings = np.flatnonzero(joint.places.of("ring"))
    return min(least), float((cold.forces[rings] / springs.share[rings]).mean())


class TestTension:
    """All bolts drawn harder alike on flat faces, no ring has less load when firing."""

    @settings(max_examples=25, deadline=None)
    @given(PLATES, TENSIONS, PRESSURES, st.floats(1.01, 1.4))
    def test_more_tension_never_lowers_the_least_firing_load(self, plate, tension, pressure, more):
        before, mean = least_firing(plate, tension, pressure)
        after, _ = least_firing(plate, tension * more, pressure)
        assert after >= before - 1e-6 * mean


class TestPressure:
    """More gas never leaves more load."""

    @settings(max_examples=25, deadline=None)
    @given(PLATES, TENSIONS, PRESSURES, st.floats(1.01, 1.4))
    def test_more_pressure_never_raises_the_least_firing_load(self, plate, tension, pressure, more):
        before, mean = least_firing(plate, tension, pressure)
        after, _ = least_firing(plate, tension, pressure * more)
        assert after <= before + 1e-6 * mean


class TestWrench:
    """Whatever the order, the bolt turned last has its target."""

    @settings(max_examples=15, deadline=None)
    @given(PLATES, TENSIONS, st.randoms(use_true_random=False))
    def test_the_last_turned_bolt_holds_its_target(self, plate, tension, luck):
        order = list(range(len(plate.joint.springs.stiffness)))
        luck.shuffle(order)
        actions = [TurnTo(bolt, tension) for bolt in order]
        found = tighten(plate.joint, [safe_operator(plate.joint)], actions, plate.weight)
        for number, bolt in enumerate(order):
            if number not in found.untouched:
                assert abs(found.tensions[number, bolt] - tension) <= 1e-9 * tension


class TestFiring:
    """The order in which cylinders fire leaves the same joint."""

    @settings(max_examples=10, deadline=None)
    @given(PLATES, TENSIONS, PRESSURES, st.randoms(use_true_random=False))
    def test_the_order_of_firing_does_not_matter(self, plate, tension, pressure, luck):
        joint, springs = plate.joint, plate.joint.springs
        bolts = len(springs.stiffness)
        held = springs.turned_to(springs.fresh(), range(bolts), np.full(bolts, tension))
        w = settle(joint, Case(held, plate.weight)).w
        tight = springs.let_go(w, springs.remembered(w, held)), w
        operators = [safe_operator(joint)]
        begun = bedded_in(joint, operators, tight, plate.weight, np.zeros(bolts))
        names = list(plate.gas)
        ends = []
        for _ in range(2):
            service = Service(
                plate.weight, 60.0 * plate.warm, {name: pressure * plate.gas[name] for name in names}
            )
            ends.append(shaken_down(joint, operators, begun, service).state)
            luck.shuffle(names)
        assert np.abs(ends[0].permanent_set - ends[1].permanent_set).max() < 1e-8
        assert np.abs(ends[0].shortening - ends[1].shortening).max() < 1e-8


@st.composite
def laws(draw):
    count = draw(st.integers(1, 6))
    rises = draw(st.lists(st.floats(0.005, 0.2), min_size=count, max_size=count))
    slopes = draw(st.lists(st.floats(0.0, 5e3), min_size=count - 1, max_size=count - 1))
    slopes.append(draw(st.floats(1.0, 5e3)))
    last = draw(st.floats(1.0, 5e3))
    closure = np.concatenate([[0.0], np.cumsum(rises)])
    load = np.concatenate([[0.0], np.cumsum(np.array(rises) * slopes)])
    steep = max(*slopes, last) * draw(st.floats(1.0, 30.0)) * (1 + 1e-6)
    return Law("drawn", Per.LINE, tuple(closure), tuple(load), steep, last, 0.1, 0.2, "generic-ours")


class TestLaws:
    """A law never falls, in or out, and never forgets."""

    @given(laws(), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
    def test_load_never_falls(self, law, first, second):
        crushed = law.set_after(np.array([first]))
        closure = np.linspace(0.0, 1.2, 60)
        loads = law.held(closure, np.full(60, crushed[0]))
        assert (np.diff(loads) >= -1e-9 * max(loads.max(), 1.0)).all()
        assert law.set_after(np.array([max(first, second)]))[0] >= crushed[0] - 1e-12

    @given(laws(), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
    def test_a_crushed_gasket_never_presses_harder_than_a_new_one(self, law, crushed, closure):
        kept = law.set_after(np.array([crushed]))
        assert law.held(np.array([closure]), kept)[0] <= law.pressed(np.array([closure]))[0] + 1e-9
