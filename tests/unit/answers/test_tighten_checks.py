"""tighten-how beside the torque: class by marks, turn and ductility, bedding in, heat, wrench, mixed groups, re-torque."""

import pytest
from unit.answers.fastening import ask, group, limit, outcomes, procedure, wanted_of, words_of

WRENCH = {"low": "20 N·m", "high": "200 N·m", "checked": "this-year", "kind": "click"}
BOLT = {"thread": "M11x1.5", "grip_in_head": "100 mm", "bearing_diameter": "18 mm"}


def tighten(text, *groups, wrench=WRENCH, **joint):
    return ask(
        "tighten-how",
        {"fasteners": list(groups), "procedure": procedure(text), **joint},
        tools={"wrench": wrench},
    )


@pytest.mark.parametrize(
    ("marks", "named"),
    [
        ("10.9", "share of yield"),
        ("", "share of yield if of class 4.6"),
        ("none", "share of yield if of class 4.6"),
    ],
)
def test_class_by_the_marks_on_the_head(marks, named):
    answer = tighten("oiled; 60 N·m", group(thread="M11x1.5", head_marks=marks))
    assert f"all: {named}" in outcomes(answer)


@pytest.mark.parametrize(("new", "state"), [(None, "decided"), (True, "open")])
def test_a_bare_head_is_a_bound_and_no_proof_that_the_bolt_is_soft(new, state):
    answer = tighten("oiled; 80 N·m", group(thread="M11x1.5", head_marks="none", new=new))
    assert outcomes(answer)["all: share of yield if of class 4.6"] == "cannot-tell"
    assert (answer.state, answer.action != "stop") == (state, True)


def test_three_lines_are_a_class_of_inch_bolts():
    marked = tighten("oiled; 30 lb-ft", group(thread="3/8-16", head_marks="three lines"))
    named = tighten("oiled; 30 lb-ft", group(thread="3/8-16", **{"class": "sae-5"}))
    assert [(check.name, check.value) for check in marked.checks] == [
        (check.name, check.value) for check in named.checks
    ]


def test_old_bolts_of_unknown_class_go_by_their_papers_and_a_new_set_does_not():
    old = tighten("oiled; 80 N·m", group(thread="M11x1.5"))
    new = tighten("oiled; 80 N·m", group(thread="M11x1.5", new=True))
    assert (old.state, new.state) == ("decided", "open")
    assert outcomes(old)["all: share of yield if of class 4.6"] == "cannot-tell"
    assert "head marks of group all" in wanted_of(new)
    assert new.headline.startswith("New set of unknown class")


def test_a_torque_even_the_softest_class_bears_needs_no_mark():
    answer = tighten("oiled; 25 N·m", group(thread="M11x1.5", new=True))
    assert (answer.state, answer.action) == ("decided", "do-as-listed")
    assert outcomes(answer)["all: share of yield if of class 4.6"] == "holds"


def test_a_torque_past_yield_says_where_the_error_may_lie():
    bolt = group(thread="7/16-14", lubricant="thread-sealer", **{"class": "sae-5"})
    answer = tighten("65 lb-ft", bolt)
    assert answer.action == "stop"
    assert answer.headline.startswith("Stop: 65 lb-ft (88 N·m) takes all to 1.35 of yield")
    assert "the torque page of this very bolt" in wanted_of(answer)


def test_turn_past_snug_says_yield_and_what_ductility_is_left():
    bolt = group(**BOLT, **{"class": "10.9"})
    answer = tighten("oiled; 30 N·m; +90°; +90°", bolt, head={"material": "aluminium"})
    assert outcomes(answer)["all: ductility the turn uses"] == "holds"
    assert "reaches yield" in words_of(answer)
    gentle = tighten("oiled; 30 N·m; +15°", bolt, head={"material": "aluminium"})
    assert "stays below yield" in words_of(gentle)


