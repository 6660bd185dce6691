"""Weighing causes by the signs seen: Bayes with each sign held as a witness of its own, and flattened.

Signs are not independent and a thing not seen may have been overlooked, so each likelihood is taken
to a power below one before it is multiplied in. A cause we have not listed always stays in the race.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np

from firedeck.diagnosis.case_book import CaseBook, Cause
from firedeck.diagnosis.chances import Array, chances_of, possible
from firedeck.diagnosis.odds_words import odds_in_words, share_in_words
from firedeck.diagnosis.written_odds import Counted, Told, counting, written_share
from firedeck.trace import Step

Seen = Mapping[str, bool]


@dataclass(frozen=True)
class Weighed:
    """One cause after the signs: its ``share`` of all [1], in words, and which signs spoke for or against."""

    cause: Cause
    share: float
    words: str
    speaks_for: tuple[str, ...]
    speaks_against: tuple[str, ...]

    @property
    def odds(self) -> str:
        """The share as odds, such as "4 to 1 on"."""
        return odds_in_words(self.share)


@dataclass(frozen=True)
class Weighing:
    """All causes, likeliest first; the written sum of each is made when it is asked for."""

    causes: tuple[Weighed, ...]
    told: Told

    @property
    def leader(self) -> Weighed:
        """The likeliest cause."""
        return self.causes[0]

    def written(self, cause: str) -> tuple[Step, ...]:
        """Write the sum of one cause out: each of its ways, all causes together, and its share."""
        return written_share(self.told, cause)


def shares(
    book: CaseBook, seen: Seen, absent: Collection[str] = (), present: Collection[str] = ()
) -> dict[str, float]:
    """Share of each cause after the signs, numbers only.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    seen : mapping of str to bool
        Signs looked for: True seen, False looked for and not there [1].
    absent : collection of str
        Causes this engine cannot have, such as a part it has not got [text].
    present : collection of str
        Causes whose part this engine is known to have, which makes them likelier than among engines at large [text].

    Returns
    -------
    dict
        Share by cause; they add up to 1 [1].

    Raises
    ------
    TableGap
        For a sign the table does not have.
    OutOfRange
        If two outcomes of one test are both said to be seen.

    Source
    ------
    [generic-ours] docs/method/diagnosis.md.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> found = shares(case_book("leak"), {"air-to-neighbour": True})
    >>> max(found, key=found.get)
    'gasket-between-bores'
    """
    return _shares(Told(book, counting(book, seen), tuple(absent), tuple(present)))


def _shares(told: Told) -> dict[str, float]:
    chances = chances_of(told.book)
    left = {cause.id for cause in possible(told.book, told.absent)}
    parts = _shares_of_ways(told) @ chances.belongs
    return {cause: float(part) for cause, part in zip(chances.causes, parts, strict=True) if cause in left}


def shares_of_ways(
    book: CaseBook, seen: Seen, absent: Collection[str] = (), present: Collection[str] = ()
) -> Array:
    """Share of each way of each cause after the signs.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    seen : mapping of str to bool
        Signs looked for: True seen, False looked for and not there [1].
    absent : collection of str
        Causes this engine cannot have [text].
    present : collection of str
        Causes whose part this engine is known to have, which makes them likelier than among engines at large [text].

    Returns
    -------
    ndarray
        Shares in the order of ``chances_of``, nil for what the engine has not got, shape (ways,) [1].

    Source
    ------
    [generic-ours] docs/method/diagnosis.md.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> float(shares_of_ways(case_book("leak"), {}).sum().round(6))
    1.0
    """
    return _shares_of_ways(Told(book, counting(book, seen), tuple(absent), tuple(present)))


def _shares_of_ways(told: Told) -> Array:
    weights = told.weights()
    parts: Array = weights / weights.sum()
    return parts


def weigh(
    book: CaseBook, seen: Seen, absent: Collection[str] = (), present: Collection[str] = ()
) -> Weighing:
    """Weigh all causes by the signs, with the written sum.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    seen : mapping of str to bool
        Signs looked for: True seen, False looked for and not there [1].
    absent : collection of str
        Causes this engine cannot have [text].
    present : collection of str
        Causes whose part this engine is known to have, which makes them likelier than among engines at large [text].

    Returns
    -------
    Weighing
        Causes, likeliest first, each ready to be written out [1].

    Raises
    ------
    TableGap
        For a sign the table does not have.
    OutOfRange
        If two outcomes of one test are both said to be seen.

    Source
    ------
    [generic-ours] docs/method/diagnosis.md.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> weigh(case_book("leak"), {"air-to-neighbour": True}).leader.words
    'likely'
    """
    told = Told(book, counting(book, seen), tuple(absent), tuple(present))
    found = _shares(told)
    order = sorted(found, key=lambda cause: found[cause], reverse=True)
    fits = _fits(book, told.counted, list(found))
    return Weighing(tuple(_weighed(book, cause, found[cause], fits) for cause in order), told)


def _fits(book: CaseBook, counted: Counted, causes: list[str]) -> list[tuple[str, dict[str, float]]]:
    """How well each sign fits each cause, over all its ways, beside what is usual: 1 is as usual."""
    chances = chances_of(book)
    within = chances.belongs * np.array([way.share for way in book.ways.values()])[:, np.newaxis]
    columns = [chances.causes.index(cause) for cause in causes]
    fits = []
    for sign, there, _ in counted:
        likely = (chances.of(sign.id) @ within)[columns]
        chance = likely if there else 1.0 - likely
        said = sign.label if there else f"not: {sign.label}"
        fits.append((said, dict(zip(causes, (chance / chance.mean()).tolist(), strict=True))))
    return fits


def _weighed(book: CaseBook, cause: str, share: float, fits: list[tuple[str, dict[str, float]]]) -> Weighed:
    speaks_for = tuple(said for said, fit in fits if fit[cause] > 1.5)
    speaks_against = tuple(said for said, fit in fits if fit[cause] < 1.0 / 1.5)
    return Weighed(book.causes[cause], share, share_in_words(share), speaks_for, speaks_against)
