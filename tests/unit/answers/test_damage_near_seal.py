"""Damage against the ring: measured, by words, under the cut; cracks in three steps."""

import pytest
from unit.answers.facing import ask, bores, damage, limit, wanted_of, words_of

from firedeck.answers.answer import Answer, State
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets

GASKET = {"candidates": [{"name": "new", "construction": "composite", "bore": "82 mm", "ring_width": "4 mm"}]}
"""The ring lies from 41 to 45 mm from the middle of a bore."""


def ask_about(*marks: dict, looked=("head", "block"), **joint: object) -> Answer:
    readings = {"damage": list(marks), "looked_over": list(looked)}
    return ask("damage-near-seal", {"layout": bores(), "gasket": GASKET, "readings": readings, **joint})


def at(x: str, y: str, size: str = "2 mm", **others: object) -> dict:
    return damage(x=x, y=y, size=size, **others)


def test_nobody_looked():
    answer = ask("damage-near-seal", {})
    assert answer.state is State.OPEN
    assert "nail" in wanted_of(answer)
    assert "light from the side" in wanted_of(answer)


def test_looked_at_and_nothing_found():
    assert ask_about().action == "leave"


def test_one_face_looked_at_is_not_both():
    answer = ask_about(looked=("head",))
    assert answer.state is State.OPEN
    assert "block face" in wanted_of(answer)


def test_a_pit_clear_of_the_ring_stays():
    answer = ask_about(at("0 mm", "50 mm"))
    assert (answer.state, answer.action) == (State.DECIDED, "leave")
    (check,) = answer.checks
    assert check.value == pytest.approx(4.0)
    assert "4.000 mm (0.1575 in)" in answer.headline


def test_the_nearest_bore_counts():
    answer = ask_about(at("90 mm", "50 mm"))
    assert "pit at No 2," in answer.headline


@pytest.mark.parametrize(
    ("y", "share"), [("43 mm", 0.5), ("41 mm", 0.75), ("45.5 mm", 0.875), ("46.5 mm", 1.0), ("39 mm", 1.0)]
)
def test_share_of_the_ring_left(y, share):
    answer = ask_about(at("0 mm", y, depth="0.1 mm"), cut={"block": "0.2 mm"})
    (left,) = [one.step for one in answer.steps if "ring_share_left" in one.step.result]
    assert left.value == pytest.approx(share)


@pytest.mark.parametrize(
    ("depth", "cut", "action"),
    [("0.1 mm", "0.2 mm", "cut-removes-it"), ("0.2 mm", "0.2 mm", "cut-removes-it"), ("0.3 mm", "0.2 mm", "repair"),
     ("0.1 mm", "0 mm", "repair")],
)  # fmt: skip
def test_under_the_ring_the_cut_decides(depth, cut, action):
    assert ask_about(at("0 mm", "43 mm", depth=depth), cut={"block": cut}).action == action


def test_a_cut_of_the_other_face_takes_nothing_out():
    answer = ask_about(at("0 mm", "43 mm", depth="0.1 mm"), cut={"head": "0.2 mm"})
    assert answer.state is State.OPEN


def test_depth_not_measured_is_asked_for():
    answer = ask_about(at("0 mm", "43 mm"))
    assert answer.state is State.OPEN
    assert "needle" in wanted_of(answer)


def test_a_face_being_surfaced_is_surfaced_until_it_is_gone():
    answer = ask_about(at("0 mm", "43 mm"), cut={"block": "0.2 mm"})
    assert answer.action == "cut-removes-it"
    assert "depth" in wanted_of(answer)
    assert "Another make of gasket does not fill" in words_of(answer)


def test_nought_off_is_no_surfacing():
    assert ask_about(at("0 mm", "43 mm"), cut={"block": "0 mm"}).state is State.OPEN


def test_still_there_after_the_cut():
    cut = {"block": "0.5 mm", "done": True}
    answer = ask_about(at("0 mm", "43 mm", depth="0.1 mm", when="after-machining"), cut=cut)
    assert answer.action == "repair"


def test_exactly_at_the_ring_is_close():
    answer = ask_about(at("0 mm", "46 mm", depth="0.1 mm"), cut={"block": "0.2 mm"})
    assert (answer.state, answer.action) == (State.CLOSE, "cut-removes-it")


def test_place_not_known_is_open():
    answer = ask_about(damage(lies="at-water-hole"))
    assert answer.state is State.OPEN
    assert "gasket laid on" in wanted_of(answer)


@pytest.mark.parametrize(("lies", "state"), [("outside-ring", State.DECIDED), ("in-ring-band", State.OPEN)])
def test_words_do_where_nothing_was_measured(lies, state):
    assert ask_about(damage(lies=lies)).state is state


def test_a_reading_to_the_ring_needs_no_layout():
    readings = {"damage": [damage(to_ring="0.060 in")], "looked_over": ["head"]}
    assert ask("damage-near-seal", {"readings": readings}).action == "leave"


def test_seen_on_the_upturned_head_or_from_above():
    above = ask_about(at("30 mm", "40 mm", face="head", seen="deck from above"))
    upturned = ask_about(at("30 mm", "-40 mm", face="head", seen="head face up on the bench"))
    from_zero = ask_about(
        at(
            "40 mm",
            "-40 mm",
            face="head",
            seen="head face up on the bench",
            zero="bore 1",
            zero_at=["10 mm", "0 mm"],
        )
    )
    assert above.checks[0].value == pytest.approx(4.0)
    assert above.headline == upturned.headline == from_zero.headline


