"""Weighing causes by the signs seen: Bayes with each sign held as a witness of its own, and flattened.

Signs are not independent and a thing not seen may have been overlooked, so each likelihood is taken
to a power below one before it is multiplied in. A cause we have not listed always stays in the race.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from firedeck.diagnosis.case_book import ONE_OF, CaseBook, Cause, Sign
from firedeck.diagnosis.chances import blow, chances_of, likelihood, possible, power
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


def shares(book: CaseBook, seen: Seen, absent: Collection[str] = ()) -> dict[str, float]:
    """Share of each cause after the signs, numbers only.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    seen : mapping of str to bool
        Signs looked for: True seen, False looked for and not there [1].
    absent : collection of str
        Causes this engine cannot have, such as a part it has not got [text].

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
    weights = chances.in_race(absent)
    for sign, there in counting(book, seen):
        weights = weights * blow(book, sign, there)
    parts = weights / weights.sum()
    return {cause: float(part) for cause, part in zip(chances.causes, parts, strict=True) if cause in left}


def counting(book: CaseBook, seen: Seen) -> tuple[tuple[Sign, bool], ...]:
    """Give the signs that count: of a test with one outcome only the one that came out."""
    signs = [(book.sign(name), there) for name, there in seen.items()]
    outcomes: dict[str, str] = {}
    for sign, there in signs:
        if there and book.trials[sign.test].form == ONE_OF:
            if sign.test in outcomes:
                raise OutOfRange(sign.id, f"seen together with {outcomes[sign.test]}", "allowed: one outcome")
            outcomes[sign.test] = sign.id
    return tuple((sign, there) for sign, there in signs if there or book.trials[sign.test].form != ONE_OF)


def weigh(book: CaseBook, seen: Seen, absent: Collection[str] = ()) -> Weighing:
    """Weigh all causes by the signs, with the written sum.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    seen : mapping of str to bool
        Signs looked for: True seen, False looked for and not there [1].
    absent : collection of str
        Causes this engine cannot have [text].

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
    products = {cause.id: _product(book, cause, counted) for cause in possible(book, absent)}
    names = {cause: cause.replace("-", "_") for cause in products}
    total = Step.work_out(
        "All causes together",
        " + ".join(names.values()),
        {names[cause]: step.figure() for cause, step in products.items()},
        ("all", "1"),
        GENERIC,
    )
    parts = {cause: _part(book, cause, step, total) for cause, step in products.items()}
    order = sorted(parts, key=lambda cause: parts[cause].value, reverse=True)
    causes = tuple(_weighed(book, cause, parts[cause].value, counted, tuple(products)) for cause in order)
    return Weighing(
        causes, (*(products[cause] for cause in order), total, *(parts[cause] for cause in order))
    )


def _factor(book: CaseBook, sign: Sign, there: bool, cause: str) -> float:
    chance = likelihood(book, sign, cause)
    return chance if there else 1.0 - chance


def _product(book: CaseBook, cause: Cause, counted: tuple[tuple[Sign, bool], ...]) -> Step:
    inputs: dict[str, Figure] = {"met_before": (cause.weight, "per 1000")}
    factors = ["met_before"]
    for sign, there in counted:
        name = sign.id.replace("-", "_") if there else f"no_{sign.id.replace('-', '_')}"
        weight = power(book, sign, there)
        inputs[name] = (_factor(book, sign, there, cause.id), "1")
        inputs[weight] = (threshold(weight), "1")
        factors.append(f"{name}**{weight}")
    says = f"{cause.label}: how often it is met, times how well each sign fits"
    return Step.work_out(says, " * ".join(factors), inputs, ("weight", "1"), GENERIC)


def _part(book: CaseBook, cause: str, product: Step, total: Step) -> Step:
    inputs = {"weight": product.figure(), "all_causes": total.figure()}
    label = book.causes[cause].label
    return Step.work_out(
        f"{label}: share of all causes", "weight / all_causes", inputs, ("share", "1"), GENERIC
    )


def _weighed(
    book: CaseBook, cause: str, share: float, counted: tuple[tuple[Sign, bool], ...], rivals: tuple[str, ...]
) -> Weighed:
    speaks_for, speaks_against = [], []
    for sign, there in counted:
        own = _factor(book, sign, there, cause)
        usual = sum(_factor(book, sign, there, rival) for rival in rivals) / len(rivals)
        said = sign.label if there else f"not: {sign.label}"
        if own > 1.5 * usual:
            speaks_for.append(said)
        elif own < usual / 1.5:
            speaks_against.append(said)
    return Weighed(book.causes[cause], share, share_in_words(share), tuple(speaks_for), tuple(speaks_against))
