"""threads-hold: what is in the holes, what carries, and where a bolt comes to the bottom."""

import pytest
from unit.answers.fastening import ask, group, outcomes, wanted_of, words_of

LABELS = ["1", "2"]


def hold(holes=None, **joint):
    readings = {"holes": holes if holes is not None else {"good": LABELS}}
    return ask("threads-hold", {"fasteners": [group(labels=LABELS)], "readings": readings, **joint})


def test_good_threads_are_used():
    assert (hold().state, hold().action) == ("decided", "use")


@pytest.mark.parametrize(
    ("holes", "action"),
    [
        ({"good": ["1"], "raised": ["2"]}, "chase"),
        ({"good": ["1"], "dirty": ["2"]}, "chase"),
        ({"good": ["1"], "pulled": ["2"]}, "insert"),
        ({"good": ["1"], "cracked": ["2"]}, "send-out"),
        ({"good": LABELS, "liquid": ["2"]}, "stop"),
        ({"pulled": ["1"], "liquid": ["2"]}, "stop"),
        ({"raised": ["1"], "pulled": ["2"]}, "insert"),
        ({"raised": ["all"]}, "chase"),
    ],
)
def test_each_state_has_its_cure(holes, action):
    answer = hold(holes)
    assert (answer.state, answer.action) == ("decided", action)


def test_liquid_in_a_through_hole_runs_out():
    answer = hold({"good": LABELS, "liquid": ["2"]}, fasteners=[group(labels=LABELS, hole="through")])
    assert answer.action == "use"


def test_liquid_says_what_it_breaks():
    assert "splits the boss" in words_of(hold({"liquid": ["1"], "good": LABELS}))


def test_a_hole_nobody_looked_at_is_open():
    answer = hold({"good": ["1"]})
    assert (answer.state, answer.action) == ("open", None)
    assert "hole 2" in wanted_of(answer)


def test_nothing_known_is_open():
    assert ask("threads-hold", {}).state == "open"


def test_chaser_and_no_tap():
    assert "never a cutting tap" in words_of(hold())


def bottom(length, cut="0 mm", washer="3 mm"):
    """60 mm in the head, 1 mm of gasket, 40 mm of hole."""
    fasteners = [
        group(
            labels=LABELS,
            hole="blind",
            hole_depth="40 mm",
            grip_in_head="60 mm",
            length_new=length,
            washer={"thickness": washer},
        )
    ]
    gasket = {"candidates": [{"name": "new", "thickness": "1 mm"}]}
    return hold(fasteners=fasteners, gasket=gasket, cut={"head": cut})


@pytest.mark.parametrize(
    ("length", "cut", "washer", "state", "action"),
    [
        ("100 mm", "0 mm", "3 mm", "decided", "use"),
        ("103 mm", "0 mm", "3 mm", "close", "use"),
        ("103 mm", "0.2 mm", "3 mm", "decided", "stop"),
        ("103 mm", "0 mm", "2 mm", "decided", "stop"),
        ("106 mm", "0 mm", "3 mm", "decided", "stop"),
    ],
)
def test_bolt_at_the_bottom_stops(length, cut, washer, state, action):
    answer = bottom(length, cut, washer)
    assert (answer.state, answer.action) == (state, action)


def test_room_is_the_sum_of_what_lies_above():
    (check,) = (check for check in bottom("101 mm").checks if check.quantity == "hole_room")
    assert check.value == pytest.approx(40 - (101 - 3 - 60 - 1))


@pytest.mark.parametrize(
    ("engagement", "shortened", "outcome"), [("20 mm", "0 mm", "holds"), ("20 mm", "6 mm", "fails")]
)
def test_engagement_in_alloy(engagement, shortened, outcome):
    answer = hold(
        fasteners=[group(labels=LABELS, thread="M10x1.5", engagement=engagement, shortened=shortened)],
        block={"material": "aluminium"},
    )
    assert outcomes(answer)["all: engagement"] == outcome
    assert answer.action == {"holds": "use", "fails": "stop"}[outcome]


def test_stripping_is_worked_out_where_the_class_is_known():
    answer = hold(
        fasteners=[group(labels=LABELS, thread="M10x1.5", engagement="25 mm", **{"class": "8.8"})],
        block={"material": "aluminium"},
    )
    (check,) = (check for check in answer.checks if check.quantity == "strip_share")
    assert check.outcome == "holds"
    assert check.band.low < check.value <= check.band.high


@pytest.mark.parametrize(("now", "before", "share"), [("14", "10", 10 / 14), ("9", "9", 1.0)])
def test_longer_nut_shares_the_load(now, before, share):
    answer = hold(
        fasteners=[group(labels=LABELS, kind="stud", threads_in_nut=now, threads_in_nut_before=before)]
    )
    (check,) = (check for check in answer.checks if check.quantity == "load_per_thread")
    assert check.value == pytest.approx(share)
    assert answer.action == "use"


def test_nut_out_of_thread_stops():
    answer = hold(fasteners=[group(labels=LABELS, kind="stud", threads_in_block="9", threads_in_nut="4")])
    assert answer.action == "stop"
    assert "nut" in answer.headline
    assert "by hand" in words_of(answer)


