"""What a cut does: each effect against its limit, what is missing, and the bore that is not the chamber."""

import math

import pytest
from unit.answers.cutting import answered, ask, check, measures, small

from firedeck.trace import Outcome

Q = "cut-does-what"
HEAD = "joint.head."


def test_the_example_is_fine_and_says_so_with_its_ratio_and_cam():
    answer = ask(Q)
    assert (answer.state, answer.action) == ("decided", "fine")
    assert check(answer, "cam timing").value > 0
    assert any("late" in note.text for note in answer.notes)
    assert any("bore area" in note.text for note in answer.notes)
    assert any("height of the head shows 0.060 mm" in line for line in answer.assumptions)


@pytest.mark.parametrize(
    ("changes", "action", "what"),
    [
        ({HEAD + "chamber.intake_valve_clearance": "2.1 mm"}, "too-much", "intake valve"),
        ({HEAD + "block.deck_clearance": {"1": "-0.5 mm"}}, "too-much", "squish"),
        ({HEAD + "cut.head": "1.5 mm"}, "too-much", "head height"),
        ({"engine.sprocket_teeth": 20, HEAD + "cut.earlier_block": "0.8 mm"}, "restore-first", "cam timing"),
        ({HEAD + "chamber.land": "0.4 mm"}, "too-much", "land"),
        (
            {HEAD + "chamber.rods": "aluminium", HEAD + "chamber.intake_valve_clearance": "2.5 mm"},
            "too-much",
            "intake valve",
        ),
    ],
)
def test_what_fails_decides(changes, action, what):
    answer = ask(Q, changes)
    assert (answer.state, answer.action) == ("decided", action), answer.headline
    assert check(answer, what).outcome is Outcome.FAILS
    assert answer.work


@pytest.mark.parametrize(
    ("changes", "wanted"),
    [
        ({HEAD + "chamber": {"volumes": {"1": "45 cc"}}}, "chamber"),
        ({HEAD + "chamber": {"plan_area": "50 cm2"}}, "valve-to-piston"),
        ({HEAD + "cut": {}, HEAD + "head": {"material": "aluminium"}}, "skimmed"),
        ({HEAD + "block": {"material": "grey-iron"}}, "squish"),
    ],
)
def test_what_is_missing_is_asked_for_and_never_fine(changes, wanted):
    answer = ask(Q, changes)
    assert answer.state == "open"
    assert wanted in measures(answer)


def test_bore_only_gives_a_bracket_and_asks_for_the_outline():
    answer = answered(
        Q,
        small(
            'fuel = "petrol"\nvalve_gear = "push-rod"\nbore = "80 mm"\nstroke = "80 mm"\nratio = "8:1"',
            '[joint.cut]\nhead = "0.5 mm"',
        ),
    )
    ratio = check(answer, "compression ratio")
    assert answer.state == "open"
    assert ratio.value is None
    assert ratio.outcome is Outcome.CANNOT_TELL
    assert 8 < ratio.band.low < ratio.band.high < 9
    assert "outline" in measures(answer)


def test_a_known_cut_and_its_ratio_give_every_other():
    chamber = '[joint.chamber]\nratio_after = "9:1"\nmeasured_cut = "1 mm"\n'
    engine = 'fuel = "petrol"\nvalve_gear = "push-rod"\nratio = "8:1"'
    full = answered(Q, small(engine, chamber + '[joint.cut]\nhead = "1 mm"'))
    none = answered(Q, small(engine, chamber + '[joint.cut]\nhead = "0.0001 mm"'))
    assert check(full, "compression ratio").value == pytest.approx(9)
    assert check(none, "compression ratio").value == pytest.approx(8, abs=1e-3)


def test_at_the_limit_is_close_in_inch_and_in_millimetres():
    drop = {
        HEAD + "cut.head": "0.006 in",
        HEAD + "gasket.fitted": "soft",
        HEAD + "chamber.clearance_gasket": "1.25 mm",
    }
    inch = ask(Q, drop | {HEAD + "chamber.intake_valve_clearance": "0.086 in"})
    metric = ask(Q, drop | {HEAD + "chamber.intake_valve_clearance": "2.1844 mm"})
    assert (inch.state, metric.state) == ("close", "close")
    assert "at the limit" in inch.headline


