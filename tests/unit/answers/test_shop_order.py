"""The order to the shop, and what is accepted when it comes back."""

import pytest
from unit.answers.facing import ask, damage, face, least, limit, wanted_of, words_of

from firedeck.answers.answer import Answer, State

BEFORE = ["100.00 mm", "100.00 mm", "100.00 mm", "100.00 mm"]
AFTER = ["99.80 mm", "99.80 mm", "99.81 mm", "99.80 mm"]
GASKET = {"candidates": [{"name": "new", "construction": "multi-layer-steel"}]}
SHEET = {
    **limit("surface_finish", high="1.6 µm"),
    "rank": "part-sheet",
    "part_fitted": "new",
    "name": "sheet",
}
EVERYTHING = {"washed": True, "plugs_in": True, "pressure_tested": True}


def order(hollow: float = 0.12, **joint: object) -> Answer:
    faces = [face("head", hollow), face("block", 0.0)]
    return ask("shop-order", least({**joint, "readings": {"faces": faces}}))


def test_unread_faces_are_not_ordered_cut():
    answer = ask("shop-order", {})
    assert answer.state is State.OPEN
    assert "flatness" in wanted_of(answer)


TIGHT = {"heights_before": BEFORE, "pressure_test": "tight"}


def test_a_block_nobody_read_is_not_called_in():
    given = least({"head": TIGHT, "readings": {"faces": [face("head", 0.0)]}})
    answer = ask("shop-order", given)
    assert answer.state is State.NOT_APPLICABLE
    assert "block has not been read" in answer.reason


def test_nothing_is_ordered_while_sources_quarrel_over_the_finish():
    finish = [{"name": which, "face": which, "Ra": "45 µin"} for which in ("head", "block")]
    readings = {"faces": [face("head", 0.0), face("block", 0.0)], "finish": finish}
    answer = ask("shop-order", least({"head": TIGHT, "gasket": GASKET, "readings": readings}))
    assert answer.state is State.OPEN
    assert "sources of one rank disagree" in wanted_of(answer)


def test_the_order_names_datum_most_finish_heights_and_what_comes_back():
    answer = order(
        head={"heights_before": BEFORE, "pressure_test": "not-done"},
        cut={"head": "0.2 mm", "datum": "cam line"},
        gasket=GASKET,
        limits=[SHEET, limit("head_height", "head", low="99.5 mm")],
    )
    assert answer.action == "do-as-listed"
    text = words_of(answer)
    for words in (
        "cam line",
        "at most 0.2 mm",
        "99.50 mm",
        "Ra at most 1.6 µm",
        "100.00 mm",
        "Pressure test again",
        "Wash hot",
    ):
        assert words in text
    assert [work.text for work in answer.work][2].startswith("Pressure test and crack test before")


def test_a_planned_cut_that_does_not_clean_is_not_ordered():
    assert "0.170 mm" in words_of(order(cut={"head": "0.1 mm"}))


def test_the_last_pass_is_left_out_where_there_is_no_metal_for_it():
    answer = order(head={"heights_before": BEFORE}, limits=[limit("head_height", "head", low="99.85 mm")])
    assert answer.action == "do-as-listed"
    assert "0.120 mm" in words_of(answer)


def test_stop_where_the_budget_is_used_up():
    answer = order(head={"heights_before": BEFORE}, limits=[limit("head_height", "head", low="99.95 mm")])
    assert answer.action == "stop"


def test_stop_where_the_casting_is_scrap():
    answer = order(
        head={"hardness": "50 HB", "material": "aluminium"}, limits=[limit("hardness", "head", low="80 HB")]
    )
    assert answer.action == "stop"


def test_nothing_to_order():
    assert order(0.0, head={"pressure_test": "tight"}).state is State.NOT_APPLICABLE


def test_a_planned_cut_nothing_asks_for_is_ordered_and_said():
    answer = order(0.0, head={"pressure_test": "tight"}, cut={"head": "0.3 mm"})
    assert "at most 0.3 mm" in words_of(answer)
    assert any("do not ask for it" in said for said in answer.assumptions)


def test_flat_but_not_pressure_tested():
    answer = order(0.0, head={"pressure_test": "not-done"})
    assert answer.action == "do-as-listed"
    assert "Pressure test" in words_of(answer)
    assert "Fire face" not in words_of(answer)


def test_straightening_is_ordered_before_the_cut():
    answer = order(head={"cam_tunnel": "binds"})
    assert "Straighten on the plate" in words_of(answer)


def test_a_face_in_doubt_is_measured_before_it_is_cut():
    lines = [{"name": "middle", "from": ["0 mm", "0 mm"], "to": ["400 mm", "0 mm"],
              "readings": [{"at": "200 mm", "goes": "0.04 mm", "stops": "0.06 mm"}]}]  # fmt: skip
    deck = {"name": "deck", "face": "block", "seen": "deck from above", "lines": lines}
    joint = least({"readings": {"faces": [face("head", 0.0), deck]}, "head": TIGHT})
    answer = ask("shop-order", joint)
    assert "Read the flatness of the deck" in words_of(answer)
    assert "Read the flatness of the head" not in words_of(answer)
    assert answer.headline.startswith("Order in writing: measure the deck;")


