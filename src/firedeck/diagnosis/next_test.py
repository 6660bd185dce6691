"""Which test tells most for the minutes it takes, and what would overturn the likeliest cause."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np

from firedeck.diagnosis.case_book import ASK, ONE_OF, CaseBook, Sign, Trial
from firedeck.diagnosis.chances import Array, blow, chances_of
from firedeck.diagnosis.odds import Seen, shares
from firedeck.diagnosis.thresholds import threshold
from firedeck.trace import GENERIC, RUN, Step


@dataclass(frozen=True)
class NextTest:
    """A test worth doing: ``bits`` it is expected to tell, ``per_minute`` after its cost."""

    trial: Trial
    bits: float
    per_minute: float
    step: Step


@dataclass(frozen=True)
class Overturn:
    """A sign that would unseat the likeliest cause: seen or not, and the share left to it."""

    sign: Sign
    seen: bool
    share_left: float
    then: str


def next_tests(book: CaseBook, seen: Seen, absent: Collection[str] = ()) -> tuple[NextTest, ...]:
    """Rank the tests not yet done by what they tell per minute.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    seen : mapping of str to bool
        Signs looked for so far [1].
    absent : collection of str
        Causes this engine cannot have; tests of such parts are left out [text].

    Returns
    -------
    tuple of NextTest
        Best first [1].

    Source
    ------
    [derived] expected fall of the entropy of the shares, in bits.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> ranked = next_tests(case_book("leak"), {"overheated": True, "coolant-lost": True})
    >>> ranked[0].per_minute >= ranked[-1].per_minute
    True
    """
    done = {book.sign(name).test for name in seen}
    now = shares(book, seen, absent)
    ready = (trial for trial in book.trials.values() if _can_be_done(trial, done, seen, absent))
    return tuple(sorted((_worth(book, trial, now) for trial in ready), key=lambda one: -one.per_minute))


def _can_be_done(trial: Trial, done: Collection[str], seen: Seen, absent: Collection[str]) -> bool:
    """Not done yet, the part is there, and there is something it goes on from."""
    if trial.form == ASK or trial.id in done or trial.needs in absent:
        return False
    return not trial.after or any(seen.get(sign) for sign in trial.after)


def _worth(book: CaseBook, trial: Trial, now: Mapping[str, float]) -> NextTest:
    bits = information(book, trial, now)
    step = Step.work_out(
        f"{trial.label}: what it is expected to tell, per minute with its cost",
        "bits / (set_up_minutes + minutes + cost_minutes)",
        {
            "bits": (bits, "bit"),
            "set_up_minutes": (threshold("set_up_minutes"), "min"),
            "minutes": (trial.minutes, "min"),
            "cost_minutes": (trial.cost_minutes, "min"),
        },
        ("bits_per_minute", "bit/min"),
        f"{RUN}all outcomes",
    )
    return NextTest(trial, bits, step.value, step)


def information(book: CaseBook, trial: Trial, now: Mapping[str, float]) -> float:
    """Expected fall of uncertainty by a test.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    trial : Trial
        The test [1].
    now : mapping of str to float
        Share of each cause before it [1].

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
    >>> book = case_book("leak")
    >>> information(book, book.trials["gas-in-coolant"], {"hose-or-pump": 0.5, "core-plug": 0.5})
    0.0
    """
    before = np.array(list(now.values()))
    joint = before * _outcomes(book, trial, tuple(now))
    whole = joint.sum(axis=1, keepdims=True)
    there = joint > 0.0
    told = joint[there] * np.log2(joint[there] / (whole * before)[there])
    return max(float(told.sum()), 0.0)


def _outcomes(book: CaseBook, trial: Trial, causes: tuple[str, ...]) -> Array:
    """For each outcome of a test its likelihood under each cause, shape (outcomes, causes)."""
    chances = chances_of(book)
    columns = [chances.causes.index(cause) for cause in causes]
    signs = [sign for sign in book.signs_of(trial.id) if not sign.sums_up]
    likely = np.array([chances.of(sign.id)[columns] for sign in signs])
    if trial.form == ONE_OF:
        return likely
    found = np.ones((1, len(causes)))
    for sign in likely:
        found = np.concatenate([found * sign, found * (1.0 - sign)])
    return found


def overturned_by(
    book: CaseBook, seen: Seen, absent: Collection[str] = (), most: int = 3
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
    now = shares(book, seen, absent)
    causes, parts = tuple(now), np.array(list(now.values()))
    columns = [chances_of(book).causes.index(cause) for cause in causes]
    leader = int(parts.argmax())
    done = {book.sign(name).test for name in seen}
    blows = []
    for sign in book.signs.values():
        trial = book.trials[sign.test]
        clash = trial.form == ONE_OF and sign.test in done
        if sign.id in seen or sign.sums_up or clash or trial.needs in absent:
            continue
        for there in (True, False) if trial.form != ONE_OF else (True,):
            after = parts * blow(book, sign, there)[columns]
            then = int(after.argmax())
            if then != leader:
                blows.append(Overturn(sign, there, float(after[leader] / after.sum()), causes[then]))
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
