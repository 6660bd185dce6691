"""Bounds of the job's own papers as plain figures, for findings that have to know whether something is out."""

from typing import Literal

from firedeck.job import Joint
from firedeck.quantity import parse
from firedeck.terms import term

End = Literal["low", "high"]


def least(joint: Joint, quantity: str, part: str) -> float | None:
    """Return the strictest lower limit of the papers for a part."""
    return max(_bounds(joint, quantity, part, "low"), default=None)


def most(joint: Joint, quantity: str, part: str) -> float | None:
    """Return the strictest upper limit of the papers for a part."""
    return min(_bounds(joint, quantity, part, "high"), default=None)


def _bounds(joint: Joint, quantity: str, part: str, end: End) -> list[float]:
    kind = term(quantity).kind
    return [
        parse(text, kind).value
        for limit in joint.limits
        if limit.quantity == quantity and limit.part in (None, part) and limit.rank != "memory"
        if (text := limit.low if end == "low" else limit.high)
    ]
