"""An order of tightening where the papers give none: from the middle outwards, crosswise.

Common practice, not the book. Fasteners are taken in rings of like distance from the middle; in a ring the
next one is the farthest from those done, and after it the one opposite. Thick ones come before thin ones,
so a side row of small screws is last. Loosening goes the other way round.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.trace import COMMON_PRACTICE, NO_UNIT, Note, Step

RING = 0.25
NEAR = 1e-6
NOT_THE_BOOK = "from the middle outwards and crosswise: common practice, not the book"


@dataclass(frozen=True)
class FastenerPlace:
    """Where a fastener sits on the deck seen from above, and its thread diameter, None when unknown."""

    label: str
    x: float
    y: float
    diameter: float | None = None


@dataclass(frozen=True)
class TighteningOrder:
    """Labels in the order of tightening and of loosening, with what it rests on."""

    labels: tuple[str, ...]
    loosening: tuple[str, ...]
    notes: tuple[Note, ...]
    steps: tuple[Step, ...]


def tightening_order(
    places: Sequence[FastenerPlace], middle: tuple[float, float] | None = None
) -> TighteningOrder:
    """Give an order of tightening for fasteners the papers give none for.

    Parameters
    ----------
    places : sequence of FastenerPlace
        Every fastener once [mm].
    middle : (float, float) or None
        Where to begin; None for the mean place of the thickest fasteners [mm].

    Returns
    -------
    TighteningOrder
        Each label once; the first is nearest the middle among the thickest [text].

    Raises
    ------
    OutOfRange
        If there is no fastener, two share a label, or a place is no finite number.

    Valid for
    ---------
    Rows, rings round one bore, odd and side bolts, studs of two sizes. A printed order always wins.

    Source
    ------
    [common-practice] centre outwards, crosswise.

    Examples
    --------
    >>> row = [FastenerPlace(label, x, y) for label, x, y in
    ...        (("a", 0, 50), ("b", 96, 50), ("c", 192, 50), ("d", 0, -50), ("e", 96, -50), ("f", 192, -50))]
    >>> tightening_order(row).labels
    ('b', 'e', 'a', 'f', 'c', 'd')
    """
    _check(places)
    sizes = sorted({place.diameter or 0.0 for place in places}, reverse=True)
    thick = [place for place in places if (place.diameter or 0.0) == sizes[0]]
    centre = middle or (_mean([place.x for place in thick]), _mean([place.y for place in thick]))
    ordered: list[FastenerPlace] = []
    for size in sizes:
        ordered += _outwards([place for place in places if (place.diameter or 0.0) == size], centre)
    labels = tuple(place.label for place in ordered)
    notes = [Note(NOT_THE_BOOK, COMMON_PRACTICE)]
    if len(sizes) > 1:
        notes.append(Note("the thick ones first, then the thin ones", COMMON_PRACTICE))
    return TighteningOrder(
        labels, labels[::-1], tuple(notes), (_distance(ordered[0], centre), _count(labels))
    )


def _check(places: Sequence[FastenerPlace]) -> None:
    labels = [place.label for place in places]
    if not labels:
        raise OutOfRange("fasteners", "none", "at least one fastener with its place")
    if twice := [label for label in labels if labels.count(label) > 1]:
        raise OutOfRange("fasteners", f"label {twice[0]} twice", "each label once")
    for place in places:
        if not all(map(math.isfinite, (place.x, place.y, place.diameter or 0.0))):
            raise OutOfRange("fasteners", f"no place for {place.label}", "x and y as finite numbers")


def _mean(values: Sequence[float]) -> float:
    return math.fsum(values) / len(values)


@dataclass(frozen=True)
class _Spot:
    """A fastener seen from the middle."""

    place: FastenerPlace
    x: float
    y: float

    @property
    def reach(self) -> float:
        return math.hypot(self.x, self.y)

    def to(self, other: "_Spot") -> float:
        return math.hypot(self.x - other.x, self.y - other.y)


def _outwards(places: Sequence[FastenerPlace], centre: tuple[float, float]) -> list[FastenerPlace]:
    """Order fasteners of one size: ring by ring, crosswise in each ring."""
    spots = [_Spot(place, place.x - centre[0], place.y - centre[1]) for place in places]
    scale = max((spot.reach for spot in spots), default=0.0) or 1.0
    spots.sort(key=lambda spot: (round(spot.reach / scale / NEAR), *_rank(spot, scale)))
    ordered: list[_Spot] = []
    for ring in _rings(spots):
        ordered += _crosswise(ring, scale)
    return [spot.place for spot in ordered]


def _rank(spot: _Spot, scale: float) -> tuple[float, float, str]:
    """Decide between equals by place, so that labels and the order of typing do not matter: +y, then -x."""
    return -round(spot.y / scale / NEAR), round(spot.x / scale / NEAR), spot.place.label


def _rings(spots: Sequence[_Spot]) -> list[list[_Spot]]:
    """Part sorted spots where the distance grows by more than a quarter of the closest spacing."""
    spacing = min((a.to(b) for at, a in enumerate(spots) for b in spots[:at]), default=0.0)
    rings: list[list[_Spot]] = []
    for spot in spots:
        if rings and spot.reach - rings[-1][0].reach <= RING * spacing + NEAR:
            rings[-1].append(spot)
        else:
            rings.append([spot])
    return rings


def _crosswise(ring: Sequence[_Spot], scale: float) -> list[_Spot]:
    """Go across: the nearest first, its opposite, then the one farthest from all done, its opposite ..."""
    left = list(ring)
    done: list[_Spot] = []
    while left:
        seed = _farthest(left, done, scale) if done else left[0]
        left.remove(seed)
        done.append(seed)
        across = [spot for spot in left if spot.x * seed.x + spot.y * seed.y < 0]
        if across:
            partner = _farthest(across, [seed], scale)
            left.remove(partner)
            done.append(partner)
    return done


def _farthest(spots: Sequence[_Spot], done: Sequence[_Spot], scale: float) -> _Spot:
    """Take the spot whose nearest done one is farthest away; equals by place."""
    return min(
        spots,
        key=lambda spot: (-round(min(spot.to(one) for one in done) / scale / NEAR), *_rank(spot, scale)),
    )


def _distance(first: FastenerPlace, centre: tuple[float, float]) -> Step:
    inputs = {
        "x": (first.x, "mm"),
        "y": (first.y, "mm"),
        "middle_x": (centre[0], "mm"),
        "middle_y": (centre[1], "mm"),
    }
    says = f"How far the first, {first.label}, is from the middle"
    formula = "sqrt((x - middle_x)**2 + (y - middle_y)**2)"
    return Step.work_out(says, formula, inputs, ("distance", "mm"), COMMON_PRACTICE)


def _count(labels: Sequence[str]) -> Step:
    inputs = {
        "fasteners": (float(len(labels)), NO_UNIT),
        "repeated": (float(len(labels) - len(set(labels))), NO_UNIT),
    }
    return Step.work_out(
        "Fasteners in the order, each once",
        "fasteners - repeated",
        inputs,
        ("count", NO_UNIT),
        COMMON_PRACTICE,
    )
