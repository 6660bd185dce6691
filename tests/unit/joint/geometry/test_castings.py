"""Families of castings and what was measured on one."""

import pytest

from firedeck.errors import OutOfRange, TableGap
from firedeck.joint.geometry.castings import (
    BlockSection,
    Variant,
    block_section,
    families,
    head_section,
    skimmed,
)

ALL = [(part, family) for part in ("head", "block") for family in families(part)]


@pytest.mark.parametrize(("part", "family"), ALL)
@pytest.mark.parametrize("bore", [50.0, 86.0, 180.0])
def test_every_family_gives_castings_that_can_be(part, family, bore):
    section = head_section if part == "head" else block_section
    soft, middle, stiff = (section(family, bore, variant) for variant in Variant)
    assert soft.wall < middle.wall < stiff.wall
    assert soft.boss < middle.boss < stiff.boss


def test_what_was_measured_replaces_the_family():
    section = head_section("iron-diesel", 100.0, Variant.SOFT, {"deck": 14.0, "height": 120.0})
    assert (section.deck, section.height) == (14.0, 120.0)
    assert section.wall == pytest.approx(5.0)


def test_refusals():
    with pytest.raises(TableGap, match="closed-deck"):
        block_section("air-cooled", 90.0)
    with pytest.raises(OutOfRange, match="rof"):
        head_section("iron-diesel", 100.0, measured={"rof": 8.0})
    with pytest.raises(OutOfRange, match="water jacket"):
        head_section("iron-diesel", 100.0, measured={"deck": 95.0})
    with pytest.raises(OutOfRange, match="seat"):
        head_section("iron-diesel", 100.0, measured={"height": 80.0})
    with pytest.raises(OutOfRange, match="deck"):
        head_section("iron-diesel", 100.0, measured={"deck": -1.0})
    with pytest.raises(OutOfRange, match="ledge"):
        BlockSection(
            cut_depth=90.0, jacket=80.0, deck=10.0, liner=6.0, wall=5.0, boss=7.0, ledge=12.0, flange=4.0
        )
    with pytest.raises(OutOfRange, match="bore"):
        head_section("iron-diesel", 1.0)


def test_a_cut_takes_deck_and_chamber_but_not_the_roof():
    before = head_section("aluminium-overhead-cam", 80.0)
    after = skimmed(before, 0.4)
    assert after.roof == before.roof
    assert before.height - after.height == pytest.approx(0.4)
    flat = skimmed(head_section("iron-diesel", 80.0), 0.4)
    assert (flat.chamber_depth, flat.roof) == (0.0, flat.deck)


@pytest.mark.parametrize("cut", [-0.1, 30.0, float("nan")])
def test_cuts_that_cannot_be_are_refused(cut):
    with pytest.raises(OutOfRange, match="cut"):
        skimmed(head_section("aluminium-overhead-cam", 80.0), cut)
