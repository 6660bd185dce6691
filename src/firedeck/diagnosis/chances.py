"""How likely every sign is under every cause, as one array, and what each sign does to the odds."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from firedeck.diagnosis.case_book import ASK, ONE_OF, UNLISTED, CaseBook, Cause, Sign, Way
from firedeck.diagnosis.thresholds import threshold
from firedeck.errors import OutOfRange

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Chances:
    """``likely`` of shape (signs, ways), in the order of the tables [1]; ``met`` how often each way is [1].

    ``shown`` and ``not_shown``, of the same shape as ``likely``: by what a sign multiplies every way when it is seen,
    and when it was looked for and is not there [1]. ``belongs`` of shape (ways, causes) is 1 where a way is one of a
    cause [1]; ``carried_by`` share of engines that have the part of each cause [1].
    """

    signs: Mapping[str, int]
    causes: tuple[str, ...]
    ways: tuple[str, ...]
    likely: Array
    shown: Array
    not_shown: Array
    met: Array
    belongs: Array
    carried_by: Array

    def of(self, sign: str) -> Array:
        """How likely one sign is under every way, shape (ways,)."""
        row: Array = self.likely[self.signs[sign]]
        return row

    def in_race(self, absent: Collection[str], present: Collection[str] = ()) -> Array:
        """How often each way is met: nil where the engine has no such part, more where it is known to have it."""
        out = np.array([cause in absent and cause != UNLISTED for cause in self.causes], dtype=np.float64)
        has = np.array([cause in present for cause in self.causes])
        factor = np.where(has, 1.0 / self.carried_by, 1.0) * (1.0 - out)
        return self.met * (self.belongs @ factor)


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
        One row for each sign, one column for each way of a cause [1].

    Source
    ------
    [generic-ours] tables/data/*_evidence.csv.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> chances_of(case_book("leak")).likely.shape[1] == len(case_book("leak").ways)
    True
    """
    ways = tuple(book.ways.values())
    likely = np.array([[likelihood(book, sign, way) for way in ways] for sign in book.signs.values()])
    counts = [
        [threshold(power(book, sign, there)) for there in (True, False)] for sign in book.signs.values()
    ]
    shown, not_shown = np.hsplit(np.array(counts), 2)
    met = [book.causes[way.cause].weight * way.share for way in ways]
    belongs = [[float(way.cause == cause) for cause in book.causes] for way in ways]
    places = {sign: place for place, sign in enumerate(book.signs)}
    carried = [cause.carried_by for cause in book.causes.values()]
    return Chances(
        places,
        tuple(book.causes),
        tuple(book.ways),
        likely,
        likely**shown,
        (1.0 - likely) ** not_shown,
        np.array(met),
        np.array(belongs),
        np.array(carried),
    )


def likelihood(book: CaseBook, sign: Sign, way: Way) -> float:
    """How likely a sign is under one way of a cause.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    sign : Sign
        The sign [1].
    way : Way
        The way in which a cause shows itself [1].

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
    >>> 0.0 < likelihood(book, book.sign("gas-in-coolant"), book.ways["hose-or-pump"]) < 0.1
    True
    """
    if way.cause != UNLISTED:
        return sign.under(way)
    if book.trials[sign.test].form == ONE_OF:
        return 1.0 / len(book.signs_of(sign.test))
    return max(threshold("unlisted_likelihood"), sign.otherwise)


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


def share_of_witness(witnesses: int) -> float:
    """How much each of several witnesses of one thing counts.

    A bad cap fails on the tester and spills on the road, whether or not it is the fault looked for: the second
    sign says little that the first did not. Each counts as in the design effect of correlated observations.

    Parameters
    ----------
    witnesses : int
        Signs of one fact that count [1].

    Returns
    -------
    float
        Factor on the power of each, 1 for a single one [1].

    Source
    ------
    [derived] 1 / (1 + (n - 1) r), the effective number of n observations that correlate by r.

    Examples
    --------
    >>> share_of_witness(1)
    1.0
    """
    return 1.0 / (1.0 + (witnesses - 1) * threshold("same_fact"))


def blow(book: CaseBook, sign: Sign, there: bool, witnesses: int = 1) -> Array:
    """Say by how much a sign multiplies every way of every cause.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    sign : Sign
        The sign [1].
    there : bool
        Whether it was seen [1].
    witnesses : int
        Signs of the same fact that count, this one among them [1].

    Returns
    -------
    ndarray
        One factor for each way, shape (ways,) [1].

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
    chances = chances_of(book)
    row: Array = (chances.shown if there else chances.not_shown)[chances.signs[sign.id]]
    return row if witnesses == 1 else row ** share_of_witness(witnesses)


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
