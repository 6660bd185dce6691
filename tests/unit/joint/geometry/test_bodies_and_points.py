"""Bricks on the walls, the same bricks for every variant, points where there is metal."""

import numpy as np
import pytest
from unit.joint.geometry.invented import ALLOY, IRON, three

from firedeck.errors import OutOfRange
from firedeck.joint.geometry.castings import Variant, block_section, families, head_section
from firedeck.joint.geometry.mesh import PREVIEW, RECIPES, STANDARD, block_body, head_body
from firedeck.joint.geometry.metal import block_metal
from firedeck.joint.geometry.points import Sampling, gasket_points

HEAD, BLOCK = head_section("aluminium-overhead-cam", 70.0), block_section("closed-deck", 70.0)


@pytest.mark.parametrize("recipe", RECIPES.values(), ids=RECIPES.keys())
def test_planes_lie_on_decks_roofs_and_walls(recipe):
    head = head_body(three(), HEAD, ALLOY, recipe)
    for height in (0.0, HEAD.deck, HEAD.seat - HEAD.ceiling, HEAD.seat, HEAD.height):
        assert np.abs(head.z - height).min() < 1e-9
    assert np.abs(head.x - (-120.0 + HEAD.wall)).min() < 1e-9
    assert np.abs(head.x - (39.0 - HEAD.rib / 2)).min() < 1e-9
    block = block_body(three(), BLOCK, IRON, recipe)
    for depth in (0.0, BLOCK.deck, BLOCK.cut_depth):
        assert np.abs(block.z + depth).min() < 1e-9


@pytest.mark.parametrize("recipe", RECIPES.values(), ids=RECIPES.keys())
def test_bricks_keep_near_the_wanted_size(recipe):
    head = head_body(three(), HEAD, ALLOY, recipe)
    assert np.diff(head.x).max() < 1.34 * recipe.along
    assert np.diff(head.y).max() < 1.34 * recipe.along
    assert np.diff(head.z).max() < 1.34 * recipe.beyond
    assert np.diff(head.z)[head.z[:-1] < 0.6 * recipe.near_depth].max(initial=0.0) < 1.34 * recipe.near


@pytest.mark.parametrize("family", families("head"))
def test_variants_share_their_bricks(family):
    middle = head_section(family, 70.0)
    model = head_body(three(), middle, ALLOY, PREVIEW, middle)
    masses = []
    for variant in Variant:
        body = head_body(three(), head_section(family, 70.0, variant), ALLOY, PREVIEW, like=middle)
        assert body.bricks == model.bricks
        volumes = np.einsum("i,j,k->ijk", np.diff(body.x), np.diff(body.y), np.diff(body.z))
        masses.append((body.share * volumes).sum())
    assert masses[0] < masses[1] < masses[2]


def test_variants_whose_walls_change_places_are_refused():
    high = head_section("aluminium-overhead-cam", 70.0, measured={"deck": 20.0})
    with pytest.raises(OutOfRange, match="another order"):
        head_body(three(), high, ALLOY, STANDARD, like=HEAD)


def test_metal_of_a_brick_share_is_the_metal_of_the_plan():
    plan = three()
    body = block_body(plan, BLOCK, IRON, STANDARD)
    deck = body.share[:, :, -1] * np.outer(np.diff(body.x), np.diff(body.y))
    outline = 250.0 * 136.0
    holes = 3 * np.pi * 35.0**2 + np.pi * 4.5**2 + np.pi * 5.0**2 + 16.0 * 10.0
    assert deck.sum() == pytest.approx(outline - holes, rel=0.005)


def test_a_wet_liner_hangs_from_its_flange():
    plan = three()
    section = block_section("wet-liner", 70.0)
    metal = block_metal(plan, section)
    in_liner = np.array([36.0])

    def at(depth):
        return metal(in_liner, np.array([0.0]), np.array([-depth])).item()

    assert at(0.5 * section.ledge) == 1.0
    assert at(section.deck + 5.0) == 1.0
    assert at(0.95 * section.jacket) == 0.0
    assert at(section.jacket + 2.0) == 0.0
    assert metal(np.array([0.0]), np.array([44.0]), np.array([-section.jacket - 2.0])).item() == 1.0
    assert block_body(plan, section, IRON, STANDARD).unknowns > 1000


@pytest.mark.parametrize("family", families("block"))
def test_every_family_of_blocks_is_one_piece(family):
    body = block_body(three(), block_section(family, 70.0), IRON, PREVIEW)
    assert (body.share[:, :, 0] > 0.0).mean() > 0.3


def test_points_lie_where_they_should():
    plan = three()
    points = gasket_points(plan, HEAD, BLOCK)
    kinds = np.array(points.kind)
    assert set(points.kind) == {"ring", "half-bead", "body"}
    assert set(points.place) == {"1", "2", "3", "water", "drain", "edge", "body"}
    ring = kinds == "ring"
    assert ring.sum() == 3 * 48
    assert points.share[ring].sum() == pytest.approx(3 * np.pi * 73.0)
    body = kinds == "body"
    holes = 3 * np.pi * 37.5**2 + 8 * np.pi * 5.0**2 + np.pi * 4.5**2 + np.pi * 5.0**2 + 16.0 * 10.0
    assert points.share[body].sum() == pytest.approx(250.0 * 136.0 - holes, rel=0.03)
    assert plan.inside(points.x, points.y).all()


def test_no_body_points_over_an_open_jacket():
    plan = three()
    closed, opened = (
        gasket_points(plan, HEAD, block_section(family, 70.0)) for family in ("closed-deck", "open-deck")
    )
    assert opened.kind.count("body") < 0.8 * closed.kind.count("body")
    assert opened.kind.count("ring") == closed.kind.count("ring")


def test_too_few_points_round_a_ring_are_refused():
    with pytest.raises(OutOfRange, match="eight or more"):
        gasket_points(three(), HEAD, BLOCK, Sampling(ring=4))
