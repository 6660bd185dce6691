"""Holding a value against its limits.

Readings in this trade lie exactly on the limit, so "at the limit" is an answer of its own. Two
quantities are compared as exact fractions: 0.004 in against 0.1016 mm is at the limit. Computed
floats are at the limit within one part in a thousand million.
"""

import math
from enum import StrEnum
from fractions import Fraction

from firedeck.errors import BadQuantity
from firedeck.quantity.reading import Quantity

NEAR = 1e-9
NEAR_NOUGHT = 1e-12

Comparable = Quantity | float | Fraction


class Outcome(StrEnum):
    """How a value stands against its limits."""

    HOLDS = "holds"
    AT_LIMIT = "at-limit"
    FAILS = "fails"


def meets(
    value: Comparable,
    low: Comparable | None = None,
    high: Comparable | None = None,
    inclusive: bool = True,
) -> Outcome:
    """Hold a value against a lower and an upper limit.

    Parameters
    ----------
    value : Quantity, float or Fraction
        The reading or the computed number [core unit].
    low, high : Quantity, float, Fraction or None
        The limits; None where there is none [core unit]. A Fraction counts in the exact unit of its
        kind (for angles degrees).
    inclusive : bool
        Whether a value exactly at the limit is still allowed.

    Returns
    -------
    Outcome
        ``holds`` inside, ``at-limit`` exactly on an inclusive limit, else ``fails`` [outcome].

    Raises
    ------
    BadQuantity
        If there is no limit, the limits are crossed, the kinds differ, or a number is not finite.

    Source
    ------
    [generic-ours] limits are inclusive unless their row says otherwise.

    Examples
    --------
    >>> from firedeck.quantity import Kind, parse
    >>> meets(parse("0.1016 mm", Kind.LENGTH), high=parse("0.004 in", Kind.LENGTH)).value
    'at-limit'
    >>> meets(0.1 + 0.2, high=0.3).value
    'at-limit'
    >>> meets(2.0, low=1.0, high=1.5).value
    'fails'
    """
    if low is None and high is None:
        raise BadQuantity(str(value), "there is no limit to hold it against")
    if low is not None and high is not None and _side(low, high) > 0:
        raise BadQuantity(f"{low} to {high}", "the lower limit is above the upper one")
    sides = [_side(value, low)] if low is not None else []
    sides += [-_side(value, high)] if high is not None else []
    worst = min(sides)
    if worst > 0:
        return Outcome.HOLDS
    return Outcome.AT_LIMIT if worst == 0 and inclusive else Outcome.FAILS


def _side(one: Comparable, other: Comparable) -> int:
    """-1 below, 0 at, +1 above; exact unless a float takes part."""
    if isinstance(one, Quantity) and isinstance(other, Quantity) and one.kind is not other.kind:
        raise BadQuantity(str(other), f"a {other.kind} cannot be a limit of a {one.kind}")
    if isinstance(one, float) or isinstance(other, float):
        a, b = _number(one), _number(other)
        if math.isclose(a, b, rel_tol=NEAR, abs_tol=NEAR_NOUGHT):
            return 0
        return 1 if a > b else -1
    exact_one, exact_other = _exact(one), _exact(other)
    return (exact_one > exact_other) - (exact_one < exact_other)


def _exact(item: Comparable) -> Fraction:
    return item.exact if isinstance(item, Quantity) else Fraction(item)


def _number(item: Comparable) -> float:
    number = item.value if isinstance(item, Quantity) else float(item)
    if not math.isfinite(number):
        raise BadQuantity(str(number), "a finite number")
    return number
