"""leak-where: tests read together, each ending reachable, and a missing reading never clears the joint."""

from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from unit.answers.testing import ask, check, example, found, four, notes, vee, wanted

from firedeck.answers.answer import State
from firedeck.findings.tests import TestsRead
from firedeck.job import read_text
from firedeck.job.schema.tests import Shown
from firedeck.tables import rows
from firedeck.trace import Outcome

Q = "leak-where"


def compressed(dry: str, **others: str) -> str:
    lines = [f'{name} = "{text}"' for name, text in {"dry": dry, **others}.items()]
    return "\n".join(["[tests.compression]", *lines])


def seen(*words: str) -> str:
    return f"[symptoms]\nseen = {list(words)}".replace("'", '"')


def test_nothing_told_is_open_and_names_the_first_tests():
    answer = ask(four(), Q)
    assert answer.state is State.OPEN
    assert "compression" in wanted(answer)
    assert "tests.compression.dry" in answer.next[0].missing.paths


def test_the_example_is_stripped_on_agreeing_tests():
    answer = ask(example(), Q)
    assert (answer.state, answer.action, answer.cylinders) == (State.DECIDED, "strip", ("3",))
    assert answer.headline.startswith("No 3 low, lowest 0.70 of the highest")
    assert check(answer, "cylinder 3: air lost").outcome is Outcome.FAILS
    assert check(answer, "combustion gas").outcome is Outcome.FAILS


def test_one_kind_of_test_alone_asks_for_another():
    answer = ask(four(compressed("100, 62, 66, 101 psi")), Q)
    assert (answer.state, answer.action) == (State.DECIDED, "test-next")
    assert answer.cylinders == ("2", "3")
    assert "leak-down" in wanted(answer)
    assert "minutes" in wanted(answer)


def test_a_second_kind_that_agrees_takes_the_head_off():
    answer = ask(
        four(compressed("100, 62, 66, 101 psi") + "\n" + seen("overheated", "misfire-neighbours")), Q
    )
    assert answer.action == "strip"


def test_rules_side_by_side_as_rivals():
    dry = check(ask(four(compressed("100, 88, 100, 100 psi")), Q), "compression, lowest over highest")
    said = {dry.limit.text: dry.outcome, **{rival.limit.text: rival.outcome for rival in dry.rivals}}
    assert said == {"10 %": Outcome.FAILS, "15 %": Outcome.HOLDS, "25 %": Outcome.HOLDS}


@pytest.mark.parametrize(("lowest", "rule"), [("85", "85 %"), ("75", "75 %")])
def test_exactly_on_the_rule_of_the_papers_is_close(lowest, rule):
    rest = compressed(f"100, 100, {lowest}, 100 psi", rule=rule, **{"from": "manual"})
    answer = ask(four(rest), Q)
    assert (answer.state, answer.action) == (State.CLOSE, "test-next")
    assert check(answer, "compression, lowest over highest").outcome is Outcome.AT_LIMIT


def test_ten_psi_exactly_is_at_the_limit():
    answer = ask(four(compressed("160, 150, 155, 160 psi")), Q)
    assert check(answer, "compression, highest less lowest").outcome is Outcome.AT_LIMIT


def test_rules_that_disagree_are_close_not_a_verdict():
    answer = ask(
        four(compressed("100, 100, 88, 100 psi") + "\n" + seen("overheated", "bubbles-in-radiator")), Q
    )
    assert (answer.state, answer.action) == (State.CLOSE, "test-next")


def test_a_percentage_misleads_on_a_tiny_reading():
    answer = ask(four(compressed("80, 12, 100, 100 psi", wet="90, 22, 112, 112 psi")), Q)
    assert check(answer, "cylinder 2: gain").value == pytest.approx(10 / 12, rel=1e-4)
    assert "percentage misleads" in check(answer, "cylinder 2: gain").text
    assert "look at the rise as a pressure" in notes(answer)
    assert "10 psi" in check(answer, "cylinder 2: gain").text


def test_neighbours_are_by_head_and_order_along_the_block():
    answer = ask(vee(compressed("150, 148, 150, 151, 20, 149, 22, 150 psi")), Q)
    assert answer.cylinders == ("5", "7")
    apart = ask(vee(compressed("150, 148, 150, 151, 20, 22, 150, 150 psi")), Q)
    assert len(apart.cylinders) == 1


def test_the_pair_at_nought_is_named_before_the_one_beside_it():
    answer = ask(
        vee(compressed("170, 100, 35, 150, 0, 172, 0, 60 psi") + "\n" + seen("coolant-in-cylinder")), Q
    )
    assert answer.cylinders == ("5", "7")
    assert answer.action == "strip"


def test_without_conditions_the_figures_speak_only_between_cylinders():
    assert "only between cylinders" in notes(ask(four(compressed("100, 99, 98, 100 psi")), Q))
    assert "only between cylinders" not in notes(ask(example(), Q))


def test_even_compression_clears_nothing():
    answer = ask(four(compressed("100, 99, 98, 100 psi")), Q)
    assert answer.action == "test-next"
    assert "does not clear" in notes(answer)


