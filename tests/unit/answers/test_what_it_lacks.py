"""An engine cooled by air is told nothing of water, one without valves nothing of valves; what was taken is said."""

import json

import pytest
from unit.answers.fastening import ask, job_of, wanted_of, words_of

from firedeck.assess import assess

AIR = {"coolant": "air"}
SINGLE = {"arrangement": "single", "cylinders": ["1"]}
OF_WATER = (
    "coolant",
    "radiator",
    "jacket",
    "cooling system",
    "top hose",
    "pressure tight",
    "drained",
    "core plug",
)
QUESTIONS = (
    "strip-how",
    "casting-worth",
    "shop-order",
    "buy-what",
    "follow-up",
    "proved",
    "goes-on",
    "leak-where",
)


def everything(answer) -> str:
    said = [answer.headline, words_of(answer), wanted_of(answer), *answer.assumptions, *answer.cautions]
    return json.dumps([*said, *(one.name for one in answer.checks)]).lower()


@pytest.mark.parametrize("question", QUESTIONS)
def test_nothing_of_water_is_said(question):
    answer = ask(question, {"head": {"material": "aluminium"}}, engine=SINGLE, running=AIR)
    assert not [word for word in OF_WATER if word in everything(answer)]


@pytest.mark.parametrize("question", ["strip-how", "casting-worth", "buy-what", "proved"])
def test_the_same_words_stand_where_a_liquid_cools_it(question):
    answer = ask(question, {"head": {"material": "aluminium"}}, engine=SINGLE, running={"coolant": "water"})
    assert [word for word in OF_WATER if word in everything(answer)]


def test_a_silent_single_is_taken_as_liquid_cooled_and_asked():
    answer = ask("strip-how", {}, engine=SINGLE)
    assert "taken as liquid cooled" in "; ".join(answer.assumptions)
    assert "what cools the engine" in wanted_of(answer)
    assert "Drain" in words_of(answer)


def test_silent_barrels_stand_in_air():
    answer = ask("strip-how", {}, engine={"arrangement": "barrels"})
    assert "taken as air cooled" in "; ".join(answer.assumptions)
    assert "Drain" not in words_of(answer)


def test_an_inline_engine_is_not_asked():
    assert "what cools" not in wanted_of(ask("strip-how", {}))


@pytest.mark.parametrize(
    ("cracks", "action", "headline"),
    [
        ("not-done", "test-first", "crack test with dye"),
        ("none-found", "go-on", "Free of cracks"),
        ("found", "test-first", "have them judged"),
    ],
)
def test_a_head_without_a_jacket_is_judged_by_its_crack_test(cracks, action, headline):
    head = {"material": "aluminium", "origin": "used", "crack_test": cracks, "overheated": False}
    answer = ask("casting-worth", {"head": head}, engine=SINGLE, running=AIR)
    assert (answer.action, headline in answer.headline) == (action, True)


def test_the_order_asks_for_dye_instead_of_air():
    cut = {"head": {"crack_test": "not-done"}, "cut": {"head": "0.1 mm"}}
    order = ask("shop-order", cut, engine=SINGLE, running=AIR)
    assert "crack test" in order.headline
    assert "pressure" not in words_of(order).lower()


def test_the_whole_job_is_answered():
    assert len(assess(job_of({}, engine=SINGLE, running=AIR)).answers) > 20


PORTED = {"valve_gear": "ports", "fuel": "petrol"}
OF_VALVES = ("valve", "cam ", "timing marks", "stem seal")


@pytest.mark.parametrize("question", [one for one in QUESTIONS if one != "leak-where"])
def test_an_engine_without_valves_is_told_nothing_of_them(question):
    head = {"head": {"material": "aluminium"}}
    tests = {"compression": {"dry": "120, 70 psi"}}
    answer = ask(question, head, engine=PORTED, running={"coolant": "water"}, tests=tests)
    assert not [word for word in OF_VALVES if word in everything(answer)]


def test_their_valves_are_left_out_of_the_causes():
    tests = {"compression": {"dry": "120, 70 psi"}}
    ported = ask("leak-where", {}, engine=PORTED, tests=tests)
    assert "valve exhaust left out: no poppet valves" in ported.assumptions
    assert "valve or its seat" in everything(ask("leak-where", {}, tests=tests))


def test_one_with_valves_is():
    assert "valve" in everything(ask("casting-worth", {"head": {"material": "aluminium"}}))
