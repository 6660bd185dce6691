"""How much comes off: nothing where it is in, the least that cleans, and where there is no metal for it."""

import pytest
from unit.answers.facing import ask, bores, damage, face, least, limit, wanted_of, words_of

from firedeck.answers.answer import Answer, State

HEIGHTS = {"heights_before": ["100.00 mm", "100.01 mm", "100.02 mm", "100.00 mm"]}


def ask_with(
    on_head: float | None, on_block: float | None = 0.0, engine: dict | None = None, **joint: object
) -> Answer:
    faces = [
        face(which, hollow)
        for which, hollow in (("head", on_head), ("block", on_block))
        if hollow is not None
    ]
    readings = {"faces": faces, **joint.pop("readings", {})}  # type: ignore[dict-item]
    return ask("cut-how-much", least({**joint, "readings": readings}), engine=engine)


def value(answer: Answer, name: str) -> float:
    return next(step.step.value for step in answer.steps if name in step.step.result)


def test_nothing_read_nothing_cut():
    answer = ask("cut-how-much", {})
    assert answer.state is State.OPEN
    assert "flatness of the head face" in wanted_of(answer)


def test_both_in_leave():
    answer = ask_with(0.02)
    assert (answer.state, answer.action) == (State.DECIDED, "leave")
    assert "machining is not needed" in answer.headline


def test_a_planned_cut_nothing_asks_for():
    answer = ask_with(0.02, cut={"head": "0.3 mm"})
    assert answer.action == "leave"
    assert "is not needed for flatness" in words_of(answer)


def test_block_not_read_is_said():
    answer = ask_with(0.02, None)
    assert answer.action == "leave"
    assert "block not read yet" in answer.headline
    assert any("head alone" in line for line in answer.assumptions)
    assert "flatness of the block" in wanted_of(answer)


def test_block_alone_says_nothing_of_the_head():
    assert ask_with(None, 0.02).state is State.OPEN


def test_exactly_at_the_limit_is_close():
    answer = ask_with(0.05)
    assert (answer.state, answer.action) == (State.CLOSE, "leave")


def test_the_least_that_cleans_and_the_last_pass():
    answer = ask_with(0.12, cut={"head": "0.1 mm"})
    assert answer.action == "cut"
    assert value(answer, "least_cut") == pytest.approx(0.12)
    assert "0.170 mm (0.0067 in) cleans it" in answer.headline
    assert "does not clean it" in words_of(answer)


def test_parallel_to_the_datum_costs_the_spread_of_the_corners():
    answer = ask_with(
        0.12, head=HEIGHTS, layout=bores(), chamber={"plan_area": "40 cm2"}, cut={"head": "0.2 mm"}
    )
    assert value(answer, "least_cut") == pytest.approx(0.14)
    assert value(answer, "chamber_difference") == pytest.approx(4000 * 0.02 * 90 / 210, rel=1e-5)
    assert "the end chambers differ" in words_of(answer)
    assert value(answer, "port_and_cam_drag") == pytest.approx(0.02 * 90 / 210, rel=1e-5)
    assert "ports and cam line" in words_of(answer)
    assert any("cover rail" in said for said in answer.assumptions)


def test_less_than_a_cutter_takes_is_a_whole_pass_all_the_same():
    marks = [damage(face="head", lies="in-ring-band", depth="0.01 mm")]
    answer = ask_with(0.005, cut={"head": "0.2 mm"}, readings={"damage": marks})
    assert value(answer, "least_cut") == pytest.approx(0.01)
    assert "0.080 mm" in answer.headline


def test_the_finish_two_sources_quarrel_over_is_no_reason_to_cut():
    finish = [{"name": which, "face": which, "Ra": "45 µin"} for which in ("head", "block")]
    answer = ask_with(
        0.0,
        readings={"finish": finish},
        gasket={"candidates": [{"name": "steel", "construction": "multi-layer-steel"}]},
    )
    assert (answer.state, answer.action) == (State.CLOSE, "leave")
    assert "ask the gasket's maker" in answer.headline


def test_damage_under_the_ring_sets_the_depth():
    marks = [damage(face="head", lies="in-ring-band", depth="0.3 mm")]
    answer = ask_with(0.12, cut={"head": "0.4 mm"}, readings={"damage": marks})
    assert value(answer, "stock") == pytest.approx(0.3)


def test_damage_alone_is_reason_to_cut():
    marks = [damage(face="head", lies="in-ring-band", depth="0.1 mm")]
    assert ask_with(0.0, cut={"head": "0.2 mm"}, readings={"damage": marks}).action == "cut"


