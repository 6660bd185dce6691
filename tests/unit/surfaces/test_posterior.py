"""What the sampling of faces stands on: figures that must not move, and two ways to the same number."""

from dataclasses import replace

import numpy as np
import pytest

from firedeck.surfaces import dip_moves, grit_moves, smooth_moves
from firedeck.surfaces import laying as layings
from firedeck.surfaces.cloud import GRIT, GRIT_SHARE, LIFT, Cloud
from firedeck.surfaces.exchange import independent_columns, smallest_zone
from firedeck.surfaces.face_model import DIP_DEPTH, DIP_SIZE, DIPS, Bore, Plan
from firedeck.surfaces.faces_allowed import depth_of, squares
from firedeck.surfaces.first_order import first_order
from firedeck.surfaces.laying import Laying, hangs, stations
from firedeck.surfaces.leaf_odds import LeafOdds
from firedeck.surfaces.leaf_said import LEAF_SCATTER
from firedeck.surfaces.verdict import LeafReading
from firedeck.surfaces.zones import zones_of

EDGE = 6.0
PLAN = Plan((0.0, 0.0), (300.0, 140.0), (Bore("1", 80.0, 70.0, 80.0), Bore("2", 220.0, 70.0, 80.0)))
ENDS = {
    "front edge": ((8.0, 8.0), (292.0, 8.0)),
    "diagonal": ((8.0, 8.0), (292.0, 132.0)),
    "bridge": ((150.0, 6.0), (150.0, 134.0)),
}


def line(name: str, leaf: float, goes: float | None) -> Laying:
    laid = Laying(name, *ENDS[name], leaf, ())
    at = [one for one in np.arange(10.0, laid.length - 9.0, 12.0) if PLAN.on_face(*laid.places(one))]
    return replace(laid, readings=tuple(LeafReading(float(one), goes, 0.08) for one in at))


LINES = [line("front edge", 0.05, 0.05), line("diagonal", 0.05, 0.04), line("bridge", 0.0, None)]


def cloud(number: int = 200) -> Cloud:
    return Cloud(PLAN, stations(PLAN, LINES), number, seed=3, edge_bow=EDGE)


def test_bow_of_edge_and_face_cannot_be_told_apart():
    faces = cloud()
    before, bows = faces.leaves.odds(faces.heights, faces.weight, faces.under), faces.shapes[12].copy()
    faces.slide_bow()
    assert np.abs(faces.shapes[12] - bows).mean() > 0.3 * EDGE
    faces.refresh()
    after = faces.leaves.odds(faces.heights, faces.weight, faces.under)
    assert after == pytest.approx(before, abs=2e-3)


def test_drawing_the_bow_anew_keeps_what_was_known_beforehand():
    faces = cloud(4000)
    for _ in range(5):
        faces.slide_bow()
    assert faces.shapes.std(axis=1) == pytest.approx(faces.scatter[:, 0], rel=0.06)
    assert np.abs(faces.shapes.mean(axis=1) / faces.scatter[:, 0]).max() < 0.08


def test_moves_keep_what_was_known_beforehand_where_leaves_tell_nothing():
    """Steps uphill and answers to dips point where sharp leaves want the faces; the faces must not follow."""
    faces = cloud(2500)
    faces.blur = 30.0
    faces.order = faces.followed()
    assert np.abs(faces.order.answer).max() * 50.0 > 0.1
    assert np.diag(faces.order.root).min() < 0.5
    faces.blur = 1e7
    faces.odds = faces.leaves.odds(faces.heights, faces.weight, faces.under, faces.blur)
    for _ in range(12):
        smooth_moves.climb(faces, faces.order, 0.7, 1)
        dip_moves.bear_or_kill(faces)
        dip_moves.move(faces)
        dip_moves.across(faces)
        dip_moves.replace(faces)
    kept = faces.heights.copy()
    faces.refresh()
    assert np.abs(kept - faces.heights).max() < 0.5
    assert faces.shapes.std(axis=1) == pytest.approx(faces.scatter[:, 0], rel=0.07)
    assert faces.lift.std() == pytest.approx(LIFT, rel=0.02)
    assert faces.count.mean() == pytest.approx(DIPS, abs=0.1)
    alive = np.arange(faces.dips.shape[1])[:, None] < faces.count
    assert faces.dips[2][alive].mean() == pytest.approx(2.0 * DIP_DEPTH, rel=0.05)
    assert np.exp(faces.dips[3][alive]).mean() == pytest.approx(np.mean(DIP_SIZE), rel=0.05)


