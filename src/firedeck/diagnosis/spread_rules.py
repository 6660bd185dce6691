"""The rules for how far compression may differ, from their table or as typed from a book."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from firedeck.errors import BadQuantity, OutOfRange
from firedeck.quantity import Kind, Outcome, meets, parse
from firedeck.tables import rows

Form = Literal["share", "spread"]
_ALLOWED = 'allowed: a share of the highest such as "75 %", or a spread such as "25 psi"'


@dataclass(frozen=True)
class SpreadRule:
    """One rule: ``bound`` is the least lowest-over-highest [1] or the most highest-less-lowest [MPa]."""

    name: str
    form: Form
    bound: float
    source: str

    def judge(self, reading: float, highest: float) -> Outcome:
        """Hold one reading against the highest; core units."""
        if self.form == "share":
            return meets(reading / highest, low=self.bound)
        return meets(highest - reading, high=self.bound)


@dataclass(frozen=True)
class RuleVerdict:
    """What one rule says of the engine, and which cylinders it calls low (counted from 1)."""

    rule: SpreadRule
    outcome: Outcome
    low: tuple[int, ...]


def verdict_of(rule: SpreadRule, readings: Sequence[float]) -> RuleVerdict:
    """Hold all readings against one rule.

    Parameters
    ----------
    rule : SpreadRule
        The rule [core].
    readings : sequence of float
        Readings in the order in which the cylinders stand, shape (n,) [MPa].

    Returns
    -------
    RuleVerdict
        Its verdict; a cylinder exactly at the limit counts among the low ones [core].

    Source
    ------
    [derived] comparison.

    Examples
    --------
    >>> verdict_of(rule_from_text("80 %"), (1.0, 0.8, 0.7)).low
    (2, 3)
    """
    each = [rule.judge(reading, max(readings)) for reading in readings]
    low = tuple(place for place, outcome in enumerate(each, start=1) if outcome is not Outcome.HOLDS)
    return RuleVerdict(rule, rule.judge(min(readings), max(readings)), low)


@cache
def rules_in_use() -> tuple[SpreadRule, ...]:
    """Return the rules that are always held side by side.

    Returns
    -------
    tuple of SpreadRule
        In the order of tables/data/compression_rules.csv [core].

    Source
    ------
    [common-practice] each row names its own.

    Examples
    --------
    >>> [rule.name for rule in rules_in_use()]
    ['10 psi', '10 %', '15 %', '25 %']
    """
    found = []
    for row in rows("compression_rules"):
        if row["use"] == "always" and row["form"] == "share":
            # one less the share, kept exact so that a reading exactly at the rule stays there
            bound = float(1 - parse(row["bound"], Kind.SHARE).exact)
            found.append(SpreadRule(row["rule"], "share", bound, row["source"]))
        elif row["use"] == "always":
            bound = parse(row["bound"], Kind.PRESSURE_GAUGE).value
            found.append(SpreadRule(row["rule"], "spread", bound, row["source"]))
    return tuple(found)


def rule_from_text(text: str) -> SpreadRule:
    """Read a rule as a book writes it.

    Parameters
    ----------
    text : str
        A share of the highest such as "75 %", or a spread such as "25 psi" [text].

    Returns
    -------
    SpreadRule
        The rule, its source "as given" [core].

    Raises
    ------
    OutOfRange
        If it is neither a share between 0 and 100 % nor a pressure above zero.

    Source
    ------
    [derived] reading of a text.

    Examples
    --------
    >>> rule_from_text("75 %").bound, rule_from_text("1 bar").form
    (0.75, 'spread')
    """
    cleaned = text.strip().removesuffix("of the highest").removesuffix("of highest").strip()
    form: Form = "share" if cleaned.endswith("%") else "spread"
    try:
        bound = parse(cleaned, Kind.SHARE if form == "share" else Kind.PRESSURE_GAUGE).value
    except BadQuantity as fault:
        raise OutOfRange("limit_rule", repr(text), _ALLOWED) from fault
    if bound <= 0.0 or (form == "share" and bound >= 1.0):
        raise OutOfRange("limit_rule", repr(text), _ALLOWED)
    return SpreadRule(cleaned, form, bound, "as given")
