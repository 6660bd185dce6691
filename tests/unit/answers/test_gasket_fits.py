"""Does the gasket fit, and which way round: first route, no picture."""

import pytest
from unit.answers.cutting import answered, ask, check, measures, small

from firedeck.trace import Outcome

Q = "gasket-fits"


def said(gasket: str, passages: str = "", joint: str = "", bore: str = "80 mm"):
    layout = f"[joint.layout]\npassages = [{passages}]\n" if passages else ""
    candidate = f'[[joint.gasket.candidates]]\nname = "one"\n{gasket}\n'
    return answered(Q, small(f'bore = "{bore}"', joint + layout + candidate))


def hole(label: str, leads: str, seen: str, turned: str = "") -> str:
    other = f', seen_turned = "{turned}"' if turned else ""
    return (
        f'{{ label = "{label}", x = "0 mm", y = "0 mm", leads = "{leads}", seen_through = "{seen}"{other} }},'
    )


OPEN = hole("w1", "water", "open", "open")
BOTH = 'ways_that_fit = ["as-marked", "end-for-end"]'
RING = 'bore = "81 mm"\n'


@pytest.mark.parametrize(
    ("gasket", "passages", "action"),
    [
        (RING + BOTH, OPEN, "any-way"),
        (RING + 'ways_that_fit = ["as-marked"]', OPEN, "one-way"),
        (RING + BOTH + '\nmarks = "FRONT"', OPEN, "one-way"),
        (RING + BOTH + '\nmarks = "4711"\nmark_side = "either"', OPEN, "any-way"),
        (RING + 'marks = "TOP"\nways_that_fit = ["turned-over"]', OPEN, "wrong-part"),
        (RING + BOTH, OPEN + hole("feed", "oil", "covered", "open"), "by-this-passage"),
        (RING + BOTH, OPEN + hole("feed", "oil", "covered", "covered"), "wrong-part"),
        (RING + 'ways_that_fit = ["as-marked"]', hole("feed", "oil", "covered"), "wrong-part"),
        (RING + BOTH, hole("w2", "water", "covered", "open"), "by-this-passage"),
        (RING + 'marks = "FRONT"', hole("w2", "water", "covered"), "one-way"),
        (RING + BOTH + '\nmarks = "TOP"', hole("feed", "oil", "covered"), "by-this-passage"),
        ('bore = "79.9 mm"\n' + BOTH, OPEN, "wrong-part"),
    ],
)
def test_ways(gasket, passages, action):
    answer = said(gasket, passages)
    assert (answer.state, answer.action) == ("decided", action), answer.headline


def test_the_deciding_passage_is_named():
    answer = said(RING + BOTH, OPEN + hole("oil feed", "oil", "covered", "open"))
    assert "oil feed" in answer.headline


@pytest.mark.parametrize(
    ("ring", "state", "outcome"),
    [
        ("81 mm", "decided", "holds"),
        ("80.2 mm", "close", "holds"),
        ("80 mm", "close", "at-limit"),
        ("79 mm", "decided", "fails"),
    ],
)
def test_ring_over_bore(ring, state, outcome):
    answer = said(f'bore = "{ring}"\n{BOTH}', OPEN)
    assert answer.state == state
    assert check(answer, "ring overhang").outcome == outcome


def test_the_largest_bore_counts():
    bores = "joint.head.layout.bores"
    wide = [
        {"label": "1", "x": "0 mm", "y": "0 mm", "diameter": "86 mm"},
        {"label": "2", "x": "96 mm", "y": "0 mm", "diameter": "87.6 mm"},
    ]
    answer = ask(Q, {bores: wide, "joint.head.gasket.fitted": "steel", "joint.head.readings": {}})
    assert answer.action == "wrong-part"
    assert "cylinder 2" in check(answer, "ring overhang").name


