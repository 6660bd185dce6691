"""The two bodies put together: signs, balance, heat."""

import numpy as np
import pytest
from unit.joint.geometry.invented import ALLOY, IRON, three

from firedeck.errors import OutOfRange
from firedeck.joint.geometry.castings import block_section, head_section, skimmed
from firedeck.joint.geometry.condensed import (
    between,
    condensed,
    own_weight,
    part,
    put_together,
)
from firedeck.joint.geometry.loading import loaded_block, loaded_head
from firedeck.joint.geometry.mesh import PREVIEW, Recipe, block_body, head_body
from firedeck.joint.geometry.points import Sampling, gasket_points

COARSE = Recipe("coarse", 12.0, 16.0, 0.0, 16.0)
PLAN = three()
HEAD, BLOCK = head_section("aluminium-overhead-cam", 70.0), block_section("closed-deck", 70.0)
POINTS = gasket_points(PLAN, HEAD, BLOCK, Sampling(ring=24, half_bead=16.0, body=20.0))


def bodies(recipe=COARSE):
    return head_body(PLAN, HEAD, ALLOY, recipe), block_body(PLAN, BLOCK, IRON, recipe)


@pytest.fixture(scope="module")
def whole():
    head, block = bodies()
    pair = condensed(loaded_head(PLAN, HEAD, head, POINTS)), condensed(loaded_block(PLAN, block, POINTS))
    return put_together(PLAN, POINTS, *pair)


def test_compliance_is_symmetric_and_everything_gives(whole):
    assert np.abs(whole.A - whole.A.T).max() == 0.0
    assert np.linalg.eigvalsh(whole.A)[0] > 0.0
    assert whole.A.shape == (POINTS.count + 8, POINTS.count + 8)
    assert len(whole.places.x) == len(whole.A)
    assert whole.places.names("bolt") == tuple(bolt.label for bolt in PLAN.fasteners)


def test_rigid_motion_lifts_bolts_and_opens_the_gasket(whole):
    n = POINTS.count
    assert whole.R[:, 0] == pytest.approx(np.r_[-np.ones(n), np.ones(8)])
    assert whole.R[:n, 1] == pytest.approx(-POINTS.y)
    assert whole.R[:n, 2] == pytest.approx(POINTS.x)


def test_gas_lifts_with_its_whole_force(whole):
    area = np.pi * 35.5**2
    for bore in PLAN.bores:
        assert whole.gas[bore.label].r == pytest.approx([area, 0.0, -area * bore.x], abs=1e-6 * area * 80)


def linear(whole, load, bed=2000.0, bolt=300e3):
    """Forces of a joint whose springs are straight, from w + A f = R q + w_load, R^T f = r."""
    n = len(whole.A)
    soft = 1.0 / np.r_[np.maximum(POINTS.share, 1.0) * bed, np.full(8, bolt)]
    left = np.block([[whole.A + np.diag(soft), -whole.R], [whole.R.T, np.zeros((3, 3))]])
    return np.linalg.solve(left, np.r_[load.w, load.r])[:n]


def test_firing_takes_load_off_its_own_ring_most_and_none_is_lost(whole):
    middle = PLAN.bores[1]
    force = linear(whole, whole.gas[middle.label])
    assert whole.R.T @ force == pytest.approx(whole.gas[middle.label].r, abs=1e-6)
    place = np.array(whole.places.place)[: POINTS.count]
    kind = np.array(POINTS.kind)
    lost = {
        bore.label: -force[: POINTS.count][(kind == "ring") & (place == bore.label)].sum()
        for bore in PLAN.bores
    }
    assert lost[middle.label] > 3.0 * max(lost["1"], lost["3"], 0.0)
    assert (force[POINTS.count :][2:6] > 0.0).all()


def test_even_heat_of_a_free_head_presses_nothing(whole):
    head, _ = bodies()
    loaded = loaded_head(PLAN, HEAD, head, POINTS)
    assert np.abs(condensed(loaded).rigid[-2:]).max() < 1e-6
    left = whole.warm["head-even"].w[: POINTS.count]
    grown = np.linalg.lstsq(whole.R[: POINTS.count], left, rcond=None)[0]
    assert np.abs(left - whole.R[: POINTS.count] @ grown).max() < 1e-9


