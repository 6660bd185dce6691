"""Does the gasket fit, and which way round: second route, by the layouts of gasket, block face and head face."""

import pytest
from unit.answers.cutting import answered as asked
from unit.answers.cutting import check, measures, small

from firedeck.answers.answer import Answer, State
from firedeck.errors import JobErrors
from firedeck.job import read_file
from firedeck.trace import Outcome

Q = "gasket-fits"
TOP = "#seen={seen} front={front} zero=bore 1"
HEADER = "kind,label,x [mm],y [mm],diameter [mm],leads,text"
BORES = ["bore,1,0,0,{b},,", "bore,2,90,0,{b},,"]
BOLTS = [
    f"fastener,{n},{x},{y},{{d}},,"
    for n, (x, y) in enumerate(((-45, 50), (45, 50), (135, 50), (-45, -50), (45, -50), (135, -50)), 1)
]
HOLES = ((0, 58), (90, 58), (0, -58), (90, -58))
WATER = [f"passage,w{n},{x},{y},8,water," for n, (x, y) in enumerate(HOLES, 1)]
FEED = "passage,feed,140,20,6,oil,"
Rows = list[str]


def rows(
    *more: str, bore: float = 80.0, bolt: float = 10.0, without: tuple[str, ...] = (), water: Rows = WATER
) -> str:
    lines = [*(one.format(b=bore) for one in BORES), *(one.format(d=bolt) for one in BOLTS), *water, *more]
    kept = [line for line in lines if line.split(",")[1] not in without]
    return "\n".join([TOP.format(seen="deck from above", front="left"), HEADER, *kept])


def gasket(*more: str, **how: object) -> str:
    return rows(*more, bore=81.0, bolt=11.0, **how)  # type: ignore[arg-type]


def turned(text: str) -> str:
    """The same part, drawn from its other side."""
    lines = text.splitlines()
    out = lines[:2]
    for line in lines[2:]:
        cells = line.split(",")
        cells[3] = str(-float(cells[3]))
        out.append(",".join(cells))
    return "\n".join(out)


def said(candidate: str, block: str = "", head: str = "", more: str = "", joint: str = "") -> Answer:
    block = block or rows(FEED)
    faces = f"layout = '''{block}'''\n" + (f"[joint.head]\nlayout = '''{head}'''\n" if head else "")
    listed = (
        f"[[joint.gasket.candidates]]\nname = \"one\"\nbore = \"81 mm\"\n{more}\nlayout = '''{candidate}'''\n"
    )
    return asked(Q, small('bore = "80 mm"', faces + joint + listed))


def lines_of(answer: Answer) -> str:
    return "; ".join(f"{work.text} {work.figure}" for work in answer.work)


def test_only_one_way_fits_by_an_odd_bolt():
    odd = "fastener,7,20,-62,{},,"
    answer = said(gasket(odd.format(11)), rows(odd.format(10)))
    assert (answer.state, answer.action) == (State.DECIDED, "one-way")
    assert "as drawn" in answer.headline


def test_several_ways_fit_and_it_does_not_matter():
    answer = said(gasket(), rows())
    assert (answer.state, answer.action) == (State.DECIDED, "any-way")
    assert sum("laid" in one.name for one in answer.checks) == 4


def test_several_fit_and_the_feed_tells_them_apart():
    answer = said(gasket(FEED))
    assert answer.action == "by-this-passage"
    assert "feed" in answer.headline
    assert "as drawn" in answer.headline
    assert "feed: as drawn open, end for end covered" in lines_of(answer)


def test_none_fits_another_bolt_pattern():
    answer = said(gasket(FEED, without=("6",)))
    assert answer.action == "wrong-part"
    assert "number of holes" in answer.headline


def test_none_fits_a_hole_beyond_its_room():
    shifted = gasket(FEED).replace("fastener,6,135,-50", "fastener,6,137,-50")
    answer = said(shifted)
    assert answer.action == "wrong-part"
    worst = answer.checks[0]
    assert worst.outcome is Outcome.FAILS
    assert worst.quantity == "hole_clearance"


