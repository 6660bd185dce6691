"""What is told of an engine, as it counts, and the written sum of the share of one cause."""

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from firedeck.diagnosis.case_book import ONE_OF, CaseBook, Sign, Way
from firedeck.diagnosis.chances import Array, blow, chances_of, likelihood, power, share_of_witness
from firedeck.diagnosis.thresholds import threshold
from firedeck.errors import OutOfRange
from firedeck.trace import GENERIC, RUN, Figure, Step

Counted = tuple[tuple[Sign, bool, int], ...]


@dataclass(frozen=True)
class Told:
    """The signs that count, each with the number that witness the same fact; parts absent and present."""

    book: CaseBook
    counted: Counted
    absent: tuple[str, ...]
    present: tuple[str, ...]

    def weights(self) -> Array:
        """How often each way is met, times how well each sign fits; nil for what the engine has not got."""
        weights = chances_of(self.book).in_race(self.absent, self.present)
        for sign, there, witnesses in self.counted:
            weights = weights * blow(self.book, sign, there, witnesses)
        return weights


def counting(book: CaseBook, seen: Mapping[str, bool]) -> Counted:
    """Give the signs that count, each with the number of those that witness the same fact.

    Of a test with one outcome only the one that came out counts. A place that stayed dry counts neither where
    another of the same look was wet, nor where nothing was wet at all and that is told by another sign.

    Parameters
    ----------
    book : CaseBook
        Causes, signs and tests [1].
    seen : mapping of str to bool
        Signs looked for: True seen, False looked for and not there [1].

    Returns
    -------
    tuple of (Sign, bool, int)
        Sign, whether it was seen, and how many witness the same fact, itself among them [1].

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
    >>> [(sign.id, there) for sign, there, _ in counting(case_book("leak"), {"cab-wet": True})]
    [('cab-wet', True)]
    """
    signs = [(book.sign(name), there) for name, there in seen.items()]
    outcomes: dict[str, str] = {}
    for sign, there in signs:
        if there and book.trials[sign.test].form == ONE_OF:
            if sign.test in outcomes:
                raise OutOfRange(sign.id, f"seen together with {outcomes[sign.test]}", "allowed: one outcome")
            outcomes[sign.test] = sign.id
    looks = {sign.look for sign, there in signs if there}
    count = [(sign, there) for sign, there in signs if there or _absence_counts(book, sign, seen, looks)]
    facts = Counter(sign.fact for sign, _ in count if sign.fact)
    return tuple((sign, there, facts.get(sign.fact, 1)) for sign, there in count)


def _absence_counts(book: CaseBook, sign: Sign, seen: Mapping[str, bool], looks: Collection[str]) -> bool:
    """Whether it says anything that a sign was looked for and is not there."""
    if book.trials[sign.test].form == ONE_OF or (sign.look and sign.look in looks):
        return False
    return not sign.follows or bool(seen.get(sign.follows))


def written_share(told: Told, cause: str) -> tuple[Step, ...]:
    """Write the share of one cause out.

    Parameters
    ----------
    told : Told
        The signs that count and the parts of the engine [1].
    cause : str
        Id of the cause [text].

    Returns
    -------
    tuple of Step
        One for each of its ways, one for all causes together, and its share last [1].

    Source
    ------
    [generic-ours] docs/method/diagnosis.md.

    Examples
    --------
    >>> from firedeck.diagnosis.case_book import case_book
    >>> book = case_book("leak")
    >>> told = Told(book, counting(book, {"cab-wet": True}), (), ())
    >>> round(written_share(told, "heater")[-1].value, 2)
    0.21
    """
    book = told.book
    label = book.causes[cause].label
    ways = {_name(way.id): _product(told, way) for way in book.ways_of(cause)}
    products = {name: step.figure() for name, step in ways.items()}
    total = _all_together(told, products)
    share = Step.work_out(
        f"{label}: share of all causes",
        f"({' + '.join(products)}) / all_causes",
        {**products, "all_causes": total.figure()},
        ("share", "1"),
        GENERIC,
    )
    return (*ways.values(), total, share)


def _name(way: str) -> str:
    return way.replace("-", "_").replace("/", "_by_")


def _all_together(told: Told, own: Mapping[str, Figure]) -> Step:
    """Add the ways of one cause, written out above it, to what the same product gives for all others."""
    ways = chances_of(told.book).ways
    weighed = dict(zip((_name(way) for way in ways), told.weights().tolist(), strict=True))
    others = sum(weight for name, weight in weighed.items() if name not in own)
    inputs = {**own, "all_others": (others, "1")}
    return Step.work_out(
        "This cause and all others together, each by the same product",
        " + ".join(inputs),
        inputs,
        ("all", "1"),
        f"{RUN}the same product for every other cause",
    )


def _product(told: Told, way: Way) -> Step:
    book = told.book
    cause = book.causes[way.cause]
    inputs: dict[str, Figure] = {"met_before": (cause.weight, "per 1000"), "share_of_cause": (way.share, "1")}
    factors = ["met_before", "share_of_cause"]
    if way.cause in told.present and cause.carried_by < 1.0:
        inputs["engines_that_have_it"] = (cause.carried_by, "1")
        factors[0] = "met_before / engines_that_have_it"
    for sign, there, witnesses in told.counted:
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