def test_inch_and_metric_decide_alike():
    metric = ask_about(at("0 mm", "43.18 mm", size="2.54 mm", depth="0.254 mm"), cut={"block": "0.254 mm"})
    inch = ask_about(at("0 in", "1.7 in", size="0.1 in", depth="0.010 in"), cut={"block": "0.010 in"})
    assert (metric.state, metric.action) == (inch.state, inch.action) == (State.DECIDED, "cut-removes-it")


def test_the_papers_may_allow_a_share_of_the_ring():
    allowed = [limit("ring_share_left", "block", low="80 %")]
    assert ask_about(at("0 mm", "45.5 mm"), limits=allowed).action == "leave"
    assert ask_about(at("0 mm", "43 mm"), limits=allowed).state is State.OPEN


def test_without_a_gasket_the_ring_is_assumed_and_said_so():
    answer = ask_about(at("0 mm", "55 mm"), gasket={})
    assert answer.action == "leave"
    assert any("ring taken as" in said for said in answer.assumptions)


def test_the_gravest_decides():
    pit, track = (
        damage(name="pit", lies="outside-ring"),
        at("0 mm", "43 mm", name="track", kind="track", depth="0.3 mm"),
    )
    assert ask_about(pit, track, cut={"block": "0.2 mm"}).action == "repair"
    crack = damage(name="crack", kind="crack", face="head", lies="between-valves")
    assert ask_about(pit, track, crack, cut={"block": "0.2 mm"}).action == "test-first"


class TestCracks:
    """Where it is, whether it reaches water, what the maker allows."""

    @pytest.mark.parametrize("lies", ["between-valves", "in-chamber", "in-ring-band", None])
    @pytest.mark.parametrize("material", ["aluminium", "grey-iron", None])
    def test_untested_is_never_harmless_and_never_scrap(self, lies, material):
        crack = damage(kind="crack", face="head") | ({"lies": lies} if lies else {})
        answer = ask_about(crack, head={"material": material} if material else {})
        assert answer.action == "test-first"
        assert "do not fit yet" in answer.headline
        assert "pressure test" in wanted_of(answer)

    def test_tight_and_allowed(self):
        crack = damage(
            kind="crack", face="head", lies="in-chamber", maker_says="allowed", maker_from="bulletin 7"
        )
        answer = ask_about(crack, head={"pressure_test": "tight"})
        assert answer.action == "leave"
        assert "bulletin 7" in answer.sources

    def test_tight_and_nobody_asked_the_maker(self):
        answer = ask_about(damage(kind="crack", face="head"), head={"pressure_test": "tight"})
        assert answer.state is State.OPEN
        assert "what the maker allows" in wanted_of(answer)

    def test_tight_and_forbidden(self):
        crack = damage(kind="crack", face="head", maker_says="not-allowed")
        assert ask_about(crack, head={"pressure_test": "tight"}).action == "scrap"

    def test_to_water(self):
        crack = damage(kind="crack", face="head", maker_says="allowed", reaches_water="yes")
        assert ask_about(crack).action == "repair"

    def test_the_pressure_test_of_the_head_says_nothing_of_the_block(self):
        answer = ask_about(damage(kind="crack", lies="elsewhere"), head={"pressure_test": "tight"})
        assert answer.action == "test-first"

    @pytest.mark.parametrize(
        ("block", "action"),
        [
            ({"material": "grey-iron", "liners": "none"}, "scrap"),
            ({"material": "grey-iron", "liners": "wet"}, "test-first"),
            ({"material": "grey-iron"}, "test-first"),
            ({"material": "aluminium", "liners": "none"}, "test-first"),
        ],
    )
    def test_in_the_ring_band_of_the_block(self, block, action):
        assert ask_about(damage(kind="crack", lies="bore-edge"), block=block).action == action

    def test_measured_into_the_ring_band(self):
        crack = at("0 mm", "43 mm", kind="crack")
        assert ask_about(crack, block={"material": "grey-iron", "liners": "none"}).action == "scrap"

    def test_in_several_chambers(self):
        crack = damage(kind="crack", face="head", lies="between-valves", cylinders=["1", "2"])
        answer = ask_about(crack)
        assert answer.action == "repair"
        assert "pressure test" in wanted_of(answer)


def test_a_print_in_an_alloy_head_asks_for_hardness():
    answer = ask_about(damage(kind="imprint", face="head"), head={"material": "aluminium"})
    assert answer.state is State.OPEN
    assert "hardness" in wanted_of(answer)
    assert "hardness" not in wanted_of(
        ask_about(damage(kind="imprint", face="head"), head={"material": "grey-iron"})
    )


def test_every_headline_states_its_figure_as_the_check_does():
    answer = ask_about(at("0 mm", "50 mm"))
    assert meets(answer.checks[0].value or 0.0, low=0.0) is Meets.HOLDS


def test_a_name_with_a_blank_is_quoted_where_it_goes_in():
    answer = ask("damage-near-seal", {"readings": {"damage": [damage(name="deep pit", lies="in-ring-band")]}})
    paths = [path for one in answer.next for path in one.missing.paths]
    assert 'joint.head.readings.damage."deep pit".depth' in paths


def test_a_depth_that_is_known_is_not_asked_for_again():
    answer = ask_about(at("0 mm", "43 mm", depth="0.3 mm", name="pit by 1"))
    assert answer.state is State.OPEN
    assert "0.300 mm (0.0118 in) or more takes pit by 1 out" in wanted_of(answer)
    assert "at its deepest" not in wanted_of(answer)


def test_how_much_of_the_ring_is_left_is_said_where_damage_reaches_in():
    """From 42 to 44 mm of a ring from 41 to 45 mm: half of it is left."""
    assert "50 % of the ring's width at No 1" in words_of(ask_about(at("0 mm", "43 mm")))
    assert "of the ring's width" not in words_of(ask_about(at("0 mm", "50 mm")))
