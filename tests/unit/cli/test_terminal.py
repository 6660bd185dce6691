"""Text of one answer, against text kept beside it. The answers are invented; no engine was measured."""

import copy

import pytest

from firedeck.cli.in_full import in_full
from firedeck.cli.terminal import overview


def shown(mm, inch):
    return {"as_typed": inch, "mm": mm, "inch": inch}


LIMIT = {
    "low": None,
    "high": 0.0508,
    "text": "0.002 in",
    "low_shown": None,
    "high_shown": shown("0.051 mm", "0.0020 in"),
    "measure": "under-the-edge",
    "rank": "manual",
    "source": "manual p. 9",
    "where": "limits.head",
}
CHECK = {
    "name": "head face, across",
    "quantity": "face_flatness",
    "label": "gap under the edge",
    "value": 0.0762,
    "unit": "mm",
    "shown": shown("0.076 mm", "0.0030 in"),
    "text": "",
    "limit": LIMIT,
    "margin": -0.0254,
    "margin_shown": shown("-0.025 mm", "-0.0010 in"),
    "band": {"low": 0.06, "high": 0.09, "share": 0.95, "why": "leaves of 0.02 mm"},
    "band_shown": [shown("0.060 mm", "0.0024 in"), shown("0.090 mm", "0.0035 in")],
    "outcome": "fails",
    "outcome_words": "fails",
    "counts": True,
    "rivals": [
        {
            **LIMIT,
            "high_shown": shown("0.100 mm", "0.0039 in"),
            "source": "common practice",
            "outcome": "holds",
            "outcome_words": "holds",
        }
    ],
}
ANSWER = {
    "question": "is-it-flat",
    "asks": "Is it flat?",
    "stage": "measure",
    "stage_words": "Measure",
    "joint": "left",
    "cylinders": ["1", "3"],
    "state": "decided",
    "state_words": "decided",
    "standing": "fails",
    "action": "cut",
    "action_words": "have it cut",
    "choice": "",
    "headline": "Head 0.0030 in hollow across, over the limit",
    "checks": [CHECK],
    "steps": [
        {
            "check": "head face, across",
            "says": "Room to the limit",
            "formula": "high - value",
            "inputs": {"high": [0.0508, "mm"], "value": [0.0762, "mm"]},
            "result": {"room": [-0.0254, "mm"]},
            "source": "derived",
        },
        {
            "check": "head face, across",
            "says": "Share of the limit",
            "formula": "value / high",
            "inputs": {"high": [0.0508, "mm"], "value": [0.0762, "mm"]},
            "result": {"share": [1.5, "1"]},
            "source": "derived",
        },
    ],
    "work": [
        {
            "text": "Ask for",
            "figure": "0.004 in off",
            "caution": "weigh it first",
            "source": "common practice",
        }
    ],
    "assumptions": ["edge taken as straight"],
    "cautions": ["never a disc on the face"],
    "next": [
        {
            "measure": "face after the cut",
            "tool": "straightedge",
            "how": "Cold and clean.",
            "paths": ["joint.left.readings.faces"],
            "worth": 0.4,
        }
    ],
    "anyway": "It leaks between the bores first.",
    "sources": ["manual p. 9"],
    "source_keys": ["manual p. 9"],
    "notes": [{"text": "A bow that pulls flat is still a bow.", "source": "common practice"}],
    "reason": "",
}
FULL = """\
Is it flat?  (Measure; head: left; cylinders 1, 3)
● Head 0.0030 in hollow across, over the limit
→ HAVE IT CUT  (decided)

Checks
  × fails · head face, across · 0.0030 in · limit at most 0.0020 in (manual p. 9)
      what the readings allow: 0.0024 in to 0.0035 in: leaves of 0.02 mm
      room left: -0.0010 in
      ● another limit, at most 0.0039 in (common practice), would say: holds

To do
  1. Ask for: 0.004 in off (common practice)
     mind: weigh it first

Mind
  - never a disc on the face

Measure next
  - face after the cut, with straightedge
    Cold and clean.
    worth: takes away 40% of what the readings leave open
    goes in: joint.left.readings.faces

If it is done anyway
  - It leaks between the bores first.

The sums
  For head face, across
  Room to the limit (derived)
    room = high - value
    with high = 0.0508 mm, value = 0.0762 mm
    room = -0.0254 mm
  Share of the limit (derived)
    share = value / high
    with high = 0.0508 mm, value = 0.0762 mm
    share = 1.5

Taken as given
  - edge taken as straight

Notes
  - A bow that pulls flat is still a bow. (common practice)

Sources
  - manual p. 9"""