def test_lines_of_the_engine():
    joint = least(
        {"readings": {"faces": [face("head", 0.12), face("block", 0.12)]}, "block": {"liners": "wet"}}
    )
    text = words_of(ask("shop-order", joint, {}, engine={"arrangement": "vee"}))
    assert "both banks alike" in text
    assert "Wet liners out" in text
    crack = damage(kind="crack", face="head")
    joint = least({"readings": {"faces": [face("head", 0.12)], "damage": [crack]}})
    assert "stitched" in words_of(ask("shop-order", joint))


def back(after: dict | None = None, ra: str = "1.2 µm", hollow: float = 0.0, **joint: object) -> Answer:
    """Ask about a head that came back; everything in order unless said otherwise."""
    finish = [
        {"name": which, "face": which, "Ra": ra, "when": "after-machining"} for which in ("head", "block")
    ]
    given = {
        "head": {"heights_before": BEFORE, "heights_after": AFTER},
        "cut": {"head": "0.2 mm", "done": True},
        "gasket": GASKET,
        "limits": [SHEET],
        "readings": {
            "faces": [face("head", hollow, when="after-machining"), face("block", 0.0)],
            "finish": finish,
            "after": EVERYTHING if after is None else after,
        },
        **joint,
    }
    return ask("work-accepted", least(given))


def test_as_ordered():
    answer = back()
    assert (answer.state, answer.action) == (State.DECIDED, "accept")


def test_not_back_yet_and_nothing_sent():
    answer = ask("work-accepted", {"cut": {"head": "0.2 mm"}})
    assert answer.state is State.OPEN
    assert "four corners" in wanted_of(answer)
    assert ask("work-accepted", {"cut": {"head": "0 mm"}}).state is State.NOT_APPLICABLE
    assert ask("work-accepted", {}).state is State.OPEN


@pytest.mark.parametrize("word", ["washed", "plugs_in", "pressure_tested"])
def test_each_word_counts(word):
    assert back({**EVERYTHING, word: False}).action == "send-back"
    less = {name: said for name, said in EVERYTHING.items() if name != word}
    answer = back(less)
    assert answer.state is State.OPEN
    assert f"joint.head.readings.after.{word}" in answer.next[0].missing.paths


@pytest.mark.parametrize(
    ("heights", "action"),
    [
        (["99.78 mm", "99.79 mm", "99.79 mm", "99.79 mm"], "accept"),
        (["99.77 mm", "99.80 mm", "99.80 mm", "99.80 mm"], "send-back"),
        (["99.80 mm", "99.80 mm", "99.86 mm", "99.80 mm"], "send-back"),
    ],
)
def test_too_deep_or_uneven(heights, action):
    answer = back(head={"heights_before": BEFORE, "heights_after": heights})
    assert answer.action == action


@pytest.mark.parametrize(
    ("after", "action"),
    [
        (["99.80 mm", "99.81 mm", "99.80 mm", "99.80 mm"], "accept"),
        (["99.80 mm", "99.97 mm"] * 2, "send-back"),
    ],
)
def test_a_cut_that_takes_out_an_old_taper_is_as_ordered(after, action):
    """Parallel to its datum the high corners lose more: what counts then is that the corners are alike now."""
    tapered = ["99.92 mm", "100.00 mm", "99.92 mm", "100.00 mm"]
    answer = back(head={"heights_before": tapered, "heights_after": after})
    assert answer.action == action
    says = any("out of parallel" in said for said in answer.assumptions)
    assert says == (action == "accept")


def test_the_finish_after_the_cut_counts_wherever_it_stands():
    finish = [
        {"name": "back", "face": "head", "Ra": "1.2 µm", "when": "after-machining"},
        {"name": "old", "face": "head", "Ra": "6 µm"},
    ]
    faces = [face("head", 0.0, when="after-machining"), face("block", 0.0)]
    answer = back(readings={"faces": faces, "finish": finish, "after": EVERYTHING})
    assert answer.action == "accept"


def test_under_the_least_height():
    answer = back(limits=[SHEET, limit("head_height", "head", low="99.9 mm")])
    assert answer.action == "send-back"


def test_a_new_face_may_be_out_too():
    answer = back(hollow=0.08)
    assert answer.action == "send-back"
    assert "head face" in answer.headline


def test_too_rough():
    assert back(ra="3 µm").action == "send-back"


@pytest.mark.parametrize("lacking", ["faces", "finish"])
def test_what_was_not_read_again_is_open(lacking):
    full = {
        "faces": [face("head", 0.0, when="after-machining"), face("block", 0.0)],
        "finish": [{"name": "head", "face": "head", "Ra": "1.2 µm", "when": "after-machining"}],
        "after": EVERYTHING,
    }
    answer = back(readings={name: given for name, given in full.items() if name != lacking})
    assert answer.state is State.OPEN
    assert {"faces": "flatness", "finish": "finish"}[lacking] in wanted_of(answer)


def test_old_readings_accept_nothing():
    readings = {"faces": [face("head", 0.0), face("block", 0.0)], "after": EVERYTHING}
    assert back(readings=readings).state is State.OPEN


def test_heights_of_one_corner_do_not_show_evenness():
    answer = back(head={"heights_before": BEFORE[:1], "heights_after": AFTER[:1]})
    assert answer.state is State.OPEN


def test_heights_that_do_not_pair_are_asked_for():
    answer = back(head={"heights_before": BEFORE, "heights_after": AFTER[:2]})
    assert answer.state is State.OPEN
    assert "four corners" in wanted_of(answer)
