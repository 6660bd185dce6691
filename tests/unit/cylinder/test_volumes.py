"""Ratio, cuts and squish: how the figures hang together, and what is said beside them."""

import pytest

from firedeck.cylinder.chamber_cut import bore_area_mistake, chamber_cut
from firedeck.cylinder.cut_for_ratio import cut_for_ratio
from firedeck.cylinder.effects import (
    Change,
    CylinderParts,
    cam_effect,
    lowered_by,
    ratio_effect,
    valve_effect,
)
from firedeck.cylinder.ratio_spread import ratio_spread
from firedeck.cylinder.squish import squish_gap
from firedeck.cylinder.stacking import stacked_gaskets, thickness_change
from firedeck.cylinder.thickness import compressed_thickness
from firedeck.cylinder.volumes import compression_ratio, ratio_of_volumes
from firedeck.errors import JobError, OutOfRange, TableGap

PARTS = CylinderParts(86.0, 86.0, 45000.0, 1.2, 87.0, 0.3)


def ratio(**more: float) -> float:
    parts = {
        "bore": 86.0,
        "stroke": 86.0,
        "chamber_volume": 45000.0,
        "gasket_thickness": 1.2,
        "gasket_bore": 87.0,
        "deck_clearance": 0.3,
    }
    return compression_ratio(**{**parts, **more}).ratio


def test_dish_and_crevice_lower_the_ratio_and_a_dome_raises_it() -> None:
    plain = ratio()
    assert ratio(dish_volume=3000.0) < plain
    assert ratio(crevice_volume=500.0) < plain
    assert ratio(dome_volume=3000.0) > plain
    assert ratio(dish_volume=3000.0, dome_volume=3000.0) == pytest.approx(plain)


def test_what_is_left_out_is_said() -> None:
    found = compression_ratio(
        bore=86.0,
        stroke=86.0,
        chamber_volume=45000.0,
        gasket_thickness=1.2,
        gasket_bore=87.0,
        deck_clearance=0.0,
    )
    assert "dish, dome, crevice" in found.assumptions[1].text
    assert "compressed" in found.assumptions[0].text


def test_piston_in_the_gasket_and_small_gasket_are_cautioned() -> None:
    found = compression_ratio(
        bore=86.0,
        stroke=86.0,
        chamber_volume=45000.0,
        gasket_thickness=1.2,
        gasket_bore=85.0,
        deck_clearance=-1.2,
    )
    assert len(found.cautions) == 2


def test_cut_for_ratio_gives_the_ratio_it_was_asked_for() -> None:
    cut = cut_for_ratio(swept_volume=500000.0, clearance_volume=55000.0, ratio=10.8, plan_area=5200.0)
    off = chamber_cut(plan_area=5200.0, cut=cut.cut)
    assert ratio_of_volumes(500000.0, 55000.0 - off.volume_change).ratio == pytest.approx(10.8)


def test_a_lower_ratio_is_no_cut() -> None:
    found = cut_for_ratio(swept_volume=500000.0, clearance_volume=50000.0, ratio=9.0, plan_area=5000.0)
    assert found.cut < 0.0
    assert "volume must be added" in found.cautions[0].text


def test_rim_bounds_the_area_from_above() -> None:
    square = chamber_cut(plan_area=70.0 * 70.0, cut=0.5).volume_change
    by_rim = chamber_cut(rim_length=4 * 70.0, cut=0.5)
    assert by_rim.volume_change > square
    assert "upper bound" in by_rim.cautions[0].text


def test_two_heads_of_one_kind_give_their_own_volume_per_cut() -> None:
    found = chamber_cut(volume_before=91000.0, volume_after=75200.0, cut=2.54)
    assert found.volume_per_cut * 0.254 / 1000 == pytest.approx(1.58)
    assert found.cut_per_volume * found.volume_per_cut == pytest.approx(1.0)


def test_chamber_cannot_grow_by_a_cut() -> None:
    with pytest.raises(OutOfRange, match="volume_after"):
        chamber_cut(volume_before=45000.0, volume_after=45000.0, cut=0.2)


def test_bore_area_mistake_has_a_sign() -> None:
    assert bore_area_mistake(86.0, 5000.0).share > 0.0
    assert bore_area_mistake(86.0, 7000.0).share < 0.0


def test_head_cut_leaves_squish_and_block_cut_takes_it() -> None:
    head = ratio_effect(PARTS, Change(head_cut=0.2), 5000.0)
    block = ratio_effect(PARTS, Change(block_cut=0.2), None)
    assert head.squish_after.squish == head.squish_before.squish == pytest.approx(1.5)
    assert block.squish_after.squish == pytest.approx(1.3)
    assert head.ratio_change > 0.0
    assert block.ratio_change > 0.0


def test_a_head_cut_needs_the_plan_area() -> None:
    with pytest.raises(OutOfRange, match="plan_area"):
        ratio_effect(PARTS, Change(head_cut=0.2), None)


def test_thicker_gasket_undoes_a_cut_for_cam_and_valves() -> None:
    change = Change(head_cut=0.2, block_cut=0.1, gasket_thickness=1.5)
    assert lowered_by(PARTS, change).value == pytest.approx(0.0)
    assert cam_effect(PARTS, change, teeth=38.0, pitch=9.525).cam_angle == pytest.approx(0.0, abs=1e-12)
    assert valve_effect(PARTS, change, intake=2.0, exhaust=2.5).intake == pytest.approx(2.0)


def test_ratio_spread_of_unlike_chambers() -> None:
    found = ratio_spread({"1": ratio_of_volumes(500000.0, 50000.0), "2": ratio_of_volumes(500000.0, 52000.0)})
    assert (found.highest, found.lowest) == (11.0, found.ratios["2"])
    assert found.spread == pytest.approx(11.0 - found.lowest)
    with pytest.raises(JobError, match="no cylinder"):
        ratio_spread({})


def test_no_squish_left_is_cautioned() -> None:
    assert "do not turn" in squish_gap(-1.2, 1.2).cautions[0].text
    assert squish_gap(-1.1, 1.2).cautions == ()


def test_stack_is_one_gasket_of_the_same_volume() -> None:
    found = stacked_gaskets([(1.0, 80.0), (0.5, 84.0)])
    assert found.thickness == 1.5
    assert 80.0 < found.bore < 84.0
    assert thickness_change(found.bore, found.thickness).volume == pytest.approx(found.volume)
    with pytest.raises(JobError, match="no layer"):
        stacked_gaskets([])


def test_free_thickness_is_never_taken_for_the_compressed_one() -> None:
    free = compressed_thickness(1.27, "free", "composite")
    unknown = compressed_thickness(1.27, "unknown", "composite")
    assert free.high < 1.27
    assert unknown.high == 1.27
    assert free.cautions
    assert unknown.cautions
    assert compressed_thickness(1.0, "compressed").low == compressed_thickness(1.0, "compressed").high == 1.0


def test_thickness_of_an_unknown_construction_or_state() -> None:
    with pytest.raises(TableGap, match="composite"):
        compressed_thickness(1.27, "free", "cardboard")
    with pytest.raises(JobError, match="allowed"):
        compressed_thickness(1.27, "squashed", "composite")
