"""Tests before machining money: what scraps a head, what has to be tested first, what is straightened."""

import pytest
from unit.answers.facing import ask, damage, face, least, limit, wanted_of

from firedeck.answers.answer import State

TIGHT = {"pressure_test": "tight", "crack_test": "none-found"}


def head(**said: object) -> dict:
    return {"head": said}


def test_nothing_known():
    answer = ask("casting-worth", {})
    assert answer.state is State.OPEN
    assert "pressure test" in wanted_of(answer)


@pytest.mark.parametrize(
    "said", [{"pressure_test": "not-done"}, {"cam_tunnel": "turns-free"}, {"hardness": "95 HB"}]
)
def test_pressure_test_comes_first(said):
    answer = ask("casting-worth", head(**said))
    assert answer.action == "test-first"
    assert "pressure test" in answer.headline


def test_tight_goes_on_and_names_what_was_not_looked_at():
    answer = ask("casting-worth", head(pressure_test="tight"))
    assert answer.action == "go-on"
    assert {"cracks", "core plugs", "valves"} <= {
        word for word in ("cracks", "core plugs", "valves") if word in wanted_of(answer)
    }
    done = ask("casting-worth", head(**TIGHT, core_plugs="good", valves="good"))
    assert (done.action, done.next) == ("go-on", ())


def test_a_leak_is_found_before_anything_else():
    answer = ask("casting-worth", head(pressure_test="leaks"))
    assert answer.action == "test-first"
    assert "where the pressure test bubbles" in wanted_of(answer)


@pytest.mark.parametrize(("hardness", "action"), [("95 HB", "go-on"), ("80 HB", "go-on"), ("70 HB", "scrap")])
def test_hardness_against_the_papers(hardness, action):
    joint = head(**TIGHT, material="aluminium", hardness=hardness)
    assert (
        ask("casting-worth", {**joint, "limits": [limit("hardness", "head", low="80 HB")]}).action == action
    )


def test_an_overheated_alloy_head_is_not_gone_on_with_unread():
    answer = ask("casting-worth", head(**TIGHT, material="aluminium", overheated=True))
    assert answer.action == "test-first"
    assert "hardness" in wanted_of(answer)
    assert ask("casting-worth", head(**TIGHT, material="grey-iron", overheated=True)).action == "go-on"


def test_a_figure_from_memory_neither_clears_nor_scraps():
    joint = head(**TIGHT, material="aluminium", overheated=True, hardness="40 HB")
    assert ask("casting-worth", joint).action == "test-first"


def test_a_print_of_the_liners_asks_for_hardness():
    joint = {
        **head(**TIGHT, material="aluminium"),
        "readings": {"damage": [damage(kind="imprint", face="head")]},
    }
    assert "hardness" in ask("casting-worth", joint).headline


@pytest.mark.parametrize(
    ("crack", "test", "action"),
    [({}, "not-done", "test-first"), ({"reaches_water": "yes"}, "not-done", "scrap"), ({}, "leaks", "scrap"),
     ({"maker_says": "not-allowed"}, "tight", "scrap"), ({"maker_says": "allowed"}, "tight", "go-on")],
)  # fmt: skip
def test_cracks(crack, test, action):
    marks = [damage(kind="crack", face="head", lies="between-valves", **crack)]
    assert ask("casting-worth", {**head(pressure_test=test), "readings": {"damage": marks}}).action == action


def test_a_crack_of_the_block_says_nothing_of_the_head():
    marks = [damage(kind="crack", reaches_water="yes")]
    assert ask("casting-worth", {**head(**TIGHT), "readings": {"damage": marks}}).action == "go-on"


def test_cracks_found_and_not_described():
    assert ask("casting-worth", head(pressure_test="tight", crack_test="found")).action == "test-first"


@pytest.mark.parametrize(
    ("material", "hollow", "action"),
    [("aluminium", 0.2, "straighten"), ("aluminium", None, "test-first"), ("aluminium", 0.0, "line-bore"),
     ("grey-iron", 0.2, "line-bore"), ("grey-iron", None, "line-bore")],
)  # fmt: skip
def test_a_cam_that_binds(material, hollow, action):
    faces = [face("head", hollow), face("block", 0.0)] if hollow is not None else []
    joint = least({**head(**TIGHT, material=material, cam_tunnel="binds"), "readings": {"faces": faces}})
    assert ask("casting-worth", joint).action == action


def test_the_cam_is_turned_before_money_is_spent():
    answer = ask("casting-worth", head(**TIGHT), engine={"valve_gear": "overhead-cam"})
    assert answer.action == "test-first"
    assert "cam turns by hand" in wanted_of(answer)
    free = head(**TIGHT, cam_tunnel="turns-free")
    assert ask("casting-worth", free, engine={"valve_gear": "overhead-cam"}).action == "go-on"


def test_no_metal_left():
    joint = head(**TIGHT, heights_before=["99.5 mm", "99.6 mm"])
    assert (
        ask("casting-worth", {**joint, "limits": [limit("head_height", "head", low="99.55 mm")]}).action
        == "scrap"
    )


@pytest.mark.parametrize("gone", ["pressure_test", "crack_test", "cam_tunnel", "hardness"])
def test_less_known_is_never_better(gone):
    known = {
        **TIGHT,
        "material": "aluminium",
        "overheated": True,
        "hardness": "95 HB",
        "cam_tunnel": "turns-free",
    }
    said = {name: one for name, one in known.items() if name != gone}
    limits = [limit("hardness", "head", low="80 HB")]
    before = ask("casting-worth", {"head": known, "limits": limits}, engine={"valve_gear": "twin-cam"})
    after = ask("casting-worth", {"head": said, "limits": limits}, engine={"valve_gear": "twin-cam"})
    assert before.action == "go-on"
    assert after.action == "test-first" or (gone == "crack_test" and "cracks" in wanted_of(after))


def test_a_head_bought_used_has_its_acceptance_first_and_a_cut_head_its_second_pressure_test():
    used = ask(
        "casting-worth", {"head": {"origin": "used", "material": "aluminium"}, "cut": {"head": "0.2 mm"}}
    )
    own = ask("casting-worth", {"head": {"origin": "original"}})
    assert used.work[0].text.startswith("Bought used")
    assert "again after the cut" in used.work[-1].text
    assert any("Hardness" in line.text for line in used.work)
    assert not any("Bought used" in line.text or "after the cut" in line.text for line in own.work)
    assert "straightens the tunnel" not in str(own.work)


def test_a_straight_tunnel_under_a_bowed_face_is_left_alone():
    def cautions(tunnel: str, hollow: float) -> str:
        readings = {"faces": [face("head", hollow), face("block", 0.0)]}
        joint = least({**head(**TIGHT, material="aluminium", cam_tunnel=tunnel), "readings": readings})
        return " ".join(ask("casting-worth", joint, engine={"valve_gear": "twin-cam"}).cautions)

    assert "leave the tunnel alone" in cautions("turns-free", 0.2)
    assert "leave the tunnel alone" not in cautions("turns-free", 0.0)
    assert "milled bowed before" in cautions("binds", 0.0)


def test_a_cam_that_binds_with_the_face_unread_asks_for_the_face():
    answer = ask("casting-worth", head(**TIGHT, material="aluminium", cam_tunnel="binds"))
    assert "flatness of the head face" in wanted_of(answer)
