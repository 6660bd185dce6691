"""Layouts from a few numbers and from traced points, written and read again; heads put on; marks by their place."""

import math
from dataclasses import replace

import pytest

from firedeck.errors import JobError
from firedeck.gasket.drafting import CopiedHole, FewNumbers, from_numbers, layout_text, traced
from firedeck.gasket.hole_match import Verdict, forbidden_ways, hole_match
from firedeck.gasket.laying import Way, put_on
from firedeck.gasket.pattern import Opening, Pattern
from firedeck.gasket.pattern_text import pattern_of, rows_of
from firedeck.gasket.through import Seen, passages_through

FOUR = FewNumbers(bores=4, pitch=96.0, bore=86.0, bolt=11.0, across=104.0, edge=15.0)
WATER = CopiedHole("passage", "w", 0.0, 58.0, 10.0, "water", along=True, mirrored=True)
FEED = CopiedHole("passage", "feed", 344.0, 20.0, 6.0, "oil")


def drafted(few: FewNumbers, part: str = "block") -> Pattern:
    return pattern_of(layout_text(from_numbers(few)), part)


def test_a_few_numbers_make_a_whole_layout():
    block = drafted(replace(FOUR, holes=(WATER, FEED)))
    assert [len(block.of(kind)) for kind in ("outline", "bore", "fastener", "passage")] == [4, 4, 10, 9]
    assert {(one.x, one.y) for one in block.of("fastener")} == {
        (48.0 * (2 * n - 1), s * 52.0) for n in range(5) for s in (-1, 1)
    }
    assert {one.y for one in block.of("passage") if one.leads == "water"} == {58.0, -58.0}


def test_a_gasket_with_room_fits_the_block_of_the_same_numbers():
    block = drafted(replace(FOUR, holes=(WATER, FEED)))
    gasket = drafted(replace(FOUR, room=0.5, holes=(WATER, FEED)), "gasket")
    found = hole_match(gasket, block)
    assert (found.verdict, found.fitting, found.deciding) == (Verdict.BY_PASSAGE, (Way.AS_DRAWN,), ("feed",))
    assert found.ways[0].laid.clears == pytest.approx(0.5)
    assert max(one.off for one in found.ways[0].laid.residuals) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("change", [{"bores": 0}, {"pitch": 0.0}, {"across": -1.0}])
def test_numbers_that_make_none(change):
    with pytest.raises(JobError):
        from_numbers(replace(FOUR, **change))


PICTURE = """#seen=gasket, this side up front=left
kind,label,x [px],y [px],diameter [mm]
bore,1,100,300,86
bore,2,340,300,86
fastener,a,-20,170,11
"""


def test_traced_points_are_scaled_by_a_length_that_was_measured():
    written = traced(rows_of(PICTURE, "trace"), ("bore 1", "bore 2"), 96.0, down=True)
    bore, other, bolt = pattern_of(layout_text(written), "trace").openings
    assert math.dist((bore.x, bore.y), (other.x, other.y)) == pytest.approx(96.0)
    assert bore.diameter == 86.0
    assert bolt.y > bore.y


@pytest.mark.parametrize(
    ("ends", "length", "says"),
    [
        (("bore 1", "bore 9"), 96.0, "'bore 9'"),
        (("bore 1", "bore 1"), 96.0, "in one place"),
        (("bore 1", "bore 2"), 0.0, "length"),
    ],
)
def test_traces_without_a_size(ends, length, says):
    with pytest.raises(JobError) as fault:
        traced(rows_of(PICTURE, "trace"), ends, length)
    assert says in str(fault.value)


def test_a_written_layout_keeps_every_column():
    text = (
        "#seen=head front=right zero=bore 1\n"
        "kind,label,x_in,y (mm),shape,diameter,length [mm],angle,leads,blind,depth [in],group,text\n"
        'bore,1,0,0,,86 mm,,,,,,,\nfastener,a,2,50,round,.43 in,,,,yes,1.5,long,\nmark,m,1,1,,,,,,,,,"THIS SIDE, UP"\n'
        "passage,s,1,60,slot,8 mm,20,0.5 rad,drain,,,,\n"
    )
    written = layout_text(rows_of(text, "head"))
    assert written.splitlines()[0] == "#seen=head face up on the bench front=right zero=bore 1"
    assert "fastener,a,50.8,50,round,10.922,,,,yes,38.1,long," in written
    again, first = pattern_of(written, "head").openings, pattern_of(text, "head").openings
    assert [replace(one, angle=0.0) for one in again] == [replace(one, angle=0.0) for one in first]
    assert [one.angle for one in again] == pytest.approx([one.angle for one in first], rel=1e-5)