def test_grit_put_and_taken_stays_as_rare_and_as_thick_as_it_is_drawn():
    """Answers of the face to grit point where sharp leaves want it; where leaves tell nothing none may be kept."""
    faces = cloud(2500)
    faces.blur = LEAF_SCATTER
    faces.order = faces.followed()
    assert np.abs(faces.order.answer_lift).max() > 0.1
    faces.blur = 1e7
    faces.odds = faces.leaves.odds(faces.heights, faces.weight, faces.under, faces.blur)
    before = faces.grit.copy()
    for _ in range(60):
        grit_moves.put_or_take(faces)
    some = faces.grit != 0
    assert np.mean((faces.grit != before)[some]) > 0.9
    assert some.mean() == pytest.approx(GRIT_SHARE, abs=0.012)
    assert np.abs(faces.grit[some]).mean() == pytest.approx(np.mean(GRIT), rel=0.06)
    assert np.mean(faces.grit[some] > 0) == pytest.approx(0.5, abs=0.1)
    assert faces.shapes.std(axis=1) == pytest.approx(faces.scatter[:, 0], rel=0.07)
    assert faces.lift.std() == pytest.approx(LIFT, rel=0.02)
    kept = faces.heights.copy()
    faces.refresh()
    assert np.abs(kept - faces.heights).max() < 0.5


def test_grit_with_the_bend_it_wants_is_taken_where_grit_alone_is_not():
    """Faces that lie well on readings of their own, and grit under one line: the bend takes most of it back."""
    faces = cloud(400)
    faces.blur = LEAF_SCATTER
    faces.order = faces.followed()
    line, half = np.zeros(400, dtype=np.intp), 0.5 * LINES[0].length
    assert faces.order.contacts[0, 0] < 0.0 < faces.order.contacts[1, 0] <= half
    lifts = grit_moves._lifted(faces, line, np.full(400, 30.0, np.float32), np.full(400, 1.5, np.float32))
    assert lifts[0] == pytest.approx(np.full(400, 30.0), rel=1e-5)
    assert lifts[1] == pytest.approx(np.zeros(400), abs=1e-6)
    order = faces.order
    alone = order.gaps[len(faces.scatter) + 0] * 30.0 / LIFT
    shift = order.answer_lift[:, 0, 0] * 30.0 / LIFT
    together = alone + order.gaps.T @ shift
    read = faces.leaves.line == 0
    assert np.abs(together[read]).mean() < 0.7 * np.abs(alone[read]).mean()


def test_a_dip_moved_across_a_line_keeps_its_place_in_the_balance():
    """Moved across alone, depths and places stay as they were drawn: what is made deeper is made rarer."""
    faces = cloud(4000)
    faces.blur = 1e7
    faces.odds = faces.leaves.odds(faces.heights, faces.weight, faces.under, faces.blur)
    before = faces.dips.copy()
    for _ in range(12):
        dip_moves.across(faces)
    alive = np.arange(faces.dips.shape[1])[:, None] < faces.count
    assert np.mean(np.abs(faces.dips[2] - before[2])[alive] > 1.0) > 0.2
    assert faces.dips[2][alive].mean() == pytest.approx(2.0 * DIP_DEPTH, rel=0.03)
    assert faces.dips[2][alive].std() == pytest.approx(2.0**0.5 * DIP_DEPTH, rel=0.05)


def test_the_pull_of_a_leaf_is_the_slope_of_its_odds():
    leaves = LeafOdds.of(stations(PLAN, LINES))
    gaps = np.random.default_rng(7).uniform(0, 120, (len(leaves.line), 40)).astype(np.float32)
    for blur in (3.0, 40.0):
        step = np.float32(0.01 * blur)
        told, pull = leaves.told_and_pull(gaps, blur)
        assert told == pytest.approx(leaves.of_gaps(gaps, blur), abs=1e-4)
        more, _ = leaves.told_and_pull(gaps + step, blur)
        less, _ = leaves.told_and_pull(gaps - step, blur)
        assert leaves.members @ pull == pytest.approx((more - less) / (2 * step), abs=0.05 / blur)