def test_finish_alone_is_reason_to_cut():
    finish = [{"name": which, "face": which, "seen": ["step"]} for which in ("head", "block")]
    assert ask_with(0.0, readings={"finish": finish}).action == "cut"


@pytest.mark.parametrize(
    ("low", "state", "action"),
    [
        ("99.80 mm", State.DECIDED, "cut"),
        ("99.88 mm", State.CLOSE, "cut"),
        ("99.90 mm", State.DECIDED, "scrap"),
    ],
)
def test_the_least_height_decides(low, state, action):
    answer = ask_with(0.12, head=HEIGHTS, limits=[limit("head_height", "head", low=low)])
    assert (answer.state, answer.action) == (state, action)


def test_flat_but_already_too_low():
    answer = ask_with(0.0, head=HEIGHTS, limits=[limit("head_height", "head", low="100.1 mm")])
    assert answer.action == "scrap"


@pytest.mark.parametrize(("earlier", "action"), [("0.1 mm", "cut"), ("0.2 mm", "scrap")])
def test_earlier_cuts_use_the_budget(earlier, action):
    answer = ask_with(0.12, cut={"earlier_head": earlier}, limits=[limit("cut", "head", high="0.3 mm")])
    assert answer.action == action


def test_head_and_block_together():
    cut = {"head": "0.2 mm", "block": "0.2 mm"}
    answer = ask_with(0.12, 0.1, cut=cut, limits=[limit("cut_together", high="0.3 mm")])
    assert answer.action == "scrap"
    assert ask_with(0.12, 0.1, cut=cut, limits=[limit("cut_together", high="0.5 mm")]).action == "cut"


def test_budget_not_known_is_asked_for():
    answer = ask_with(0.12)
    assert answer.action == "cut"
    assert "least height" in wanted_of(answer)


class TestCamLine:
    """The cam tunnel before the face."""

    def test_a_cam_that_binds(self):
        assert ask_with(0.0, head={"cam_tunnel": "binds"}).action == "straighten-first"
        assert ask("cut-how-much", {"head": {"cam_tunnel": "binds"}}).action == "straighten-first"

    @pytest.mark.parametrize(
        ("hollow", "head", "gear", "action"),
        [
            (0.10, {"material": "aluminium"}, "overhead-cam", "straighten-first"),
            (0.10, {"material": "aluminium"}, "push-rod", "cut"),
            (0.10, {"material": "grey-iron"}, "overhead-cam", "cut"),
            (0.10, {"material": "aluminium", "cam_tunnel": "turns-free"}, "overhead-cam", "cut"),
            (0.07, {"material": "aluminium"}, "overhead-cam", "cut"),
            (0.04, {"material": "aluminium"}, "overhead-cam", "leave"),
        ],
    )
    def test_bow_of_a_head_with_its_cam_in_it(self, hollow, head, gear, action):
        assert ask_with(hollow, head=head, engine={"valve_gear": gear}).action == action

    def test_three_thousandths_exactly_is_close(self):
        readings = [{"name": "head", "face": "head", "largest_gap_along": "0.003 in"}]
        joint = {"head": {"material": "aluminium"}, "readings": {"faces": readings}}
        answer = ask("cut-how-much", joint, engine={"valve_gear": "overhead-cam"})
        assert (answer.state, answer.action) == (State.CLOSE, "straighten-first")
        assert "cam turns by hand" in wanted_of(answer)


def leaves(goes: str, stops: str) -> dict:
    line = {"name": "middle", "from": ["0 mm", "0 mm"], "to": ["300 mm", "0 mm"]}
    readings = [{"at": "150 mm", "goes": goes, "stops": stops}]
    across = {"name": "bridge", "from": ["150 mm", "-50 mm"], "to": ["150 mm", "50 mm"]}
    thin = [{"at": "50 mm", "goes": "none", "stops": "0.03 mm"}]
    return {
        "name": "head",
        "face": "head",
        "seen": "deck from above",
        "lines": [{**line, "readings": readings}, {**across, "readings": thin}],
    }


@pytest.mark.parametrize(
    ("goes", "stops", "state", "action"),
    [
        ("0.04 mm", "0.05 mm", State.DECIDED, "leave"),
        ("0.04 mm", "0.06 mm", State.CLOSE, "send-out"),
        ("0.08 mm", "0.10 mm", State.DECIDED, "cut"),
    ],
)
def test_leaves(goes, stops, state, action):
    answer = ask("cut-how-much", least({"readings": {"faces": [leaves(goes, stops)]}}))
    assert (answer.state, answer.action) == (state, action)


