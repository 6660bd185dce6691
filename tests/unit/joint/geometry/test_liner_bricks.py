"""Bricks through the wall of a wet liner."""

from dataclasses import replace

import pytest

from firedeck.joint.geometry.castings import block_section
from firedeck.joint.geometry.mesh import FINE, PREVIEW, STANDARD, scaled, through_liner

WET = block_section("wet-liner", 104.0)


def test_two_bricks_through_the_wall_of_a_wet_liner():
    assert through_liner(scaled(STANDARD, 104.0), WET).along == pytest.approx(WET.liner / 2.0)
    thick = replace(WET, liner=20.0)
    assert through_liner(scaled(STANDARD, 104.0), thick) == scaled(STANDARD, 104.0)


def test_other_blocks_and_coarse_meshes_stay():
    assert through_liner(STANDARD, block_section("closed-deck", 104.0)) == STANDARD
    assert through_liner(PREVIEW, WET) == PREVIEW
    assert through_liner(FINE, WET).near == FINE.near
