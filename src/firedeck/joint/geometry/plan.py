"""The hole pattern a joint is made from: outline, bores, fasteners, openings; refused where it cannot be a joint."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np
from numpy.typing import NDArray

from firedeck.errors import JobError, JobErrors
from firedeck.joint.laws import Floats

Point = tuple[float, float]


@dataclass(frozen=True)
class Bore:
    """A cylinder: centre, bore, diameter of the gasket's ring where it presses, and of the circle the gas fills [mm]."""

    label: str
    x: float
    y: float
    diameter: float
    ring: float
    gas: float


@dataclass(frozen=True)
class Fastener:
    """A bolt or stud [mm]: its hole in the head, its thread, the washer's ring, and its threads below the block face."""

    label: str
    x: float
    y: float
    hole: float
    thread: float
    washer_inner: float
    washer_outer: float
    thread_top: float
    thread_bottom: float


@dataclass(frozen=True)
class Opening:
    """A passage through gasket and faces: round, or a slot ``length`` long over all, turned by ``angle`` [mm, rad]."""

    label: str
    x: float
    y: float
    diameter: float
    length: float = 0.0
    angle: float = 0.0

    def distance(self, x: Floats, y: Floats) -> Floats:
        """Distance of points from the rim, negative inside.

        Parameters
        ----------
        x, y : ndarray, shape (n,)
            Places [mm].

        Returns
        -------
        ndarray, shape (n,)
            Distance from the rim [mm].

        Source
        ------
        derived
        """
        half = max(0.0, self.length - self.diameter) / 2.0
        along = (x - self.x) * np.cos(self.angle) + (y - self.y) * np.sin(self.angle)
        across = -(x - self.x) * np.sin(self.angle) + (y - self.y) * np.cos(self.angle)
        beyond = np.maximum(np.abs(along) - half, 0.0)
        rim: Floats = np.hypot(beyond, across) - self.diameter / 2.0
        return rim

    def line(self, margin: float, spacing: float) -> tuple[Floats, Floats]:
        """Points on a line round the opening, evenly apart.

        Parameters
        ----------
        margin : float
            Distance of the line from the rim [mm].
        spacing : float
            Wanted distance of points [mm].

        Returns
        -------
        tuple of ndarray
            x, y of the points, each of length n [mm].

        Source
        ------
        derived
        """
        radius = self.diameter / 2.0 + margin
        straight = max(0.0, self.length - self.diameter)
        whole = 2.0 * np.pi * radius + 2.0 * straight
        count = max(8, round(whole / spacing))
        run = (np.arange(count) + 0.5) * whole / count
        arc = np.pi * radius
        turn = np.where(run < straight, 0.0, np.where(run < straight + arc, (run - straight) / radius, np.pi))
        turn = np.where(run > 2 * straight + arc, np.pi + (run - 2 * straight - arc) / radius, turn)
        slid = np.where(run < straight, run, straight)
        slid = np.where(run > straight + arc, straight - np.minimum(run - straight - arc, straight), slid)
        along = slid - straight / 2.0 + radius * np.sin(turn)
        across = -radius * np.cos(turn)
        c, s = np.cos(self.angle), np.sin(self.angle)
        return self.x + along * c - across * s, self.y + along * s + across * c


