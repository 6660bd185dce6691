"""How likely every sign is under every cause, as one array, and what each sign does to the odds."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from firedeck.diagnosis.case_book import ASK, ONE_OF, UNLISTED, CaseBook, Cause, Sign
from firedeck.diagnosis.thresholds import threshold
from firedeck.errors import OutOfRange

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Chances:
    """``likely`` of shape (signs, causes), in the order of the tables [1]; ``met`` how often each cause is [1]."""

    signs: Mapping[str, int]
    causes: tuple[str, ...]
    likely: Array
    met: Array

    def of(self, sign: str) -> Array:
        """How likely one sign is under every cause, shape (causes,)."""
        row: Array = self.likely[self.signs[sign]]
        return row

    def in_race(self, absent: Collection[str]) -> Array:
        """How often each cause is met, nil where the engine has no such part."""
        out = np.array([cause in absent and cause != UNLISTED for cause in self.causes])
        return np.where(out, 0.0, self.met)


@cache
def chances_of(book: CaseBook) -> Chances:
    """Lay the likelihoods of a case book out as an array.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].

    Returns
    -------
    Chances
        One row for each sign, one column for each cause [1].

    Source
    ------
    [generic-ours] tables/data/*_evidence.csv.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> chances_of(case_book("leak")).likely.shape[1] == len(case_book("leak").causes)
    True
    """
    likely = [[likelihood(book, sign, cause) for cause in book.causes] for sign in book.signs.values()]
    met = [cause.weight for cause in book.causes.values()]
    places = {sign: place for place, sign in enumerate(book.signs)}
    return Chances(places, tuple(book.causes), np.array(likely), np.array(met))


def likelihood(book: CaseBook, sign: Sign, cause: str) -> float:
    """How likely a sign is under a cause.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    sign : Sign
        The sign [1].
    cause : str
        Id of the cause [text].

    Returns
    -------
    float
        Likelihood between 0 and 1 [1].

    Source
    ------
    [generic-ours] tables/data/*_evidence.csv.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> book = case_book("leak")
    >>> 0.0 < likelihood(book, book.sign("gas-in-coolant"), "hose-or-pump") < 0.1
    True
    """
    if cause != UNLISTED:
        return sign.likely.get(cause, sign.otherwise)
    if book.trials[sign.test].form == ONE_OF:
        return 1.0 / len(book.signs_of(sign.test))
    return threshold("unlisted_likelihood")


def power(book: CaseBook, sign: Sign, there: bool) -> str:
    """Name the threshold that says how much a sign counts.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    sign : Sign
        The sign [1].
    there : bool
        Whether it was seen [1].

    Returns
    -------
    str
        Name in tables/data/diagnosis_rules.csv [text].

    Source
    ------
    [generic-ours] signs are not independent, and a thing not told may have been overlooked.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> book = case_book("leak")
    >>> power(book, book.sign("cab-wet"), False)
    'weight_not_told'
    """
    if book.trials[sign.test].form == ASK:
        return "weight_told" if there else "weight_not_told"
    return "weight_seen" if there else "weight_not_found"


def blow(book: CaseBook, sign: Sign, there: bool) -> Array:
    """Say by how much a sign multiplies every cause.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    sign : Sign
        The sign [1].
    there : bool
        Whether it was seen [1].

    Returns
    -------
    ndarray
        One factor for each cause, shape (causes,) [1].

    Source
    ------
    [generic-ours] docs/method/diagnosis.md.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> book = case_book("leak")
    >>> bool((blow(book, book.sign("cab-wet"), True) < 1.0).all())
    True
    """
    chances = chances_of(book).of(sign.id)
    factors: Array = (chances if there else 1.0 - chances) ** threshold(power(book, sign, there))
    return factors


def possible(book: CaseBook, absent: Collection[str]) -> list[Cause]:
    """Give the causes this engine can have.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    absent : collection of str
        Causes it cannot have; what is not listed can never be left out [text].

    Returns
    -------
    list of Cause
        In the order of the table [1].

    Raises
    ------
    OutOfRange
        For a cause that is not in the table.

    Source
    ------
    [derived] selection.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> "heater" in {cause.id for cause in possible(case_book("leak"), ["heater"])}
    False
    """
    strangers = [cause for cause in absent if cause not in book.causes]
    if strangers:
        raise OutOfRange("absent", strangers[0], f"allowed: {', '.join(book.causes)}")
    return [cause for cause in book.causes.values() if cause.id not in absent or cause.id == UNLISTED]
