"""Facts of the trade about the joint and the tests: common practice, no source; jobs and words of our own."""

from unit.answers.testing import ask, example, notes

from firedeck.trace import COMMON_PRACTICE


def sources_of(answer, words: str) -> set[str]:
    return {note.source for note in answer.notes if words in note.text}


def test_layers_must_spring_after_a_head_that_moves():
    answer = ask(example(joint__head__gasket__fitted="steel"), "joint-holds")
    assert sources_of(answer, "lifts a little at every firing") == {COMMON_PRACTICE}
    assert "still spring follow" in notes(answer)
    assert answer.action != "no-worse"


def test_a_stop_beside_the_bead_is_told_with_what_it_does():
    steel = ask(example(joint__head__gasket__fitted="steel"), "joint-holds")
    soft = ask(example(joint__head__gasket__fitted="soft"), "joint-holds")
    assert sources_of(steel, "stopper") == {COMMON_PRACTICE}
    assert "stopper" not in notes(soft)
    assert "combustion line" in notes(steel)
