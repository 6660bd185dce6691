"""Weighing causes by the signs seen: Bayes with each sign held as a witness of its own, and flattened.

Signs are not independent and a thing not seen may have been overlooked, so each likelihood is taken
to a power below one before it is multiplied in. A cause we have not listed always stays in the race.
"""

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np

from firedeck.diagnosis.case_book import ONE_OF, CaseBook, Cause, Sign, Way
from firedeck.diagnosis.chances import Array, blow, chances_of, likelihood, possible, power, share_of_witness
from firedeck.diagnosis.odds_words import odds_in_words, share_in_words
from firedeck.diagnosis.thresholds import threshold
from firedeck.errors import OutOfRange
from firedeck.trace import GENERIC, Figure, Step

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
    """All causes, likeliest first, and the written sum."""

    causes: tuple[Weighed, ...]
    steps: tuple[Step, ...]

    @property
    def leader(self) -> Weighed:
        """The likeliest cause."""
        return self.causes[0]


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
    chances = chances_of(book)
    left = {cause.id for cause in possible(book, absent)}
    parts = shares_of_ways(book, seen, absent, present) @ chances.belongs
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
    weights = chances_of(book).in_race(absent, present)
    for sign, there, witnesses in counting(book, seen):
        weights = weights * blow(book, sign, there, witnesses)
    parts: Array = weights / weights.sum()
    return parts


Counted = tuple[tuple[Sign, bool, int], ...]


def counting(book: CaseBook, seen: Seen) -> Counted:
    """Give the signs that count, each with the number of those that witness the same fact.

    Of a test with one outcome only the one that came out counts.
    """
    signs = [(book.sign(name), there) for name, there in seen.items()]
    outcomes: dict[str, str] = {}
    for sign, there in signs:
        if there and book.trials[sign.test].form == ONE_OF:
            if sign.test in outcomes:
                raise OutOfRange(sign.id, f"seen together with {outcomes[sign.test]}", "allowed: one outcome")
            outcomes[sign.test] = sign.id
    count = [(sign, there) for sign, there in signs if there or book.trials[sign.test].form != ONE_OF]
    facts = Counter(sign.fact for sign, _ in count if sign.fact)
    return tuple((sign, there, facts.get(sign.fact, 1)) for sign, there in count)


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
        Causes, likeliest first, with steps [1].

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
    counted = counting(book, seen)
    causes = [cause.id for cause in possible(book, absent)]
    products = {
        way.id: _product(book, way, counted, present) for cause in causes for way in book.ways_of(cause)
    }
    total = Step.work_out(
        "All causes together",
        " + ".join(_name(way) for way in products),
        {_name(way): step.figure() for way, step in products.items()},
        ("all", "1"),
        GENERIC,
    )
    parts = {cause: _part(book, cause, products, total) for cause in causes}
    order = sorted(parts, key=lambda cause: parts[cause].value, reverse=True)
    fits = _fits(book, counted, causes)
    weighed = tuple(_weighed(book, cause, parts[cause].value, fits) for cause in order)
    written = (products[way.id] for cause in order for way in book.ways_of(cause))
    return Weighing(weighed, (*written, total, *(parts[cause] for cause in order)))


def _name(way: str) -> str:
    return way.replace("-", "_").replace("/", "_by_")


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


def _product(book: CaseBook, way: Way, counted: Counted, present: Collection[str]) -> Step:
    cause = book.causes[way.cause]
    inputs: dict[str, Figure] = {"met_before": (cause.weight, "per 1000"), "share_of_cause": (way.share, "1")}
    factors = ["met_before", "share_of_cause"]
    if way.cause in present and cause.carried_by < 1.0:
        inputs["engines_that_have_it"] = (cause.carried_by, "1")
        factors[0] = "met_before / engines_that_have_it"
    for sign, there, witnesses in counted:
        name = sign.id.replace("-", "_") if there else f"no_{sign.id.replace('-', '_')}"
        chance = likelihood(book, sign, way)
        inputs[name] = (chance if there else 1.0 - chance, "1")
        weight = power(book, sign, there)
        inputs[weight] = (threshold(weight), "1")
        if witnesses > 1:
            inputs[f"one_of_{witnesses}"] = (share_of_witness(witnesses), "1")
            weight = f"({weight} * one_of_{witnesses})"
        factors.append(f"{name}**{weight}")
    label = f"{cause.label}, {way.says}" if way.says else cause.label
    says = f"{label}: how often it is met, times how well each sign fits"
    return Step.work_out(says, " * ".join(factors), inputs, ("weight", "1"), GENERIC)


def _part(book: CaseBook, cause: str, products: Mapping[str, Step], total: Step) -> Step:
    own = {_name(way.id): products[way.id].figure() for way in book.ways_of(cause)}
    return Step.work_out(
        f"{book.causes[cause].label}: share of all causes",
        f"({' + '.join(own)}) / all_causes",
        {**own, "all_causes": total.figure()},
        ("share", "1"),
        GENERIC,
    )


def _weighed(book: CaseBook, cause: str, share: float, fits: list[tuple[str, dict[str, float]]]) -> Weighed:
    speaks_for = tuple(said for said, fit in fits if fit[cause] > 1.5)
    speaks_against = tuple(said for said, fit in fits if fit[cause] < 1.0 / 1.5)
    return Weighed(book.causes[cause], share, share_in_words(share), speaks_for, speaks_against)
