"""Where it leaks: leading causes for plain stories, next tests, and what overturns."""

import numpy as np
import pytest
from numpy.typing import NDArray

from firedeck.diagnosis import leak_causes, leak_down_signs
from firedeck.diagnosis.case_book import case_book
from firedeck.diagnosis.chances import share_of_witness
from firedeck.diagnosis.next_test import information
from firedeck.diagnosis.odds import shares, shares_of_ways, weigh
from firedeck.diagnosis.odds_words import odds_in_words, share_in_words
from firedeck.diagnosis.outcomes import outcomes_of
from firedeck.diagnosis.thresholds import threshold
from firedeck.errors import OutOfRange, TableGap

PAIR_LOW = {"compression-adjacent-pair-low": True}
GAS = {"gas-in-coolant": True, "bubbles-in-radiator": True}


@pytest.mark.parametrize(
    ("seen", "leader"),
    [
        ({**PAIR_LOW, "wet-gain-on-low": False}, "gasket-between-bores"),
        ({**PAIR_LOW, **leak_down_signs(["neighbour"])}, "gasket-between-bores"),
        (leak_down_signs(["coolant"]), "gasket-to-water"),
        ({"compression-one-low": True, **leak_down_signs(["exhaust"])}, "valve-exhaust"),
        ({"compression-one-low": True, **leak_down_signs(["intake"])}, "valve-intake"),
        ({"compression-several-low": True, "wet-gain-on-low": True, "blue-smoke": True}, "rings-bore"),
        (leak_down_signs(["outside"]), "gasket-to-outside"),
        ({"milk-in-sump": True, "oil-in-coolant": True, "oil-cooler-leaks": False}, "gasket-to-oil"),
        ({**GAS, "coolant-at-injector-sleeve": True}, "injector-sleeve"),
        ({"white-smoke-stays": True, "loss-stops-cooler-bypassed": True}, "exhaust-gas-cooler"),
        ({"oil-in-coolant": True, "oil-cooler-leaks": True}, "oil-cooler"),
        ({"bubbles-in-radiator": True, "bubbles-stop-compressor-off": True}, "air-compressor"),
        ({"coolant-lost": True, "cab-wet": True, "loss-stops-heater-bypassed": True}, "heater"),
        ({"water-in-cylinder": True, "riser-wet-or-rusted": True}, "marine-riser"),
        ({"idle-high-or-hunting": True, "idle-changes-at-intake-joint": True}, "intake-joint"),
        ({"milk-under-cap-only": True, "coolant-lost": False}, "short-trip-mayonnaise"),
        ({"overheated": True, "cap-fails": True, "gas-in-coolant": False}, "pressure-cap"),
        ({"coolant-lost": True, "trail-at-hose-pump": True}, "hose-or-pump"),
    ],
)  # fmt: skip
def test_plain_stories(seen: dict[str, bool], leader: str) -> None:
    assert leak_causes(seen).leader.cause.id == leader


def test_a_part_the_engine_is_known_to_have_is_likelier_than_among_engines_at_large() -> None:
    seen = {"milk-in-sump": True, "water-in-sump-under-pressure": True, "coolant-lost": True,
            "gas-in-coolant": False, "oil-in-coolant": False}  # fmt: skip
    anyhow, wet = leak_causes(seen), leak_causes(seen, present=("liner-lower-seal", "liner-pinhole"))
    assert wet.leader.cause.id == "liner-lower-seal"
    assert wet.leader.share > next(c.share for c in anyhow.causes if c.cause.id == "liner-lower-seal")


def test_ways_of_a_cause_hang_together() -> None:
    seen = {"soot-at-joint": True, "air-to-outside": True}
    with_gas = next(c.share for c in leak_causes(seen).causes if c.cause.id == "gasket-to-outside")
    seen["coolant-trail-at-joint"] = True
    both = next(c.share for c in leak_causes(seen).causes if c.cause.id == "gasket-to-outside")
    assert both <= with_gas + 0.02


