"""The columns of a joint on a head and on a block: what loads them and what is read off them.

Signs: a column of the head carries the force a spring puts on the head, a column of the block the force the same spring
puts on the block; what a spring feels is minus the movement both columns read. So a gasket point is +z on the head and
-z on the block and feels closure; a bolt is -z at its washer and +z at its threads and feels lengthening.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.fem import (
    Body,
    Columns,
    Face,
    Plan,
    annulus,
    face_points,
    held_at_three_nodes,
    held_on_plane,
    joined,
    plan,
    roof_pressure,
    thread_zone,
    wall_pressure,
    warmth,
)
from firedeck.joint.geometry.castings import HeadSection
from firedeck.joint.geometry.plan import JointPlan
from firedeck.joint.geometry.points import GasketPoints
from firedeck.joint.laws import Floats

GAS_DEPTH = 0.09
"""Length of bore wall the gas presses when it presses hardest, down to the top ring of a piston at the top, over bore."""
ARC = 4
"""Places along the arc that a point of a ring stands for."""
PATCH = 30.0
"""Edge of a patch by which the faces are tied to each other where they are taken as stuck [mm]."""


@dataclass(frozen=True)
class Counts:
    """How many columns of each sort, in this order: gasket points, bolts, ties, gas of each bore, warmth."""

    points: int
    bolts: int
    ties: int
    gas: int

    @property
    def springs(self) -> int:
        """Columns that are springs."""
        return self.points + self.bolts + self.ties


@dataclass(frozen=True)
class LoadedBody:
    """A body ready to be condensed: bricks, columns, supports."""

    body: Body = field(repr=False)
    columns: Columns = field(repr=False)
    held: np.ndarray = field(repr=False)
    counts: Counts

    def plan(self) -> Plan:
        """Order the elimination, so that pieces can be shared out among processes.

        Returns
        -------
        Plan
            For fem.condense_piece and fem.finish [1].

        Source
        ------
        derived
        """
        return plan(self.body, self.columns, self.held)


def loaded_head(
    hole_plan: JointPlan,
    section: HeadSection,
    body: Body,
    points: GasketPoints,
    stuck: bool = False,
    *,
    others: Sequence[JointPlan] = (),
) -> LoadedBody:
    """Put the columns of a joint on a head.

    Parameters
    ----------
    hole_plan : JointPlan
        Hole pattern [mm].
    section : HeadSection
        Dimensions of the casting [mm].
    body : Body
        Its bricks [mm].
    points : GasketPoints
        Points of the gasket [mm].
    stuck : bool
        Add ties along the face for parts that do not slip [1].
    others : sequence of JointPlan
        The same joint with the rings of other gaskets: their gas is put on as well [mm].

    Returns
    -------
    LoadedBody
        Columns in the order of Counts [1].

    Raises
    ------
    OutOfRange
        If a point or a washer does not lie on metal.

    Source
    ------
    derived
    """
    face = Face(0, upward=True)
    seat = Face(int(np.abs(body.z - section.seat).argmin()), upward=False)
    springs = [_felt(body, face, hole_plan, points)]
    for one in hole_plan.fasteners:
        ring = annulus(body, seat, one.x, one.y, inner=one.washer_inner / 2.0, outer=one.washer_outer / 2.0)
        springs.append(_times(ring, -1.0))
    ties = _ties(body, face, points, 1.0) if stuck else []
    bores = [bore for one in (hole_plan, *others) for bore in one.bores]
    gas = [roof_pressure(body, bore.x, bore.y, bore.gas / 2.0) for bore in bores]
    fall = 1.0 - (body.z - body.z[0]) / (body.z[-1] - body.z[0])
    counts = Counts(points.count, len(hole_plan.fasteners), sum(tie.count for tie in ties), len(gas))
    columns = joined([*springs, *ties, *gas, *_warmths(body, fall)])
    return LoadedBody(body, columns, held_at_three_nodes(body, seat.plane), counts)


def loaded_block(
    hole_plan: JointPlan,
    body: Body,
    points: GasketPoints,
    stuck: bool = False,
    *,
    others: Sequence[JointPlan] = (),
) -> LoadedBody:
    """Put the columns of a joint on a block.

    Parameters
    ----------
    hole_plan : JointPlan
        Hole pattern [mm].
    body : Body
        Bricks of the block [mm].
    points : GasketPoints
        Points of the gasket [mm].
    stuck : bool
        Add ties along the face for parts that do not slip [1].
    others : sequence of JointPlan
        The same joint with the rings of other gaskets: their gas is put on as well [mm].

    Returns
    -------
    LoadedBody
        Columns in the order of Counts [1].

    Raises
    ------
    OutOfRange
        If a point does not lie on metal, or threads reach below the cut.

    Source
    ------
    derived
    """
    face = Face(len(body.z) - 1, upward=False)
    springs = [_times(_felt(body, face, hole_plan, points), -1.0)]
    for one in hole_plan.fasteners:
        low = -one.thread_bottom
        if low < body.z[0]:
            found = f"{one.thread_bottom:g} mm below the face"
            raise OutOfRange(f"threads of {one.label}", found, f"above the cut at {-body.z[0]:g} mm")
        zone = thread_zone(
            body, one.x, one.y, radius=one.thread / 2.0, low=low, high=-one.thread_top, towards_top=True
        )
        springs.append(zone)
    ties = _ties(body, face, points, -1.0) if stuck else []
    gas = [
        wall_pressure(
            body, bore.x, bore.y, radius=bore.diameter / 2.0, low=-GAS_DEPTH * bore.diameter, high=0.0
        )
        for one in (hole_plan, *others)
        for bore in one.bores
    ]
    fall = (body.z - body.z[0]) / (body.z[-1] - body.z[0])
    counts = Counts(points.count, len(hole_plan.fasteners), sum(tie.count for tie in ties), len(gas))
    columns = joined([*springs, *ties, *gas, *_warmths(body, fall)])
    return LoadedBody(body, columns, held_on_plane(body, 0), counts)


def _felt(body: Body, face: Face, hole_plan: JointPlan, points: GasketPoints) -> Columns:
    """Gasket points as columns: a point of a ring stands for its whole arc, so that no mesh sees single forces there."""
    places = arcs(hole_plan, points)
    return face_points(body, face, places.x, places.y, groups=places.of, weights=places.weight)


@dataclass(frozen=True)
class Spread:
    """Places that share the load of gasket points: x, y [mm], number of the point, share of its load."""

    x: Floats
    y: Floats
    of: np.ndarray
    weight: Floats


def arcs(hole_plan: JointPlan, points: GasketPoints) -> Spread:
    """Spread every point of a ring evenly along the arc it stands for.

    Parameters
    ----------
    hole_plan : JointPlan
        Hole pattern [mm].
    points : GasketPoints
        Points of the gasket [mm].

    Returns
    -------
    Spread
        ARC places for a point of a ring, their middle on the point, and one for any other [mm].

    Source
    ------
    derived
    """
    middle = {bore.label: (bore.x, bore.y) for bore in hole_plan.bores}
    ring = np.array([kind == "ring" for kind in points.kind])
    on, off = np.flatnonzero(ring), np.flatnonzero(~ring)
    centre = np.array([middle[points.place[point]] for point in on]).reshape(-1, 2)
    dx, dy = points.x[on] - centre[:, 0], points.y[on] - centre[:, 1]
    reach = points.share[on] / np.hypot(dx, dy)
    turn = np.multiply.outer((np.arange(ARC) + 0.5) / ARC - 0.5, reach)
    c, s = (of(turn) / np.cos(turn).mean(axis=0) for of in (np.cos, np.sin))
    return Spread(
        np.concatenate([(centre[:, 0] + c * dx - s * dy).ravel(), points.x[off]]),
        np.concatenate([(centre[:, 1] + s * dx + c * dy).ravel(), points.y[off]]),
        np.concatenate([np.tile(on, ARC), off]),
        np.concatenate([np.full(ARC * len(on), 1.0 / ARC), np.ones(len(off))]),
    )


def _times(columns: Columns, factor: float) -> Columns:
    return Columns(columns.dof, columns.column, columns.weight * factor, columns.count)


def _warmths(body: Body, fall: Floats) -> list[Columns]:
    even = np.ones(body.nodes)
    return [warmth(body, even), warmth(body, np.broadcast_to(fall, body.nodes))]


def patches(points: GasketPoints) -> np.ndarray:
    """Patch of the face each gasket point belongs to.

    Parameters
    ----------
    points : GasketPoints
        Points of the gasket [mm].

    Returns
    -------
    ndarray of int, shape (g,)
        Number of the patch, without gaps [1].

    Source
    ------
    derived
    """
    cell = np.stack([np.floor(points.x / PATCH), np.floor(points.y / PATCH)], axis=1)
    return np.unique(cell, axis=0, return_inverse=True)[1].ravel()


def _ties(body: Body, face: Face, points: GasketPoints, sign: float) -> list[Columns]:
    """Mean movement of every patch along x, then along y."""
    group = patches(points)
    weight = sign / np.bincount(group)[group]
    return [
        face_points(body, face, points.x, points.y, direction=direction, groups=group, weights=weight)
        for direction in (0, 1)
    ]
