"""Weighing causes by the signs seen: Bayes with each sign held as a witness of its own, and flattened.

Signs are not independent and a thing not seen may have been overlooked, so each likelihood is taken
to a power below one before it is multiplied in. A cause we have not listed always stays in the race.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from firedeck.diagnosis.case_book import ASK, ONE_OF, UNLISTED, CaseBook, Cause, Sign
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
    >>> likelihood(book, book.sign("gas-in-coolant"), "hose-or-pump")
    0.03
    """
    if cause != UNLISTED:
        return sign.likely.get(cause, sign.otherwise)
    if book.trials[sign.test].form == ONE_OF:
        return 1.0 / len(book.signs_of(sign.test))
    return threshold("unlisted_likelihood")


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
    counted = counting(book, seen)
    weights = {}
    for cause in _possible(book, absent):
        weight = cause.weight
        for sign, there in counted:
            weight *= _factor(book, sign, there, cause.id) ** threshold(_power(book, sign, there))
        weights[cause.id] = weight
    total = sum(weights.values())
    return {cause: weight / total for cause, weight in weights.items()}


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
    products = {cause.id: _product(book, cause, counted) for cause in _possible(book, absent)}
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


def _possible(book: CaseBook, absent: Collection[str]) -> list[Cause]:
    strangers = [cause for cause in absent if cause not in book.causes]
    if strangers:
        raise OutOfRange("absent", strangers[0], f"allowed: {', '.join(book.causes)}")
    return [cause for cause in book.causes.values() if cause.id not in absent or cause.id == UNLISTED]


def _factor(book: CaseBook, sign: Sign, there: bool, cause: str) -> float:
    chance = likelihood(book, sign, cause)
    return chance if there else 1.0 - chance


def _power(book: CaseBook, sign: Sign, there: bool) -> str:
    """Name of the power a likelihood is taken to."""
    if there:
        return "weight_seen"
    return "weight_not_told" if book.trials[sign.test].form == ASK else "weight_not_found"


def _product(book: CaseBook, cause: Cause, counted: tuple[tuple[Sign, bool], ...]) -> Step:
    inputs: dict[str, Figure] = {"met_before": (cause.weight, "per 1000")}
    factors = ["met_before"]
    for sign, there in counted:
        name = sign.id.replace("-", "_") if there else f"no_{sign.id.replace('-', '_')}"
        power = _power(book, sign, there)
        inputs[name] = (_factor(book, sign, there, cause.id), "1")
        inputs[power] = (threshold(power), "1")
        factors.append(f"{name}**{power}")
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