def test_a_waist_takes_more_of_a_short_neck_than_of_a_long_one():
    def used(sections):
        bolt = group(**BOLT, waisted=True, sections=sections, **{"class": "10.9"})
        answer = tighten("oiled; 30 N·m; +90°; +90°", bolt, head={"material": "aluminium"})
        return next(check.value for check in answer.checks if "ductility" in check.name)

    assert used("8.5 mm/20 mm, 11 mm/80 mm") > 1.5 * used("8.5 mm/90 mm, 11 mm/10 mm")


def test_a_waisted_bolt_without_sections_has_no_such_sum():
    answer = tighten(
        "oiled; 30 N·m; +90°",
        group(**BOLT, waisted=True, **{"class": "10.9"}),
        head={"material": "aluminium"},
    )
    assert not any("ductility" in name for name in outcomes(answer))


def test_bedding_in_and_heat_of_an_alloy_head():
    bolt = group(**BOLT, **{"class": "10.9"})
    alloy = tighten("oiled; 60 N·m", bolt, head={"material": "aluminium"})
    iron = tighten("oiled; 60 N·m", bolt, head={"material": "grey-iron"})
    assert outcomes(alloy)["all: lost by bedding in"] == "holds"
    assert "while the bolt is cold" in words_of(alloy)
    assert "metal alone" in words_of(alloy)
    change = [step.step.value for step in alloy.steps if "change" in step.step.result]
    less = [step.step.value for step in iron.steps if "change" in step.step.result]
    assert change[0] > 0.0 > less[0]
    assert change[1] > change[0]


def test_short_bolts_lose_more_and_are_gone_round_again():
    short = group(**{**BOLT, "grip_in_head": "14 mm"}, **{"class": "10.9"})
    answer = tighten("oiled; 30 N·m", short, head={"material": "aluminium"})
    assert outcomes(answer)["all: lost by bedding in"] == "cannot-tell"
    assert answer.action == "do-as-listed"
    assert "go round once more" in words_of(answer)


def test_one_torque_for_unlike_threads_is_warned_of():
    groups = (group("small", labels=["1"], thread="M8"), group("large", labels=["2"], thread="M10"))
    same = tighten("oiled; 25 N·m", *groups)
    assert outcomes(same)["one torque for unlike threads"] == "cannot-tell"
    assert "want unlike torques" in words_of(same)
    own = tighten("oiled; small: 20 N·m; large: 40 N·m", *groups)
    assert "one torque for unlike threads" not in outcomes(own)


@pytest.mark.parametrize(("way", "line"), [("square", "set the torque itself"), ("straight-out", "64 N·m")])
def test_adapter_straight_out_or_square(way, line):
    wrench = {**WRENCH, "adapter": "100 mm", "length": "400 mm", "adapter_set": way}
    answer = tighten("oiled; 80 N·m", group(), wrench=wrench)
    assert line in words_of(answer)


def test_unit_of_the_scale_and_a_coarse_mark():
    wrench = {
        "low": "10 lb-ft",
        "high": "150 lb-ft",
        "checked": "this-year",
        "kind": "beam",
        "division": "10 lb-ft",
    }
    answer = tighten("oiled; 54 N·m", group(), wrench=wrench)
    assert outcomes(answer)["one mark of the scale"] == "cannot-tell"
    assert "in another unit than the papers" in words_of(answer)
    assert "straight from above" in words_of(answer)
    fine = tighten("oiled; 40 lb-ft", group(), wrench={**wrench, "division": "2 lb-ft"})
    assert outcomes(fine)["one mark of the scale"] == "holds"
    assert "another unit" not in words_of(fine)


def test_click_is_heard_once():
    assert "first click" in words_of(tighten("oiled; 40 N·m", group()))