def test_hot_worse_than_cold_on_every_cylinder():
    rest = '[tests.compression]\ncold = "130, 120, 118, 131 psi"\nhot = "120, 108, 95, 121 psi"'
    answer = ask(four(rest), Q)
    assert check(answer, "cylinder 3: hot over cold").outcome is Outcome.FAILS
    assert "opens with heat" in check(answer, "cylinder 3: hot over cold").text


def test_a_few_cylinders_against_the_papers():
    rest = '[tests.compression]\nonly = { 2 = "80 psi", 3 = "75 psi" }\nexpected = "150 psi"\nfrom = "manual"'
    answer = ask(
        four(rest + "\n" + seen("seep-at-joint", "oil-seep"), engine='fuel = "petrol"\nduty = "road"'), Q
    )
    assert check(answer, "cylinder 3: share").value == pytest.approx(0.5)
    assert answer.action == "strip"


def test_air_that_crosses_one_way_is_tested_again():
    rest = '[tests.leak_down]\nair_goes = { 1 = "nowhere" }\ninto = { 2 = "1" }'
    answer = ask(four(rest), Q)
    assert answer.action == "test-next"
    assert "from 2 to 1 and not back" in answer.headline
    assert "both ways at one pressure" in wanted(answer)
    both = ask(four('[tests.leak_down]\ninto = { 2 = "1", 1 = "2" }'), Q)
    assert "not back" not in both.headline


def test_a_tester_that_condemns_a_good_head_is_doubted():
    answer = ask(four('[tests.leak_down]\nreference = "as-bad"'), Q)
    assert answer.action == "test-next"
    assert "seats" in wanted(answer)


def test_a_wet_carpet_and_a_tight_joint_are_the_heater():
    rest = '[tests.coolant]\ngas_in_coolant = "no"\nhose_hard_when_cold = "no"\ndrop = "0.2 bar"\n'
    answer = ask(four(rest + seen("cab-wet", "coolant-lost"), engine='fuel = "petrol"\nduty = "road"'), Q)
    assert answer.action == "not-the-joint"
    assert "heater" in answer.headline


def test_parts_the_engine_has_not_got_are_left_out_and_said():
    text = notes(ask(example(), Q))
    assert "injector sleeve left out" in text
    assert "liner pinhole left out" in text


def test_care_carries_this_engines_number():
    cautions = " ".join(ask(example(), Q).cautions)
    assert "39 N·m" in cautions
    assert "turn by hand before cranking" in cautions
    assert "never open it hot" in cautions
    assert "lock it" in " ".join(ask(four(compressed("90, 90, 90, 90 psi")), Q).cautions)


def test_inside_a_boat_the_kind_of_liquid_is_asked():
    answer = ask(four(seen("coolant-in-cylinder"), engine='duty = "marine"'), Q)
    assert "raw water" in wanted(answer)
    assert "pressure test" in wanted(answer)


def test_odds_say_they_were_never_calibrated():
    assert "never calibrated" in notes(ask(example(), Q))


def test_one_cylinder_has_nothing_to_compare_with():
    job = example().changed({"tests.compression": {}, "tests.leak_down": {}})
    assert found(job).get(TestsRead).compression is None
    assert ask(job, Q).action == "strip"


def test_readings_all_nil_are_said_and_not_raised():
    answer = ask(four(compressed("0, 0, 0, 0 psi")), Q)
    assert "look at the gauge" in notes(answer)


def test_inch_and_metric_give_the_same_decision():
    psi = ask(four(compressed("160, 100, 104, 162 psi")), Q)
    bar = ask(four(compressed("11.0316, 6.89476, 7.17055, 11.1695 bar")), Q)
    assert (psi.state, psi.action, psi.headline) == (bar.state, bar.action, bar.headline)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.integers(0, 200), min_size=4, max_size=4), st.booleans())
def test_compression_alone_never_takes_a_head_off_or_clears_it(readings, warm):
    rest = compressed(", ".join(map(str, readings)) + " psi")
    rest += '\n[tests.conditions]\nengine = "warm"' if warm else ""
    answer = ask(four(rest), Q)
    assert answer.action in (None, "test-next")


def test_the_outcome_of_any_named_test_can_be_written_down():
    job = four(
        '[tests]\nshown = ["oil-cooler-leaks"]\n'
        + compressed("100, 99, 98, 100 psi")
        + "\n"
        + seen("oil-in-coolant")
    )
    answer = ask(job, Q)
    assert answer.action == "not-the-joint"
    assert "oil cooler" in answer.headline


def test_a_test_without_a_field_of_its_own_says_its_words():
    answer = ask(four(compressed("100, 99, 98, 100 psi") + "\n" + seen("cab-wet", "coolant-lost")), Q)
    named = [one.missing for one in answer.next if one.missing.paths[0] == "tests.shown"]
    assert named
    assert all("Write under shown" in one.how for one in named)


