"""Both bodies with their load columns, condensed and put together.

Signs: a column of the head carries the force a spring puts on the head, a column of the block the force the same spring
puts on the block; what a spring feels is minus the movement both columns read. So a gasket point is +z on the head and
-z on the block and feels closure; a bolt is -z at its washer and +z at its threads and feels lengthening.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from firedeck.errors import OutOfRange
from firedeck.fem import (
    Body,
    Columns,
    Face,
    Plan,
    annulus,
    condense,
    face_points,
    held_at_three_nodes,
    held_on_plane,
    joined,
    plan,
    rigid_motions,
    roof_pressure,
    thread_zone,
    wall_pressure,
    warmth,
)
from firedeck.joint.clamped import Load, Places
from firedeck.joint.geometry.castings import HeadSection
from firedeck.joint.geometry.plan import JointPlan
from firedeck.joint.geometry.points import GasketPoints
from firedeck.joint.laws import Floats

GAS_DEPTH = 8.0
"""Length of bore wall the gas presses when it presses hardest: down to the top ring of a piston at the top [mm]."""
PATCH = 30.0
"""Edge of a patch by which the faces are tied to each other where they are taken as stuck [mm]."""
UPRIGHT = (2, 3, 4)
"""Rigid motions a joint without ties can feel: along z, about x, about y."""


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


@dataclass(frozen=True)
class CondensedBody:
    """G (m, m): reading of every column per unit of every column [mm/N]; rigid (m, 6): reading per rigid motion."""

    G: Floats = field(repr=False)
    rigid: Floats = field(repr=False)
    counts: Counts


@dataclass(frozen=True)
class Flexibility:
    """What the gasket can feel of head and block.

    ``A`` (n, n) [mm/N] and ``R`` (n, k) over gasket points, bolts and ties; ``gas``: load of each bore per MPa;
    ``warm``: loads per K: head-even, head-fire-face (one at the fire face, nought at the top), block-even, block-deck
    (one at the deck, nought at the cut).
    """

    places: Places
    A: Floats = field(repr=False)
    R: Floats = field(repr=False)
    gas: Mapping[str, Load] = field(repr=False)
    warm: Mapping[str, Load] = field(repr=False)


def loaded_head(
    hole_plan: JointPlan, section: HeadSection, body: Body, points: GasketPoints, stuck: bool = False
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
    springs = [face_points(body, face, points.x, points.y)]
    for one in hole_plan.fasteners:
        ring = annulus(body, seat, one.x, one.y, inner=one.washer_inner / 2.0, outer=one.washer_outer / 2.0)
        springs.append(_times(ring, -1.0))
    ties = _ties(body, face, points, 1.0) if stuck else []
    gas = [roof_pressure(body, bore.x, bore.y, bore.gas / 2.0) for bore in hole_plan.bores]
    fall = 1.0 - (body.z - body.z[0]) / (body.z[-1] - body.z[0])
    counts = Counts(points.count, len(hole_plan.fasteners), sum(tie.count for tie in ties), len(gas))
    columns = joined([*springs, *ties, *gas, *_warmths(body, fall)])
    return LoadedBody(body, columns, held_at_three_nodes(body, seat.plane), counts)


def loaded_block(hole_plan: JointPlan, body: Body, points: GasketPoints, stuck: bool = False) -> LoadedBody:
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
    springs = [_times(face_points(body, face, points.x, points.y), -1.0)]
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
        wall_pressure(body, bore.x, bore.y, radius=bore.diameter / 2.0, low=-GAS_DEPTH, high=0.0)
        for bore in hole_plan.bores
    ]
    fall = (body.z - body.z[0]) / (body.z[-1] - body.z[0])
    counts = Counts(points.count, len(hole_plan.fasteners), sum(tie.count for tie in ties), len(gas))
    columns = joined([*springs, *ties, *gas, *_warmths(body, fall)])
    return LoadedBody(body, columns, held_on_plane(body, 0), counts)


def condensed(loaded: LoadedBody, G: Floats | None = None) -> CondensedBody:
    """Condense a body, or take a G that was condensed elsewhere.

    Parameters
    ----------
    loaded : LoadedBody
        Bricks, columns, supports [1].
    G : ndarray, shape (m, m), optional
        Result of fem.finish on ``loaded.plan()`` [mm/N].

    Returns
    -------
    CondensedBody
        What is left of it [mm/N].

    Source
    ------
    derived
    """
    found = condense(loaded.body, loaded.columns, loaded.held) if G is None else G
    return CondensedBody(found, rigid_motions(loaded.body, loaded.columns), loaded.counts)


def put_together(
    hole_plan: JointPlan, points: GasketPoints, head: CondensedBody, block: CondensedBody
) -> Flexibility:
    """Head and block as the springs between them feel them.

    Parameters
    ----------
    hole_plan : JointPlan
        Hole pattern [mm].
    points : GasketPoints
        Points of the gasket [mm].
    head, block : CondensedBody
        The two bodies over the same points [mm/N].

    Returns
    -------
    Flexibility
        A, R and the loads [mm/N].

    Raises
    ------
    OutOfRange
        If the two bodies were not condensed over the same columns.

    Source
    ------
    derived
    """
    if head.counts != block.counts:
        raise OutOfRange("head and block", f"{head.counts} and {block.counts}", "the same columns on both")
    counts = head.counts
    n = counts.springs
    motions = list(range(6)) if counts.ties else list(UPRIGHT)
    R = -head.rigid[:n, motions]
    nothing = np.zeros(len(motions))
    gas = {
        bore.label: Load(-head.G[:n, place] - block.G[:n, place], head.rigid[place, motions].copy())
        for place, bore in enumerate(hole_plan.bores, start=n)
    }
    even, fall = n + counts.gas, n + counts.gas + 1
    warm = {
        "head-even": Load(-head.G[:n, even], nothing),
        "head-fire-face": Load(-head.G[:n, fall], nothing),
        "block-even": Load(-block.G[:n, even], nothing),
        "block-deck": Load(-block.G[:n, fall], nothing),
    }
    return Flexibility(_places(hole_plan, points, counts), head.G[:n, :n] + block.G[:n, :n], R, gas, warm)


def part(whole: Flexibility, kept: Sequence[int] | NDArray[np.int64]) -> Flexibility:
    """Some of the springs only: the points of one candidate among several condensed at once.

    Parameters
    ----------
    whole : Flexibility
        All springs [mm/N].
    kept : sequence of int, shape (p,)
        Springs to keep, rising; points first, then bolts and ties, as they stand [1].

    Returns
    -------
    Flexibility
        The same joint with those springs [mm/N].

    Source
    ------
    derived
    """
    place = np.asarray(kept, dtype=np.int64)
    old = whole.places
    places = Places(
        old.x[place],
        old.y[place],
        tuple(old.kind[one] for one in place),
        tuple(old.place[one] for one in place),
    )
    gas = {label: Load(load.w[place], load.r) for label, load in whole.gas.items()}
    warm = {name: Load(load.w[place], load.r) for name, load in whole.warm.items()}
    return Flexibility(places, whole.A[np.ix_(place, place)], whole.R[place], gas, warm)


def between(one: CondensedBody, other: CondensedBody, share: float) -> CondensedBody:
    """A body between two that differ a little, such as a head between no cut and the deepest cut asked about.

    Parameters
    ----------
    one, other : CondensedBody
        Two bodies over the same columns, by the same bricks with moved planes [mm/N].
    share : float
        0 is the one, 1 the other [1].

    Returns
    -------
    CondensedBody
        What lies between on a straight line [mm/N].

    Raises
    ------
    OutOfRange
        If the columns differ, or the share lies outside 0 to 1.

    Valid for
    ---------
    Cuts of a tenth of the deck or so: halfway to 1 mm off an 8.4 mm deck it is within 0.3 % of a third
    condensed body.

    Source
    ------
    derived
    """
    if one.counts != other.counts:
        raise OutOfRange("bodies", f"{one.counts} and {other.counts}", "the same columns in both")
    if not 0.0 <= share <= 1.0:
        raise OutOfRange("place between two bodies", f"{share:g}", "0 to 1")
    rest = 1.0 - share
    return CondensedBody(rest * one.G + share * other.G, rest * one.rigid + share * other.rigid, one.counts)


def own_weight(body: Body, force: float, stuck: bool = False) -> Floats:
    """Resultant of the head's own weight, which presses on the gasket.

    Parameters
    ----------
    body : Body
        Bricks of the head [mm].
    force : float
        Weight of the head [N].
    stuck : bool
        Whether the joint has ties [1].

    Returns
    -------
    ndarray, shape (k,)
        r of the weight in each rigid motion [N, N·mm].

    Source
    ------
    derived
    """
    volume = body.share * np.einsum("i,j,k->ijk", np.diff(body.x), np.diff(body.y), np.diff(body.z))
    middle = [(planes[1:] + planes[:-1]) / 2.0 for planes in (body.x, body.y)]
    whole = volume.sum()
    x = float(volume.sum(axis=(1, 2)) @ middle[0] / whole)
    y = float(volume.sum(axis=(0, 2)) @ middle[1] / whole)
    all_six = -force * np.array([0.0, 0.0, 1.0, y, -x, 0.0])
    return all_six if stuck else all_six[list(UPRIGHT)]


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


def _places(hole_plan: JointPlan, points: GasketPoints, counts: Counts) -> Places:
    bolts = hole_plan.fasteners
    tie_x, tie_y = np.empty(0), np.empty(0)
    tie_names: tuple[str, ...] = ()
    if counts.ties:
        group = patches(points)
        size = np.bincount(group)
        x, y = np.bincount(group, points.x) / size, np.bincount(group, points.y) / size
        tie_x, tie_y = np.tile(x, 2), np.tile(y, 2)
        tie_names = tuple(f"{axis}{number}" for axis in "xy" for number in range(len(size)))
    return Places(
        np.concatenate([points.x, [bolt.x for bolt in bolts], tie_x]),
        np.concatenate([points.y, [bolt.y for bolt in bolts], tie_y]),
        (*points.kind, *("bolt" for _ in bolts), *("tie" for _ in tie_names)),
        (*points.place, *(bolt.label for bolt in bolts), *tie_names),
    )