def test_the_sheet_with_the_gasket_outranks_a_re_torque_of_the_manual():
    sheet = {
        "name": "g",
        "construction": "multi-layer-steel",
        "coated": True,
        "retorque": "no",
        "from": "the wrapper",
    }
    answer = tighten("oiled; 40 N·m; after 1000 km cold 40 N·m", group(), gasket={"candidates": [sheet]})
    assert outcomes(answer)["re-torque after running"] == "cannot-tell"
    assert "outranks the manual" in words_of(answer)
    silent = tighten("oiled; 40 N·m; after 1000 km cold 40 N·m", group())
    assert "re-torque after running" not in outcomes(silent)


def test_stretched_bolts_again_only_by_a_printed_angle():
    text = "oiled; 40 N·m; +90°; after 1000 km cold +30°"
    assert "only by the angle the papers print" in words_of(tighten(text, group()))
    assert "not turned to be safe" in words_of(tighten("oiled; 40 N·m; +90°", group()))


def test_crack_off_torques_say_how_much_stood_in_the_bolts():
    joint = {
        "fasteners": [group(thread="M10", lubricant="oil", labels=["1", "2"])],
        "readings": {
            "fasteners": {"break_away": {"1": "60 N·m", "2": "30 N·m"}, "threads": "clean-and-even"}
        },
        "limits": [limit("fastener_length", high="100 mm")],
    }
    text = words_of(ask("fasteners-reuse", joint))
    assert "Number 2 gave way at 0.5" in text
    assert "stands for" in text
    assert "less if rust or sealer held it" in text


def test_a_crack_off_torque_beyond_the_bolt_was_rust():
    joint = {
        "fasteners": [group(thread="M10", lubricant="oil", labels=["1"], **{"class": "8.8"})],
        "readings": {"fasteners": {"break_away": {"1": "150 N·m"}, "threads": "clean-and-even"}},
    }
    assert "no more than it can bear" in words_of(ask("fasteners-reuse", joint))


def test_a_torque_in_the_lowest_fifth_of_the_scale_is_a_doubt_and_no_stop():
    low = tighten("oiled; 30 N·m", group())
    assert outcomes(low)["smallest torque on the scale"] == "cannot-tell"
    assert low.action == "do-as-listed"
    assert "lowest fifth of the scale" in words_of(low)
    for text in ("oiled; 40 N·m", "oiled; 90 N·m"):
        fair = tighten(text, group())
        assert outcomes(fair)["smallest torque on the scale"] == "holds"
        assert "lowest fifth" not in words_of(fair)


def test_an_adapter_without_the_length_of_the_wrench_sets_nothing():
    bare = tighten("oiled; 80 N·m", group(), wrench={**WRENCH, "adapter": "60 mm"})
    assert outcomes(bare)["setting with the adapter"] == "cannot-tell"
    assert "length of the torque wrench" in wanted_of(bare)
    square = tighten("oiled; 80 N·m", group(), wrench={**WRENCH, "adapter": "60 mm", "adapter_set": "square"})
    assert "setting with the adapter" not in outcomes(square)


@pytest.mark.parametrize(
    ("washer", "said"),
    [
        ({"hardened": False}, "soft washers"),
        ({"sunk": True}, "the tension went with them"),
        ({"hardened": True, "sunk": False}, None),
    ],
)
def test_soft_and_sunk_washers_are_said(washer, said):
    words = words_of(tighten("oiled; 60 N·m", group(washer=washer)))
    assert (said in words) if said else ("washers" not in words)


def test_sunk_washers_are_evidence_of_lost_tension():
    joint = {
        "fasteners": [group(washer={"sunk": True})],
        "procedure": procedure("oiled; 60 N·m"),
        "readings": {"fasteners": {"threads": "clean-and-even"}},
    }
    assert "had lost tension" in words_of(ask("fasteners-reuse", joint))


def test_one_step_is_one_step():
    assert tighten("oiled; 60 N·m", group()).headline.startswith("1 step,")


def lines(answer):
    return [(work.text, work.figure) for work in answer.work]


def place(answer, words):
    return next(at for at, (text, _) in enumerate(lines(answer)) if words in text)