def test_the_sheet_overrules_what_is_usual():
    limit = (
        '[[joint.limits]]\nname = "r"\nquantity = "ring_overhang"\nlow = "0.6 mm"\nmeasure = "computed"\n'
        'rank = "part-sheet"\nfrom = "sheet"\n'
    )
    assert said(RING + BOTH, OPEN, limit).action == "wrong-part"


@pytest.mark.parametrize(
    ("stand", "action"), [("0 mm", "wrong-part"), ("0.9 mm", "wrong-part"), ("1.1 mm", "any-way")]
)
def test_a_recess_wants_a_ring_that_fills_it(stand, action):
    answer = said(RING + BOTH + f'\nring_stand_out = "{stand}"', OPEN, '[joint.block]\nrecess = "1 mm"\n')
    assert answer.action == action


def test_a_recess_with_an_unknown_ring_is_asked_for():
    answer = said(RING + 'marks = "TOP"', OPEN, '[joint.block]\nrecess = "1 mm"\n')
    assert answer.state == "open"
    assert "stands out" in measures(answer)


def test_copper_lies_on_iron_and_steel_on_alloy():
    gasket = RING + 'construction = "laminated"\ntowards_head = "{}"\nways_that_fit = ["turned-over"]'
    joint = '[joint.head]\nmaterial = "aluminium"\n'
    assert said(gasket.format("copper"), OPEN, joint).action == "wrong-part"
    assert said(gasket.format("steel"), OPEN, joint).action == "one-way"


def test_a_groove_takes_only_what_is_made_for_it():
    joint = '[joint.block]\ngroove_depth = "0.2 mm"\n'
    assert said(RING + BOTH + '\nconstruction = "multi-layer-steel"', OPEN, joint).action == "wrong-part"
    assert said(RING + BOTH + '\nconstruction = "soft-copper"', OPEN, joint).action == "any-way"


def test_a_hole_in_one_casting_only_is_the_wrong_part():
    lone = '{ label = "extra", x = "0 mm", y = "0 mm", only_in = "head" },'
    answer = said(RING + BOTH, lone)
    assert answer.action == "wrong-part"
    assert "extra" in answer.headline


def test_a_smaller_hole_meters_and_is_left():
    answer = said(
        RING + BOTH,
        '{ label = "w", x = "0 mm", y = "0 mm", leads = "water", diameter = "12 mm", '
        'gasket_diameter = "6 mm", seen_turned = "smaller" },',
    )
    line = next(line for line in answer.work if line.text.startswith("w "))
    assert "meters" in line.text
    assert line.figure == "25 % of the passage"
    assert "no punch" in line.caution


def test_nothing_looked_through_is_open_with_the_list():
    answer = said(RING)
    assert answer.state == "open"
    assert "every passage" in measures(answer)
    listed = said(RING, '{ label = "water 7", x = "0 mm", y = "0 mm" },')
    assert "water 7" in measures(listed)


def test_no_ring_never_says_either_way_will_do():
    answer = answered(
        Q,
        small("", f'[joint.layout]\npassages = [{OPEN}]\n[[joint.gasket.candidates]]\nname = "one"\n{BOTH}'),
    )
    assert answer.state == "open"
    assert "ring" in measures(answer)
    marked = answered(Q, small("", '[[joint.gasket.candidates]]\nname = "one"\nmarks = "FRONT"'))
    assert marked.action == "one-way"
    assert "not measured" in marked.headline
    assert "ring" in measures(marked)


def test_no_gasket_is_open_and_a_wrong_one_beside_a_right_one_is_named():
    assert answered(Q, small("", "")).state == "open"
    two = ask(Q, {"joint.head.gasket.candidates.soft.bore": "85 mm", "joint.head.gasket.fitted": ""})
    assert (two.action, two.choice) == ("one-way", "steel")
    assert any(line.startswith("not soft") for line in two.cautions)
    assert check(two, "soft").outcome is Outcome.FAILS
    assert not check(two, "soft").counts
