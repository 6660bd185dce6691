"""came-back: inside means strip and measure, a weep means the book's re-torque, oil means the breather first."""

import pytest
from unit.answers.testing import ask, example, four, notes, wanted

from firedeck.answers.answer import State

Q = "came-back"
TORQUE = '[joint.procedure]\ntext = "40 N·m; 60 N·m"\nfrom = "manual p. 9"\n'


def told(words: str, rest: str = "", joint: str = ""):
    return ask(four(f"[symptoms]\nseen = [{words}]\n{rest}", joint=joint), Q)


def test_a_joint_that_never_leaked_again_is_not_asked():
    assert ask(example(), Q).state is State.NOT_APPLICABLE


def test_the_same_place_again_with_the_block_never_read():
    answer = ask(four("[history]\nfailures = 3\nsame_place_before = true\ndeck_measured_before = false"), Q)
    assert answer.action == "strip"
    assert "block deck never measured" in answer.headline
    assert "bridge" in wanted(answer)
    assert "skimmed head does not mend a dipped block" in notes(answer)
    assert "raised ring of pulled thread" in notes(answer)


def test_liners_are_named_where_there_are_some():
    answer = told('"came-back", "coolant-lost"', "[history]\nfailures = 1", '[joint.block]\nliners = "wet"\n')
    assert answer.action == "strip"
    assert "liners and block deck" in answer.headline
    assert "liner stand" in wanted(answer)


def test_a_cold_weep_is_tightened_again_as_the_book_says():
    answer = told('"seep-at-joint"', joint=TORQUE)
    assert answer.action == "retorque-as-the-book"
    assert "back it off a little" in notes(answer)
    assert "Never hot under pressure" in notes(answer)


@pytest.mark.parametrize(
    ("joint", "why"),
    [
        ('[joint.procedure]\ntext = "30 N·m; +90°"\n', "turned into stretch"),
        (
            TORQUE + '[[joint.gasket.candidates]]\nname = "new"\nconstruction = "multi-layer-steel"\n',
            "the gasket",
        ),
        (TORQUE + '[[joint.gasket.candidates]]\nname = "new"\nretorque = "no"\n', "the gasket"),
        ("", "no torque of the papers"),
    ],
)
def test_a_weep_that_may_not_be_tightened_again(joint, why):
    answer = told('"outside-seep"', joint=joint)
    assert answer.action == "test-next"
    assert why in answer.headline


def test_oil_only_asks_the_breather_first():
    answer = told('"oil-seep", "came-back"', joint=TORQUE)
    assert answer.action == "test-next"
    assert "breather" in answer.headline
    assert "crankcase pressure" in wanted(answer)


def test_came_back_and_nothing_else_known_is_tested_first():
    answer = told('"came-back"')
    assert answer.action == "test-next"
    assert "pressure" in wanted(answer)


def test_a_weep_with_gas_inside_is_no_weep():
    assert told('"outside-seep", "bubbles-in-radiator"', "[history]\nfailures = 1", TORQUE).action == "strip"


def test_an_engine_in_the_air_is_asked_for_fins_and_not_for_a_thermostat():
    answer = told('"came-back", "power-lost"', '[history]\nfailures = 2\n[running]\ncoolant = "air"\n')
    assert "fins and cowl" in notes(answer)
    assert "thermostat" not in notes(answer)