def test_a_hot_fire_face_bows_the_head_down_at_the_ends(whole):
    rise = -whole.warm["head-fire-face"].w[: POINTS.count]
    flat = np.column_stack([np.ones(POINTS.count), POINTS.x, POINTS.y])
    bow = rise - flat @ np.linalg.lstsq(flat, rise, rcond=None)[0]
    ends = np.abs(POINTS.x - 5.0) > 90.0
    middle = np.abs(POINTS.x - 5.0) < 40.0
    assert bow[ends].mean() > bow[middle].mean()


def test_weight_presses(whole):
    head, _ = bodies()
    r = own_weight(head, 80.0)
    assert r[0] == -80.0
    assert abs(r[2]) < 80.0 * 20.0
    assert r.shape == (whole.R.shape[1],)


def test_stuck_faces_add_ties_and_all_six_motions():
    head, block = bodies()
    sized = [loaded_head(PLAN, HEAD, head, POINTS, stuck=True), loaded_block(PLAN, block, POINTS, stuck=True)]
    whole = put_together(PLAN, POINTS, *(condensed(one) for one in sized))
    ties = sized[0].counts.ties
    assert ties > 40
    assert whole.R.shape == (POINTS.count + 8 + ties, 6)
    assert whole.places.kind.count("tie") == ties
    assert whole.R[-ties:, 0] == pytest.approx(-np.r_[np.ones(ties // 2), np.zeros(ties // 2)])


@pytest.mark.parametrize("family", ["aluminium-overhead-cam", "iron-diesel"])
def test_a_cut_head_lies_on_the_line_between_two(family):
    new = head_section(family, 70.0)
    sections = [new, skimmed(new, 0.5), skimmed(new, 1.0)]
    heads = [
        loaded_head(PLAN, one, head_body(PLAN, one, ALLOY, COARSE, like=new), POINTS) for one in sections
    ]
    whole, half, deepest = (condensed(head) for head in heads)
    force = np.random.default_rng(0).normal(size=half.counts.springs)
    R = half.rigid[: len(force)]
    force -= R @ np.linalg.lstsq(R, force, rcond=None)[0]
    energy = [
        force @ body.G[: len(force), : len(force)] @ force
        for body in (between(whole, deepest, 0.5), half, whole)
    ]
    assert energy[0] == pytest.approx(energy[1], rel=0.003)
    assert abs(energy[2] - energy[1]) > 5.0 * abs(energy[0] - energy[1])


def test_between_refuses_what_is_not_between():
    head, _ = bodies()
    one = condensed(loaded_head(PLAN, HEAD, head, POINTS))
    with pytest.raises(OutOfRange, match="0 to 1"):
        between(one, one, 1.5)
    other = condensed(loaded_head(PLAN, HEAD, head, gasket_points(PLAN, HEAD, BLOCK, Sampling(ring=12))))
    with pytest.raises(OutOfRange, match="same columns"):
        between(one, other, 0.5)


def test_part_of_the_springs_is_the_joint_without_the_others(whole):
    kept = [n for n in range(len(whole.A)) if whole.places.kind[n] != "body"]
    some = part(whole, kept)
    assert some.places.kind == tuple(whole.places.kind[n] for n in kept)
    assert some.A[3, -1] == whole.A[kept[3], kept[-1]]
    assert some.R.shape == (len(kept), 3)
    assert some.gas["1"].w == pytest.approx(whole.gas["1"].w[kept])


def test_bodies_over_different_columns_are_refused():
    head, block = bodies()
    other = gasket_points(PLAN, HEAD, BLOCK, Sampling(ring=12, half_bead=20.0, body=30.0))
    pair = condensed(loaded_head(PLAN, HEAD, head, POINTS)), condensed(loaded_block(PLAN, block, other))
    with pytest.raises(OutOfRange, match="same columns"):
        put_together(PLAN, POINTS, *pair)


def test_threads_below_the_cut_are_refused():
    short = block_section("closed-deck", 70.0, measured={"cut_depth": 30.0, "jacket": 28.0})
    body = block_body(PLAN, short, IRON, PREVIEW)
    with pytest.raises(OutOfRange, match="cut"):
        loaded_block(PLAN, body, POINTS)
