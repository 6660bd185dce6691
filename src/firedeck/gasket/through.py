"""What is seen through a gasket once it is laid: every passage open, metered, covered, or without a partner."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from firedeck.gasket.pattern import Opening, Pattern

OPEN_FROM = 0.95
COVERED_TO = 0.02
SAME_SHARE = 0.02


class Seen(StrEnum):
    """How a passage is seen through the gasket."""

    OPEN = "open"
    METERED = "metered"
    COVERED = "covered"
    NO_PARTNER = "no partner"


@dataclass(frozen=True)
class Passage:
    """One passage: the share of what block and head have in common that the gasket leaves open.

    ``only_in`` names the face that alone has it, and ``bared`` is the share of its own opening that the
    gasket leaves bare there.
    """

    label: str
    leads: str
    seen: Seen
    share: float
    only_in: str = ""
    bared: float = 0.0


def passages_through(laid: Pattern, block: Pattern, head: Pattern | None) -> tuple[Passage, ...]:
    """Look at every passage of the block through the gasket, and on into the head where it is known.

    Parameters
    ----------
    laid : Pattern
        The gasket in its place [mm].
    block : Pattern
        The block face [mm].
    head : Pattern, optional
        The head face, seen looking down on the deck; without it the block alone is looked at [mm].

    Returns
    -------
    tuple of Passage
        In the order of the block, then those only the head has [1].

    Source
    ------
    derived

    Examples
    --------
    >>> hole = Opening("passage", "a", 0.0, 0.0, 10.0, leads="water")
    >>> small = Opening("passage", "a", 0.0, 0.0, 5.0)
    >>> passages_through(Pattern("gasket", (small,)), Pattern("block", (hole,)), None)[0].seen.value
    'metered'
    """
    import shapely

    holes = shapely.union_all([_shape(opening) for opening in laid.of("passage")])
    if head is None:
        return tuple(_look(opening, holes, None) for opening in block.of("passage"))
    above = shapely.union_all([_shape(opening) for opening in head.of("passage")])
    below = shapely.union_all([_shape(opening) for opening in block.of("passage")])
    from_block = [_look(opening, holes, above) for opening in block.of("passage")]
    seen = (_look(opening, holes, below, "head") for opening in head.of("passage"))
    return (*from_block, *(one for one in seen if one.only_in))


def _look(opening: Opening, holes: Any, others: Any, face: str = "block") -> Passage:
    own = _shape(opening)
    way = own if others is None else own.intersection(others)
    if way.area < COVERED_TO * own.area:
        bared = float(own.intersection(holes).area / own.area)
        return Passage(opening.label, opening.leads, Seen.NO_PARTNER, 0.0, face, bared)
    share = float(way.intersection(holes).area / way.area)
    seen = Seen.OPEN if share >= OPEN_FROM else Seen.COVERED if share <= COVERED_TO else Seen.METERED
    return Passage(opening.label, opening.leads, seen, share)


def _shape(opening: Opening) -> Any:
    """Return a round or long hole as an area."""
    import math

    import shapely

    half = max(opening.length - opening.diameter, 0.0) / 2
    x, y = half * math.cos(opening.angle), half * math.sin(opening.angle)
    line = shapely.LineString([(opening.x - x, opening.y - y), (opening.x + x, opening.y + y)])
    middle = shapely.Point(opening.x, opening.y) if half == 0.0 else line
    return middle.buffer(opening.diameter / 2, quad_segs=16)


def look_alike(one: Sequence[Passage], two: Sequence[Passage]) -> tuple[str, ...]:
    """Return the labels of the passages that two ways of laying tell apart.

    Parameters
    ----------
    one, two : sequence of Passage
        The same passages seen through the gasket laid two ways [1].

    Returns
    -------
    tuple of str
        Labels, empty when the two ways look alike [text].

    Source
    ------
    derived

    Examples
    --------
    >>> look_alike([Passage("a", "oil", Seen.OPEN, 1.0)], [Passage("a", "oil", Seen.COVERED, 0.0)])
    ('a',)
    """
    return tuple(a.label for a, b in zip(one, two, strict=True) if abs(a.share - b.share) > SAME_SHARE)
