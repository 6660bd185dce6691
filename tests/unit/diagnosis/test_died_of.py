"""What killed it: plain stories, the verdict, and what to do while it is open."""

import pytest

from firedeck.diagnosis import died_of
from firedeck.errors import OutOfRange, TableGap


@pytest.mark.parametrize(
    ("seen", "leader"),
    [
        ({"overheated": True, "coolant-lost-first": True}, "overheated-no-coolant"),
        (
            {"overheated": True, "coolant-lost-first": False, "cooling-part-failed": True},
            "overheated-no-flow",
        ),
        ({"pistons-pitted": True, "ring-cracked-or-hammered": True}, "detonation"),
        ({"all-fasteners-slack": True, "retightening-missed": True}, "fasteners-loose"),
        ({"fastener-too-long": True, "fasteners-used-again": True}, "fasteners-stretched"),
        ({"washer-or-seat-dished": True, "one-fastener-slack": True}, "seat-sunk"),
        ({"liner-low": True, "print-faint-one-bore": True}, "liner-sunk"),
        ({"deck-out-of-flat": True, "print-faint-one-bore": True}, "deck-dip"),
        ({"coolant-neglected": True, "edges-eaten": True, "coolant-sour-or-live": True}, "corrosion"),
        ({"holes-do-not-match": True, "recent-head-job": True}, "wrong-part"),
        ({"dirt-under-gasket": True, "recent-head-job": True}, "bad-cleaning"),
        ({"face-too-rough": True, "recent-head-job": True, "dirt-under-gasket": False}, "poor-machining"),
        ({"casting-leaks": True, "same-place-before": True}, "cracked-casting"),
        ({"high-mileage": True, "recent-head-job": False, "overheated": False}, "age"),
        ({"head-out-of-flat": True, "overheated": False, "recent-head-job": False}, "head-bowed"),
    ],
)
def test_plain_stories(seen: dict[str, bool], leader: str) -> None:
    found = died_of(seen)
    assert found.leader.cause.id == leader
    assert any(note.text.startswith(found.leader.cause.label) for note in found.while_open)


def test_nothing_known_is_unknown_and_says_it_will_come_back() -> None:
    found = died_of({})
    assert found.verdict == "unknown"
    assert any("come back" in note.text for note in found.notes)


def test_strong_signs_make_it_known() -> None:
    found = died_of({"pistons-pitted": True, "ring-cracked-or-hammered": True, "knock-heard": True})
    assert found.verdict == "cause-known"
    assert not any("come back" in note.text for note in found.notes)


def test_half_signs_make_it_likely() -> None:
    assert died_of({"overheated": True, "coolant-lost-first": True}).verdict == "cause-likely"


def test_overheated_alone_is_named_and_why_is_open() -> None:
    found = died_of({"overheated": True})
    assert found.verdict == "cause-likely"
    assert found.family is not None
    assert found.family.share == pytest.approx(sum(one.share for one in found.family.members))
    assert found.leader.share < 0.5 < found.family.share


def test_a_single_likely_cause_needs_no_family() -> None:
    assert died_of({"overheated": True, "coolant-lost-first": True}).family is None


def test_the_odds_say_they_were_never_calibrated() -> None:
    assert any("never calibrated" in note.text for note in died_of({}).notes)


def test_no_liners_no_liner_measuring() -> None:
    found = died_of({}, absent=("liner-sunk",))
    assert "liner-sunk" not in {one.cause.id for one in found.causes}
    assert "liners-measured" not in {one.trial.id for one in found.next}


def test_unknown_sign_and_part() -> None:
    with pytest.raises(TableGap, match="root_evidence"):
        died_of({"gremlins": True})
    with pytest.raises(OutOfRange, match="absent"):
        died_of({}, absent=("gremlins",))