def test_an_edge_that_hangs_needs_only_the_places_it_can_touch(monkeypatch):
    laid = replace(
        LINES[1], readings=(*LINES[1].readings[:3], LeafReading(140.0, None, 0.03), *LINES[1].readings[3:])
    )
    assert hangs(laid)
    few = stations(PLAN, [laid])
    monkeypatch.setattr(layings, "hangs", lambda _: False)
    many = stations(PLAN, [laid])
    assert (few.resting, many.resting) == (0, 1)
    chance = np.random.default_rng(4)
    shape = chance.normal(0, 1, (13, 300)) * np.array([-60, 30, 40, *[8] * 9, 5])[:, None]
    gaps = []
    for places in (few, many):
        heights = (places.linear(PLAN) @ shape + places.raised[:, None]).astype(np.float32)
        odds = LeafOdds.of(places)
        edges = odds.edges(heights, np.zeros((1, 300), dtype=np.float32))
        gaps.append(odds.gaps(heights, edges))
    free = gaps[1].min(axis=0) > 5.0
    assert free.mean() > 0.3
    assert gaps[0][:, free] == pytest.approx(gaps[1][:, free], abs=0.05)


def test_faces_far_off_are_told_apart_only_by_leaves_that_scatter_much():
    """Why the scatter is taken down in stages: a sharp leaf calls all far faces equally wrong."""
    faces = cloud()
    far = 5.0 * faces.heights
    close, wide, nothing = (
        faces.leaves.odds(far, faces.weight, faces.under, blur).sum(axis=0).std()
        for blur in (LEAF_SCATTER, 60.0, 10_000.0)
    )
    assert wide > 1.5 * close
    assert nothing < 0.5


def test_an_edge_that_stands_on_one_place_left_and_right_has_a_first_order():
    faces = cloud(50)
    edges = faces.leaves.edges(faces.heights, faces.weight)
    _, pull = faces.leaves.told_and_pull(faces.leaves.gaps(faces.heights, edges, faces.under), faces.blur)
    nowhere = np.zeros_like(faces.along)
    order = first_order(faces.leaves, edges, pull, nowhere, faces.linear * faces.scatter.T, lift=LIFT)
    assert np.isfinite(order.answer).all()
    assert np.isfinite(order.root).all()


def test_zones_side_by_side_are_those_one_by_one():
    chance = np.random.default_rng(5)
    x, y = (one.ravel() for one in np.meshgrid(np.linspace(0, 300, 15), np.linspace(0, 140, 9)))
    at = np.repeat(np.stack((np.ones_like(x), x, y))[:, :, None], 60, axis=2)
    at[1:, -4:] = chance.uniform(0, 140, (2, 4, 60))
    u, v = at[1] / 150 - 1, at[2] / 70 - 1
    heights = (
        chance.normal(0, 60, 60) * u**2 + chance.normal(0, 40, 60) * u * v + chance.normal(0, 9, u.shape)
    )
    heights += 200 * u
    heights[:, :3] = 7.0 * v[:, :3]
    alone = []
    for shape, one in zip(at.transpose(2, 1, 0), heights.T, strict=True):
        basis = independent_columns(shape)
        alone.append(smallest_zone(basis, one - basis @ (basis.T @ one) / len(one)).width)
    assert zones_of(at, heights) == pytest.approx(alone, abs=1e-6)


def test_depth_by_a_product_is_the_depth():
    chance = np.random.default_rng(6)
    x, y = chance.uniform(0, 900, 300), chance.uniform(0, 300, 300)
    dips = np.stack(
        (
            chance.uniform(0, 900, 40),
            chance.uniform(0, 300, 40),
            chance.gamma(2, 27, 40),
            np.log(chance.uniform(6, 30, 40)),
        )
    )
    far = (x[:, None] - dips[0]) ** 2 + (y[:, None] - dips[1]) ** 2
    plain = dips[2] * np.exp(-far / (2 * np.exp(2 * dips[3])))
    assert depth_of(dips.astype(np.float32), squares(x, y)) == pytest.approx(plain, abs=0.15)