def test_a_mirror_image_is_told_by_its_mark():
    odd = "fastener,7,20,-62,{},,"
    mirrored = turned(gasket(odd.format(11))) + "\nmark,m,45,0,,,TOP"
    answer = said(mirrored, rows(odd.format(10)))
    assert answer.action == "wrong-part"
    assert "mirror image" in answer.headline


def test_the_other_bank_is_named():
    odd = "fastener,7,20,-62,{},,"
    text = f"""format = 0
[job]
title = "invented"
[engine]
arrangement = "vee"
cylinders = ["1", "2", "3", "4"]
bore = "80 mm"
[[joint]]
name = "left"
cylinders = ["1", "2"]
layout = '''{rows(odd.format(10))}'''
[[joint.gasket.candidates]]
name = "one"
bore = "81 mm"
layout = '''{turned(gasket(odd.format(11)))}
mark,m,45,0,,,TOP'''
[[joint]]
name = "right"
cylinders = ["3", "4"]
layout = '''{turned(rows(odd.format(10)))}'''
"""
    from firedeck.job import read_text

    answer = asked(Q, read_text(text), "left")
    assert answer.action == "wrong-part"
    assert "it is for right" in answer.headline


def test_metered_holes_are_left_and_their_share_is_said():
    small_holes = [line.replace(",8,water", ",4,water") for line in WATER]
    answer = said(gasket(FEED, water=small_holes))
    assert "25 % of the passage" in lines_of(answer)
    assert all("no drill" in one.caution for one in answer.work if "meters" in one.text)


def test_closed_water_is_never_punched_and_marks_decide():
    """Four closed water holes at one end: the ends are told apart by them, the mark says which."""
    rear = [line for line in WATER if ",90," in line]
    answer = said(gasket(water=rear) + "\nmark,f,-40,0,,,FRONT", rows())
    assert answer.action == "by-this-passage"
    assert "closed by the gasket" in lines_of(answer)
    assert any("Never punch" in one.caution for one in answer.work)
    wrong_end = said(gasket(water=rear) + "\nmark,f,130,0,,,FRONT", rows())
    assert "as drawn:" in " ".join(
        note.text for note in wrong_end.notes if "mark forbids" in note.text
    ).replace(",", "")


def test_a_mark_of_an_end_goes_by_where_it_lies():
    answer = said(gasket() + "\nmark,f,-40,30,,,FRONT\nmark,t,45,0,,,TOP", rows())
    assert (answer.action, "as drawn" in answer.headline) == ("one-way", True)
    other = said(gasket() + "\nmark,f,130,30,,,FRONT\nmark,t,45,0,,,TOP", rows())
    assert "end for end" in other.headline


def test_copper_against_the_alloy_is_a_mirrored_part():
    odd = "fastener,7,20,-62,{},,"
    sides = 'construction = "laminated"\ntowards_head = "copper"\ntowards_block = "steel"'
    alloy = '[joint.head]\nmaterial = "aluminium"\n'
    wrong = said(gasket(odd.format(11)), rows(odd.format(10)), more=sides, joint=alloy)
    assert wrong.action == "wrong-part"
    assert "copper" in wrong.headline
    drawn_over = said(turned(gasket(odd.format(11))), rows(odd.format(10)), more=sides, joint=alloy)
    assert drawn_over.action == "one-way"
    assert "turned over" in drawn_over.headline


def test_holes_only_the_head_has():
    head = rows("passage,extra 1,45,64,12,water,", FEED)
    answer = said(gasket(FEED), head=head)
    assert answer.action == "wrong-part"
    assert "extra 1 only in the head" in answer.headline
    assert "spanned by the gasket" in lines_of(answer)


def test_a_head_seen_face_up_is_turned_before_it_is_compared():
    head = turned(rows(FEED)).replace("seen=deck from above", "seen=head face up on the bench")
    assert said(gasket(FEED), head=head).action == "by-this-passage"
    not_turned = rows(FEED).replace("seen=deck from above", "seen=head face up on the bench")
    assert said(gasket(FEED), head=not_turned).action == "wrong-part"


def test_a_feed_without_partner_is_named():
    answer = said(gasket(FEED), head=rows())
    assert answer.action == "wrong-part"
    assert "feed only in the block" in answer.headline