@pytest.mark.parametrize(
    ("papers", "wrench", "shown"),
    [
        ("oiled; 30 N·m; 60 N·m", {"low": "200 lbf·in", "high": "1000 lbf·in"}, "60 N·m → 531 lbf·in"),
        ("oiled; 30 lb-ft; 45 lb-ft", {"low": "20 N·m", "high": "100 N·m"}, "45 lb-ft → 61 N·m"),
        ("oiled; 30 lb-ft; 45 lb-ft", {"low": "2 kgf·m", "high": "10 kgf·m"}, "45 lb-ft → 6.2 kgf·m"),
    ],
)
def test_the_figure_stands_in_the_unit_of_the_scale(papers, wrench, shown):
    answer = tighten(papers, group(), wrench={**wrench, "checked": "this-year"})
    assert shown in words_of(answer)
    mixed = "Read the unit on the scale aloud" in words_of(answer)
    assert mixed is ("lb-ft" in papers and "N·m" in wrench["low"])


def test_an_adapter_straight_out_is_set_in_the_unit_of_the_scale():
    wrench = {**WRENCH, "adapter": "3 in", "adapter_set": "straight-out", "length": "450 mm"}
    answer = tighten("oiled; 60 N·m", group(), wrench=wrench)
    assert pytest.approx(51.3, abs=0.05) == 60 * 450 / (450 + 76.2)
    assert "60 N·m → 51.3 N·m" in words_of(answer)
    square = tighten("oiled; 60 N·m", group(), wrench={**wrench, "adapter_set": "square"})
    assert "51.3" not in words_of(square)


def gasket(construction, retorque=None):
    said = {"retorque": retorque} if retorque else {}
    return {"gasket": {"candidates": [{"name": "new", "construction": construction, **said}]}}


AGAIN = "oiled; 30 N·m; 60 N·m; after 1000 km cold 60 N·m"


@pytest.mark.parametrize(
    ("new", "says"),
    [
        (gasket("composite", "no"), "the sheet with the gasket forbids"),
        (gasket("multi-layer-steel"), "steel layers are not tightened again to be safe"),
    ],
)
def test_a_refused_re_torque_is_named_and_is_no_step_of_the_list(new, says):
    answer = tighten(AGAIN, group(), **new)
    left_out = [(text, figure) for text, figure in lines(answer) if says in text]
    assert [figure for _, figure in left_out] == ["Step 3"]
    assert not any(text.startswith("Step 3") for text, _ in lines(answer))
    assert outcomes(answer)["re-torque after running"] == "cannot-tell"


@pytest.mark.parametrize("new", [gasket("multi-layer-steel", "yes"), gasket("composite", "yes"), {}])
def test_a_re_torque_nothing_forbids_stands_after_the_work_of_the_first_day(new):
    answer = tighten(AGAIN, group(), **new)
    assert place(answer, "Step 2") < place(answer, "Once more round") < place(answer, "Step 3")


def test_the_last_round_before_running_is_at_the_torque_set_by_then():
    answer = tighten("oiled; 30 N·m; 60 N·m; run until warm; wait until cold; 62 N·m", group())
    once_more = place(answer, "Once more round")
    assert place(answer, "Step 2") < once_more < place(answer, "Step 3")
    assert lines(answer)[once_more][1].startswith("60 N·m")
    assert answer.headline.startswith("5 steps, in order, to 62 N·m")


def test_the_headline_counts_only_what_is_listed():
    text = "oiled; 30 N·m; 60 N·m; run until warm; wait until cold; 62 N·m"
    answer = tighten(text, group(), **gasket("composite", "no"))
    assert answer.headline.startswith("2 steps, in order, to 60 N·m")


def test_steel_layers_without_a_mark_are_not_called_marked():
    answer = tighten("oiled; 30 N·m; 60 N·m", group(), **gasket("multi-layer-steel"))
    assert "steel layers do not settle" in words_of(answer)
    assert "marked so" not in words_of(answer)


