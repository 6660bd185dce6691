"""fasteners-reuse: faults, limits of the papers, and how the fasteners are tightened."""

import pytest
from unit.answers.fastening import ask, group, limit, outcomes, procedure, wanted_of, words_of

from firedeck.errors import JobError

TORQUE = procedure("oiled; 40 N·m; 80 N·m")
TURN = procedure("oiled; 40 N·m; +90°; +90°")
SOUND = {"fasteners": {"threads": "clean-and-even"}}


def reuse(**joint):
    return ask("fasteners-reuse", {"fasteners": [group()], **joint})


def read(**readings):
    return {"fasteners": {"threads": "clean-and-even", **readings}}


def test_torque_only_and_sound_goes_back():
    answer = reuse(procedure=TORQUE, readings=SOUND)
    assert (answer.state, answer.action) == ("decided", "reuse")
    assert "common-practice" in answer.sources


def test_torque_only_not_looked_at_is_open():
    answer = reuse(procedure=TORQUE)
    assert (answer.state, answer.action) == ("open", None)
    assert "run the nut" in wanted_of(answer).lower()


def test_stretched_without_a_limit_is_new():
    answer = reuse(procedure=TURN, readings=SOUND)
    assert (answer.state, answer.action) == ("decided", "replace-all")
    assert "shear" in words_of(answer)


def test_papers_that_say_it_does_not_yield_are_believed():
    assert reuse(procedure={**TURN, "yields": False}, readings=SOUND).action == "reuse"


@pytest.mark.parametrize(
    ("longest", "state", "action"),
    [("100.4 mm", "decided", "reuse"), ("101 mm", "close", "reuse"), ("101.01 mm", "decided", "replace-all")],
)
def test_length_is_judged_by_the_papers(longest, state, action):
    lengths = {"1": "100.1 mm", "2": longest}
    answer = reuse(
        fasteners=[group(count=2, labels=["1", "2"])],
        procedure=TURN,
        readings=read(lengths=lengths),
        limits=[limit("fastener_length", high="101 mm")],
    )
    assert (answer.state, answer.action) == (state, action)


def test_same_length_in_inches_gives_the_same():
    answer = reuse(
        fasteners=[group(count=1, labels=["1"])],
        procedure=TURN,
        readings=read(lengths={"1": "3.9765 in"}),
        limits=[limit("fastener_length", high="101 mm")],
    )
    assert (answer.state, answer.action) == ("decided", "replace-all")


def test_some_lengths_missing_is_open():
    answer = reuse(
        fasteners=[group(count=2, labels=["1", "2"])],
        procedure=TURN,
        readings=read(lengths={"1": "100 mm"}),
        limits=[limit("fastener_length", high="101 mm")],
    )
    assert answer.state == "open"
    assert "length of every one" in wanted_of(answer)


def test_neck_below_its_limit_is_new():
    answer = reuse(
        fasteners=[group(count=1, labels=["1"])],
        procedure=TURN,
        readings=read(neck_diameters={"1": "9.4 mm"}),
        limits=[limit("neck_diameter", low="9.5 mm")],
    )
    assert answer.action == "replace-all"
    assert "neck" in answer.headline


@pytest.mark.parametrize(("uses", "action"), [("1", "reuse"), ("2", "reuse"), ("3", "replace-all")])
def test_tightenings_are_counted_with_the_next_one(uses, action):
    answer = reuse(
        fasteners=[group(uses=uses, uses_allowed="3", reuse="by-uses")], procedure=TURN, readings=SOUND
    )
    assert answer.action == action


def test_tightenings_not_known_is_open():
    answer = reuse(fasteners=[group(uses_allowed="3", reuse="by-uses")], procedure=TURN, readings=SOUND)
    assert answer.state == "open"
    assert "punch marks" in wanted_of(answer)


@pytest.mark.parametrize("fault", ["broken", "necked", "corroded", "doubtful", "missing"])
def test_one_fault_takes_the_set(fault):
    answer = reuse(procedure=TORQUE, readings=read(**{fault: ["3"]}))
    assert (answer.action, outcomes(answer)[f"all: {fault}"]) == ("replace-all", "fails")
    assert "3" in answer.headline