def test_a_second_witness_of_one_fact_counts_less() -> None:
    def cap(seen: dict[str, bool]) -> float:
        return next(c.share for c in leak_causes(seen).causes if c.cause.id == "pressure-cap")

    once, twice = cap({"cap-fails": True}), cap({"cap-fails": True, "spills-before-its-rating": True})
    assert once < twice < 0.9
    assert share_of_witness(2) == pytest.approx(1 / 1.5)


def test_the_odds_say_they_were_never_calibrated() -> None:
    assert any("never calibrated on real engines" in note.text for note in leak_causes({}).notes)


def test_shares_add_up_to_one() -> None:
    found = leak_causes({**PAIR_LOW, **GAS})
    assert sum(one.share for one in found.causes) == pytest.approx(1.0)
    assert found.head_off + found.impostor >= found.leader.share


def test_written_sum_gives_the_same_shares() -> None:
    seen = {
        **PAIR_LOW,
        **GAS,
        **leak_down_signs(["neighbour"]),
        "cap-fails": True,
        "spills-before-its-rating": True,
    }
    found = weigh(case_book("leak"), seen, present=("liner-pinhole",))
    for one in found.causes:
        assert found.written(one.cause.id)[-1].value == pytest.approx(one.share)


def test_places_of_one_look_that_stayed_dry_add_nothing_to_the_one_that_was_wet() -> None:
    wet = {"coolant-in-bore": True, "water-from-head-roof": True}
    dry = {"water-from-gasket-edge": False, "water-on-bore-wall": False}
    assert shares(case_book("leak"), {**wet, **dry}) == shares(case_book("leak"), wet)


def test_a_place_that_cannot_be_wet_says_nothing_when_it_is_dry() -> None:
    dry = {"coolant-in-bore": False}
    places = {"water-from-gasket-edge": False, "water-from-head-roof": False}
    assert shares(case_book("leak"), {**dry, **places}) == shares(case_book("leak"), dry)


@pytest.mark.parametrize(
    "trial", [trial.id for trial in case_book("leak").trials.values() if trial.form != "ask"]
)
def test_outcomes_of_a_test_are_all_there_is(trial: str) -> None:
    book = case_book("leak")
    found = outcomes_of(book, book.trials[trial], shares_of_ways(book, {}), {"bore-wet", "cap", "rings"})
    assert found.likely.sum(axis=0) == pytest.approx(np.ones(len(book.ways)))
    assert found.likely.shape == found.factor.shape


def test_what_an_outcome_does_to_the_odds_is_what_the_weighing_does() -> None:
    book, told = case_book("leak"), {"coolant-lost": True}
    now = shares_of_ways(book, told)
    found = outcomes_of(book, book.trials["bores-hot"], now)
    seen = {
        "hot-water-from-head-roof": True,
        "hot-water-from-gasket-edge": False,
        "hot-water-from-bore-wall": False,
    }
    after = shares_of_ways(book, {**told, **seen})
    predicted = now * found.factor
    predicted /= predicted.sum(axis=1, keepdims=True)
    assert min(float(abs(one - after).max()) for one in predicted) < 1e-12


@pytest.mark.parametrize(
    ("shown", "wall"),
    [
        ("bubbles-with-piston-low-only", ("liner-pinhole", "block-crack")),
        ("coolant-at-injector-sleeve", ("injector-sleeve",)),
    ],
)  # fmt: skip
def test_tests_that_part_what_looks_like_a_gasket(shown: str, wall: tuple[str, ...]) -> None:
    seen = {**GAS, "air-to-coolant": True}
    before, after = (shares(case_book("leak"), one) for one in (seen, {**seen, shown: True}))
    assert sum(after[cause] for cause in wall) > 2.5 * sum(before[cause] for cause in wall)


