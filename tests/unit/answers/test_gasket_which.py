"""Which gasket: by construction, with what decides."""

import pytest
from unit.answers.cutting import answered, ask, check, measures, small

from firedeck.assess.plain import standing
from firedeck.trace import Outcome

Q = "gasket-which"


def said(*gaskets: str, joint: str = "", engine: str = "", rest: str = ""):
    listed = "".join(f"[[joint.gasket.candidates]]\n{one}\n" for one in gaskets)
    return answered(Q, small(engine, joint + listed, rest))


def g(name: str, construction: str, more: str = "") -> str:
    return f'name = "{name}"\nconstruction = "{construction}"\n{more}'


ALLOY = '[joint.head]\nmaterial = "aluminium"\n[joint.block]\nmaterial = "grey-iron"\n'
IRON = '[joint.head]\nmaterial = "grey-iron"\n[joint.block]\nmaterial = "grey-iron"\n'
STEEL, SOFT, COPPER = g("layers", "multi-layer-steel"), g("soft", "composite"), g("red", "soft-copper")


@pytest.mark.parametrize(
    ("gaskets", "joint", "choice"),
    [
        ((STEEL, SOFT), ALLOY, "layers"),
        ((STEEL, SOFT), IRON, "soft"),
        ((SOFT, COPPER), IRON, "soft"),
        ((COPPER, g("skins", "laminated")), IRON, "skins"),
        ((STEEL, COPPER), ALLOY, "layers"),
        ((STEEL, COPPER), IRON + 'groove_depth = "0.2 mm"\n', "red"),
        ((g("bare", "steel-shim"), SOFT), IRON, "soft"),
        ((g("again", "composite", "used = true"), COPPER), IRON, "red"),
    ],
)
def test_what_decides(gaskets, joint, choice):
    answer = said(*gaskets, joint=joint)
    assert (answer.state, answer.action, answer.choice) == ("decided", "use", choice), answer.headline
    assert choice in answer.headline


def test_it_says_so_where_readings_could_turn_the_order():
    answer = said(
        STEEL,
        SOFT,
        joint=IRON + '[[joint.readings.finish]]\nname = "h"\nface = "head"\nRa = "1.0 µm"\n',
        engine='charging = "turbocharged"',
    )
    turned = [note.text for note in answer.notes if "turn it round" in note.text]
    assert turned
    assert "finish" in measures(answer)


def test_liners_decide_by_what_each_sheet_asks():
    limits = "".join(
        f'[[joint.limits]]\nname = "{n}"\nquantity = "liner_protrusion"\nlow = "{a}"\nhigh = "{b}"\n'
        f'construction = "{c}"\nmeasure = "indicator-total"\nrank = "part-sheet"\nfrom = "sheet"\n'
        for n, a, b, c in (
            ("s", "0.10 mm", "0.13 mm", "multi-layer-steel"),
            ("c", "0 mm", "0.08 mm", "composite"),
        )
    )
    read = '[[joint.readings.liners]]\nname = "1"\nstands = "{} mm"\n'
    low = said(
        STEEL, SOFT, joint='[joint.block]\nliners = "wet"\n' + read.format("0.02, 0.04, 0.05"), rest=limits
    )
    high = said(
        STEEL, SOFT, joint='[joint.block]\nliners = "wet"\n' + read.format("0.11, 0.11, 0.12"), rest=limits
    )
    assert (low.choice, high.choice) == ("soft", "layers")
    assert check(low, "lowest liner for layers").outcome is Outcome.FAILS


def test_pistons_put_a_class_out():
    answer = ask(Q, of="wet-liner-six")
    assert answer.choice == "thick"


@pytest.mark.parametrize(
    ("engine", "rest"),
    [
        ('charging = "natural"', '[running]\nboost = "0.5 bar"'),
        ('charging = "turbocharged"', '[running]\nboost = "0.5 bar"\nboost_before = "0 bar"'),
        ('charging = "turbocharged"', '[running]\nboost = "1.5 bar"\nboost_before = "0.8 bar"'),
    ],
)
def test_added_boost_is_for_the_maker_of_the_parts(engine, rest):
    answer = said(STEEL, engine=engine, rest=rest)
    assert (answer.state, answer.action) == ("decided", "ask-the-maker")
    assert len(answer.work) >= 6


def test_standard_boost_is_no_reason_to_ask():
    answer = said(
        STEEL,
        engine='charging = "turbocharged"',
        rest='[running]\nboost = "0.8 bar"\nboost_before = "0.8 bar"',
    )
    assert answer.action == "use"


def test_none_fits():
    assert said(g("old", "composite", "used = true")).action == "none-fits"
    small_ring = said(g("one", "composite", 'bore = "79 mm"'), engine='bore = "80 mm"')
    assert small_ring.action == "none-fits"
    assert "bore" in small_ring.headline


def test_open_endings():
    assert said().state == "open"
    unknown = said('name = "plain"')
    assert unknown.state == "open"
    assert "construction" in measures(unknown)
    wires = said(g("w1", "wire-ring", 'wire = "0.3 mm"'), g("w2", "wire-ring", 'wire = "0.5 mm"'))
    assert wires.state == "open"
    assert "groove" in measures(wires)
    thick = said(g("a", "composite", 'thickness = "1.2 mm"'), g("b", "composite", 'thickness = "1.4 mm"'))
    assert thick.state == "open"
    assert "piston" in measures(thick)
    alike = said(g("a", "composite"), g("b", "graphite-metal-core"))
    assert alike.state == "open"
    assert "sheets" in measures(alike)


def test_the_same_thing_twice_is_no_riddle():
    assert said(g("a", "composite"), g("b", "composite")).choice == "a"


def test_a_rough_face_counts_against_the_layers():
    finish = (
        '[[joint.readings.finish]]\nname = "h"\nface = "head"\nRa = "3.2 µm"\n'
        '[[joint.readings.finish]]\nname = "b"\nface = "block"\nRa = "1.0 µm"\n'
        '[[joint.limits]]\nname = "f"\nquantity = "surface_finish"\nhigh = "1.6 µm"\nconstruction = "multi-layer-steel"\n'
        'measure = "single-reading"\nrank = "part-sheet"\nfrom = "sheet"\n'
    )
    assert said(STEEL, SOFT, joint=ALLOY, rest=finish).choice == "soft"


def test_what_fails_of_a_gasket_not_chosen_does_not_make_the_answer_fail():
    answer = ask(Q)
    other = [check for check in answer.checks if "soft" in check.name and "steel" not in check.name]
    assert answer.choice == "steel"
    assert any(check.outcome is Outcome.FAILS for check in other)
    assert not any(check.counts for check in other)
    assert all(check.counts for check in answer.checks if "steel" in check.name)
    assert standing(answer) == "settled"
    assert [check.counts for check in answer.checks] == sorted(
        (check.counts for check in answer.checks), reverse=True
    )


def test_what_fails_of_the_chosen_gasket_still_fails():
    rough = {"joint.head.readings.finish": [{"name": "head", "face": "head", "Ra": "6.3 µm"}]}
    failing = [check for check in ask(Q, rough).checks if check.outcome is Outcome.FAILS]
    assert any(check.counts for check in failing)