def job(*answers, doubts=(), joints=("left", "right")):
    about = {"title": "Vee, invented", "date": "", "notes": "", "mechanic": "", "units": "inch"}
    return {"job": {**about, "doubts": list(doubts)}, "joints": list(joints), "answers": list(answers)}


def answer(**changed):
    return {**copy.deepcopy(ANSWER), **changed}


def test_one_answer_in_full():
    assert in_full(ANSWER, "as-typed") == FULL


def test_millimetres_when_asked():
    text = in_full(ANSWER, "mm")
    assert "× fails · head face, across · 0.076 mm · limit at most 0.051 mm (manual p. 9)" in text
    assert "room left: -0.025 mm" in text


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [("1 mm", "", "at least 1 mm"), ("", "2 mm", "at most 2 mm"), ("1 mm", "2 mm", "1 mm to 2 mm")],
)
def test_both_ends_of_a_limit(low, high, said):
    limit = {
        **LIMIT,
        "low_shown": shown(low, low) if low else None,
        "high_shown": shown(high, high) if high else None,
    }
    assert f"limit {said} (manual" in in_full(answer(checks=[{**CHECK, "limit": limit}]), "mm")


def test_a_check_in_words_has_no_figure():
    check = {**CHECK, "text": "no order written", "limit": None, "rivals": [], "outcome": "cannot-tell"}
    check["outcome_words"] = "cannot tell yet"
    assert "  ○ cannot tell yet · head face, across · no order written\n" in in_full(
        answer(checks=[check]), "mm"
    )


def test_short_form_of_an_open_answer_says_what_to_measure():
    text = overview(
        job(
            answer(state="open", state_words="not yet: measure this", standing="open", action=None, checks=[])
        ),
        "a b.toml",
        "mm",
    )
    assert "\nNot yet: measure this\n  ○ Head 0.0030 in hollow" in text
    assert "      measure: face after the cut, with straightedge\n" in text
    assert text.endswith('firedeck explain "a b.toml" QUESTION   (its name stands in brackets)')


def test_what_was_chosen_stands_beside_the_action():
    assert "→ HAVE IT CUT: thick one" in overview(job(answer(choice="thick one")), "a.toml", "mm")
    assert "→ HAVE IT CUT: thick one  (decided)" in in_full(answer(choice="thick one"), "mm")


def test_order_is_by_how_bad_it_is():
    fails, holds = answer(), answer(standing="settled", checks=[{**CHECK, "outcome": "holds"}])
    close = answer(state="close", standing="close", checks=[{**CHECK, "outcome": "at-limit"}])
    unfit = answer(
        state="not-applicable", standing="not-applicable", checks=[], action=None, reason="no liners"
    )
    unread = answer(state="open", standing="open", checks=[], action=None)
    text = overview(job(unfit, unread, holds, close, fails), "a.toml", "mm")
    heads = [line for line in text.splitlines()[2:] if line and not line.startswith(" ")]
    assert heads[:5] == [
        "Fails its limit",
        "Too close to call",
        "Settled",
        "Not yet: measure this",
        "Does not apply here",
    ]
    assert "  – Is it flat? [is-it-flat, left] no liners\n" in text


def test_the_head_is_named_only_where_there_are_several():
    assert "[is-it-flat, left]" in overview(job(answer()), "a.toml", "mm")
    assert "[is-it-flat]" in overview(job(answer(), joints=("left",)), "a.toml", "mm")


def test_readings_that_look_like_slips_are_asked_about():
    text = overview(
        job(answer(), doubts=[{"path": "engine.bore", "text": "3.4 mm or 3.4 in?"}]), "a.toml", "mm"
    )
    assert "\nLook at these readings again\n  ? engine.bore: 3.4 mm or 3.4 in?\n" in text


def test_lines_fit_the_terminal_and_words_stay_whole():
    long = "sheet-metal " * 40
    wordy = answer(cautions=[long], anyway=long, headline="Head " * 18, choice="thick " * 6)
    for line in (in_full(wordy, "mm") + overview(job(wordy), "a.toml", "mm")).splitlines():
        assert len(line) <= 96
        assert "sheet-\n" not in line
