"""Layings of the straightedge with the leaves tried under it, as the posterior takes them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.errors import OutOfRange
from firedeck.surfaces.face_model import Plan, shape_terms
from firedeck.surfaces.lines import Place
from firedeck.surfaces.points import Array
from firedeck.surfaces.verdict import LeafReading

LEAF_WIDTH = 10.0
"""Width of a leaf where none is given [mm]."""

WEIGHT = 20.0
"""How far from the middle of a line the weight of the edge may lie, at most [mm]."""

MOST_HIGH = 3
"""Places beside the end leaves where an edge that hangs on them may touch, at most, either side [count]."""

THROUGH = -10.0
"""A gap where no leaf goes is over this all the same: an edge goes through no metal, but for the texture [µm]."""

FAR = 1.0e6
"""Depth of a hole nothing touches, and the gap beyond the thickest leaf [µm]."""


@dataclass(frozen=True)
class Laying:
    """The edge laid once: where, on end leaves of what thickness (0: on the face), and what was tried [mm]."""

    name: str
    start: Place
    end: Place
    end_leaves: float
    readings: tuple[LeafReading, ...]

    @property
    def length(self) -> float:
        """From end to end [mm]."""
        return float(np.hypot(self.end[0] - self.start[0], self.end[1] - self.start[1]))

    def places(self, stations: Array) -> tuple[Array, Array]:
        """x and y of stations along the line.

        Parameters
        ----------
        stations : ndarray
            Distances from the start [mm].

        Returns
        -------
        tuple of ndarray
            x and y [mm].

        Source
        ------
        derived
        """
        share = stations / self.length
        return (
            self.start[0] + share * (self.end[0] - self.start[0]),
            self.start[1] + share * (self.end[1] - self.start[1]),
        )


@dataclass(frozen=True)
class Stations:
    """All places the edge may touch and the leaves were tried, of every line, in arrays.

    Lines that rest on the face come first, then those that hang on end leaves; ``order`` (l,) says which
    laying each one is, ``blocks`` how many places an edge may touch left and right of the weight, and how many
    lines, of either kind. First come all those places, left before right; then the sides of the leaves.
    ``x``, ``y`` (p,), ``along`` (p,) from the middle of the line, ``raised`` (p,) what lies on the face there,
    or a hole [µm]. ``line`` (r,), ``at`` (r,), ``sides`` (2, r) numbers of places, ``goes`` (r,), ``stops``
    (r,) belong to the readings; ``weight`` (l,) is how far the weight
    may lie from the middle, ``half_length`` (l,) half of each line.
    """

    blocks: tuple[tuple[int, int], tuple[int, int]]
    lines: int
    order: npt.NDArray[np.intp]
    x: Array
    y: Array
    along: Array
    raised: Array
    line: npt.NDArray[np.intp]
    at: Array
    sides: npt.NDArray[np.intp]
    goes: Array
    stops: Array
    weight: Array
    half_length: Array

    @property
    def resting(self) -> int:
        """How many lines rest on the face [count]."""
        return self.blocks[0][1]

    def linear(self, plan: Plan) -> Array:
        """Heights at every place for one µm of each smooth shape, and of the bow of the edge.

        Parameters
        ----------
        plan : Plan
            The face [mm].

        Returns
        -------
        ndarray, shape (p, 13)
            The shapes, and last the bow over the longest line [1].

        Source
        ------
        derived
        """
        bow = (self.along / self.half_length.max()) ** 2
        return np.column_stack((shape_terms(plan, self.x, self.y), bow))


def stations(plan: Plan, layings: Sequence[Laying], leaf_width: float = LEAF_WIDTH) -> Stations:
    """Put all layings into arrays.

    Parameters
    ----------
    plan : Plan
        The face [mm].
    layings : sequence of Laying
        At least one [mm].
    leaf_width : float
        Width of the leaves along the edge [mm].

    Returns
    -------
    Stations
        Places and readings of all lines [mm].

    Raises
    ------
    OutOfRange
        If there is no line, a line has no length or leaves the face, or a reading lies beyond its line.

    Source
    ------
    derived

    Examples
    --------
    >>> laid = Laying("edge", (0.0, 8.0), (400.0, 8.0), 0.0, (LeafReading(200.0, 0.05, 0.06),))
    >>> found = stations(Plan((0.0, 0.0), (400.0, 160.0)), [laid])
    >>> found.blocks, len(found.x)
    (((15, 1), (4, 0)), 32)
    """
    if not layings:
        raise OutOfRange("lines", "none", "at least one line with readings")
    for laying in layings:
        _check(plan, laying)
    hanging = [hangs(laying) for laying in layings]
    order = np.argsort(hanging, kind="stable")
    lines = [layings[number] for number in order]
    rests = len(lines) - sum(hanging)
    half = int(np.clip(np.ceil(max((line.length for line in lines[:rests]), default=0.0) / 30.0), 7, 40)) + 1
    weight = np.array([min(WEIGHT, 0.1 * line.length) for line in lines])
    pairs = [
        (line, 0.5 * line.length + free, 0.5 * line.length - free)
        for line, free in zip(lines, weight, strict=True)
    ]
    on_face = [
        (
            _touching(plan, line, np.linspace(0.0, right, half)),
            _touching(plan, line, np.linspace(left, line.length, half)),
        )
        for line, right, left in pairs[:rests]
    ]
    on_leaves = [_between_leaves(plan, line, left, right) for line, right, left in pairs[rests:]]
    parts = [
        np.stack(side, axis=2).reshape(4, -1)
        for block in (on_face, on_leaves)
        for side in zip(*block, strict=True)
    ]
    sides, number = [], sum(part.shape[1] for part in parts)
    for line in lines:
        places, pair = _under_leaves(line, leaf_width / 2)
        sides.append(pair + number)
        parts.append(places)
        number += places.shape[1]
    x, y, along, raised = np.concatenate(parts, axis=1)
    tried = [reading for line in lines for reading in line.readings]
    of = np.repeat(np.arange(len(lines)), [len(line.readings) for line in lines])
    middles = np.array([0.5 * line.length for line in lines])
    return Stations(
        blocks=((half, rests), (1 + MOST_HIGH, len(lines) - rests)),
        lines=len(lines),
        order=order,
        x=x,
        y=y,
        along=along,
        raised=raised,
        line=of,
        at=np.array([reading.at for reading in tried]) - middles[of],
        sides=np.concatenate(sides, axis=1),
        goes=np.array([THROUGH if reading.goes is None else 1000.0 * reading.goes for reading in tried]),
        stops=np.array([FAR if reading.stops is None else 1000.0 * reading.stops for reading in tried]),
        weight=weight,
        half_length=middles,
    )


def hangs(laying: Laying) -> bool:
    """Say whether an edge on end leaves can touch little else: leaves go almost wherever they were tried.

    Parameters
    ----------
    laying : Laying
        The edge and its readings [mm].

    Returns
    -------
    bool
        True where the edge touches the end leaves, or one of at most three places either side [1].

    Source
    ------
    derived

    Examples
    --------
    >>> tried = (LeafReading(100.0, 0.03, 0.04), LeafReading(200.0, 0.05, 0.06))
    >>> hangs(Laying("edge", (0.0, 8.0), (300.0, 8.0), 0.05, tried))
    True
    >>> hangs(Laying("edge", (0.0, 8.0), (300.0, 8.0), 0.0, tried))
    False
    """
    if not laying.end_leaves or not laying.readings:
        return False
    high, free = _high_places(laying), min(WEIGHT, 0.1 * laying.length)
    return all(
        len(side) <= MOST_HIGH
        for side in (high[high <= 0.5 * laying.length + free], high[high >= 0.5 * laying.length - free])
    )


def _high_places(laying: Laying) -> Array:
    """Stations where no leaf went: between the end leaves the edge can touch nowhere else [mm]."""
    return np.array([reading.at for reading in laying.readings if not reading.goes])


def _between_leaves(plan: Plan, laying: Laying, left: float, right: float) -> tuple[Array, Array]:
    """What an edge on end leaves may touch left and right of its weight: the leaf, and where no leaf went."""
    high, empty = _high_places(laying), np.full(MOST_HIGH, 0.0)
    sides = []
    for end, mine in ((0.0, high[high <= right]), (laying.length, high[high >= left])):
        station = np.append(end, mine)
        places = _touching(plan, laying, np.append(station, empty[len(mine) :] + end))
        places[3, len(station) :] = -FAR
        sides.append(places)
    return sides[0], sides[1][:, ::-1]


def _check(plan: Plan, laying: Laying) -> None:
    if not laying.length > 20.0:
        raise OutOfRange(f"line {laying.name}", f"{laying.length:g} mm long", "longer than 20 mm")
    for x, y in (laying.start, laying.end):
        if not bool(plan.on_face(np.array(x), np.array(y), 1.0)):
            raise OutOfRange(
                f"line {laying.name}", f"an end at {x:g}, {y:g} mm", "ends on the face, not in a bore"
            )
    for reading in laying.readings:
        if not 0.0 <= reading.at <= laying.length:
            raise OutOfRange(
                f"line {laying.name}", f"a reading at {reading.at:g} mm", f"0 to {laying.length:g} mm"
            )


def _touching(plan: Plan, laying: Laying, station: Array) -> Array:
    """x, y, station from the middle, and what lies on the face at places the edge may touch (4, m)."""
    x, y = laying.places(station)
    ends = (station == 0.0) | (station == laying.length)
    raised = np.where(plan.on_face(x, y, 1.0), 1000.0 * laying.end_leaves * ends, -FAR)
    return np.stack((x, y, station - 0.5 * laying.length, raised))


def _under_leaves(laying: Laying, aside: float) -> tuple[Array, npt.NDArray[np.intp]]:
    """The same under both sides of the leaves (4, m), each place once; and the two of every reading (2, r)."""
    at = np.array([reading.at for reading in laying.readings])
    both = np.clip(np.stack((at - aside, at + aside)), 0.0, laying.length)
    station, pair = np.unique(both.round(6), return_inverse=True)
    x, y = laying.places(station)
    places = np.stack((x, y, station - 0.5 * laying.length, np.zeros(len(station))))
    return places, pair.reshape(2, -1).astype(np.intp)
