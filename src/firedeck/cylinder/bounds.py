"""What a figure must be before a sum is done with it; nothing is clipped or made positive."""

import math

from firedeck.errors import OutOfRange


def positive(name: str, value: float, unit: str) -> None:
    """Refuse a figure that is not above nought."""
    if not (math.isfinite(value) and value > 0.0):
        raise OutOfRange(name, f"{value:g} {unit}".rstrip(), "more than nought is wanted")


def not_negative(name: str, value: float, unit: str) -> None:
    """Refuse a figure below nought."""
    if not (math.isfinite(value) and value >= 0.0):
        raise OutOfRange(name, f"{value:g} {unit}".rstrip(), "nought or more is wanted")


def within(name: str, value: float, low: float, high: float, unit: str) -> None:
    """Refuse a figure outside the range a sum is valid for."""
    if not low <= value <= high:
        raise OutOfRange(
            name, f"{value:g} {unit}".rstrip(), f"valid from {low:g} to {high:g} {unit}".rstrip()
        )
