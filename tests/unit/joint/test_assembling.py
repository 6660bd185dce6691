"""From bodies to a joint: which points bear, which laws fit, ties, gaps, bolts that grow."""

import numpy as np
import pytest
from unit.joint.plate_joint import BEAD, BODY, RING, inline

from firedeck.errors import JobError, OutOfRange
from firedeck.joint.assembling import Bodies, Bolt, assembled, bolt_growth, gap_load
from firedeck.joint.chord import safe_operator
from firedeck.joint.clamped import Case, Load, Places
from firedeck.joint.law_table import law
from firedeck.joint.newton import settle
from firedeck.joint.shear import stuck

PLATE = inline(bores=2, ring=12, rows=2)
JOINT = PLATE.joint
POINTS = JOINT.springs.points
BODIES = Bodies(JOINT.places, JOINT.springs.share, JOINT.A, JOINT.R, PLATE.gas, {"head": PLATE.warm})
LAWS = {"ring": RING, "half-bead": BEAD, "body": BODY}
BOLTS = {str(n): Bolt(2.5e5, 75e3) for n in range(1, 7)}


def clamped_at(joint, load, tension=50e3):
    springs = joint.springs
    state = springs.turned_to(springs.fresh(), range(6), np.full(6, tension))
    found = settle(joint, Case(state, load))
    return springs.let_go(found.w, springs.remembered(found.w, state)), found


def test_the_same_laws_give_the_same_joint():
    made = assembled(BODIES, LAWS, BOLTS)
    assert made.joint.springs.force(np.full(len(JOINT.A), 0.1), made.joint.springs.fresh()) == pytest.approx(
        JOINT.springs.force(np.full(len(JOINT.A), 0.1), JOINT.springs.fresh())
    )
    assert len(made.kept) == len(JOINT.A)


def test_points_without_a_law_do_not_bear():
    made = assembled(BODIES, {"ring": RING, "half-bead": BEAD}, BOLTS)
    assert not made.joint.places.of("body").any()
    assert made.joint.A.shape == (len(made.kept), len(made.kept))
    assert made.gas["1"].w == pytest.approx(PLATE.gas["1"].w[made.kept])


def test_one_place_can_have_a_law_of_its_own():
    made = assembled(BODIES, {**LAWS, "ring 2": RING.scaled(2.0)}, BOLTS).joint
    force = made.springs.force(np.full(len(JOINT.A), 0.1), made.springs.fresh())
    assert force[made.places.of("ring", "2")].sum() == pytest.approx(
        2.0 * force[made.places.of("ring", "1")].sum()
    )


@pytest.mark.parametrize(
    ("laws", "bolts", "says"),
    [
        (LAWS, {}, "no bolt"),
        ({}, BOLTS, "no gasket"),
        ({**LAWS, "ring": law("soft-copper-ring")}, BOLTS, "give a width"),
    ],
)
def test_what_does_not_fit_is_refused(laws, bolts, says):
    with pytest.raises(JobError, match=says):
        assembled(BODIES, laws, bolts)


def test_a_bolt_that_cannot_be_is_refused():
    with pytest.raises(OutOfRange):
        Bolt(0.0, 75e3)


def test_a_dip_beside_a_ring_empties_it_and_its_neighbours_carry_more():
    gap = np.zeros(POINTS)
    gap[0] = 0.05
    flat = clamped_at(JOINT, PLATE.weight)[1].forces
    dip = clamped_at(JOINT, PLATE.weight + gap_load(JOINT, gap))[1].forces
    assert dip[0] < 0.85 * flat[0]
    assert dip[1] > flat[1]
    with pytest.raises(JobError):
        gap_load(JOINT, np.zeros(3))


def test_bolts_that_grow_lose_pull():
    state, found = clamped_at(JOINT, PLATE.weight)
    longer = settle(JOINT, Case(state, PLATE.weight + bolt_growth(JOINT, {"1": 0.02})), found.w).forces
    assert longer[POINTS] < 50e3
    with pytest.raises(JobError, match="known: 1, 2"):
        bolt_growth(JOINT, {"x": 0.1})


def tied():
    """The joint with one tie along x and one along y: the head slides 0.1 mm along x when it is warm."""
    places = Places(
        np.append(JOINT.places.x, [0.0, 0.0]),
        np.append(JOINT.places.y, [0.0, 0.0]),
        (*JOINT.places.kind, "tie", "tie"),
        (*JOINT.places.place, "x0", "y0"),
    )
    n = len(JOINT.A)
    A = np.zeros((n + 2, n + 2))
    A[:n, :n] = JOINT.A
    A[n:, n:] = np.diag([2e-6, 2e-6])
    R = np.zeros((n + 2, 3))
    R[:n] = JOINT.R
    gas = {name: Load(np.append(load.w, [0.0, 0.0]), load.r) for name, load in PLATE.gas.items()}
    slide = Load(np.append(PLATE.warm.w, [0.1, 0.0]), PLATE.warm.r)
    return assembled(Bodies(places, JOINT.springs.share, A, R, gas, {"head": slide}), LAWS, BOLTS, ties=True)


def test_ties_carry_what_friction_would_have_to():
    made = tied()
    weight = Load(np.append(PLATE.weight.w, [0.0, 0.0]), PLATE.weight.r)
    cold = clamped_at(JOINT, PLATE.weight)[0]
    loads = (weight, weight + made.warm["head"])
    patch = np.zeros(POINTS, dtype=int)
    found = stuck(made.joint, [safe_operator(made.joint)], cold, loads, (0.15, patch))
    assert found.shear[0] == pytest.approx(0.1 / (2e-6 + 1e-7), rel=1e-3)
    assert found.normal[0] == pytest.approx(found.forces[:POINTS].sum())
    assert found.carried == pytest.approx(found.shear[0] / (0.15 * found.normal[0]))
    assert found.believable == (found.carried <= 1.0)
    slippery = stuck(made.joint, [safe_operator(made.joint)], cold, loads, (0.01, patch))
    assert not slippery.believable


def test_cold_ties_carry_nothing():
    made = tied()
    weight = Load(np.append(PLATE.weight.w, [0.0, 0.0]), PLATE.weight.r)
    cold, found = clamped_at(JOINT, PLATE.weight)
    same = stuck(
        made.joint, [safe_operator(made.joint)], cold, (weight, weight), (0.15, np.zeros(POINTS, dtype=int))
    )
    assert same.shear[0] == pytest.approx(0.0, abs=1.0)
    assert same.forces[:POINTS] == pytest.approx(found.forces[:POINTS], abs=1.0)
