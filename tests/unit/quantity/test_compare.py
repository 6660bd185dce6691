"""Readings against limits: exactly at the limit is an answer of its own."""

from fractions import Fraction

import pytest

from firedeck.errors import BadQuantity
from firedeck.quantity import Kind, Outcome, meets, parse

CASES = [
    ("0.1016 mm", None, "0.004 in", Outcome.AT_LIMIT),
    ("4 thou", None, "0.1016 mm", Outcome.AT_LIMIT),
    ("0.10160000000000001 mm", None, "0.004 in", Outcome.FAILS),
    ("0.10 mm", None, "0.004 in", Outcome.HOLDS),
    ("0.11 mm", None, "0.004 in", Outcome.FAILS),
    ("0.05 mm", "0.05 mm", "0.10 mm", Outcome.AT_LIMIT),
    ("0.04 mm", "0.05 mm", "0.10 mm", Outcome.FAILS),
    ("0.07 mm", "0.05 mm", "0.10 mm", Outcome.HOLDS),
    ("0.05 mm", "0.05 mm", "0.05 mm", Outcome.AT_LIMIT),
]


@pytest.mark.parametrize(("value", "low", "high", "outcome"), CASES)
def test_exact(value: str, low: str | None, high: str | None, outcome: Outcome) -> None:
    ends = [None if end is None else parse(end, Kind.LENGTH) for end in (low, high)]
    assert meets(parse(value, Kind.LENGTH), *ends) is outcome


def test_floats_are_at_the_limit_within_rounding() -> None:
    assert meets(0.1 + 0.2, high=0.3) is Outcome.AT_LIMIT
    assert meets(0.3 * (1 + 3e-9), high=0.3) is Outcome.FAILS
    assert meets(0.1 + 0.2 - 0.3, low=0.0) is Outcome.AT_LIMIT


def test_exclusive_limits_fail_at_the_limit() -> None:
    assert meets(Fraction(1), high=Fraction(1), inclusive=False) is Outcome.FAILS
    assert meets(0.9, high=1.0, inclusive=False) is Outcome.HOLDS


def test_temperatures_compare_exactly_across_scales() -> None:
    assert meets(parse("68 °F", Kind.TEMPERATURE), high=parse("20 °C", Kind.TEMPERATURE)) is Outcome.AT_LIMIT
    assert (
        meets(parse("293.15 K", Kind.TEMPERATURE), high=parse("20 °C", Kind.TEMPERATURE)) is Outcome.AT_LIMIT
    )


def test_a_quarter_turn_is_ninety_degrees() -> None:
    assert meets(parse("1/4 turn", Kind.ANGLE), high=parse("90°", Kind.ANGLE)) is Outcome.AT_LIMIT


def test_a_quantity_against_a_computed_float() -> None:
    assert meets(parse("0.004 in", Kind.LENGTH), high=0.1016) is Outcome.AT_LIMIT


@pytest.mark.parametrize(
    ("value", "low", "high"),
    [(1.0, None, None), (1.0, 2.0, 1.0), (float("nan"), None, 1.0), (1.0, None, float("inf"))],
)
def test_senseless_limits_are_refused(value: float, low: float | None, high: float | None) -> None:
    with pytest.raises(BadQuantity):
        meets(value, low, high)


def test_kinds_are_not_mixed() -> None:
    with pytest.raises(BadQuantity, match="cannot be a limit"):
        meets(parse("12 bar", Kind.PRESSURE_GAUGE), high=parse("12 bar", Kind.PRESSURE_ABSOLUTE))
