"""proved: a no stops, a sign since the work stops, all yes runs, and what was not done is never a yes."""

from itertools import combinations

import pytest
from unit.answers.testing import ask, check, example, four, notes, wanted

from firedeck.answers.answer import State
from firedeck.tables import rows
from firedeck.trace import Outcome

Q = "proved"
KEYS = {
    row["key"]: row["stage"] for row in rows("proof_list") if row["when"] in ("", "liquid-cooled", "valved")
}


def proof(**said: str) -> str:
    lines = [f'{key.replace("_", "-")} = "{word}"' for key, word in said.items()]
    return "\n".join(["[tests.proof]", *lines])


def all_yes(*but: str) -> dict[str, str]:
    return {key.replace("-", "_"): "yes" for key in KEYS if key not in but}


def test_nothing_done_is_open_with_the_list_before_the_start():
    answer = ask(four(), Q)
    assert answer.state is State.OPEN
    assert "cold pressure test" in wanted(answer)
    assert "turned twice by hand" in wanted(answer)
    assert [one.missing.paths[0] for one in answer.next][:2] == [
        "tests.proof.cold-pressure-test",
        "tests.proof.hand-turn",
    ]
    assert "tests.proof.bleed" in {path for one in answer.next for path in one.missing.paths}


def test_everything_good_runs():
    answer = ask(four(proof(**all_yes())), Q)
    assert (answer.state, answer.action) == (State.DECIDED, "run")


@pytest.mark.parametrize("key", KEYS)
def test_any_no_stops(key):
    said = {**all_yes(), key.replace("-", "_"): "no"}
    answer = ask(four(proof(**said)), Q)
    assert (answer.state, answer.action) == (State.DECIDED, "stop")
    assert any(one.outcome is Outcome.FAILS for one in answer.checks)


@pytest.mark.parametrize("key", KEYS)
def test_one_not_done_is_never_a_run(key):
    answer = ask(four(proof(**all_yes(key), **{key.replace("-", "_"): "not-done"})), Q)
    assert answer.action != "run"
    assert (answer.state is State.OPEN) == (KEYS[key] == "before")


def test_before_the_start_is_done_then_it_is_watched():
    before = {key.replace("-", "_"): "yes" for key, stage in KEYS.items() if stage == "before"}
    answer = ask(four(proof(**before)), Q)
    assert answer.action == "watch"
    assert "thermostat opens" in notes(answer)
    assert "marks that line up do not prove" in notes(answer)


def test_liquid_in_a_cylinder_after_the_work_stops():
    answer = ask(four('[symptoms]\nseen = ["coolant-in-cylinder"]\n[history]\nsince_work = "90 km"'), Q)
    assert answer.action == "stop"
    assert "pressure test" in wanted(answer)


def test_the_same_sign_before_the_work_is_no_alarm():
    answer = ask(four('[symptoms]\nseen = ["coolant-in-cylinder"]\n' + proof(**all_yes())), Q)
    assert answer.action == "run"


def test_nuts_that_moved_are_watched():
    joint = '[joint.readings.fasteners]\nloose = ["2", "5"]\n'
    answer = ask(four('[history]\nsince_work = "800 km"', joint=joint), Q)
    assert answer.action == "watch"
    assert check(answer, "fasteners found loose").value == 2.0


def test_oil_is_changed_again_where_coolant_met_it():
    told = '[symptoms]\nseen = ["coolant-in-oil"]\n'
    assert "oil and filter changed again" in notes(ask(four(told + proof(hand_turn="yes")), Q))
    assert "oil and filter changed again" not in notes(ask(four(proof(hand_turn="yes")), Q))


def test_an_air_cooled_engine_is_not_asked_for_coolant():
    answer = ask(four('[running]\ncoolant = "air"\n' + proof(hand_turn="yes")), Q)
    assert "coolant" not in " ".join(work.text for work in answer.work)


def test_a_line_of_ones_own_counts():
    assert ask(four(proof(**all_yes(), fan_runs="no")), Q).action == "stop"


def test_two_left_out_are_both_named():
    for pair in list(combinations(KEYS, 2))[:6]:
        answer = ask(four(proof(**all_yes(*pair))), Q)
        assert {f"tests.proof.{key}" for key in pair} <= {p for one in answer.next for p in one.missing.paths}


def test_what_this_engine_should_read_is_said_before_anything_is_done():
    answer = ask(example(), Q)
    expected = check(answer, "compression to expect")
    assert answer.state is State.OPEN
    assert expected.band.low < expected.band.high
    assert "after the work" in expected.text
    assert "only between cylinders" in expected.text
    assert "boils at" in notes(answer)
    assert any("ratio" in one.step.formula for one in answer.steps)


def test_without_a_cut_known_the_ratio_of_the_papers_is_taken():
    answer = ask(four('[running]\naltitude = "1500 m"', engine='ratio = "9"'), Q)
    assert "of the papers' ratio 9" in check(answer, "compression to expect").text
    assert "at most: when the intake valve closes is not known" in check(answer, "compression to expect").text


def test_both_ends_of_the_compression_to_expect_are_written_out():
    answer = ask(example(), Q)
    band = next(one.band for one in answer.checks if one.name == "compression to expect")
    gauges = [one.step.value for one in answer.steps if "gauge" in one.step.result]
    assert (min(gauges), max(gauges)) == (band.low, band.high)
    assert len(gauges) == 2
