"""Where does it leak: causes by place, what speaks for each, and which test tells most next."""

from collections.abc import Callable, Collection
from dataclasses import dataclass

from firedeck.diagnosis.case_book import Cause, case_book
from firedeck.diagnosis.next_test import NextTest, Overturn, added_up, next_tests, overturned_by
from firedeck.diagnosis.odds import Seen, Weighed, Weighing, weigh
from firedeck.diagnosis.odds_words import share_said
from firedeck.diagnosis.thresholds import threshold
from firedeck.trace import COMMON_PRACTICE, GENERIC, Note, Step

NOT_CALIBRATED = Note(
    "The odds come from our own table of likelihoods and were never calibrated on real engines: "
    "they order what to look at next, they prove nothing.",
    GENERIC,
)


@dataclass(frozen=True)
class LeakCauses:
    """Where it may leak, likeliest first.

    ``head_off`` share of causes for which the head must come off [1], ``impostor`` share of causes
    that only look like the head joint [1], ``next`` tests worth most per minute, ``overturned_by``
    what would unseat the first, ``while_open`` what shows each cause with the head off.
    """

    causes: tuple[Weighed, ...]
    head_off: float
    impostor: float
    next: tuple[NextTest, ...]
    overturned_by: tuple[Overturn, ...]
    while_open: tuple[Note, ...]
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]

    @property
    def alike(self) -> tuple[Weighed, ...]:
        """Causes that the head comes off for and that are not told apart yet, likeliest first; none where one is settled."""
        if self.leader.share >= threshold("settled_from"):
            return ()
        left = [
            one for one in self.causes if one.share >= threshold("while_open_from") and one.cause.head_off
        ]
        return tuple(left) if len(left) > 1 else ()

    @property
    def leader(self) -> Weighed:
        """The likeliest cause."""
        return self.causes[0]

    @property
    def head_off_said(self) -> str:
        """The share of causes for which the head must come off, never called certain."""
        return share_said(self.head_off)

    @property
    def impostor_said(self) -> str:
        """The share of causes that only look like the head joint, never called certain."""
        return share_said(self.impostor)


def leak_causes(seen: Seen, absent: Collection[str] = (), present: Collection[str] = ()) -> LeakCauses:
    """Weigh where it leaks by what was seen.

    Parameters
    ----------
    seen : mapping of str to bool
        Signs of tables/data/leak_evidence.csv: True seen, False looked for and not there [1].
    absent : collection of str
        Causes this engine cannot have, such as a part it has not got [text].
    present : collection of str
        Causes whose part this engine is known to have, which makes them likelier than among engines at large [text].

    Returns
    -------
    LeakCauses
        Causes with shares, next tests, and what would overturn the first [1].

    Raises
    ------
    TableGap
        For a sign the table does not have.
    OutOfRange
        For a cause in ``absent`` that is not in the table, or two outcomes of one test.

    Valid for
    ---------
    One leak at a time: two faults at once are not among the causes.

    Source
    ------
    [generic-ours] tables/data/leak_causes.csv and leak_evidence.csv.

    Examples
    --------
    >>> found = leak_causes({"compression-adjacent-pair-low": True, "air-to-neighbour": True})
    >>> found.leader.cause.label, found.leader.words
    ('head gasket between two cylinders', 'almost certain')
    """
    book = case_book("leak")
    weighing = weigh(book, seen, absent, present)
    head_off = _total(weighing, "Causes for which the head must come off", "head_off", lambda c: c.head_off)
    impostor = _total(weighing, "Causes that only look like the head joint", "impostor", lambda c: c.impostor)
    ranked = next_tests(book, seen, absent, present)
    return LeakCauses(
        weighing.causes,
        head_off.value,
        impostor.value,
        ranked,
        overturned_by(book, seen, absent, present),
        _while_open(weighing.causes),
        (*weighing.written(weighing.leader.cause.id), head_off, impostor),
        (NOT_CALIBRATED, Note("One fault at a time is weighed; two at once can look like a third.", GENERIC)),
    )


def _while_open(causes: tuple[Weighed, ...]) -> tuple[Note, ...]:
    """Say what shows each cause that is still possible once the head is off."""
    possible = [one.cause for one in causes if one.share >= threshold("while_open_from")]
    return tuple(
        Note(f"{one.label}: {one.while_open}", COMMON_PRACTICE) for one in possible if one.while_open
    )


def _total(weighing: Weighing, says: str, name: str, counts: Callable[[Cause], bool]) -> Step:
    parts = {one.cause.id: one.share for one in weighing.causes if counts(one.cause)}
    return added_up(says, parts, name)
