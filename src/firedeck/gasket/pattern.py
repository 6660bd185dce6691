"""A hole pattern as plain places: the openings of a gasket, a block face or a head face, seen from above."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from firedeck.errors import JobError

KINDS = ("outline", "bore", "fastener", "dowel", "passage", "mark")
LEADS = ("water", "oil", "port", "air", "drain", "")
HELD = ("fastener", "dowel")
Array = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Opening:
    """One opening, point of the outline, or mark; a slot has a length over its ends and an angle [mm, rad]."""

    kind: str
    label: str
    x: float
    y: float
    diameter: float = 0.0
    length: float = 0.0
    angle: float = 0.0
    leads: str = ""
    text: str = ""

    def moved(self, sign_x: float, sign_y: float) -> "Opening":
        """Return the opening after a turn: x and y change sign, a slot's angle follows."""
        angle = self.angle if sign_x == sign_y else -self.angle
        return replace(self, x=sign_x * self.x, y=sign_y * self.y, angle=angle)


@dataclass(frozen=True)
class Pattern:
    """All openings of one part, as seen looking down on the deck [mm]."""

    part: str
    openings: tuple[Opening, ...]

    def of(self, *kinds: str) -> tuple[Opening, ...]:
        """Return the openings of some kinds."""
        return tuple(opening for opening in self.openings if opening.kind in kinds)

    def turned(self, sign_x: float, sign_y: float) -> "Pattern":
        """Return the part turned over (y changes sign), end for end (both do), or both."""
        return replace(self, openings=tuple(opening.moved(sign_x, sign_y) for opening in self.openings))


def places(openings: Sequence[Opening]) -> Array:
    """Return the centres of some openings.

    Parameters
    ----------
    openings : sequence of Opening
        The openings [mm].

    Returns
    -------
    ndarray, shape (n, 2)
        x and y of each [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> places([Opening("bore", "1", 3.0, 4.0, 80.0)]).tolist()
    [[3.0, 4.0]]
    """
    return np.array([(opening.x, opening.y) for opening in openings], dtype=float).reshape(-1, 2)


def check_pattern(pattern: Pattern) -> None:
    """Refuse a hole pattern that cannot be one: nothing in it, holes in each other, bores outside the outline.

    Parameters
    ----------
    pattern : Pattern
        The pattern [mm].

    Returns
    -------
    None
        Nothing, when the pattern is sound [none].

    Raises
    ------
    JobError
        With the labels of what is wrong, one line.

    Source
    ------
    derived

    Examples
    --------
    >>> check_pattern(Pattern("gasket", (Opening("bore", "1", 0.0, 0.0, 80.0), Opening("bore", "2", 90.0, 0.0, 80.0))))
    """
    round_ones = pattern.of("bore", "fastener", "dowel")
    if not pattern.of("bore"):
        raise JobError(pattern.part, "no bore", "a hole pattern needs its bores, and its fasteners or dowels")
    twice = [
        one.label
        for one in round_ones
        if sum(one.label == two.label and one.kind == two.kind for two in round_ones) > 1
    ]
    if twice:
        raise JobError(pattern.part, f"{twice[0]!r} twice", "every label once in its kind")
    for first, second in _pairs(pattern.of("bore", "fastener")):
        apart = math.hypot(first.x - second.x, first.y - second.y)
        if apart < (first.diameter + second.diameter) / 2:
            names = f"{first.kind} {first.label} and {second.kind} {second.label}"
            raise JobError(
                pattern.part, f"{names} lie in each other", "places and diameters that leave metal between"
            )
    _inside(pattern)


def _pairs(openings: Sequence[Opening]) -> Iterable[tuple[Opening, Opening]]:
    return ((one, two) for place, one in enumerate(openings) for two in openings[place + 1 :])


def _inside(pattern: Pattern) -> None:
    corners = places(pattern.of("outline"))
    if len(corners) < 3:
        return
    low, high = corners.min(axis=0), corners.max(axis=0)
    for bore in pattern.of("bore"):
        if not (low[0] < bore.x < high[0] and low[1] < bore.y < high[1]):
            raise JobError(pattern.part, f"bore {bore.label} outside the outline", "bores inside the outline")
