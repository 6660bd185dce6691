"""Where the gasket is felt: rings round the bores, half beads round openings and along the edge, and its body."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.geometry.castings import BlockSection, HeadSection
from firedeck.joint.geometry.metal import block_metal, head_metal
from firedeck.joint.geometry.plan import JointPlan
from firedeck.joint.laws import Floats
from firedeck.joint.springs import Ints

EDGE = "edge"
"""Place of the half bead along the outline."""


@dataclass(frozen=True)
class Sampling:
    """Points round each ring; distance of points on half beads and of body points; margins of the beads [mm]."""

    ring: int = 48
    half_bead: float = 8.0
    body: float = 11.0
    round_openings: float = 3.0
    along_edge: float = 6.0


@dataclass(frozen=True)
class GasketPoints:
    """Points of a gasket: x, y [mm]; kind (ring, half-bead, body); place; share [mm of line or mm² of body]."""

    x: Floats
    y: Floats
    kind: tuple[str, ...]
    place: tuple[str, ...]
    share: Floats

    @property
    def count(self) -> int:
        """Number of points."""
        return len(self.x)

    def only(self, kept: Ints) -> "GasketPoints":
        """Some of the points.

        Parameters
        ----------
        kept : ndarray of int, shape (p,)
            Which, rising [1].

        Returns
        -------
        GasketPoints
            Those [mm].

        Source
        ------
        derived
        """
        kinds, places = tuple(self.kind[at] for at in kept), tuple(self.place[at] for at in kept)
        return GasketPoints(self.x[kept], self.y[kept], kinds, places, self.share[kept])

    def of_gasket(self, gasket: int, gaskets: int) -> Ints:
        """Points of one of several gaskets whose rings were spread together: its own rings, and all that is no ring.

        Parameters
        ----------
        gasket : int
            Which gasket, from nought in the order they were given [1].
        gaskets : int
            How many there are [1].

        Returns
        -------
        ndarray of int, shape (p,)
            Numbers of its points, rising [1].

        Source
        ------
        derived
        """
        rings = self.kind.count("ring")
        each = rings // gaskets
        mine = np.arange(gasket * each, (gasket + 1) * each)
        return np.concatenate([mine, np.arange(rings, self.count)])


def gasket_points(
    plan: JointPlan,
    head: HeadSection,
    block: BlockSection,
    sampling: Sampling | None = None,
    others: Sequence[JointPlan] = (),
) -> GasketPoints:
    """Spread points over a gasket, where both faces have metal.

    Other gaskets differ by their rings alone; half beads and body of all are those of the one with the widest rings.

    Parameters
    ----------
    plan : JointPlan
        Hole pattern [mm].
    head, block : HeadSection, BlockSection
        Castings: a body point over an open jacket is left out [mm].
    sampling : Sampling, optional
        How many points [mm].
    others : sequence of JointPlan
        The same joint with the rings of other gaskets [mm].

    Returns
    -------
    GasketPoints
        Rings first, gasket after gasket, then half beads, then the body [mm].

    Raises
    ------
    OutOfRange
        If a ring has fewer than eight points.

    Source
    ------
    derived
    """
    how = sampling or Sampling()
    if how.ring < 8:
        raise OutOfRange("points round a ring", f"{how.ring}", "eight or more")
    gaskets = (plan, *others)
    widest = max(gaskets, key=lambda one: max(bore.ring for bore in one.bores))
    lines = [*(ring for one in gaskets for ring in _rings(one, how)), *_beads(widest, how)]
    beads = [_on_metal(plan, head, block, line) if line[0] == "half-bead" else line for line in lines]
    parts = [*beads, _on_metal(plan, head, block, _body(widest, how))]
    parts = [part for part in parts if len(part[2])]
    return GasketPoints(
        np.concatenate([part[2] for part in parts]),
        np.concatenate([part[3] for part in parts]),
        tuple(part[0] for part in parts for _ in part[2]),
        tuple(part[1] for part in parts for _ in part[2]),
        np.concatenate([part[4] for part in parts]),
    )


_Line = tuple[str, str, Floats, Floats, Floats]


def _rings(plan: JointPlan, how: Sampling) -> list[_Line]:
    angle = 2.0 * np.pi * np.arange(how.ring) / how.ring
    found = []
    for bore in plan.bores:
        x, y = bore.x + bore.ring / 2.0 * np.cos(angle), bore.y + bore.ring / 2.0 * np.sin(angle)
        found.append(("ring", bore.label, x, y, np.full(how.ring, np.pi * bore.ring / how.ring)))
    return found


def _beads(plan: JointPlan, how: Sampling) -> list[_Line]:
    found = []
    for opening in plan.openings:
        x, y = opening.line(how.round_openings, how.half_bead)
        found.append(_evenly("half-bead", opening.label, x, y))
    x, y = _edge_line(plan, how)
    found.append(_evenly("half-bead", EDGE, x, y))
    return [_clear_of_rings(plan, line) for line in found]


def _evenly(kind: str, place: str, x: Floats, y: Floats) -> _Line:
    step = np.hypot(np.diff(x, append=x[:1]), np.diff(y, append=y[:1])) if len(x) else np.empty(0)
    return kind, place, x, y, (step + np.roll(step, 1)) / 2.0


def _edge_line(plan: JointPlan, how: Sampling) -> tuple[Floats, Floats]:
    """Points along a line inside the outline."""
    from shapely import Polygon

    inset = Polygon(plan.outline).buffer(-how.along_edge, join_style="mitre")
    if inset.is_empty or inset.geom_type != "Polygon":
        return np.empty(0), np.empty(0)
    rim = inset.exterior
    count = max(8, round(rim.length / how.half_bead))
    places = [rim.interpolate((n + 0.5) / count, normalized=True) for n in range(count)]
    return np.array([p.x for p in places]), np.array([p.y for p in places])


def _clear_of_rings(plan: JointPlan, line: _Line) -> _Line:
    """Leave out points of a bead that lie on or inside a ring, or in a hole."""
    kind, place, x, y, share = line
    clear = np.ones(len(x), dtype=bool)
    for bore in plan.bores:
        clear &= np.hypot(x - bore.x, y - bore.y) > bore.ring / 2.0 + 1.0
    for fastener in plan.fasteners:
        clear &= np.hypot(x - fastener.x, y - fastener.y) > fastener.hole / 2.0
    for opening in plan.openings:
        clear &= opening.distance(x, y) > 0.0
    return kind, place, x[clear], y[clear], share[clear]


def _body(plan: JointPlan, how: Sampling) -> _Line:
    """Cells of the gasket's body, each a point at the middle of what is left of it."""
    low_x, high_x, low_y, high_y = plan.box
    nx, ny = (max(2, round((high - low) / how.body)) for low, high in ((low_x, high_x), (low_y, high_y)))
    fine = 6
    x = low_x + (np.arange(nx * fine) + 0.5) * (high_x - low_x) / (nx * fine)
    y = low_y + (np.arange(ny * fine) + 0.5) * (high_y - low_y) / (ny * fine)
    here = _gasket(plan, x[:, None], y[None, :])
    cells = here.reshape(nx, fine, ny, fine)
    counted = cells.sum(axis=(1, 3)).astype(np.float64)
    filled = counted >= fine * fine / 4
    sum_x = (cells * x.reshape(nx, fine, 1, 1)).sum(axis=(1, 3))
    sum_y = (cells * y.reshape(1, 1, ny, fine)).sum(axis=(1, 3))
    area = counted[filled] * (high_x - low_x) * (high_y - low_y) / (nx * ny * fine * fine)
    return "body", "body", sum_x[filled] / counted[filled], sum_y[filled] / counted[filled], area


def _gasket(plan: JointPlan, x: Floats, y: Floats) -> Floats:
    """One where the body of the gasket is, else nought."""
    here = plan.inside(x, y)
    for bore in plan.bores:
        here = here & (np.hypot(x - bore.x, y - bore.y) > bore.ring / 2.0 + 1.0)
    for fastener in plan.fasteners:
        here = here & (np.hypot(x - fastener.x, y - fastener.y) > fastener.hole / 2.0)
    for opening in plan.openings:
        here = here & (opening.distance(x, y) > 0.0)
    return here.astype(np.float64)


def _on_metal(plan: JointPlan, head: HeadSection, block: BlockSection, line: _Line) -> _Line:
    """Keep the points that have metal above and below."""
    kind, place, x, y, share = line
    skin = np.array([0.01])
    there = (head_metal(plan, head)(x, y, skin) > 0.5) & (block_metal(plan, block)(x, y, -skin) > 0.5)
    return kind, place, x[there], y[there], share[there]