@pytest.mark.parametrize("fault", ["broken", "necked", "corroded", "doubtful"])
def test_papers_may_allow_a_single_one(fault):
    answer = reuse(fasteners=[group(replace_singly=True)], procedure=TORQUE, readings=read(**{fault: ["3"]}))
    assert answer.action == "replace-one"


def test_mixed_marks_take_the_set_even_where_single_ones_are_allowed():
    answer = reuse(fasteners=[group(replace_singly=True)], procedure=TORQUE, readings=read(mixed=True))
    assert answer.action == "replace-all"


def test_damaged_threads_take_the_set():
    assert reuse(procedure=TORQUE, readings={"fasteners": {"threads": "damaged"}}).action == "replace-all"


def test_broken_new_ones_ask_for_the_fracture():
    answer = reuse(
        fasteners=[group(new=True, thread="M10x1.5", **{"class": "8.8"})],
        procedure=TORQUE,
        readings={"fasteners": {"broken": ["3", "7"]}},
    )
    assert answer.action == "replace-all"
    assert "fracture" in wanted_of(answer)
    assert any(check.quantity == "yield_share" for check in answer.checks)


def test_new_ones_go_in():
    assert reuse(fasteners=[group(new=True)], procedure=TURN).action == "reuse"


def test_papers_forbid():
    assert reuse(fasteners=[group(reuse="never")], procedure=TORQUE, readings=SOUND).action == "replace-all"


def test_limit_named_but_not_found_is_open():
    answer = reuse(fasteners=[group(reuse="by-length")], procedure=TURN, readings=SOUND)
    assert answer.state == "open"
    assert "limit of reuse" in wanted_of(answer)


def test_nothing_known_is_open():
    answer = ask("fasteners-reuse", {})
    assert answer.state == "open"
    assert {one.missing.paths[0] for one in answer.next} >= {
        "joint.head.fasteners",
        "joint.head.procedure.text",
    }


def test_worst_group_speaks_for_the_joint():
    answer = reuse(
        fasteners=[group("long", reuse="allowed"), group("short", reuse="never")],
        procedure=TORQUE,
        readings=SOUND,
    )
    assert answer.action == "replace-all"
    assert "short" in answer.headline


LONG = {str(number): "120 mm" for number in range(1, 9)} | {"2": "121.3 mm", "5": "4.78 in"}


def test_every_one_out_of_its_limit_is_named_not_only_the_worst():
    joint = {
        "fasteners": [group(replace_singly=True)],
        "limits": [limit("fastener_length", high="121 mm")],
        "readings": {"fasteners": {"threads": "clean-and-even", "lengths": LONG}},
    }
    answer = ask("fasteners-reuse", joint)
    assert answer.action == "replace-one"
    assert "number 2, 5" in answer.headline


def test_a_thin_neck_names_the_neck_and_not_the_longest():
    necks = {str(number): "9 mm" for number in range(1, 9)} | {"3": "8.6 mm"}
    joint = {
        "fasteners": [group(replace_singly=True)],
        "limits": [limit("neck_diameter", low="8.8 mm")],
        "readings": {"fasteners": {"threads": "clean-and-even", "lengths": LONG, "neck_diameters": necks}},
    }
    assert "number 3," in ask("fasteners-reuse", joint).headline


def test_rust_on_one_tightened_by_torque_is_no_talk_of_stretch_but_of_its_hole():
    layout = {
        "seen": "deck from above",
        "fasteners": [{"label": label, "x": f"{label}0 mm", "y": "0 mm", "leads": "water"} for label in "12"],
    }
    joint = {
        "fasteners": [group()],
        "layout": layout,
        "procedure": procedure("oiled; 60 N·m"),
        "readings": {"fasteners": {"threads": "clean-and-even", "corroded": ["2"]}},
    }
    answer = ask("fasteners-reuse", joint)
    assert answer.action == "replace-all"
    assert "number 2 stands in water" in words_of(answer)
    assert "shear" not in words_of(answer)


def test_uses_are_a_whole_number():
    with pytest.raises(JobError, match="a whole number"):
        ask("fasteners-reuse", {"fasteners": [group(uses="two punch marks")]})
