"""The rules of the answer type: what each state demands."""

import pytest

from firedeck.answers.answer import Answer, Next, State, Work, Working
from firedeck.trace import Band, Check, Context, Limit, Measure, Missing, Outcome, Rank, Step

LIMIT = Limit("face_flatness", None, 0.05, Measure.UNDER_THE_EDGE, Context(), Rank.MANUAL, "manual p. 1")
CHECK = Check("head along", "face_flatness", 0.04, Outcome.HOLDS, LIMIT, 0.01)
STEP = Working(
    "head along",
    Step.work_out(
        "Room", "high - value", {"high": (0.05, "mm"), "value": (0.04, "mm")}, ("room", "mm"), "derived"
    ),
)
NEXT = Next(Missing(("joint.head.readings.faces",), "the face", "straightedge", "lay it on"))


def make(state=State.DECIDED, action="leave", **others):
    fields = {"headline": "in", "checks": (CHECK,), "steps": (STEP,), "sources": ("manual p. 1",)} | others
    return Answer(
        others.pop("question", "face-flat"),
        "head",
        ("1",),
        state,
        action,
        **{k: v for k, v in fields.items() if k != "question"},
    )


def test_a_whole_decision_stands():
    assert make().action == "leave"


@pytest.mark.parametrize("lacking", ["checks", "steps", "sources"])
def test_decided_needs_check_step_and_source(lacking):
    with pytest.raises(ValueError, match="check, a step and a source"):
        make(**({lacking: ()} | ({"steps": ()} if lacking == "checks" else {})))


def test_actions_come_from_the_closed_list():
    with pytest.raises(ValueError, match="not of the list"):
        make(action="scrap")


def test_headlines_are_short():
    with pytest.raises(ValueError, match="91 characters"):
        make(headline="x" * 91)


def test_steps_name_a_check():
    with pytest.raises(ValueError, match="no check"):
        make(steps=(Working("other", STEP.step),))


def test_close_needs_a_band_over_the_limit_or_a_value_at_it():
    with pytest.raises(ValueError, match="close needs"):
        make(State.CLOSE)
    over = Check("head along", "face_flatness", 0.05, Outcome.CANNOT_TELL, LIMIT, 0.0, Band(0.04, 0.06))
    assert make(State.CLOSE, checks=(over,)).state is State.CLOSE
    at = Check("head along", "face_flatness", 0.05, Outcome.AT_LIMIT, LIMIT, 0.0)
    assert make(State.CLOSE, checks=(at,)).state is State.CLOSE


def test_open_says_what_to_measure_and_does_nothing():
    assert make(State.OPEN, None, next=(NEXT,)).next
    with pytest.raises(ValueError, match="what to measure"):
        make(State.OPEN, None)
    with pytest.raises(ValueError, match="no action"):
        make(State.OPEN, "leave", next=(NEXT,))


def test_not_applicable_says_why():
    with pytest.raises(ValueError, match="says why"):
        make(State.NOT_APPLICABLE, None)
    assert make(State.NOT_APPLICABLE, None, reason="no liners").reason


def test_work_questions_list_the_work():
    with pytest.raises(ValueError, match="lists the work"):
        make(action="do-as-listed", question="strip-how")
    work = (Work("drain the block", "common-practice"),)
    assert make(action="do-as-listed", question="strip-how", work=work).work
