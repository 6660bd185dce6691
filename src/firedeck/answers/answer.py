"""The one answer every face shows, and the rules no answer may break."""

from dataclasses import dataclass
from enum import StrEnum

from firedeck.answers.questions import questions
from firedeck.trace import Check, Missing, Note, Outcome, Step

LONGEST_HEADLINE = 90


class State(StrEnum):
    """How far an answer goes."""

    DECIDED = "decided"
    CLOSE = "close"
    OPEN = "open"
    NOT_APPLICABLE = "not-applicable"


@dataclass(frozen=True)
class Working:
    """One written sum, and the check it belongs to."""

    check: str
    step: Step


@dataclass(frozen=True)
class Work:
    """One line to do: what, its figure, the care it needs, and who says so."""

    text: str
    source: str
    figure: str = ""
    caution: str = ""


@dataclass(frozen=True)
class Next:
    """What to measure next, and the share of the band it would take away (None: not known)."""

    missing: Missing
    worth: float | None = None


@dataclass(frozen=True)
class Answer:
    """What to do about one question of one joint (joint None: the whole engine).

    The rules of ``__post_init__`` hold for every answer: decided has a check, a step and a source;
    close has a band that holds the limit, a value exactly at it, or limits of one rank that disagree; open says
    what to measure and names no action; not-applicable says why. ``locked`` says why listed work may not begin yet.
    """

    question: str
    joint: str | None
    cylinders: tuple[str, ...]
    state: State
    action: str | None
    headline: str
    checks: tuple[Check, ...] = ()
    steps: tuple[Working, ...] = ()
    work: tuple[Work, ...] = ()
    assumptions: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    next: tuple[Next, ...] = ()
    anyway: str = ""
    sources: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()
    reason: str = ""
    choice: str = ""
    locked: str = ""

    def __post_init__(self) -> None:
        fault = self._fault()
        if fault:
            raise ValueError(f"{self.question} ({self.joint or 'engine'}): {fault}")

    def _fault(self) -> str:
        if not 0 < len(self.headline) <= LONGEST_HEADLINE:
            return f"headline of {len(self.headline)} characters"
        stray = {working.check for working in self.steps} - {check.name for check in self.checks}
        if stray and self.state is not State.OPEN:
            return f"steps of no check: {sorted(stray)}"
        match self.state:
            case State.DECIDED | State.CLOSE:
                return self._fault_of_decision()
            case State.OPEN:
                return "" if self.next and self.action is None else "open says what to measure, no action"
            case State.NOT_APPLICABLE:
                return "" if self.reason and self.action is None else "not-applicable says why, no action"

    def _fault_of_decision(self) -> str:
        question = questions()[self.question]
        if self.action not in question.actions:
            return f"action {self.action!r} is not of the list"
        if not (self.checks and self.steps and self.sources):
            return "a decision needs a check, a step and a source"
        if question.is_work and not self.work:
            return "a question of work lists the work"
        if self.state is State.CLOSE and not any(_is_close(check) for check in self.checks):
            return "close needs a band that holds the limit, a value at it, or limits that disagree"
        return ""


def _is_close(check: Check) -> bool:
    """Tell whether a check is too close to call: at the limit, or limits of one rank that disagree."""
    if check.outcome is Outcome.AT_LIMIT:
        return True
    if any(
        check.limit and rival.limit.rank is check.limit.rank and rival.outcome is not check.outcome
        for rival in check.rivals
    ):
        return True
    limits = [check.limit, *(rival.limit for rival in check.rivals)]
    return bool(check.band) and any(limit and check.band and check.band.straddles(limit) for limit in limits)