def test_columns_without_units_and_places_left_out_are_faults():
    with pytest.raises(JobError, match="without a unit"):
        pattern_of("kind,label,x,y [mm],diameter [mm]\nbore,1,7,0,86", "block")
    with pytest.raises(JobError, match="has its place"):
        pattern_of("kind,label,x [mm],y [mm],diameter [mm]\nbore,1,,0,86", "block")


BORE = Opening("bore", "1", 0.0, 0.0, 80.0)
BOLTS = tuple(
    Opening("fastener", f"{x:+.0f}{y:+.0f}", x, y, 10.0) for x in (-50.0, 50.0) for y in (-50.0, 50.0)
)
HOLE = Opening("passage", "w", 0.0, 60.0, 8.0, leads="water")


def moved(part: Pattern, x: float, y: float) -> Pattern:
    return replace(part, openings=tuple(replace(one, x=one.x + x, y=one.y + y) for one in part.openings))


def test_a_head_with_another_zero_is_put_on_its_bolts():
    block = Pattern("block", (BORE, *BOLTS, HOLE))
    wide = tuple(replace(one, diameter=12.0) for one in BOLTS)
    head = moved(Pattern("head", (BORE, *wide, HOLE)), 30.0, -7.0)
    gasket = Pattern(
        "gasket", (replace(BORE, diameter=81.0), *(replace(one, diameter=11.0) for one in BOLTS), HOLE)
    )
    seen = hole_match(gasket, block, head).ways[0].passages
    assert [(one.seen, one.only_in) for one in seen] == [(Seen.OPEN, "")]
    no_bore = Pattern("head", head.openings[1:])
    assert put_on(no_bore, block).openings[-1].y == pytest.approx(60.0)


def test_holes_only_one_face_has_are_named_with_what_the_gasket_does():
    block = Pattern("block", (BORE, *BOLTS, HOLE))
    extra = replace(HOLE, label="extra", y=-60.0)
    head = Pattern("head", (BORE, *BOLTS, HOLE, extra))
    (spanned,) = (one for one in passages_through(Pattern("g", (HOLE,)), block, head) if one.only_in)
    assert (spanned.label, spanned.only_in, spanned.bared) == ("extra", "head", 0.0)
    (bared,) = (one for one in passages_through(Pattern("g", (HOLE, extra)), block, head) if one.only_in)
    assert bared.bared == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("word", "x", "forbidden"),
    [
        ("FRONT", -40.0, {Way.END_FOR_END, Way.BOTH}),
        ("FRONT", 40.0, {Way.AS_DRAWN, Way.TURNED_OVER}),
        ("REAR", 40.0, {Way.END_FOR_END, Way.BOTH}),
        ("FRONT", 0.0, {Way.END_FOR_END, Way.BOTH}),
        ("TOP - FRONT", -40.0, {Way.END_FOR_END, Way.BOTH, Way.TURNED_OVER}),
        ("4711", -40.0, set()),
    ],
)
def test_a_mark_of_an_end_means_the_end_it_lies_at(word, x, forbidden):
    gasket = Pattern("gasket", (BORE, *BOLTS, Opening("mark", "m", x, 0.0, text=word)))
    assert forbidden_ways(gasket) == forbidden


def test_rings_over_another_engines_bores_are_no_fit_though_the_bolts_clear():
    bores = (Opening("bore", "1", -20.0, 0.0, 30.0), Opening("bore", "2", 24.0, 0.0, 30.0))
    block = Pattern("block", (*bores, *BOLTS))
    wide = tuple(replace(one, diameter=11.0) for one in BOLTS)
    other = Pattern("gasket", (replace(bores[0], x=-26.0), replace(bores[1], x=18.0), *wide))
    found = hole_match(other, block)
    assert Way.AS_DRAWN not in found.fitting
    tight = Pattern("gasket", (*(replace(one, diameter=29.0) for one in bores), *wide))
    assert Way.AS_DRAWN in hole_match(tight, block).fitting
