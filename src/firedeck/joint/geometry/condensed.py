"""Both bodies condensed and put together: all that the springs between them feel."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from firedeck.errors import OutOfRange
from firedeck.fem import Body, condense, rigid_motions
from firedeck.joint.clamped import Load, Places
from firedeck.joint.geometry.loading import Counts, LoadedBody, patches
from firedeck.joint.geometry.plan import JointPlan
from firedeck.joint.geometry.points import GasketPoints
from firedeck.joint.laws import Floats

UPRIGHT = (2, 3, 4)
"""Rigid motions a joint without ties can feel: along z, about x, about y."""


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
    hole_plan: JointPlan,
    points: GasketPoints,
    head: CondensedBody,
    block: CondensedBody,
    *,
    gas_from: int = 0,
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
    gas_from : int
        The gas column the bores of this plan begin at, where several gaskets were condensed together [1].

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
        for place, bore in enumerate(hole_plan.bores, start=n + gas_from)
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
