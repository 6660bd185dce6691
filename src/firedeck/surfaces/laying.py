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

    First come the places left and right of the weight, ``half`` of each for every line, then the two
    sides of the leaf at every reading. ``x``, ``y`` (p,), ``along`` (p,) from the middle of the line,
    ``raised`` (p,) what lies on the face there, or a hole [µm]. ``line`` (r,), ``at`` (r,), ``goes``
    (r,), ``stops`` (r,) belong to the readings; ``weight`` (l,) is how far the weight may lie from
    the middle.
    """

    half: int
    lines: int
    x: Array
    y: Array
    along: Array
    raised: Array
    line: npt.NDArray[np.intp]
    at: Array
    goes: Array
    stops: Array
    weight: Array
    reach: float

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
        bow = (self.along / self.reach) ** 2
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
    >>> found.half, found.lines, len(found.x) == 2 * found.half + 2
    (15, 1, True)
    """
    if not layings:
        raise OutOfRange("lines", "none", "at least one line with readings")
    longest = max(laying.length for laying in layings)
    half = int(np.clip(np.ceil(longest / 30.0), 12, 40)) + 1
    weight = np.array([min(WEIGHT, 0.1 * laying.length) for laying in layings])
    for laying in layings:
        _check(plan, laying)
    left, right = [], []
    for laying, free in zip(layings, weight, strict=True):
        middle = 0.5 * laying.length
        left.append(_touching(plan, laying, np.linspace(0.0, middle + free, half)))
        right.append(_touching(plan, laying, np.linspace(middle - free, laying.length, half)))
    under = [_under_leaves(laying, side * leaf_width / 2) for side in (-1, 1) for laying in layings]
    sides = [np.stack(side, axis=2).reshape(4, -1) for side in (left, right)]
    x, y, along, raised = np.concatenate((*sides, *under), axis=1)
    tried = [reading for laying in layings for reading in laying.readings]
    line = np.repeat(np.arange(len(layings)), [len(laying.readings) for laying in layings])
    middles = np.array([0.5 * laying.length for laying in layings])
    return Stations(
        half=half,
        lines=len(layings),
        x=x,
        y=y,
        along=along,
        raised=raised,
        line=line,
        at=np.array([reading.at for reading in tried]) - middles[line],
        goes=np.array([-FAR if reading.goes is None else 1000.0 * reading.goes for reading in tried]),
        stops=np.array([FAR if reading.stops is None else 1000.0 * reading.stops for reading in tried]),
        weight=weight,
        reach=0.5 * longest,
    )


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


def _under_leaves(laying: Laying, aside: float) -> Array:
    """The same at one side of the leaf, at every reading (4, r)."""
    station = np.clip([reading.at + aside for reading in laying.readings], 0.0, laying.length)
    x, y = laying.places(station)
    return np.stack((x, y, station - 0.5 * laying.length, np.zeros(len(station))))