def test_casting_holes_of_the_block_alone_are_a_word_and_no_fault():
    answer = said(gasket(), rows(), head=rows(without=("w4",)))
    assert answer.action in ("any-way", "by-this-passage")
    assert any("w4: only in the block" in note.text for note in answer.notes)


@pytest.mark.parametrize(
    ("size", "outcome"), [("9 mm", Outcome.HOLDS), ("11 mm", Outcome.AT_LIMIT), ("14 mm", Outcome.FAILS)]
)
def test_erosion_round_a_passage_against_the_bead(size, outcome):
    eaten = (
        '[[joint.readings.damage]]\nname = "eaten"\nface = "block"\nkind = "eroded-passage"\nx = "0 mm"\ny = "58 mm"\n'
        f'size = "{size}"\n'
    )
    answer = said(gasket(FEED), more='construction = "multi-layer-steel"', joint=eaten)
    found = check(answer, "eaten")
    assert found.outcome is outcome
    assert any("land of" in note.text for note in answer.notes)
    assert any("weep" in line for line in answer.cautions) == (outcome is not Outcome.HOLDS)


def test_missing_sizes_are_asked_for():
    answer = said(gasket(FEED).replace("fastener,1,-45,50,11.0", "fastener,1,-45,50,"))
    assert answer.state is State.OPEN
    assert "fastener 1" in measures(answer)
    alone = f"[[joint.gasket.candidates]]\nname = \"one\"\nbore = \"81 mm\"\nlayout = '''{gasket()}'''\n"
    no_block = asked(Q, small('bore = "80 mm"', alone))
    assert no_block.state is State.OPEN
    assert "hole pattern of the block" in measures(no_block)


def test_bolts_are_as_thick_as_their_thread():
    bare = "\n".join(line.replace(",10.0,", ",,") for line in rows(FEED).splitlines())
    answer = said(gasket(FEED), bare, joint='[[joint.fasteners]]\nname = "all"\nthread = "M10x1.5"\n')
    assert answer.action == "by-this-passage"


def test_the_ring_is_taken_from_the_layout():
    narrow = (
        f"[[joint.gasket.candidates]]\nname = \"one\"\nlayout = '''{rows(FEED, bore=79.0, bolt=11.0)}'''\n"
    )
    answer = asked(Q, small('bore = "80 mm"', f"layout = '''{rows(FEED)}'''\n{narrow}"))
    assert answer.action == "wrong-part"
    assert "ring" in answer.headline


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "empty layout"),
        ("#seen=deck from above\n", "without openings"),
        (gasket("bore,3,95,0,80,,"), "lie in each other"),
        (
            gasket("outline,,-60,-70,,,", "outline,,60,-70,,,", "outline,,60,70,,,", "outline,,-60,70,,,"),
            "outside the outline",
        ),
        (gasket("fastener,1,20,70,11,,"), "twice"),
        (gasket().replace("bore,1,0,0", "bore,1,wide,0"), "bores.1.x"),
        ("@elsewhere.csv", "beside the document"),
    ],
)
def test_a_layout_that_is_none_is_one_line(text, says):
    with pytest.raises(JobErrors) as fault:
        said(text)
    (only,) = fault.value.faults
    assert says in str(only)
    assert "gasket.candidates" in only.path
    assert "\n" not in str(only)


def test_layouts_are_brought_in_from_beside_the_document(tmp_path):
    (tmp_path / "block.csv").write_text(rows(FEED))
    (tmp_path / "gasket.csv").write_text(gasket(FEED))
    (tmp_path / "job.toml").write_text(
        'format = 0\n[job]\ntitle = "invented"\n[engine]\narrangement = "inline"\ncylinders = ["1", "2"]\n'
        '[[joint]]\nname = "head"\nlayout = "@block.csv"\n'
        '[[joint.gasket.candidates]]\nname = "one"\nlayout = "@gasket.csv"\n'
    )
    job = read_file(tmp_path / "job.toml")
    layout = job.joints[0].layout
    assert layout is not None
    assert (layout.zero, len(layout.fasteners), layout.bores[1].x.value) == ("bore 1", 6, 90.0)
    assert asked(Q, job).action == "by-this-passage"
    (tmp_path / "block.csv").unlink()
    with pytest.raises(Exception, match="no such file"):
        read_file(tmp_path / "job.toml")
