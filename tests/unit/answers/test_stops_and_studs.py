"""Stops of strip, clean, sealant, dowels and washers; studs at the nut; liquid below a bolt as a worked sum."""

import pytest
from unit.answers.fastening import ask, group, outcomes, procedure, words_of

GASKET = {"candidates": [{"name": "g", "construction": "composite", "coated": True, "thickness": "1.2 mm"}]}
METALS = {"head": {"material": "aluminium"}, "block": {"material": "grey-iron"}}


@pytest.mark.parametrize(
    ("what", "word"),
    [
        ("cold", "warm"),
        ("drained", "coolant"),
        ("pressure_off", "pressure"),
        ("pistons_parked", "piston"),
        ("cam_locked", "cam"),
    ],
)
def test_strip_stops_at_what_is_not_done(what, word):
    answer = ask("strip-how", {"strip": {what: False}})
    assert answer.action == "stop"
    assert word in answer.headline
    assert answer.work
    assert ask("strip-how", {"strip": {what: True}}).action == "do-as-listed"


def test_pressure_comes_before_a_warm_engine():
    assert "pressure" in ask("strip-how", {"strip": {"cold": False, "pressure_off": False}}).headline


@pytest.mark.parametrize(
    ("clean", "word"),
    [({"disc_used": True}, "disc"), ({"plugged": False}, "open"), ({"scraped_dry": True}, "asbestos")],
)
def test_clean_stops_at_what_went_wrong(clean, word):
    answer = ask("clean-how", {**METALS, "clean": clean})
    assert answer.action == "stop"
    assert word in answer.headline


def test_a_gasket_known_to_hold_no_asbestos_may_be_scraped():
    assert (
        ask("clean-how", {**METALS, "clean": {"scraped_dry": True, "asbestos": "no"}}).action
        == "do-as-listed"
    )


@pytest.mark.parametrize(
    ("needs", "action", "outcome"),
    [("8 min", "do-as-listed", "holds"), ("10 min", "do-as-listed", "at-limit"), ("11 min", "stop", "fails")],
)
def test_skin_time_against_time_to_torque(needs, action, outcome):
    answer = ask(
        "dry-or-coated", {"gasket": GASKET, "sealant": {"skin_time": "10 min", "time_to_torque": needs}}
    )
    assert answer.action == action
    assert outcomes(answer)["time to torque over skin time"] == outcome


def test_a_corner_without_a_watch_asks_for_one():
    answer = ask("dry-or-coated", {"gasket": GASKET, "cover": {"seal": "sealant"}})
    assert any("skin time" in one.missing.measure for one in answer.next)


STUD = {"kind": "stud", "thread": "M12x1.25", "grip_in_head": "80 mm", "stand_out": "100 mm"}


def holes(group_, cut=None, **joint):
    return ask(
        "threads-hold",
        {
            "fasteners": [group_],
            "gasket": GASKET,
            "cut": cut or {},
            "readings": {"holes": {"good": ["all"]}},
            **joint,
        },
    )


@pytest.mark.parametrize(
    ("size", "cut", "name", "outcome"),
    [
        ({"thread_at_nut": "20 mm"}, "0 mm", "thread left below the nut", "holds"),
        ({"thread_at_nut": "20 mm"}, "1.2 mm", "thread left below the nut", "at-limit"),
        ({"thread_at_nut": "20 mm"}, "1.5 mm", "thread left below the nut", "fails"),
        ({"cap_depth": "19 mm"}, "0 mm", "air in the cap nut", "holds"),
        ({"cap_depth": "19 mm"}, "0.5 mm", "air in the cap nut", "fails"),
        ({"nut_height": "12 mm"}, "0 mm", "thread out of the nut", "holds"),
        ({"nut_height": "20 mm"}, "0 mm", "thread out of the nut", "fails"),
    ],
)
def test_a_stud_at_its_nut_with_the_cut_still_to_come(size, cut, name, outcome):
    answer = holes(group(**STUD, **size), cut={"head": cut})
    assert outcomes(answer)[f"all: {name}"] == outcome
    assert (answer.action == "stop") == (outcome == "fails")


def test_a_cut_already_done_is_in_the_measured_head():
    answer = holes(group(**STUD, thread_at_nut="20 mm"), cut={"head": "1.5 mm", "done": True})
    assert outcomes(answer)["all: thread left below the nut"] == "holds"


def test_a_proud_shank_stops_unless_the_hole_of_the_head_clears_it():
    proud = {**STUD, "shank_stand_out": "3 mm"}
    assert holes(group(**proud)).action == "stop"
    assert holes(group(**proud, hole_diameter="13 mm")).action == "use"
    assert holes(group(**STUD, shank_stand_out="1 mm")).action == "use"


def test_liquid_in_a_blind_hole_is_worked_out_and_stops():
    bolt = group(thread="M12", hole="blind", lubricant="oil", boss_diameter="26 mm", labels=["1"])
    joint = {
        "fasteners": [bolt],
        "procedure": procedure("oiled; 90 N·m"),
        "block": {"material": "aluminium"},
        "readings": {"holes": {"liquid": ["1"]}},
    }
    answer = ask("threads-hold", joint)
    assert answer.action == "stop"
    pressure = next(one.step for one in answer.steps if "pressure" in one.step.result)
    assert 300.0 < pressure.value < 700.0
    assert "times what the weakest casting bears" in words_of(answer)
    dry = ask("threads-hold", {**joint, "procedure": None, "fasteners": [group(labels=["1"], hole="blind")]})
    assert dry.action == "stop"


def place(label="front", **dowel):
    return {
        "layout": {
            "seen": "deck from above",
            "dowels": [{"label": label, "x": "0 mm", "y": "0 mm", **dowel}],
        },
        "gasket": GASKET,
    }


@pytest.mark.parametrize(
    ("state", "word"),
    [("missing", "missing"), ("worn-hole", "worn hole"), ("loose", "loose"), ("burred", "burred")],
)
def test_a_bad_dowel_stops_the_head(state, word):
    answer = ask("goes-on", place(state=state))
    assert answer.action == "stop"
    assert word in answer.headline
    assert ask("goes-on", place(state="good")).action == "do-as-listed"


def test_a_hollow_dowel_round_a_bolt_is_missed_with_its_bolt():
    assert any("sleeve" in check.text for check in ask("goes-on", place(state="missing", hollow=True)).checks)


def test_sunk_washers_stop_the_head():
    answer = ask("goes-on", {"fasteners": [group(washer={"sunk": True})]})
    assert answer.action == "stop"
    assert "sunk" in answer.headline
