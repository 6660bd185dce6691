"""From bricks to line loads: an invented three-cylinder joint, not symmetric, coarse bricks, through its whole life."""

import numpy as np
import pytest
from unit.joint.geometry.invented import ALLOY, IRON, three

from firedeck.joint.assembling import Bodies, Bolt, assembled, gap_load
from firedeck.joint.chord import fast_operator, safe_operator
from firedeck.joint.clamped import Case, Load
from firedeck.joint.geometry.castings import block_section, head_section
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.loading import loaded_block, loaded_head
from firedeck.joint.geometry.mesh import Recipe, block_body, head_body
from firedeck.joint.geometry.points import Sampling, gasket_points
from firedeck.joint.law_table import laws_of
from firedeck.joint.line_loads import read_off
from firedeck.joint.newton import settle
from firedeck.joint.states import Service, bedded_in, judged, shaken_down
from firedeck.joint.tightening import TurnTo, tighten
from firedeck.tables import rows

COARSE = Recipe("coarse", 12.0, 16.0, 0.0, 16.0)
PLAN = three()
HEAD, BLOCK = head_section("aluminium-overhead-cam", 70.0), block_section("closed-deck", 70.0)
POINTS = gasket_points(PLAN, HEAD, BLOCK, Sampling(ring=24, half_bead=16.0, body=20.0))
BOLTS = {one.label: Bolt(2.0e5, 60e3) for one in PLAN.fasteners}
CONSTRUCTIONS = sorted({row["construction"] for row in rows("gasket_laws")})
TENSION = 38e3


@pytest.fixture(scope="module")
def bodies():
    head, block = head_body(PLAN, HEAD, ALLOY, COARSE), block_body(PLAN, BLOCK, IRON, COARSE)
    pair = condensed(loaded_head(PLAN, HEAD, head, POINTS)), condensed(loaded_block(PLAN, block, POINTS))
    flexible = put_together(PLAN, POINTS, *pair)
    return Bodies(flexible.places, POINTS.share, flexible.A, flexible.R, flexible.gas, flexible.warm)


def made_with(bodies, construction):
    laws = laws_of(construction)
    if laws["ring"].per.value == "MPa":
        laws["ring"] = laws["ring"].along(2.0)
    made = assembled(bodies, laws, BOLTS)
    return made, Load(np.zeros(made.joint.springs.count), np.array([-100.0, 0.0, 0.0]))


def pulled(joint, load, tension=TENSION):
    springs = joint.springs
    held = springs.turned_to(springs.fresh(), range(8), np.full(8, tension))
    found = settle(joint, Case(held, load))
    return springs.let_go(found.w, springs.remembered(found.w, held)), found


def least_firing(made, rest, pressure=7.0, tension=TENSION):
    joint = made.joint
    state, cold = pulled(joint, rest, tension)
    least = []
    for bore, gas in made.gas.items():
        forces = settle(joint, Case(state, rest + pressure * gas), cold.w).forces
        least.append(read_off(joint, forces).ring(bore).lowest)
    return min(least)


@pytest.mark.parametrize("construction", CONSTRUCTIONS)
def test_every_construction_goes_through_its_life(bodies, construction):
    made, rest = made_with(bodies, construction)
    joint = made.joint
    safe = safe_operator(joint)
    turns = [TurnTo(bolt, target) for target in (15e3, TENSION) for bolt in (3, 4, 2, 5, 1, 6, 0, 7)]
    tight = tighten(joint, [safe], turns, rest)
    assert tight.tensions[-1, 7] == pytest.approx(TENSION)
    operators = [fast_operator(joint, tight.w, tight.state), safe]
    warmth = 70.0 * (made.warm["head-even"] + made.warm["block-even"])
    service = Service(rest, warmth, {name: 7.0 * gas for name, gas in made.gas.items()})
    begun = bedded_in(joint, operators, (tight.state, tight.w), rest, np.full(8, 0.004))
    life = shaken_down(joint, operators, begun, service)
    found = judged(joint, operators, life, service)
    assert life.steps[0].value < 1e-9
    assert found.steps[0].value < 1e-9
    for place, name in enumerate(found.names[:5]):
        warm, bore = "cold" not in name, name[0]
        load = service.firing(bore, warm) if "firing" in name else (service.hot if warm else rest)
        alone = settle(joint, Case(life.state, load)).forces
        miss = np.abs(found.forces[:, place] - alone)[: joint.springs.points] / joint.springs.share
        assert miss.max() < 0.05


def test_the_order_of_firing_does_not_matter(bodies):
    made, rest = made_with(bodies, "graphite-metal-core")
    joint = made.joint
    state, found = pulled(joint, rest)
    warmth = 70.0 * (made.warm["head-even"] + made.warm["block-even"])
    operators = [safe_operator(joint)]
    begun = bedded_in(joint, operators, (state, found.w), rest, np.full(8, 0.004))
    ends = []
    for order in ("123", "312", "231"):
        service = Service(rest, warmth, {name: 7.0 * made.gas[name] for name in order})
        ends.append(shaken_down(joint, operators, begun, service).state)
    for other in ends[1:]:
        assert np.abs(other.permanent_set - ends[0].permanent_set).max() < 1e-9
        assert np.abs(other.shortening - ends[0].shortening).max() < 1e-9


def test_forces_of_the_gasket_and_the_gas_are_the_bolts(bodies):
    made, rest = made_with(bodies, "multi-layer-steel")
    state, cold = pulled(made.joint, rest)
    firing = settle(made.joint, Case(state, rest + 7.0 * made.gas["2"]), cold.w).forces
    points = made.joint.springs.points
    gas = made.gas["2"].r[0] * 7.0
    assert gas == pytest.approx(7.0 * np.pi * 71.0**2 / 4.0, rel=0.05)
    assert firing[points:].sum() - firing[:points].sum() == pytest.approx(gas - 100.0, rel=1e-9)


@pytest.mark.parametrize("construction", ["multi-layer-steel", "graphite-metal-core"])
def test_trends(bodies, construction):
    made, rest = made_with(bodies, construction)
    plain = least_firing(made, rest)
    assert least_firing(made, rest, tension=1.1 * TENSION) >= plain
    assert least_firing(made, rest, pressure=9.0) <= plain


def test_a_long_bow_costs_little_and_a_short_dip_at_a_ring_costs_much(bodies):
    made, rest = made_with(bodies, "multi-layer-steel")
    places, points = made.joint.places, made.joint.springs.points
    x, y = places.x[:points], places.y[:points]
    flat = least_firing(made, rest)
    bow = 0.05 * ((x - x.mean()) / np.ptp(x) * 2.0) ** 2
    ring = np.flatnonzero(places.of("ring", "2"))[0]
    dip = 0.03 * np.exp(-(((x - x[ring]) ** 2 + (y - y[ring]) ** 2) / 12.0**2))
    bowed = least_firing(made, rest + gap_load(made.joint, bow))
    dipped = least_firing(made, rest + gap_load(made.joint, dip))
    assert dipped < bowed
    assert abs(bowed - flat) < 0.5 * abs(dipped - flat)