def test_a_cut_by_leaves_reckons_with_the_leaf_that_stops():
    joint = least({"readings": {"faces": [leaves("0.08 mm", "0.10 mm")]}, "cut": {"head": "0.2 mm"}})
    assert value(ask("cut-how-much", joint), "least_cut") == pytest.approx(0.10)


@pytest.mark.parametrize(("word", "action"), [("within-limit", "leave"), ("over-limit", "cut")])
def test_the_shops_word(word, action):
    answer = ask("cut-how-much", {"readings": {"faces": [face("head", found_by_shop=word)]}})
    assert answer.action == action
    assert "straightedge" in wanted_of(answer)


def test_no_book_limit():
    answer = ask("cut-how-much", {"readings": {"faces": [face("head", 0.12)]}})
    assert answer.state is State.OPEN
    assert "0.170 mm" in answer.headline
    assert "limit" in wanted_of(answer)


def test_both_heads_of_a_vee():
    left = least({"readings": {"faces": [face("head", 0.12), face("block", 0.0)]}})
    assert "cut alike" in words_of(ask("cut-how-much", left, {}, engine={"arrangement": "vee"}))


@pytest.mark.parametrize(("other", "says"), [
    ("99.80 mm", "0.200 mm (0.0079 in) higher than head head1"), ("3.94488 in", "lower than head head1"),
    ("99.99 mm", ""),
])  # fmt: skip
def test_heads_of_unlike_height_are_named(other, says):
    left = least({"readings": {"faces": [face("head", 0.12), face("block", 0.0)]}})
    left["head"] = {"heights_before": ["100 mm"] * 4}
    right = {"head": {"heights_before": [other] * 4}}
    answer = ask("cut-how-much", left, right, engine={"arrangement": "vee"})
    ordered = words_of(ask("shop-order", left, right, engine={"arrangement": "vee"}))
    assert says in words_of(answer)
    assert says in ordered
    assert ("As planned this head stands" in words_of(answer)) == bool(says)


def test_inch_and_metric_decide_alike():
    metric = least({"readings": {"faces": [{"name": "h", "face": "head", "largest_gap_along": "0.127 mm"}]}})
    inch = least({"readings": {"faces": [{"name": "h", "face": "head", "largest_gap_along": "0.005 in"}]}})
    assert ask("cut-how-much", metric).headline == ask("cut-how-much", inch).headline


@pytest.mark.parametrize("which", ["head", "block"])
def test_less_known_never_gives_leave(which):
    """Taking a reading away from a face that is out never turns the answer to leave for that face."""
    out = {"on_head": 0.12, "on_block": 0.0} if which == "head" else {"on_head": 0.0, "on_block": 0.12}
    assert ask_with(**out).action == "cut"
    answer = ask_with(**{**out, f"on_{which}": None})
    assert answer.action != "leave" or f"{which} not read yet" in answer.headline


@pytest.mark.parametrize(("which", "state"), [("head", "open"), ("block", "decided")])
def test_a_face_read_one_way_only_is_not_cut_half_read(which, state):
    row = "x [mm], y [mm], z [mm]\n0, 0, 0\n100, 0, -0.01\n200, 0, 0\n"
    other = "block" if which == "head" else "head"
    faces = [face(which, seen="deck from above", points=row), face(other, 0.0)]
    answer = ask("cut-how-much", least({"readings": {"faces": faces}}))
    assert answer.state.value == state
    assert ("one way only" in answer.headline) is (which == "head")


CROWN = "\n".join(
    f"{x}, {y}, {0.12 * (1 - (x / 200 - 1) ** 2):.4f}" for y in (-60, 0, 60) for x in range(0, 401, 50)
)


@pytest.mark.parametrize(("gear", "action"), [("overhead-cam", "straighten-first"), ("push-rod", "cut")])
def test_a_crowned_head_is_as_bent_as_a_hollow_one(gear, action):
    head = face("head", seen="deck from above", points=f"x [mm], y [mm], z [mm]\n{CROWN}")
    joint = least({"head": {"material": "aluminium"}, "readings": {"faces": [head, face("block", 0.0)]}})
    assert ask("cut-how-much", joint, engine={"valve_gear": gear}).action == action


def test_damage_that_the_cut_took_out_asks_for_no_other_cut():
    pit = damage(face="head", lies="in-ring-band", depth="0.2 mm")
    faces = [face("head", 0.0, when="after-machining"), face("block", 0.0)]
    joint = least({"readings": {"faces": faces, "damage": [pit]}, "cut": {"head": "0.2 mm", "done": True}})
    assert ask("cut-how-much", joint).action == "leave"
    assert ask("cut-how-much", {**joint, "cut": {"head": "0.25 mm"}}).action == "cut"
