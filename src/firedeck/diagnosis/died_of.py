"""What killed the gasket: root causes weighed by what was told, found and measured."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Literal

from firedeck.diagnosis.case_book import UNLISTED, case_book
from firedeck.diagnosis.causes import NOT_CALIBRATED
from firedeck.diagnosis.next_test import NextTest, Overturn, added_up, next_tests, overturned_by
from firedeck.diagnosis.odds import Seen, Weighed, Weighing, weigh
from firedeck.diagnosis.odds_words import odds_in_words, share_in_words
from firedeck.diagnosis.thresholds import threshold
from firedeck.trace import COMMON_PRACTICE, Note, Step

Verdict = Literal["cause-known", "cause-likely", "unknown"]


@dataclass(frozen=True)
class Family:
    """Causes of one kind, together likelier than any of them alone: "overheated", and why is open.

    ``share`` of all causes [1] and its written sum.
    """

    label: str
    members: tuple[Weighed, ...]
    share: float
    words: str
    step: Step

    @property
    def odds(self) -> str:
        """The share as odds."""
        return odds_in_words(self.share)


@dataclass(frozen=True)
class DiedOf:
    """Root causes, likeliest first, how sure, and what to replace or test with the head off.

    ``family`` is there where a kind of cause is likely and no single one of it is.
    """

    verdict: Verdict
    family: Family | None
    causes: tuple[Weighed, ...]
    while_open: tuple[Note, ...]
    next: tuple[NextTest, ...]
    overturned_by: tuple[Overturn, ...]
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]

    @property
    def leader(self) -> Weighed:
        """The likeliest cause."""
        return self.causes[0]


def died_of(seen: Seen, absent: Collection[str] = ()) -> DiedOf:
    """Weigh what killed the gasket.

    Parameters
    ----------
    seen : mapping of str to bool
        Signs of tables/data/root_evidence.csv: True seen, False looked for and not there [1].
    absent : collection of str
        Causes this engine cannot have, such as sunk liners where there are none [text].

    Returns
    -------
    DiedOf
        Verdict, causes with shares, what to do while it is open [1].

    Raises
    ------
    TableGap
        For a sign the table does not have.
    OutOfRange
        For a cause in ``absent`` that is not in the table.

    Valid for
    ---------
    One root cause at a time; several often add up.

    Source
    ------
    [generic-ours] tables/data/root_causes.csv and root_evidence.csv.

    Examples
    --------
    >>> died_of({}).verdict
    'unknown'
    >>> died_of({"deck-out-of-flat": True, "print-faint-one-bore": True}).leader.cause.id
    'deck-dip'
    >>> died_of({"overheated": True}).family.label
    'overheated'
    """
    book = case_book("root")
    weighing = weigh(book, seen, absent)
    ranked = next_tests(book, seen, absent)
    family = _family(weighing)
    verdict: Verdict = "cause-likely" if family else _verdict(weighing.leader)
    return DiedOf(
        verdict,
        family,
        weighing.causes,
        _while_open(weighing.causes),
        ranked,
        overturned_by(book, seen, absent),
        (*weighing.written(weighing.leader.cause.id), *((family.step,) if family else ())),
        (NOT_CALIBRATED, *_warning(verdict)),
    )


def _verdict(leader: Weighed) -> Verdict:
    if leader.cause.id == UNLISTED or leader.share < threshold("cause_likely_from"):
        return "unknown"
    return "cause-known" if leader.share >= threshold("cause_known_from") else "cause-likely"


def _family(weighing: Weighing) -> Family | None:
    """Add up the causes of the leader's kind where the leader alone is not likely and they are together."""
    label = weighing.leader.cause.family
    if not label or weighing.leader.share >= threshold("cause_likely_from"):
        return None
    members = tuple(one for one in weighing.causes if one.cause.family == label)
    parts = {one.cause.id: one.share for one in members}
    step = added_up(f"{label.capitalize()}, whatever the reason: share of all causes", parts, "family")
    if step.value < threshold("cause_likely_from"):
        return None
    return Family(label, members, step.value, share_in_words(step.value), step)


def _while_open(causes: tuple[Weighed, ...]) -> tuple[Note, ...]:
    """What to do for every cause that is still possible."""
    possible = [one for one in causes if one.share >= threshold("while_open_from")]
    return tuple(Note(f"{one.cause.label}: {one.cause.while_open}", COMMON_PRACTICE) for one in possible)


def _warning(verdict: Verdict) -> tuple[Note, ...]:
    if verdict != "unknown":
        return ()
    return (Note("Put together with the cause unknown it will likely come back.", COMMON_PRACTICE),)
