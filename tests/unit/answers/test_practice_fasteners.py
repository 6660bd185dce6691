"""Facts of the trade about fasteners, coatings and parts to buy: common practice, no source."""

import pytest
from unit.answers.fastening import ask, group, procedure, words_of

SOUND = {"fasteners": {"threads": "clean-and-even"}}


@pytest.mark.parametrize("head", ["aluminium", "grey-iron"])
def test_stretched_fasteners_without_a_printed_limit_are_not_used_twice(head):
    joint = {
        "head": {"material": head},
        "fasteners": [group(thread="M11x1.5")],
        "procedure": procedure("oiled; 50 N·m; +120°"),
        "readings": SOUND,
    }
    assert ask("fasteners-reuse", joint).action == "replace-all"


@pytest.mark.parametrize("kind", ["bolt", "stud"])
def test_fasteners_tightened_by_torque_go_back_when_sound(kind):
    joint = {
        "fasteners": [group(kind=kind)],
        "procedure": procedure("oiled; 25 lb-ft; 50 lb-ft"),
        "readings": SOUND,
    }
    assert ask("fasteners-reuse", joint).action == "reuse"


@pytest.mark.parametrize("construction", ["multi-layer-steel", "composite", "graphite-metal-core"])
def test_coated_or_soft_gasket_gets_nothing_on_it(construction):
    gasket = {"candidates": [{"name": "new", "construction": construction, "coated": True}]}
    answer = ask("dry-or-coated", {"gasket": gasket})
    assert answer.action == "do-as-listed"
    assert "nothing on the gasket and nothing on the faces" in words_of(answer)
    assert "Clean and dry is enough" in words_of(answer)


def test_a_vee_needs_a_gasket_for_each_head_and_they_may_differ():
    answer = ask("buy-what", {}, {}, engine={"arrangement": "vee"})
    (count,) = (check for check in answer.checks if check.name.startswith("head gaskets"))
    assert count.value == 2
    assert "may differ" in answer.headline


def test_studs_take_the_twist_out_and_pull_more_evenly():
    answer = ask(
        "bolts-or-studs", {"fasteners": [group()]}, running={"boost": "10 psi", "boost_before": "0 psi"}
    )
    assert "studs" in answer.headline
    assert "no twist is left" in words_of(answer)
    assert "more even" in words_of(answer)
    assert "direction only" in words_of(answer)


@pytest.mark.parametrize(("coated", "asked"), [(None, True), (True, False), (False, False)])
def test_a_steel_shim_that_may_be_coated_is_asked_about(coated, asked):
    said = {} if coated is None else {"coated": coated}
    gasket = {"candidates": [{"name": "new", "construction": "steel-shim", **said}]}
    answer = ask("dry-or-coated", {"gasket": gasket})
    assert any("taken as bare" in text for text in answer.assumptions) is asked
    assert any("whether it is coated" in one.missing.measure for one in answer.next) is asked


def test_a_joint_without_gasket_speaks_of_no_film_on_a_ring():
    gasket = {"candidates": [{"name": "none", "construction": "none"}]}
    headline = ask("dry-or-coated", {"gasket": gasket}).headline
    assert headline.startswith("No gasket")
    assert "ring" not in headline


@pytest.mark.parametrize(("gear", "parked"), [("overhead-cam", True), ("push-rod", False)])
def test_pistons_are_parked_whichever_drive_the_cam_has(gear, parked):
    answer = ask("strip-how", {}, engine={"valve_gear": gear, "cam_drive": "chain"})
    assert ("Pistons parked" in words_of(answer)) is parked
    assert ("no piston stands at the top" in words_of(answer)) is not parked