def test_a_torque_for_stretched_bolts_after_running_stops_the_follow_up():
    text = "oiled; 30 N·m; +90°; after 1000 km cold 60 N·m"
    assert "look at the page again" in words_of(tighten(text, group()))
    later = ask("follow-up", {"fasteners": [group()], "procedure": procedure(text)})
    assert later.action == "stop"
    by_angle = {
        "fasteners": [group()],
        "procedure": procedure("oiled; 30 N·m; +90°; after 1000 km cold +30°"),
    }
    assert ask("follow-up", by_angle).action == "do-as-listed"


def test_slackening_after_running_is_done_one_at_a_time_and_at_fitting_in_reverse():
    again = tighten("oiled; 60 N·m; after 1000 km cold loosen 30°, 62 N·m", group())
    assert "one at a time, in order" in lines(again)[place(again, "Step 2")][0]
    at_once = tighten("oiled; 60 N·m; loosen 30°, 62 N·m", group())
    assert "in reverse order" in lines(at_once)[place(at_once, "Step 2")][0]


def test_sealer_in_place_of_oil_turns_alike_and_dry_does_not():
    sealed = tighten("oiled; 60 N·m", group(thread="M11x1.5", lubricant="thread-sealer"))
    dry = tighten("oiled; 60 N·m", group(thread="M11x1.5", lubricant="dry"))
    name = "all: lubricant the torque is for"
    assert (outcomes(sealed)[name], outcomes(dry)[name]) == ("cannot-tell", "fails")


@pytest.mark.parametrize(("outer", "kind", "named"), [("14 mm", "bolt", "head"), ("14 mm", "stud", "nut")])
def test_a_head_or_nut_without_a_washer_presses_on_the_casting(outer, kind, named):
    bolt = {"thread": "M10", "bearing_diameter": outer, "hole_diameter": "11 mm", "kind": kind}
    answer = tighten("oiled; 50 N·m", group(**bolt, **{"class": "10.9"}), head={"material": "aluminium"})
    assert outcomes(answer)[f"all: pressure under the {named}"] == "cannot-tell"
    pressure = next(w.step.value for w in answer.steps if "pressure" in w.step.result)
    tension = next(w.step.value for w in answer.steps if "tension" in w.step.result)
    assert pressure == pytest.approx(tension / (3.14159265 / 4 * (14.0**2 - 11.0**2)))


@pytest.mark.parametrize(("strength", "outcome"), [("12.9", "holds"), ("8.8", "cannot-tell")])
def test_pull_while_it_warms_up_is_held_against_yield_and_only_warns(strength, outcome):
    bolt = {**BOLT, "thread": "M10", "class": strength}
    answer = tighten("oiled; 45 N·m", group(**bolt), head={"material": "aluminium"})
    assert outcomes(answer)["all: share of yield while it warms up"] == outcome
    assert answer.action != "stop"


def test_heat_says_which_way_it_goes():
    warmed = {
        metal: tighten("oiled; 45 N·m", group(**BOLT), head={"material": metal})
        for metal in ("aluminium", "grey-iron")
    }
    said = {metal: next(n.text for n in a.notes if ": heat " in n.text) for metal, a in warmed.items()}
    assert "heat adds" in said["aluminium"]
    assert "heat takes" in said["grey-iron"].partition(" once all is warm")[0]


def test_scatter_is_parted_and_the_wrench_named():
    notes = [note.text for note in tighten("oiled; 60 N·m", group(thread="M11x1.5")).notes]
    assert any("±17 % from bolt to bolt, ±22 % alike for all" in text for text in notes)
    assert any("the wrench alone ±4 %" in text for text in notes)
    unchecked = tighten("oiled; 60 N·m", group(), wrench={**WRENCH, "checked": "never"})
    assert any("±10 %" in note.text for note in unchecked.notes)