def test_the_words_of_the_document_are_the_signs_of_the_tests():
    own_field = {"symptoms", "dry-compression", "wet-compression", "leak-down"}
    signs = {
        row["evidence"]
        for row in rows("leak_evidence")
        if row["test"] not in own_field and not row["sums_up"]
    }
    assert set(get_args(Shown)) == signs


ONE = """
format = 0
[job]
title = "Invented"
[engine]
arrangement = "single"
cylinders = ["1"]
ratio = "9"
valve_closing = "50 deg"
rod = "140 mm"
stroke = "3 in"
fuel = "petrol"
[tests.compression]
dry = "{}"
[tests.conditions]
{}
[[joint]]
name = "head"
"""
FULL = (
    'throttle = "open"\nplugs_out = "all"\nengine = "warm"\nspeed = "brisk"\npuffs = "8"\n'
    'hose_valve = "at-the-plug"\ndecompressor = "locked-out"'
)
BEST = "best cylinder against"


@pytest.mark.parametrize(
    ("reading", "conditions", "outcome"),
    [
        ("60 psi", FULL, Outcome.FAILS),
        ("170 psi", FULL, Outcome.HOLDS),
        ("150 psi", FULL, Outcome.CANNOT_TELL),
        ("60 psi", "", Outcome.CANNOT_TELL),
        ("60 psi", FULL.replace("locked-out", "working"), Outcome.CANNOT_TELL),
        ("60 psi", FULL.replace("at-the-plug", "at-the-gauge"), Outcome.CANNOT_TELL),
        ("60 psi", FULL.replace("brisk", "slow"), Outcome.CANNOT_TELL),
        ("60 psi", FULL.replace('"open"', '"closed"'), Outcome.CANNOT_TELL),
        ("15 bar", FULL, Outcome.CANNOT_TELL),
    ],
)
def test_one_cylinder_is_held_against_what_its_ratio_gives(reading, conditions, outcome):
    answer = ask(read_text(ONE.format(reading, conditions)), Q)
    assert check(answer, BEST).outcome is outcome
    assert "even" not in answer.headline
    asks = outcome is Outcome.CANNOT_TELL and reading == "60 psi"
    assert ("how it is cranked" in wanted(answer)) is asks
    assert ("only between cylinders" in notes(answer)) is (conditions != FULL)


def test_a_condition_that_spoils_the_reading_is_named():
    answer = ask(read_text(ONE.format("60 psi", FULL.replace("locked-out", "working"))), Q)
    assert "decompressor working" in check(answer, BEST).text


def test_a_decompressor_is_asked_for_only_where_one_is_usual():
    assert "decompressor" in notes(ask(read_text(ONE.format("60 psi", "")), Q))
    assert "decompressor" not in notes(ask(four(compressed("100, 99, 98, 100 psi")), Q))


def test_without_the_closing_of_the_valve_a_low_figure_is_no_verdict():
    text = ONE.format("60 psi", FULL).replace('valve_closing = "50 deg"\n', "")
    found_so = check(ask(read_text(text), Q), BEST)
    assert found_so.outcome is Outcome.CANNOT_TELL
    assert "closes is not known" in found_so.text


def test_where_it_is_stripped_the_tests_left_are_optional():
    answer = ask(example(), Q)
    assert answer.action == "strip"
    assert answer.next
    assert all(one.missing.measure.startswith("optional") for one in answer.next)
    assert "optional" not in wanted(ask(four(compressed("100, 99, 98, 100 psi")), Q))


def test_a_low_single_is_asked_how_it_was_cranked_and_what_cools_it():
    unsaid = ask(read_text(ONE.format("60 psi", "")), Q)
    assert "say first how it was cranked" in unsaid.headline
    assert "what cools the engine" in wanted(unsaid)
    known = ask(
        read_text(
            ONE.format("60 psi", FULL).replace("[tests.comp", '[running]\ncoolant = "air"\n[tests.comp')
        ),
        Q,
    )
    assert "next leak-down" in known.headline
    assert "what cools the engine" not in wanted(known)


def test_the_next_test_is_a_test_and_not_what_cools_the_engine():
    symptom = '[symptoms]\nseen = ["noise-at-edge"]\n[tests.comp'
    answer = ask(read_text(ONE.format("170 psi", FULL).replace("[tests.comp", symptom)), Q)
    assert "; next " in answer.headline
    assert "cools" not in answer.headline
    assert "what cools the engine" in wanted(answer)


DIESEL = 'fuel = "diesel"\npre_chamber = true\nratio = "22"\nvalve_closing = "35 deg"\nrod = "140 mm"\nstroke = "86 mm"'


def test_a_pre_chamber_never_fails_by_what_its_ratio_would_give():
    said = "\n[tests.conditions]\n" + FULL.replace('"open"', '"no-throttle"')
    answer = ask(four(compressed("28, 28, 27, 28 bar") + said, engine=DIESEL), Q)
    assert check(answer, BEST).outcome is Outcome.CANNOT_TELL
    assert "pre-chamber cools" in check(answer, BEST).text
    assert "how it is cranked" not in wanted(answer)