@dataclass(frozen=True)
class JointPlan:
    """The hole pattern of one joint in its own frame, looking down on the deck [mm]."""

    outline: tuple[Point, ...]
    bores: tuple[Bore, ...]
    fasteners: tuple[Fastener, ...]
    openings: tuple[Opening, ...] = ()

    def __post_init__(self) -> None:
        faults = self._outline_faults()
        if len(self.outline) >= 3:
            faults += [*self._bore_faults(), *self._fastener_faults()]
        if faults:
            raise JobErrors(faults)

    def _outline_faults(self) -> list[JobError]:
        if len(self.outline) < 3:
            return [_fault("outline", f"{len(self.outline)} corners", "three or more corners round the face")]
        if not self.bores:
            return [_fault("bores", "none", "one or more cylinders")]
        x, y = np.array([(bore.x, bore.y) for bore in self.bores]).T
        room = self.inside(x, y) & (self.to_edge(x, y) > [bore.diameter / 2.0 for bore in self.bores])
        return [
            _fault(f"bores.{bore.label}", "reaches beyond the outline", "a bore within the face")
            for bore, fits in zip(self.bores, room, strict=True)
            if not fits
        ]

    def _bore_faults(self) -> list[JobError]:
        faults = []
        for bore in self.bores:
            if not 0.0 < bore.diameter <= bore.ring or not bore.gas > 0.0:
                found = f"bore {bore.diameter:g} mm, ring {bore.ring:g} mm"
                faults.append(_fault(f"bores.{bore.label}", found, "a bore above nought within its ring"))
        for one, other in combinations(self.bores, 2):
            apart = float(np.hypot(one.x - other.x, one.y - other.y))
            if apart <= (one.diameter + other.diameter) / 2.0:
                found = f"{apart:.4g} mm from bore {other.label}"
                faults.append(_fault(f"bores.{one.label}", found, "bores that do not overlap"))
            elif apart < (one.ring + other.ring) / 2.0:
                found = f"its ring overlaps that of bore {other.label}"
                faults.append(_fault(f"bores.{one.label}", found, "rings side by side"))
        return faults

    def _fastener_faults(self) -> list[JobError]:
        if len(self.fasteners) < 3:
            return [_fault("fasteners", f"{len(self.fasteners)}", "three or more, not all on one line")]
        faults = []
        for fastener in self.fasteners:
            for bore in self.bores:
                apart = float(np.hypot(fastener.x - bore.x, fastener.y - bore.y))
                if apart < (bore.diameter + fastener.hole) / 2.0:
                    faults.append(
                        _fault(f"fasteners.{fastener.label}", f"inside bore {bore.label}", "beside the bores")
                    )
            if not 0.0 < fastener.thread_top < fastener.thread_bottom:
                found = (
                    f"threads from {fastener.thread_top:g} to {fastener.thread_bottom:g} mm below the face"
                )
                faults.append(
                    _fault(f"fasteners.{fastener.label}", found, "threads below the face, top first")
                )
            if not fastener.washer_inner < fastener.washer_outer:
                found = f"washer {fastener.washer_inner:g} to {fastener.washer_outer:g} mm"
                faults.append(_fault(f"fasteners.{fastener.label}", found, "a ring wider than its hole"))
        x, y = np.array([(fastener.x, fastener.y) for fastener in self.fasteners]).T
        outside = ~self.inside(x, y)
        faults += [
            _fault(f"fasteners.{fastener.label}", "outside the outline", "within the face")
            for fastener, out in zip(self.fasteners, outside, strict=True)
            if out
        ]
        return faults

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Ends of the outline: least x, greatest x, least y, greatest y [mm]."""
        x, y = np.array(self.outline).T
        return float(x.min()), float(x.max()), float(y.min()), float(y.max())

    @property
    def mean_bore(self) -> float:
        """Mean diameter of the bores [mm]."""
        return float(np.mean([bore.diameter for bore in self.bores]))

    def inside(self, x: Floats, y: Floats) -> NDArray[np.bool_]:
        """Say which points lie within the outline.

        Parameters
        ----------
        x, y : ndarray
            Places that broadcast [mm].

        Returns
        -------
        ndarray of bool
            True within [1].

        Source
        ------
        derived
        """
        x, y = np.broadcast_arrays(x, y)
        within = np.zeros(x.shape, dtype=bool)
        for (x0, y0), (x1, y1) in _sides(self.outline):
            crosses = (y0 > y) != (y1 > y)
            if y0 != y1:
                within ^= crosses & (x < x0 + (y - y0) * (x1 - x0) / (y1 - y0))
        return within

    def to_edge(self, x: Floats, y: Floats) -> Floats:
        """Distance of points from the outline.

        Parameters
        ----------
        x, y : ndarray
            Places that broadcast [mm].

        Returns
        -------
        ndarray
            Distance from the nearest side [mm].

        Source
        ------
        derived
        """
        x, y = np.broadcast_arrays(x, y)
        best = np.full(x.shape, np.inf)
        for (x0, y0), (x1, y1) in _sides(self.outline):
            dx, dy = x1 - x0, y1 - y0
            length = dx * dx + dy * dy
            if length > 0.0:
                t = np.clip(((x - x0) * dx + (y - y0) * dy) / length, 0.0, 1.0)
                best = np.minimum(best, np.hypot(x - x0 - t * dx, y - y0 - t * dy))
        return best


def plain_outline(bores: Sequence[Bore], fasteners: Sequence[Fastener]) -> tuple[Point, ...]:
    """A rectangle round all bores and fasteners, for a face whose outline nobody measured.

    Parameters
    ----------
    bores : sequence of Bore
        Cylinders [mm].
    fasteners : sequence of Fastener
        Bolts or studs [mm].

    Returns
    -------
    tuple of (float, float)
        Four corners; a sixth of a bore beyond the bores, and a washer and 2 mm round every fastener [mm].

    Source
    ------
    generic-ours

    Examples
    --------
    >>> plain_outline([Bore("1", 0.0, 0.0, 60.0, 63.0, 61.0)], [])
    ((-40.0, -40.0), (40.0, -40.0), (40.0, 40.0), (-40.0, 40.0))
    """
    spans = [(one.x, one.y, one.diameter / 2.0 + one.diameter / 6.0) for one in bores]
    spans += [(one.x, one.y, one.washer_outer / 2.0 + 2.0) for one in fasteners]
    left, right = min(x - r for x, _, r in spans), max(x + r for x, _, r in spans)
    low, high = min(y - r for _, y, r in spans), max(y + r for _, y, r in spans)
    return (left, low), (right, low), (right, high), (left, high)


def _sides(outline: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(pairwise([*outline, outline[0]]))


def _fault(where: str, found: str, allowed: str) -> JobError:
    return JobError(f"layout.{where}", found, allowed)
