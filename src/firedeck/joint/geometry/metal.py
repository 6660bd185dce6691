"""Where metal is in a head and in a block: shares of full metal at points, from plan and section."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from firedeck.joint.geometry.castings import BlockSection, HeadSection
from firedeck.joint.geometry.plan import JointPlan
from firedeck.joint.laws import Floats

Mask = NDArray[np.bool_]
HANGS = 0.85
"""Share of the jacket's depth down to which a wet liner is modelled; it must not touch the floor it slides in."""
Metal = Callable[[Floats, Floats, Floats], Floats]


def head_metal(plan: JointPlan, section: HeadSection) -> Metal:
    """Metal of a head, z from its fire face upwards.

    Parameters
    ----------
    plan : JointPlan
        Hole pattern [mm].
    section : HeadSection
        Dimensions of the casting [mm].

    Returns
    -------
    callable
        Share of metal at x, y, z that broadcast as (n, 1, 1), (1, m, 1), (1, 1, k) [mm] -> [1].

    Valid for
    ---------
    Water-cooled heads over round bores. Bolt holes count as filled, as the bolts stand in them.

    Source
    ------
    generic-ours
    """

    def share(x: Floats, y: Floats, z: Floats) -> Floats:
        s = section
        flat = plan.inside(x, y)
        over_bore, chamber = _over(plan, x, y, 1.0), _over(plan, x, y, 0.97)
        shell = (plan.to_edge(x, y) < s.wall) | _cross_ribs(plan, x, s.rib)
        posts = _bosses(plan, x, y, s.boss)
        deck = (z < s.deck) | (over_bore & (z < s.chamber_depth + s.roof))
        top = (z > s.seat - s.ceiling) & (z < s.seat)
        upright = shell | (posts & (z < s.seat))
        metal = np.where(deck | top | upright, 1.0, np.where(over_bore & (z < s.seat), s.ports, 0.0))
        hollow = chamber & (z < s.chamber_depth)
        found: Floats = np.where(flat & ~hollow & ~_openings(plan, x, y, z < s.deck), metal, 0.0)
        return found

    return share


def block_metal(plan: JointPlan, section: BlockSection) -> Metal:
    """Metal of a block, its face at z = 0 and everything below it.

    Parameters
    ----------
    plan : JointPlan
        Hole pattern [mm].
    section : BlockSection
        Dimensions of the casting [mm].

    Returns
    -------
    callable
        Share of metal at x, y, z that broadcast as (n, 1, 1), (1, m, 1), (1, 1, k) [mm] -> [1].

    Valid for
    ---------
    Water-cooled blocks with cast-in, dry or flanged wet liners. A wet liner hangs from its flange and ends above the cut.

    Source
    ------
    generic-ours
    """

    def share(x: Floats, y: Floats, z: Floats) -> Floats:
        s = section
        shell = plan.to_edge(x, y) < s.wall
        posts = _bosses(plan, x, y, s.boss)
        tube = _over(plan, x, y, 1.0, s.liner)
        floor = z < -s.jacket
        if s.ledge > 0.0:
            flange = _over(plan, x, y, 1.0, s.liner + s.flange) & (z > -s.ledge)
            tube = flange | (tube & (z > -HANGS * s.jacket))
            floor = floor & ~_over(plan, x, y, 1.0, s.liner)
        metal = (z > -s.deck) | floor | shell | posts | tube
        hole = _over(plan, x, y, 1.0) | _openings(plan, x, y, z > -s.deck)
        found: Floats = np.where(plan.inside(x, y) & metal & ~hole, 1.0, 0.0)
        return found

    return share


def _over(plan: JointPlan, x: Floats, y: Floats, scale: float, margin: float = 0.0) -> Mask:
    """Points over the bores, each scaled and widened by a margin."""
    found = np.zeros(np.broadcast_shapes(x.shape, y.shape), dtype=bool)
    for bore in plan.bores:
        found |= np.hypot(x - bore.x, y - bore.y) < scale * bore.diameter / 2.0 + margin
    return found


def _bosses(plan: JointPlan, x: Floats, y: Floats, thickness: float) -> Mask:
    found = np.zeros(np.broadcast_shapes(x.shape, y.shape), dtype=bool)
    for fastener in plan.fasteners:
        radius = max(fastener.hole / 2.0 + thickness, fastener.washer_outer / 2.0)
        found |= np.hypot(x - fastener.x, y - fastener.y) < radius
    return found


def _openings(plan: JointPlan, x: Floats, y: Floats, deep: Mask) -> Mask:
    """Holes of the passages through a deck."""
    found = np.zeros(np.broadcast_shapes(x.shape, y.shape), dtype=bool)
    for opening in plan.openings:
        found |= opening.distance(x, y) < 0.0
    return found & deep


def rib_places(plan: JointPlan) -> Floats:
    """Middle planes of the cross ribs: halfway between neighbouring bores along the crankshaft.

    Parameters
    ----------
    plan : JointPlan
        Hole pattern [mm].

    Returns
    -------
    ndarray, shape (bores - 1,)
        x of each rib [mm].

    Source
    ------
    generic-ours
    """
    x = np.sort([bore.x for bore in plan.bores])
    middles: Floats = (x[1:] + x[:-1]) / 2.0
    return middles


def _cross_ribs(plan: JointPlan, x: Floats, thickness: float) -> Mask:
    found = np.zeros(x.shape, dtype=bool)
    for place in rib_places(plan):
        found |= np.abs(x - place) < thickness / 2.0
    return found
