"""Refusals shared by the sums of this room: a value that cannot be reckoned with is named, never mended."""

import math

from firedeck.errors import OutOfRange
from firedeck.quantity import number


def above_nought(name: str, value: float, unit: str) -> None:
    """Refuse a value that is not a number above nought.

    Parameters
    ----------
    name : str
        Name of the argument [text].
    value : float
        What was given [core].
    unit : str
        Unit to show it in [text].

    Raises
    ------
    OutOfRange
        If the value is nought, negative or not finite.

    Returns
    -------
    None
        Nothing [text].

    Source
    ------
    derived

    Examples
    --------
    >>> above_nought("torque", -5.0, "N·mm")
    Traceback (most recent call last):
    ...
    firedeck.errors.OutOfRange: torque: found -5 N·mm; allowed: above 0 N·mm
    """
    if not (math.isfinite(value) and value > 0.0):
        raise OutOfRange(name, _shown(value, unit), f"allowed: above {_shown(0.0, unit)}")


def within(name: str, value: float, low: float, high: float, unit: str = "") -> None:
    """Refuse a value outside the range a sum is valid for; both ends are allowed.

    Parameters
    ----------
    name : str
        Name of the argument [text].
    value : float
        What was given [core].
    low : float
        Least allowed [core].
    high : float
        Most allowed [core].
    unit : str
        Unit to show it in, empty for a ratio [text].

    Raises
    ------
    OutOfRange
        If the value lies outside or is not finite.

    Returns
    -------
    None
        Nothing [text].

    Source
    ------
    derived

    Examples
    --------
    >>> within("thread_friction", 1.2, 0.0, 1.0)
    Traceback (most recent call last):
    ...
    firedeck.errors.OutOfRange: thread_friction: found 1.2; allowed: 0 to 1
    """
    if not (math.isfinite(value) and low <= value <= high):
        raise OutOfRange(name, _shown(value, unit), f"allowed: {number(low)} to {_shown(high, unit)}")


def _shown(value: float, unit: str) -> str:
    shown = number(value) if math.isfinite(value) else str(value)
    return f"{shown} {unit}".rstrip()
