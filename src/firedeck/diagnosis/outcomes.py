"""What a test may show: every outcome, how likely it is under every way, and what it would do to the odds."""

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np

from firedeck.diagnosis.case_book import ONE_OF, CaseBook, Sign, Trial
from firedeck.diagnosis.chances import Array, chances_of, share_of_witness
from firedeck.diagnosis.thresholds import threshold


@dataclass(frozen=True, eq=False)
class Outcomes:
    """All outcomes of one test, each of shape (outcomes, ways).

    ``likely`` how likely each is under every way [1]; ``factor`` by what it would multiply every way [1].
    """

    likely: Array
    factor: Array

    def beside(self, other: "Outcomes") -> "Outcomes":
        """Outcomes of both, each of one with each of the other."""
        ways = self.likely.shape[1]
        likely = (self.likely[:, np.newaxis] * other.likely[np.newaxis]).reshape(-1, ways)
        factor = (self.factor[:, np.newaxis] * other.factor[np.newaxis]).reshape(-1, ways)
        return Outcomes(likely, factor)


def outcomes_of(book: CaseBook, trial: Trial, now: Array, known: Collection[str] = ()) -> Outcomes:
    """Give the outcomes of a test.

    Places of one look exclude one another: none of them, or one. Signs that follow another are there only with it.
    To a fact already witnessed a sign only half tells, and counts as the second witness.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    trial : Trial
        The test [1].
    now : ndarray
        Share of each way of each cause before it, shape (ways,) [1].
    known : collection of str
        Facts that another sign has witnessed already [text].

    Returns
    -------
    Outcomes
        Each outcome; their likelihoods add up to 1 under every way [1].

    Source
    ------
    [derived] product of signs that are independent under one way, places of one look apart.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> from firedeck.diagnosis.odds import shares_of_ways
    >>> book = case_book("leak")
    >>> found = outcomes_of(book, book.trials["bores-looked-at"], shares_of_ways(book, {}))
    >>> bool(abs(found.likely.sum(axis=0) - 1.0).max() < 1e-9)
    True
    """
    signs = [sign for sign in book.signs_of(trial.id) if not sign.sums_up]
    if trial.form == ONE_OF:
        rows = [_of_sign(book, sign, now, known) for sign in signs]
        return Outcomes(np.array([row.likely[0] for row in rows]), np.array([row.factor[0] for row in rows]))
    leads = {sign.follows for sign in signs} - {""}
    found = Outcomes(np.ones((1, len(now))), np.ones((1, len(now))))
    for sign in signs:
        if not sign.look and sign.id not in leads and not sign.follows:
            found = found.beside(_of_sign(book, sign, now, known))
    for lead in sorted(leads | {""}):
        places = _of_looks(book, [one for one in signs if one.look and one.follows == lead], now, known)
        found = found.beside(_led(book, lead, places, now, known) if lead else places)
    return found


def _of_sign(book: CaseBook, sign: Sign, now: Array, known: Collection[str]) -> Outcomes:
    """Give a sign by itself: there, or not."""
    chances, repeats = chances_of(book), threshold("same_fact")
    place = chances.signs[sign.id]
    row, shown, not_shown = (part[place] for part in (chances.likely, chances.shown, chances.not_shown))
    if sign.fact in known:
        row = repeats * (now @ row) + (1.0 - repeats) * row
        shown, not_shown = shown ** share_of_witness(2), not_shown ** share_of_witness(2)
    return Outcomes(np.array([row, 1.0 - row]), np.array([shown, not_shown]))


def _of_looks(book: CaseBook, signs: list[Sign], now: Array, known: Collection[str]) -> Outcomes:
    """Take each look round: one of its places, or none."""
    found = Outcomes(np.ones((1, len(now))), np.ones((1, len(now))))
    for look in dict.fromkeys(sign.look for sign in signs):
        rows = [_of_sign(book, sign, now, known) for sign in signs if sign.look == look]
        there, absent = (np.array([row.likely[which] for row in rows]) for which in (0, 1))
        none = absent.prod(axis=0)
        only = np.vstack([there / absent * none, none])
        factor = [row.factor[0] for row in rows] + [np.prod([row.factor[1] for row in rows], axis=0)]
        found = found.beside(Outcomes(only / only.sum(axis=0), np.array(factor)))
    return found


def _led(book: CaseBook, lead: str, places: Outcomes, now: Array, known: Collection[str]) -> Outcomes:
    """Put the sign that others follow before them: without it there are none of them, and that says no more."""
    own = _of_sign(book, book.sign(lead), now, known)
    likely = np.vstack([own.likely[0] * places.likely, own.likely[1]])
    return Outcomes(likely, np.vstack([own.factor[0] * places.factor, own.factor[1]]))