def test_how_much_valve_gap_is_wanted_is_said_before_it_is_measured():
    engine = 'fuel = "petrol"\nvalve_gear = "overhead-cam"'
    answer = answered(Q, small(engine, '[joint.cut]\nhead = "0.2 mm"'))
    wanted = {check.name: check for check in answer.checks if "valve to piston" in check.name}
    assert answer.state == "open"
    assert [one.limit.low for one in wanted.values()] == pytest.approx([2.032, 2.54])
    assert all("not measured yet" in one.text for one in wanted.values())
    assert any("clay" in one.missing.tool for one in answer.next)


def test_gears_across_the_joint_lose_their_centre_distance():
    answer = ask(
        Q, {"engine.cam_drive": "gears", HEAD + "cut.head": "0.2 mm", HEAD + "gasket.fitted": "soft"}
    )
    assert answer.action == "restore-first"
    assert check(answer, "gear centre").value == pytest.approx(0.2)
    assert any("acklash" in f"{line.text} {line.caution}" for line in answer.work)


def test_a_thicker_gasket_puts_the_gears_back():
    changes = {"engine.cam_drive": "gears", HEAD + "cut.head": "0.2 mm", HEAD + "gasket.fitted": "soft"}
    thicker = ask(Q, changes | {HEAD + "gasket.candidates.soft.thickness": "1.45 mm"})
    assert check(thicker, "gear centre").outcome is Outcome.HOLDS


def test_only_a_vee_has_intake_faces():
    vee = ask(Q, of="boosted-vee", joint="left")
    shift = check(vee, "intake ports")
    assert any("off each flange" in note.text and "off the end rails" in note.text for note in vee.notes)
    assert shift.value > 0
    assert not [one for one in ask(Q).checks if "intake ports" in one.name]
    asked = ask(Q, {"engine.vee_angle": "90°"}, of="boosted-vee", joint="right")
    assert "angle between the banks" not in measures(asked)


@pytest.mark.parametrize(("lifters", "outcome"), [("hydraulic", "fails"), ("solid", "holds")])
def test_push_rods_by_lifter(lifters, outcome):
    engine = f'fuel = "petrol"\nvalve_gear = "push-rod"\nlifters = "{lifters}"'
    answer = answered(Q, small(engine, '[joint.cut]\nhead = "0.6 mm"'))
    assert check(answer, "push-rods").outcome == outcome


def test_a_side_valve_needs_room_under_the_head():
    answer = ask(Q, {"joint.head.cut": {"head": "0.5 mm"}}, of="side-valve-single")
    assert "valve-to-head" in measures(answer)
    assert "full lift, not at top dead centre" in str(answer.next)
    assert any("clay at full lift" in line.text for line in answer.work)
    given = {
        "joint.head.cut": {"head": "0.5 mm"},
        "joint.head.chamber": {"intake_valve_clearance": "2 mm", "exhaust_valve_clearance": "2 mm"},
    }
    known = ask(Q, given, of="side-valve-single")
    assert "limit of intake valve to head" in measures(known)


def test_a_pushed_out_strip_is_restored_first():
    joint = '[joint.cover]\nseal = "cork"\nseen = ["pushed-out"]'
    answer = answered(Q, small('valve_gear = "overhead-cam"', joint))
    assert answer.action == "restore-first"
    assert check(answer, "cork").limit.high == pytest.approx(0.30)
    measured = (
        '[joint.cover]\nseal = "cork"\nseal_thickness = "4 mm"\ngap = "3 mm"\n[joint.cut]\nhead = "0.4 mm"'
    )
    squeezed = check(answered(Q, small('valve_gear = "overhead-cam"', measured)), "cork")
    assert squeezed.value == pytest.approx(0.35)
    assert squeezed.outcome is Outcome.FAILS


def test_nothing_off_nothing_changes():
    changes = {
        HEAD + "cut": {"head": "0 mm"},
        HEAD + "head.heights_before": ["110 mm"],
        HEAD + "gasket.fitted": "soft",
    }
    answer = ask(Q, changes)
    assert (answer.state, answer.action) == ("decided", "fine")
    assert answer.headline.startswith("Nothing")


def test_a_cut_that_is_done_is_not_taken_off_twice():
    base = {HEAD + "gasket.fitted": "soft", HEAD + "head.heights_before": []}
    planned, done = ask(Q, base), ask(Q, base | {HEAD + "cut.done": True})
    ratio = "compression ratio, cylinder 1"
    assert check(done, ratio).value < check(planned, ratio).value
    assert check(done, "cam timing").value == pytest.approx(check(planned, "cam timing").value)