def hole(label, **what):
    return {"label": label, "x": f"{label} mm", "y": "0 mm", **what}


def test_an_insert_into_water_is_sealed_and_tried():
    holes = [
        hole("1", hole="through", leads="water", thread="insert"),
        hole("9", hole="blind", thread="good"),
    ]
    layout = {"seen": "deck from above", "bores": [], "fasteners": holes}
    wet = ask("threads-hold", {"fasteners": [group()], "layout": layout})
    assert wet.action == "use"
    assert "Insert in hole 1 opens into water" in words_of(wet)
    dry = {**layout, "fasteners": [{**holes[0], "leads": "nowhere", "hole": "blind"}, holes[1]]}
    assert "Insert" not in words_of(ask("threads-hold", {"fasteners": [group()], "layout": dry}))


@pytest.mark.parametrize(("how", "said"), [("tap", True), ("chaser", False)])
def test_a_tap_run_through_is_a_caution(how, said):
    readings = {"holes": {"good": ["all"], "checked": how}}
    answer = ask("threads-hold", {"fasteners": [group(thread="M10")], "readings": readings})
    assert any("A tap was run through" in line for line in answer.cautions) is said


def test_all_holes_are_called_all_holes():
    readings = {"holes": {"raised": ["all"]}}
    answer = ask("threads-hold", {"fasteners": [group(thread="M10")], "readings": readings})
    assert "every hole" in answer.headline
    assert "hole all" not in answer.headline


def test_holes_only_counted_are_not_taken_as_looked_at():
    part = {"fasteners": [group(count=10)], "readings": {"holes": {"good": ["1", "2", "3"]}}}
    answer = ask("threads-hold", part)
    assert answer.state == "open"
    assert "7 more holes" in wanted_of(answer)
    whole = {"fasteners": [group(count=10)], "readings": {"holes": {"good": ["all"]}}}
    assert ask("threads-hold", whole).action == "use"


@pytest.mark.parametrize(("turns", "outcome"), [("8 mm", "cannot-tell"), ("22 mm", "holds")])
def test_iron_is_held_against_the_bolt_too(turns, outcome):
    bolt = group(thread="M11x1.5", engagement=turns, **{"class": "10.9"})
    answer = ask("threads-hold", {"block": {"material": "grey-iron"}, "fasteners": [bolt]})
    assert outcomes(answer)["all: bolt yield over thread strip"] == outcome


@pytest.mark.parametrize(
    ("depth", "word"), [("20.5 mm", "comes too near the bottom"), ("18 mm", "comes to the bottom")]
)
def test_little_room_and_none_are_told_apart(depth, word):
    bolt = group(length_new="100 mm", grip_in_head="79 mm", hole="blind", hole_depth=depth)
    new = {"candidates": [{"name": "new", "thickness": "1 mm"}]}
    answer = ask(
        "threads-hold", {"fasteners": [bolt], "gasket": new, "readings": {"holes": {"good": ["all"]}}}
    )
    assert word in answer.headline


@pytest.mark.parametrize(
    ("length", "gasket", "cut", "left"),
    [
        ("100 mm", "1.2 mm", "0 mm", 20.0),
        ("100 mm", "1.2 mm", "0.5 mm", 20.0),
        ("4.0 in", "1.2 mm", "0 mm", 20.0),
        ("98 mm", "1.2 mm", "0 mm", 98 - 2 - 76 - 1.2),
        ("98 mm", "2.4 mm", "0.5 mm", 98 - 2 - 75.5 - 2.4),
    ],
)
def test_turns_of_the_bare_block_carry_only_as_far_as_the_bolt_reaches_in(length, gasket, cut, left):
    bolt = group(
        thread="M10",
        engagement="20 mm",
        length_new=length,
        grip_in_head="76 mm",
        washer={"thickness": "2 mm"},
    )
    new = {"candidates": [{"name": "new", "thickness": gasket}]}
    answer = ask(
        "threads-hold",
        {"fasteners": [bolt], "gasket": new, "cut": {"head": cut}, "block": {"material": "aluminium"}},
    )
    (step,) = [w.step for w in answer.steps if "engagement_left" in w.step.result]
    assert step.value == pytest.approx(left)


def test_the_shortest_bolt_tells_the_engagement_and_the_longest_the_room():
    bolt = group(
        thread="M10",
        engagement="30 mm",
        grip_in_head="76 mm",
        hole="blind",
        hole_depth="24 mm",
        labels=["1", "2"],
    )
    joint = {
        "fasteners": [bolt],
        "gasket": {"candidates": [{"name": "new", "thickness": "1 mm"}]},
        "block": {"material": "aluminium"},
        "readings": {"fasteners": {"lengths": {"1": "98 mm", "2": "100 mm"}}},
    }
    steps = {name: w.step.value for w in ask("threads-hold", joint).steps for name in w.step.result}
    assert (steps["engagement_left"], steps["hole_room"]) == pytest.approx((98 - 77, 24 - 23))
