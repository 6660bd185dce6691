"""The stop card and the lock on the tightening sheet: two people sign, and nothing on the card may be wrong."""

import pytest
from unit.answers.fastening import ask, group, job_of, outcomes, procedure

from firedeck.assess.assess import assess
from firedeck.assess.plain import plain
from firedeck.errors import JobError
from firedeck.report.render import render

SIGNED = {"read_by": "AB", "looked_by": "CD"}


def joint(**others: object) -> dict:
    return {
        "fasteners": [group(thread="M10", **{"class": "10.9"}, lubricant="oil")],
        "procedure": procedure("oiled; 20 N·m; 40 N·m"),
        "readings": {"fasteners": {"threads": "clean-and-even"}, "holes": {"good": ["all"]}},
        **others,
    }


def dowel(**others: str) -> dict:
    layout = {"seen": "deck from above", "dowels": [{"label": "f", "x": "0 mm", "y": "0 mm", **others}]}
    gasket = {"candidates": [{"name": "new", "thickness": "1.2 mm"}]}
    return {"layout": layout, "gasket": gasket}


@pytest.mark.parametrize(
    ("card", "why"),
    [
        ({}, "no initials yet"),
        ({"read_by": "AB"}, "one initial, it takes two"),
        (SIGNED, ""),
    ],
)
def test_tightening_is_locked_until_two_people_have_signed(card, why):
    answer = ask("tighten-how", joint(stop_card=card))
    assert bool(answer.locked) is bool(why)
    assert why in answer.locked
    assert outcomes(answer)["stop card"] == ("cannot-tell" if why else "holds")
    assert (answer.state, answer.action) == ("decided", "do-as-listed")


def test_signatures_do_not_unlock_what_is_known_to_be_wrong():
    wet = joint(stop_card=SIGNED, readings={"holes": {"good": ["1"], "liquid": ["2"]}})
    answer = ask("tighten-how", wet)
    assert "liquid in a blind hole" in answer.locked
    assert ask("goes-on", wet).action == "stop"


def test_the_card_counts_its_initials_and_says_when_it_is_signed():
    open_card, signed = (ask("goes-on", joint(stop_card=card)) for card in ({}, SIGNED))
    assert outcomes(open_card)["initials on this card"] == "cannot-tell"
    assert outcomes(signed)["initials on this card"] == "holds"


def test_one_person_cannot_sign_twice():
    with pytest.raises(JobError, match="another person's initials"):
        job_of(joint(stop_card={"read_by": "AB", "looked_by": "ab "}))


@pytest.mark.parametrize(("card", "locked"), [({}, True), (SIGNED, False)])
def test_the_sheet_says_that_it_is_locked_and_leaves_room_to_unlock_it(card, locked):
    whole = plain(assess(job_of(joint(stop_card=card))))
    sheet = " ".join(render(whole, "tightening", "text").decode().split())
    assert ("Locked: the stop card" in sheet) is locked
    assert ("looked at by ____" in sheet) is locked


@pytest.mark.parametrize(
    ("hole", "outcome"),
    [("9 mm", "holds"), ("7 mm", "cannot-tell"), ("6.8 mm", "fails"), ("6.5 mm", "fails")],
)
def test_a_dowel_with_little_room_is_doubted_and_one_on_the_bottom_stops(hole, outcome):
    answer = ask("goes-on", joint(**dowel(stand_out="8 mm", hole_depth=hole)))
    assert outcomes(answer)["dowels"] == outcome
