"""Which way round: invented patterns with a known answer, marks, looking through, and patterns that are none."""

from dataclasses import replace

import pytest

from firedeck.errors import JobError
from firedeck.gasket.hole_match import Verdict, hole_match
from firedeck.gasket.laying import Way, lay
from firedeck.gasket.pattern import Opening, Pattern, check_pattern
from firedeck.gasket.pattern_text import pattern_of
from firedeck.gasket.through import Seen, passages_through

BORE = Opening("bore", "1", 0.0, 0.0, 80.0)
BOLTS = tuple(
    Opening("fastener", f"{x:+.0f}{y:+.0f}", x, y, 10.0) for x in (-50.0, 50.0) for y in (-50.0, 50.0)
)
WATER = tuple(Opening("passage", f"w{y:+.0f}", 0.0, y, 8.0, leads="water") for y in (-60.0, 60.0))
BLOCK = Pattern("block", (BORE, *BOLTS, *WATER))


def gasket(*more, room=0.5, **changes):
    holes = tuple(replace(one, diameter=one.diameter + 2 * room) for one in (BORE, *BOLTS))
    return Pattern("gasket", (*holes, *(replace(one, **changes) for one in WATER), *more))


def test_symmetric_parts_lie_any_way():
    found = hole_match(gasket(), BLOCK)
    assert found.verdict is Verdict.ANY_WAY
    assert set(found.fitting) == set(Way)


def test_an_oil_feed_off_the_middle_decides_and_is_named():
    feed = Opening("passage", "feed", 58.0, 20.0, 6.0, leads="oil")
    found = hole_match(gasket(feed), Pattern("block", (*BLOCK.openings, feed)))
    assert found.verdict is Verdict.BY_PASSAGE
    assert found.fitting == (Way.AS_DRAWN,)
    assert found.deciding == ("feed",)


def test_a_feed_covered_every_way_is_the_wrong_part():
    feed = Opening("passage", "feed", 58.0, 20.0, 6.0, leads="oil")
    found = hole_match(gasket(), Pattern("block", (*BLOCK.openings, feed)))
    assert found.verdict is Verdict.NONE
    assert "feed" in found.why


def test_marks_forbid_sides_and_ends():
    top, front = Opening("mark", "m", 0.0, 0.0, text="TOP"), Opening("mark", "n", 0.0, 0.0, text="Front")
    assert set(hole_match(gasket(top), BLOCK).fitting) == {Way.AS_DRAWN, Way.END_FOR_END}
    assert hole_match(gasket(top, front), BLOCK).verdict is Verdict.ONE_WAY


def test_a_hole_beyond_its_clearance_fits_no_way_and_one_within_it_does():
    def shifted(by):
        openings = [replace(one, x=one.x + by) if one.label == "+50+50" else one for one in gasket().openings]
        return Pattern("gasket", tuple(openings))

    assert hole_match(shifted(1.5), BLOCK).verdict is Verdict.NONE
    assert hole_match(shifted(0.8), BLOCK).fitting


def test_the_best_place_is_found_for_a_part_shifted_and_turned():
    import math

    turn = math.radians(0.4)
    moved = tuple(
        replace(
            one,
            x=one.x * math.cos(turn) - one.y * math.sin(turn) + 7,
            y=one.x * math.sin(turn) + one.y * math.cos(turn) - 3,
        )
        for one in gasket().openings
    )
    laid = lay(Pattern("gasket", moved), BLOCK, Way.AS_DRAWN)
    assert laid.fits
    assert laid.clears == pytest.approx(0.5, abs=1e-6)


def test_a_smaller_hole_meters_by_its_area():
    seen = passages_through(gasket(diameter=4.0), BLOCK, None)
    assert {one.seen for one in seen} == {Seen.METERED}
    assert seen[0].share == pytest.approx(0.25, abs=0.001)


def test_a_passage_of_the_block_alone_has_no_partner():
    head = Pattern("head", (BORE, *BOLTS, WATER[0]))
    assert [one.seen for one in passages_through(gasket(), BLOCK, head)] == [Seen.OPEN, Seen.NO_PARTNER]


def test_another_bolt_pattern_fits_no_way():
    fewer = Pattern("gasket", tuple(one for one in gasket().openings if one.label != "+50+50"))
    found = hole_match(fewer, BLOCK)
    assert found.verdict is Verdict.NONE
    assert "number of holes" in found.why


@pytest.mark.parametrize(
    ("openings", "says"),
    [
        ((), "no bore"),
        ((BORE, replace(BORE, label="2", x=40.0)), "lie in each other"),
        ((BORE, BORE), "twice"),
        (
            (BORE, *(Opening("outline", "", x, y) for x, y in ((100, 100), (200, 100), (200, 200)))),
            "outside the outline",
        ),
    ],
)
def test_patterns_that_are_none(openings, says):
    with pytest.raises(JobError, match=says):
        check_pattern(Pattern("gasket", openings))


TEXT = """#seen={seen} front={front} zero=bore 1
kind,label,x [mm],y [in],shape,diameter [mm],length [mm],angle [deg],leads
bore,1,0,0,round,80,,,
fastener,a,50,2,round,11,,,
passage,w,10,1,slot,8,20,30,water
"""


@pytest.mark.parametrize(
    ("seen", "front", "sign_x", "sign_y"),
    [
        ("deck from above", "left", 1, 1),
        ("deck from above", "right", -1, -1),
        ("head face up on the bench", "left", 1, -1),
        ("head face up on the bench", "right", -1, 1),
        ("gasket, this side up", "left", 1, 1),
    ],
)
def test_a_layout_is_read_as_seen_from_above(seen, front, sign_x, sign_y):
    bolt = pattern_of(TEXT.format(seen=seen, front=front), "block").of("fastener")[0]
    assert (bolt.x, bolt.y) == (sign_x * 50.0, sign_y * 2 * 25.4)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("seen={seen}", "seen=from below", "seen: found 'from below'"),
        ("x [mm]", "x", "without a unit"),
        ("bore,1", "hole,1", "row 1 kind"),
        ("fastener,a,50", "fastener,a,fifty", "row 2 x"),
        ("11,,,", ",,,", "row 2 diameter"),
        ("20,30,water", "20,30,tea", "row 3 leads"),
        ("leads\n", "colour\n", "column 'colour'"),
    ],
)
def test_layouts_that_cannot_be_read_are_one_line(old, new, says):
    text = TEXT.replace(old, new).format(seen="deck from above", front="left")
    with pytest.raises(JobError) as fault:
        pattern_of(text, "gasket")
    assert says in str(fault.value)
    assert "\n" not in str(fault.value)


@pytest.mark.parametrize("text", ["", "#seen=deck from above\n", "kind,x [mm],y [mm]\n"])
def test_empty_layouts(text):
    with pytest.raises(JobError):
        pattern_of(text, "gasket")
