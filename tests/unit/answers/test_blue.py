"""Marking blue: with a film of known thickness it bounds the gap; without one it is words only."""

import pytest
from unit.answers.facing import ask, bores, face, least, wanted_of, words_of

from firedeck.answers.answer import Answer, State
from firedeck.errors import JobErrors
from firedeck.trace import Outcome


def ask_with(*faces: dict, **joint: object) -> Answer:
    return ask("face-flat", least({"readings": {"faces": list(faces)}, **joint}))


def blued(hollow: float | None = None, blue: str | None = None, **touched: object) -> dict:
    given = {"touched": touched, "seen": "deck from above"} | ({"blue": blue} if blue else {})
    return face("head", hollow, **given)


def taken(answer: Answer) -> str:
    return "; ".join(answer.assumptions)


@pytest.mark.parametrize(
    ("film", "error", "state"),
    [("0.005 mm", "0.01 mm", State.DECIDED), ("0.05 mm", "0.01 mm", State.CLOSE)],
)
def test_blue_all_over_bounds_the_gap(film, error, state):
    answer = ask_with(blued(blue="even", film=film, error=error), face("block", 0.0))
    check = next(one for one in answer.checks if "took blue all over" in one.name)
    assert check.value == pytest.approx(float(film[:-3]) + float(error[:-3]))
    assert check.limit is not None
    assert check.band.low == 0.0
    assert answer.state is state


def test_bare_of_blue_is_more_than_the_film_and_never_over_the_limit_by_itself():
    answer = ask_with(blued(film="0.06 mm", bare=[["100 mm", "0 mm"]]), face("block", 0.0))
    check = next(one for one in answer.checks if "by blue" in one.name)
    assert check.outcome is Outcome.CANNOT_TELL
    assert "more than 0.060 mm" in check.text
    assert answer.state is State.OPEN
    assert "stayed bare of blue, 100 mm/0 mm" in wanted_of(answer)


def test_rings_say_how_near_they_lie():
    rings = {"1": "all-round", "2": "parts"}
    answer = ask_with(
        blued(0.0, film="0.005 mm", error="0.002 mm", rings=rings), face("block", 0.0), layout=bores()
    )
    assert "ring of cylinder 1: blue takes all round, so it lies within 0.0070 mm" in taken(answer)
    assert "ring of cylinder 2: blue takes in parts only, the rest lies more than 0.0030 mm" in taken(answer)


@pytest.mark.parametrize(("hollow", "said"), [(0.04, True), (0.004, False)])
def test_points_that_contradict_the_blue_are_named(hollow, said):
    answer = ask_with(blued(hollow, film="0.005 mm", takes=[["100 mm", "0 mm"]], bare=[]), face("block", 0.0))
    assert ("one of the two is wrong" in taken(answer)) is said
    assert ("they disagree" in wanted_of(answer)) is said


def test_bare_where_the_points_are_high_is_named():
    answer = ask_with(blued(0.0, film="0.005 mm", bare=[["100 mm", "0 mm"]]), face("block", 0.0))
    assert "blue stays bare at 100 mm/0 mm, but the readings put the face 0 mm" in taken(answer)


def test_without_a_film_blue_is_words():
    answer = ask_with(blued(blue="even"), face("block", 0.0))
    assert "how thick the film is" in words_of(answer)
    assert not any("blue" in check.name for check in answer.checks)


def test_a_film_that_cannot_be_is_refused():
    with pytest.raises(JobErrors, match="film"):
        ask_with(blued(film="5 m"))


def test_a_ring_that_took_blue_all_round_and_dips_is_named():
    head = blued(0.04, film="0.005 mm", rings={"1": "all-round"})
    head |= {"zero": "bore 1", "zero_at": ["55 mm", "0 mm"]}
    answer = ask_with(head, face("block", 0.0), layout=bores())
    assert "blue takes at the ring of cylinder 1, but the readings put the face" in taken(answer)
