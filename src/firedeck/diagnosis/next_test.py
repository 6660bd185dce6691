"""Which test tells most for the minutes it takes, and what would overturn the likeliest cause."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np

from firedeck.diagnosis.case_book import ASK, ONE_OF, CaseBook, Sign, Trial
from firedeck.diagnosis.chances import Array, chances_of
from firedeck.diagnosis.odds import Seen, shares_of_ways
from firedeck.diagnosis.outcomes import outcomes_of
from firedeck.diagnosis.thresholds import threshold
from firedeck.trace import GENERIC, RUN, Figure, Step, evaluate


@dataclass(frozen=True)
class NextTest:
    """A test worth doing: ``bits`` it is expected to tell, ``settles`` the chance that it settles the matter.

    ``per_minute`` is its worth after minutes and cost.
    """

    trial: Trial
    bits: float
    settles: float
    per_minute: float

    @property
    def step(self) -> Step:
        """The written sum of its worth."""
        inputs = _figures(self.trial, self.bits, self.settles)
        return Step.work_out(
            f"{self.trial.label}: what it is expected to tell and to settle, per minute with its cost",
            WORTH,
            inputs,
            ("bits_per_minute", "bit/min"),
            f"{RUN}all outcomes",
        )

    @property
    def tells(self) -> bool:
        """Whether it tells more than next to nothing."""
        return self.bits >= threshold("least_bits")


@dataclass(frozen=True)
class Overturn:
    """A sign that would unseat the likeliest cause: seen or not, and the share left to it."""

    sign: Sign
    seen: bool
    share_left: float
    then: str


def next_tests(
    book: CaseBook, seen: Seen, absent: Collection[str] = (), present: Collection[str] = ()
) -> tuple[NextTest, ...]:
    """Rank the tests not yet done by what they tell per minute.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    seen : mapping of str to bool
        Signs looked for so far [1].
    absent : collection of str
        Causes this engine cannot have; tests of such parts are left out [text].
    present : collection of str
        Causes whose part this engine is known to have, which makes them likelier than among engines at large [text].

    Returns
    -------
    tuple of NextTest
        Best first [1].

    Source
    ------
    [derived] expected fall of the entropy of the shares, in bits, and one look ahead: how likely some cause reaches
    the share at which it is settled.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> ranked = next_tests(case_book("leak"), {"overheated": True, "coolant-lost": True})
    >>> ranked[0].per_minute >= ranked[-1].per_minute
    True
    """
    done = {book.sign(name).test for name in seen}
    now = shares_of_ways(book, seen, absent, present)
    known = {book.sign(name).fact for name in seen} - {""}
    ready = (trial for trial in book.trials.values() if _can_be_done(trial, done, seen, absent))
    worth = (_worth(book, trial, now, known) for trial in ready)
    return tuple(sorted(worth, key=lambda one: -one.per_minute))


def _can_be_done(trial: Trial, done: Collection[str], seen: Seen, absent: Collection[str]) -> bool:
    """Not done yet, the part is there, and there is something it goes on from."""
    if trial.form == ASK or trial.id in done or trial.needs in absent:
        return False
    return not trial.after or any(seen.get(sign) for sign in trial.after)


def _worth(book: CaseBook, trial: Trial, now: Array, known: Collection[str]) -> NextTest:
    bits, settles = _told(book, trial, now, known)
    figures = {name: figure for name, (figure, _) in _figures(trial, bits, settles).items()}
    return NextTest(trial, bits, settles, evaluate(WORTH, figures))


WORTH = "(bits + settling * chance_to_settle) / (set_up_minutes + minutes + cost_minutes)"


def _figures(trial: Trial, bits: float, settles: float) -> dict[str, Figure]:
    return {
        "bits": (bits, "bit"),
        "settling": (threshold("settling"), "bit"),
        "chance_to_settle": (settles, "1"),
        "set_up_minutes": (threshold("set_up_minutes"), "min"),
        "minutes": (trial.minutes, "min"),
        "cost_minutes": (trial.cost_minutes, "min"),
    }


def information(book: CaseBook, trial: Trial, now: Array, known: Collection[str] = ()) -> float:
    """Expected fall of uncertainty about the cause by a test.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    trial : Trial
        The test [1].
    now : ndarray
        Share of each way of each cause before it, shape (ways,) [1].
    known : collection of str
        Facts that another sign has witnessed already: to that part it only repeats [text].

    Returns
    -------
    float
        Information, never negative [bit].

    Source
    ------
    [derived] mutual information of cause and outcome.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> from firedeck.diagnosis.odds import shares_of_ways
    >>> book = case_book("leak")
    >>> information(book, book.trials["gas-in-coolant"], shares_of_ways(book, {"cab-wet": True})) < 0.5
    True
    """
    return _told(book, trial, now, known)[0]


def _told(book: CaseBook, trial: Trial, now: Array, known: Collection[str]) -> tuple[float, float]:
    """Bits a test is expected to tell, and the chance that after it some cause is settled."""
    belongs, outcomes = chances_of(book).belongs, outcomes_of(book, trial, now, known)
    before = now @ belongs
    there = before > 0.0
    joint = (now * outcomes.likely) @ belongs[:, there]
    whole = joint.sum(axis=1, keepdims=True)
    bits = joint * np.log2(joint / (whole * before[there]))
    after = (now * outcomes.factor) @ belongs
    settled = after.max(axis=1) >= threshold("settled_from") * after.sum(axis=1)
    return max(float(bits.sum()), 0.0), float(whole[settled].sum())


def overturned_by(
    book: CaseBook,
    seen: Seen,
    absent: Collection[str] = (),
    present: Collection[str] = (),
    most: int = 3,
) -> tuple[Overturn, ...]:
    """Find the signs that would unseat the likeliest cause.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    seen : mapping of str to bool
        Signs looked for so far [1].
    absent : collection of str
        Causes this engine cannot have [text].
    present : collection of str
        Causes whose part this engine is known to have, which makes them likelier than among engines at large [text].
    most : int
        How many to give [1].

    Returns
    -------
    tuple of Overturn
        Hardest blow first; only signs after which another cause leads [1].

    Source
    ------
    [generic-ours] the same weighing with one sign more.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> found = overturned_by(case_book("leak"), {"air-to-neighbour": True})
    >>> all(one.then != "gasket-between-bores" for one in found)
    True
    """
    chances, parts = chances_of(book), shares_of_ways(book, seen, absent, present)
    leader = int((parts @ chances.belongs).argmax())
    done = {book.sign(name).test for name in seen}
    left = {
        True: (parts * chances.shown) @ chances.belongs,
        False: (parts * chances.not_shown) @ chances.belongs,
    }
    leads = {there: after.argmax(axis=1) for there, after in left.items()}
    blows = []
    for place, sign in enumerate(book.signs.values()):
        trial = book.trials[sign.test]
        clash = trial.form == ONE_OF and sign.test in done
        if sign.id in seen or sign.sums_up or clash or trial.needs in absent:
            continue
        for there in (True, False) if trial.form != ONE_OF else (True,):
            then = int(leads[there][place])
            if then != leader:
                after = left[there][place]
                blows.append(Overturn(sign, there, float(after[leader] / after.sum()), chances.causes[then]))
    return tuple(sorted(blows, key=lambda one: one.share_left)[:most])


def added_up(says: str, parts: Mapping[str, float], name: str) -> Step:
    """Add up the shares of some causes.

    Parameters
    ----------
    says : str
        What the sum is [text].
    parts : mapping of str to float
        Share by cause [1].
    name : str
        Name of the result [text].

    Returns
    -------
    Step
        The written sum [1].

    Source
    ------
    [derived] addition.

    Examples
    --------
    >>> added_up("both", {"head-crack": 0.25, "block-crack": 0.5}, "cracks").value
    0.75
    """
    inputs = {cause.replace("-", "_"): (share, "1") for cause, share in parts.items()}
    return Step.work_out(says, " + ".join(inputs) or "0", inputs, (name, "1"), GENERIC)