def test_figures_no_sum_bears_become_a_reading_to_take_again():
    answer = ask(Q, {HEAD + "cut.head": "20 mm"})
    assert answer.state == "open"
    assert "once more" in measures(answer)


def test_a_dowel_must_not_hold_the_head_off():
    dowels = [{"label": "front", "x": "-58 mm", "y": "-52 mm", "stand_out": "8 mm", "hole_depth": "7 mm"}]
    answer = ask(Q, {HEAD + "layout.dowels": dowels})
    assert check(answer, "dowel").outcome is Outcome.FAILS
    assert answer.action == "restore-first"


def test_crank_degrees_are_twice_cam_degrees():
    answer = ask(Q)
    steps = {
        next(iter(one.step.result)): one.step.value
        for one in answer.steps
        if one.check.startswith("cam timing")
    }
    assert steps["crank_angle"] == pytest.approx(2 * steps["cam_angle"])
    assert math.degrees(steps["crank_angle"]) < 2


TRAIN = HEAD + "valve_train."


@pytest.mark.parametrize(
    ("changes", "name", "value", "outcome"),
    [
        ({"backlash": "0.20 mm"}, "backlash", 0.20 - 2 * math.tan(math.radians(20)) * 0.2, "holds"),
        ({"backlash": "0.15 mm", "pressure_angle": "14.5°"}, "backlash", 0.0466, "fails"),
        ({"pre_chamber_stand_out": "0.02 mm"}, "pre-chamber", 0.22, "fails"),
        ({"pre_chamber_stand_out": "-0.18 mm"}, "pre-chamber", 0.02, "holds"),
    ],
)
def test_what_is_let_into_the_head_and_gears_after_a_cut(changes, name, value, outcome):
    train = {TRAIN + key: text for key, text in changes.items()}
    base = {"engine.cam_drive": "gears", HEAD + "cut.head": "0.2 mm", HEAD + "gasket.fitted": "soft"}
    found = check(ask(Q, base | train), name)
    assert found.value == pytest.approx(value, abs=1e-3)
    assert found.outcome.value == outcome


def test_a_tensioner_takes_both_strands_of_slack():
    base = {"engine.cam_drive": "chain", HEAD + "cut.head": "0.2 mm", HEAD + "gasket.fitted": "soft"}
    holds = check(ask(Q, base | {TRAIN + "tensioner_left": "3 mm"}), "tensioner")
    assert holds.value == pytest.approx(2.6)
    assert holds.outcome.value == "holds"
    answer = ask(Q, base | {TRAIN + "tensioner_left": "0.3 mm"})
    assert check(answer, "tensioner").outcome.value == "fails"
    assert any("jumps teeth" in line.caution for line in answer.work)


def test_a_plunger_keeps_travel_on_the_side_it_moves_to():
    base = {"engine.valve_gear": "push-rod", "engine.lifters": "hydraulic", HEAD + "cut.head": "0.6 mm"}
    found = check(ask(Q, base | {TRAIN + "plunger_range": "4 mm", HEAD + "gasket.fitted": "soft"}), "plunger")
    assert found.value == pytest.approx(1.4, abs=0.05)
    tight = check(ask(Q, base | {TRAIN + "plunger_range": "2 mm", HEAD + "gasket.fitted": "soft"}), "plunger")
    assert tight.outcome.value == "fails"


def test_a_valve_below_the_face_wants_the_limit_of_its_book_and_is_held_against_it():
    base = {HEAD + "cut.head": "0.3 mm", HEAD + "gasket.fitted": "soft", TRAIN + "intake_recession": "1.1 mm"}
    open_ = ask(Q, base)
    assert any("intake valve below the face" in one.missing.measure for one in open_.next)


FREE = """
[joint.cut]
head = "8 thou"
[joint.gasket.old]
thickness = "1.2 mm"
[[joint.gasket.candidates]]
name = "new"
construction = "{}"
{} = "0.060 in"
"""


@pytest.mark.parametrize("construction", ["composite", "unknown"])
def test_a_free_thickness_is_never_reckoned_with(construction):
    free = answered("cut-does-what", small("", FREE.format(construction, "free_thickness")))
    assert "pressed thickness of gasket new" in measures(free)
    said = " ".join(free.assumptions)
    assert "free thickness and is not reckoned with; pressed it may come to" in said
    assert "taken as compressed" not in said
    pressed = answered("cut-does-what", small("", FREE.format(construction, "thickness")))
    assert "pressed thickness of gasket new" not in measures(pressed)