def test_gasket_and_crack_that_nothing_parts_are_named_with_what_shows_them_when_open() -> None:
    found = leak_causes({**GAS, "air-to-coolant": True, "coolant-in-bore": True})
    assert {"gasket-to-water", "head-crack"} <= {one.cause.id for one in found.alike}
    assert any("no track on the old gasket" in note.text for note in found.while_open)
    assert not leak_causes({**PAIR_LOW, "air-to-neighbour": True}).alike


def test_a_part_the_engine_has_not_got_is_out() -> None:
    found = leak_causes(GAS, absent=("injector-sleeve", "air-compressor"))
    assert {"injector-sleeve", "air-compressor"}.isdisjoint(one.cause.id for one in found.causes)
    assert {"injectors-out", "compressor-line-off"}.isdisjoint(one.trial.id for one in found.next)


def test_something_else_always_stays() -> None:
    found = leak_causes(PAIR_LOW, absent=("something-else",))
    assert "something-else" in {one.cause.id for one in found.causes}


def test_tests_done_are_not_asked_again() -> None:
    ids = [one.trial.id for one in leak_causes({**PAIR_LOW, "gas-in-coolant": False}).next]
    assert "dry-compression" not in ids
    assert "gas-in-coolant" not in ids
    assert "leak-down" in ids[:3]


def test_ranked_by_what_they_tell_per_minute() -> None:
    ranked = leak_causes(PAIR_LOW).next
    ready = threshold("set_up_minutes")
    sure = threshold("settling")
    worth = [
        (one.bits + sure * one.settles) / (ready + one.trial.minutes + one.trial.cost_minutes)
        for one in ranked
    ]
    assert worth == sorted(worth, reverse=True)


def test_dangerous_tests_carry_their_caution() -> None:
    trials = case_book("leak").trials
    assert "bursts the radiator" in trials["leak-down"].caution
    assert "liquid in a bore" in trials["dry-compression"].caution


def test_what_would_overturn_the_leader() -> None:
    blows = leak_causes(PAIR_LOW).overturned_by
    assert blows
    assert all(blow.then != "gasket-between-bores" for blow in blows)
    assert "air-to-neighbour" in {blow.sign.id for blow in blows if not blow.seen}


def test_signs_that_spoke_for_it_are_named() -> None:
    leader = leak_causes({**PAIR_LOW, "blue-smoke": False}).leader
    assert leader.speaks_for == ("two neighbours low and alike",)


def evenly(*causes: str) -> NDArray[np.float64]:
    """Share the odds evenly among a few causes."""
    ways = case_book("leak").ways.values()
    return np.array([way.share / len(causes) if way.cause in causes else 0.0 for way in ways])


def test_a_useless_test_tells_nothing() -> None:
    book = case_book("leak")
    assert information(book, book.trials["riser-off"], evenly("head-crack", "gasket-to-water")) == 0.0


def test_a_perfect_split_tells_almost_a_bit() -> None:
    book = case_book("leak")
    told = information(book, book.trials["oil-cooler-tested"], evenly("oil-cooler", "gasket-to-oil"))
    assert 0.6 < told < 1.0


def test_unknown_sign_names_the_known() -> None:
    with pytest.raises(TableGap, match="gas-in-coolant"):
        leak_causes({"gas-in-colant": True})


def test_unknown_part_names_the_known() -> None:
    with pytest.raises(OutOfRange, match="injector-sleeve"):
        leak_causes({}, absent=("injector-sleve",))


def test_two_outcomes_of_one_test_are_refused() -> None:
    with pytest.raises(OutOfRange, match="one outcome"):
        leak_causes({"compression-even": True, "compression-one-low": True})


def test_odds_and_words() -> None:
    assert [odds_in_words(share) for share in (1.0, 0.75, 0.5, 0.25)] == [
        "over 99 to 1 on", "3 to 1 on", "evens", "3 to 1 against",
    ]  # fmt: skip
    assert [share_in_words(share) for share in (1.0, 0.81, 0.55, 0.1, 0.0)] == [
        "almost certain", "very likely", "likely", "possible", "very unlikely",
    ]  # fmt: skip
