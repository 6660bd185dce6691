"""How an answer is put together: the four endings, each with what its state demands."""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace

from firedeck.answers.answer import Answer, Next, State, Work, Working
from firedeck.answers.judging import Judged
from firedeck.job import Joint
from firedeck.quantity import Kind, show
from firedeck.terms import term
from firedeck.trace import Band, Check, Limit, Missing, Note, Outcome, Step

ROUNDED_OFF = 1e-9
"""Smaller core numbers are what rounding left of nought."""
CANNOT_WORK_OUT = "firedeck cannot work this out yet"


@dataclass
class Draft:
    """Collects what an answer will say; :meth:`decided`, :meth:`close`, :meth:`open` or :meth:`not_applicable` end it."""

    question: str
    joint: Joint | None
    cylinders: tuple[str, ...] = ()
    checks: list[Check] = field(default_factory=list)
    steps: list[Working] = field(default_factory=list)
    work: list[Work] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    sources: list[str] = field(default_factory=list)
    next: list[Next] = field(default_factory=list)
    anyway: str = ""
    locked: str = ""

    def add(self, judged: Judged, workings: Iterable[Step] = ()) -> Judged:
        """Take in a judged check, its written sums and the source of its limit."""
        self.checks.append(judged.check)
        self.steps.extend(Working(judged.check.name, step) for step in workings)
        self.steps.extend(judged.steps)
        self.source(judged.source)
        return judged

    def add_check(self, check: Check, workings: Iterable[Step], source: str) -> None:
        """Take in a check that no numeric limit judges (a count, a yes or no), with its written sums."""
        self.checks.append(check)
        self.steps.extend(Working(check.name, step) for step in workings)
        self.source(source)

    @contextmanager
    def speaking_of(self, alternative: str) -> Iterator[None]:
        """Mark every check that is added meanwhile as one of an alternative that may be chosen."""
        first = len(self.checks)
        yield
        self.checks[first:] = [replace(check, of=alternative) for check in self.checks[first:]]

    def source(self, *keys: str) -> None:
        """Name a source once."""
        self.sources.extend(key for key in keys if key and key not in self.sources)

    def need(self, *missing: Missing, worth: float | None = None) -> None:
        """Name something to measure next."""
        self.next.extend(Next(one, worth) for one in missing)

    def decided(self, action: str, headline: str, choice: str = "") -> Answer:
        """End with a decision."""
        return self._answer(State.DECIDED, action, headline, choice=choice)

    def close(self, action: str, headline: str, choice: str = "") -> Answer:
        """End too close to call: a value at its limit, or a band that holds it."""
        return self._answer(State.CLOSE, action, headline, choice=choice)

    def open(self, headline: str, *missing: Missing) -> Answer:
        """End open: what to measure next."""
        self.need(*missing)
        return self._answer(State.OPEN, None, headline)

    def not_applicable(self, headline: str, reason: str) -> Answer:
        """End because the question does not apply to this engine."""
        return self._answer(State.NOT_APPLICABLE, None, headline, reason=reason)

    def _answer(
        self, state: State, action: str | None, headline: str, *, choice: str = "", reason: str = ""
    ) -> Answer:
        return Answer(
            question=self.question,
            joint=self.joint.name if self.joint else None,
            cylinders=self.cylinders,
            state=state,
            action=action,
            headline=headline,
            checks=tuple(worst_first(self._told_apart(choice))),
            steps=tuple(self.steps),
            work=tuple(self.work),
            assumptions=tuple(self.assumptions),
            cautions=tuple(self.cautions),
            next=tuple(self.next),
            anyway=self.anyway,
            sources=tuple(self.sources),
            notes=tuple(self.notes),
            reason=reason,
            choice=choice,
            locked=self.locked,
        )

    def _told_apart(self, choice: str) -> list[Check]:
        """Mark the checks of what was not chosen: they say why not, and nothing about what is."""
        return [
            replace(one, counts=False) if choice and one.of and one.of != choice else one
            for one in self.checks
        ]


_BADNESS = (Outcome.FAILS, Outcome.AT_LIMIT, Outcome.CANNOT_TELL, Outcome.HOLDS)


def worst_first(checks: Sequence[Check]) -> list[Check]:
    """Return the checks with the worst on top; of one outcome the smaller share of room first; what was not chosen last.

    What cannot be told counts with the better end of its band: a value that is over at both ends goes before one that
    may as well be in.
    """
    return sorted(checks, key=lambda check: (not check.counts, _BADNESS.index(check.outcome), _room(check)))


def _room(check: Check) -> float:
    limit = check.limit
    if limit is None or check.margin is None:
        return float("inf")
    size = max(abs(bound) for bound in (limit.low, limit.high) if bound is not None)
    room = check.margin
    if check.outcome is Outcome.CANNOT_TELL and check.band is not None:
        room = max(room, _at_best(check.band, limit))
    return room / size if size else room


def _at_best(band: Band, limit: Limit) -> float:
    high = [] if limit.high is None else [limit.high - band.low]
    low = [] if limit.low is None else [band.high - limit.low]
    return min(high + low)


def worst(checks: Sequence[Check]) -> Check:
    """Return the worst check."""
    return worst_first(checks)[0]


def both(value: float, quantity: str) -> str:
    """Write a core number in both families of units: "0.152 mm (0.0060 in)"; what only rounding left is nought."""
    kind = term(quantity).kind
    value = value if abs(value) > ROUNDED_OFF else 0.0
    mm, inch = show(value, kind, "mm"), show(value, kind, "inch")
    return mm if mm == inch or kind in (Kind.RATIO, Kind.COUNT, Kind.SHARE) else f"{mm} ({inch})"


def missing_of(*found: object) -> tuple[Missing, ...]:
    """Return those of some findings that are missing."""
    return tuple(one for one in found if isinstance(one, Missing))
