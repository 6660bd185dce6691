"""The tables of causes, signs and tests hold together."""

from typing import Literal

import pytest

from firedeck.diagnosis.case_book import ANY_OF, ASK, ONE_OF, UNLISTED, case_book
from firedeck.diagnosis.thresholds import threshold
from firedeck.errors import TableGap
from firedeck.tables import rows
from firedeck.trace import FIXED

Name = Literal["leak", "root"]
BOTH = pytest.mark.parametrize("name", ["leak", "root"])


@BOTH
def test_likelihoods_leave_room_for_doubt(name: Name) -> None:
    for sign in case_book(name).signs.values():
        assert all(0.01 <= share <= 0.97 for share in (sign.otherwise, *sign.likely.values())), sign.id


@BOTH
def test_outcomes_of_a_one_of_test_add_up(name: Name) -> None:
    book = case_book(name)
    for trial in book.trials.values():
        if trial.form == ONE_OF:
            for cause in book.causes:
                signs = book.signs_of(trial.id)
                total = sum(sign.likely.get(cause, sign.otherwise) for sign in signs)
                assert total == pytest.approx(1.0), (trial.id, cause)


@BOTH
def test_every_cause_can_be_told_and_stands_out_somewhere(name: Name) -> None:
    book = case_book(name)
    for cause in book.causes:
        if cause != UNLISTED:
            assert any(sign.likely.get(cause, 0.0) > 2 * sign.otherwise for sign in book.signs.values()), (
                cause
            )


@BOTH
def test_every_test_shows_something_and_takes_time(name: Name) -> None:
    book = case_book(name)
    for trial in book.trials.values():
        assert trial.form in (ONE_OF, ANY_OF, ASK)
        assert trial.minutes > 0
        assert book.signs_of(trial.id), trial.id
        assert trial.tool
        assert trial.how.endswith(".")


@BOTH
def test_weights_are_per_thousand(name: Name) -> None:
    total = sum(cause.weight for cause in case_book(name).causes.values())
    assert total == pytest.approx(1000, rel=0.16)


OURS = ("leak_causes", "leak_evidence", "leak_tests", "root_causes", "root_evidence", "root_tests")


@pytest.mark.parametrize("table", [*OURS, "diagnosis_rules", "odds_words"])
def test_every_row_says_where_it_comes_from(table: str) -> None:
    assert {row["source"] for row in rows(table)} <= set(FIXED)


def test_root_causes_say_what_to_do_while_open() -> None:
    assert all(cause.while_open for cause in case_book("root").causes.values())


def test_impostors_are_there() -> None:
    impostors = {cause.id for cause in case_book("leak").causes.values() if cause.impostor}
    assert {
        "injector-sleeve",
        "exhaust-gas-cooler",
        "core-plug",
        "heater",
        "short-trip-mayonnaise",
    } <= impostors


def test_unknown_threshold() -> None:
    with pytest.raises(TableGap):
        threshold("luck")
