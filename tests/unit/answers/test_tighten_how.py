"""tighten-how: a complete procedure, a wrench that can do it, bolts short of yield, and the work line by line."""

import pytest
from unit.answers.fastening import ask, group, outcomes, procedure, wanted_of, words_of

WRENCH = {"low": "20 N·m", "high": "200 N·m", "checked": "this-year", "kind": "click"}
TEXT = "oiled; 40 N·m; 80 N·m"


def tighten(text=TEXT, wrench=None, fasteners=None, **joint):
    tools = {"wrench": wrench or WRENCH}
    return ask(
        "tighten-how",
        {"fasteners": fasteners or [group()], "procedure": procedure(text), **joint},
        tools=tools,
    )


def figures(answer):
    return [work.figure for work in answer.work]


def test_complete_and_inside_the_scale():
    answer = tighten()
    assert (answer.state, answer.action) == ("decided", "do-as-listed")
    assert "40 N·m (30 lbf·ft)" in figures(answer)
    assert "manual p. 1" in answer.sources


def test_same_torques_in_the_other_units():
    metric, inch = tighten("oiled; 54.2 N·m; 108.5 N·m"), tighten("oiled; 40 lb-ft; 80 lb-ft")
    assert (metric.state, metric.action) == (inch.state, inch.action)
    assert "40 lb-ft (54 N·m)" in figures(inch)


@pytest.mark.parametrize(
    ("low", "high", "state", "action"),
    [
        ("40 N·m", "200 N·m", "close", "do-as-listed"),
        ("41 N·m", "200 N·m", "decided", "stop"),
        ("10 N·m", "79 N·m", "decided", "stop"),
        ("10 N·m", "80 N·m", "close", "do-as-listed"),
    ],
)
def test_scale_of_the_wrench(low, high, state, action):
    answer = tighten(wrench={**WRENCH, "low": low, "high": high})
    assert (answer.state, answer.action) == (state, action)


def test_a_fifth_of_the_scale_where_only_its_end_is_known():
    answer = tighten(wrench={"high": "250 N·m", "checked": "this-year"})
    assert answer.action == "stop"
    assert "below the scale" in answer.headline


def test_wrench_never_checked_is_checked_first():
    answer = tighten(wrench={**WRENCH, "checked": "never"})
    assert answer.action == "do-as-listed"
    assert "Check the torque wrench first" in words_of(answer)
    assert outcomes(answer)["wrench checked"] == "cannot-tell"


def test_adapter_lowers_the_setting():
    answer = tighten(wrench={**WRENCH, "adapter": "100 mm", "length": "400 mm"})
    assert "64 N·m" in words_of(answer)


def test_no_procedure_is_open_and_still_lists_what_is_known():
    answer = ask("tighten-how", {"fasteners": [group(kind="stud")]}, tools={"wrench": {"checked": "never"}})
    assert (answer.state, answer.action) == ("open", None)
    assert "tightening procedure" in answer.next[0].missing.measure
    assert "by hand" in words_of(answer)
    assert "torque wrench" in wanted_of(answer)


def test_lubricant_not_stated_is_open():
    answer = tighten("40 N·m; 80 N·m")
    assert answer.state == "open"
    assert "lubrication of group all" in wanted_of(answer)


def test_lubricant_written_with_the_fasteners_will_do():
    assert tighten("40 N·m; 80 N·m", fasteners=[group(lubricant="oil")]).state == "decided"


def test_a_group_without_steps_is_open():
    answer = tighten(
        "oiled; long: 40 N·m", fasteners=[group("long", labels=["1"]), group("short", labels=["2"])]
    )
    assert answer.state == "open"
    assert "group short" in wanted_of(answer)


def test_other_lubricant_than_the_torque_is_for():
    answer = tighten(
        "dry; 50 N·m", fasteners=[group(lubricant="thread-sealer", thread="M10x1.5", **{"class": "10.9"})]
    )
    assert answer.action == "stop"
    assert "papers dry" in answer.headline
    assert "a band" in words_of(answer)


def test_other_lubricant_matters_little_before_an_angle():
    answer = tighten("dry; 40 N·m; +90°; +90°", fasteners=[group(lubricant="oil", thread="M10x1.5")])
    assert answer.action == "do-as-listed"
    assert "angle sets the stretch" in words_of(answer)


@pytest.mark.parametrize(("torque", "action"), [("60 N·m", "do-as-listed"), ("110 N·m", "stop")])
def test_torque_alone_stays_below_yield(torque, action):
    answer = tighten(f"oiled; {torque}", fasteners=[group(thread="M10x1.5", **{"class": "10.9"})])
    (check,) = (check for check in answer.checks if check.quantity == "yield_share")
    assert answer.action == action
    assert check.band.low < check.value < check.band.high


def test_angle_is_said_to_stretch_and_not_judged():
    answer = tighten("oiled; 60 N·m; +90°; +90°", fasteners=[group(thread="M10x1.5", **{"class": "10.9"})])
    assert not [check for check in answer.checks if check.quantity == "yield_share"]
    assert any("past yield" in text for text in answer.assumptions)
    assert "stretch for good" in words_of(answer)
    assert "+90°" in figures(answer)


def test_papers_order_is_printed():
    answer = tighten(
        fasteners=[group(labels=["1", "2", "3"])], procedure=procedure(TEXT, order=["2", "1", "3"])
    )
    assert "2 · 1 · 3" in figures(answer)
    assert not any("not the book" in text for text in answer.assumptions)


def test_order_that_leaves_one_out_is_open():
    answer = tighten(fasteners=[group(labels=["1", "2", "3"])], procedure=procedure(TEXT, order=["2", "1"]))
    assert answer.state == "open"
    assert "turn of 3" in wanted_of(answer)


def test_no_order_is_not_the_book():
    assert any("not the book" in text for text in tighten().assumptions)


def test_stretched_ones_are_not_turned_again():
    assert "Not tightened again after running" in words_of(tighten("oiled; 60 N·m; +90°"))


def test_steel_layers_are_not_tightened_again_to_be_safe():
    gasket = {"candidates": [{"name": "new", "construction": "multi-layer-steel", "coated": True}]}
    assert "Not tightened again after running" in words_of(tighten(gasket=gasket))


def test_papers_retorque_stands_and_alloy_is_cold():
    answer = tighten("oiled; 40 N·m; after 1000 km cold 45 N·m", head={"material": "aluminium"})
    assert "only cold" in words_of(answer)
    assert "Not tightened again" not in words_of(answer)
    assert "after 1000 km" in words_of(answer)


def test_washer_on_soft_alloy_warns():
    answer = tighten(
        "oiled; 60 N·m",
        fasteners=[
            group(
                thread="M10x1.5",
                hole_diameter="11 mm",
                washer={"outer_diameter": "18 mm"},
                **{"class": "10.9"},
            )
        ],
        head={"material": "aluminium"},
    )
    assert outcomes(answer)["all: pressure under the washer"] == "cannot-tell"
    assert "sunk" in words_of(answer)


def test_floor_after_the_turn_is_a_line():
    assert "≥ 122 N·m (90 lbf·ft)" in figures(tighten("oiled; 60 N·m; +90°; check at least 122 N·m"))
