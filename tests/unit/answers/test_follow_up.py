"""follow-up: re-torque as the papers write it, or why not; papers that clash with the gasket stop it."""

import pytest
from unit.answers.testing import ask, example, four, notes, wanted

from firedeck.answers.answer import State

Q = "follow-up"
AGAIN = '[joint.procedure]\ntext = "40 N·m; 60 N·m; after 1000 km cold 60 N·m"\nfrom = "manual p. 9"\n'
STEEL = '[[joint.gasket.candidates]]\nname = "new"\nconstruction = "multi-layer-steel"\n'


def test_the_papers_distance_and_figure_stand_in_the_work():
    answer = ask(four(joint=AGAIN), Q)
    assert (answer.state, answer.action) == (State.DECIDED, "do-as-listed")
    assert "1000 km" in answer.headline
    assert any("1000 km" in work.text and "60 N·m" in work.figure for work in answer.work)
    assert "manual p. 9" in answer.sources


def test_stretched_fasteners_are_refused():
    answer = ask(example(), Q)
    assert answer.headline.startswith("No re-torque (gasket, stretched bolts)")
    assert "past yield" in notes(answer)


def test_a_gasket_that_forbids_it_is_refused():
    answer = ask(four(joint='[joint.procedure]\ntext = "60 N·m"\n' + STEEL), Q)
    assert answer.headline.startswith("No re-torque (gasket)")


def test_papers_and_gasket_that_clash_stop():
    answer = ask(four(joint=AGAIN + STEEL), Q)
    assert answer.action == "stop"
    assert "sheet with the gasket" in wanted(answer)
    assert not any("1000 km" in work.text for work in answer.work)


def test_no_procedure_is_open_and_still_lists_the_levels():
    answer = ask(four(), Q)
    assert answer.state is State.OPEN
    assert "level" in notes(answer)


def test_a_proof_that_failed_comes_before_any_date():
    answer = ask(four('[tests.proof]\nlevel-after = "no"', joint=AGAIN), Q)
    assert answer.action == "stop"


@pytest.mark.parametrize(("coolant", "asked"), [("air", False), ("water", True)])
def test_levels_only_where_there_is_a_liquid(coolant, asked):
    answer = ask(four(f'[running]\ncoolant = "{coolant}"', joint=AGAIN), Q)
    assert any("hose" in work.text for work in answer.work) is asked
