"""What the readings allow: many faces that agree with all leaves on all lines, by tempered Metropolis.

A cloud of faces drawn from what is known beforehand is led to the readings in stages. In every stage the
readings count a little more, faces that agree are kept in the place of others, and all are moved by
Metropolis steps with the real resting rule as forward model.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from firedeck.surfaces import dip_moves, grit_moves, smooth_moves
from firedeck.surfaces.cloud import Cloud
from firedeck.surfaces.face_model import EDGE_TRUE_TO, Plan
from firedeck.surfaces.faces_allowed import Sampled
from firedeck.surfaces.laying import LEAF_WIDTH, Laying, stations
from firedeck.surfaces.leaf_said import LEAF_SCATTER
from firedeck.surfaces.mirrored import WayRound

SEED = 1
KEPT = 0.2
"""Share of the faces that must still weigh something when the readings count more."""

EVENLY = 0.58
"""Scatter of what lies anywhere between two ends, as a share of half the distance: one over the root of three [1]."""

BLURRED = 30.0
"""While leaves are taken to scatter more than this, one round of moves does [µm]."""


GRITS = 2
"""Tries of grit in each round of a careful look [count]."""

LAST_GRITS = 4
"""Tries of grit before each take [count]."""


@dataclass(frozen=True)
class Effort:
    """How many faces are followed, rounds of moves in each stage, takes at the end, and rounds between them.

    ``grits`` is how often in each round grit is tried with the bend of the face that it wants; before a take it is
    always tried :data:`LAST_GRITS` times.
    """

    faces: int
    rounds: int
    takes: int
    between: int
    grits: int = 0

    def careful(self) -> "Effort":
        """Look more carefully for grit: twice as many faces, and tries of grit that the face answers in every round.

        Returns
        -------
        Effort
            Some two and a half times as much work [count].

        Source
        ------
        derived

        Examples
        --------
        >>> FULL.careful().faces
        256
        """
        return replace(self, faces=2 * self.faces, grits=GRITS)


FULL = Effort(faces=128, rounds=3, takes=6, between=2)
PREVIEW = Effort(faces=128, rounds=1, takes=2, between=1)


def sample(
    plan: Plan,
    layings: Sequence[Laying],
    leaf_width: float = LEAF_WIDTH,
    effort: Effort = FULL,
    edge_true_to: float = EDGE_TRUE_TO,
    *,
    seed: int = SEED,
) -> Sampled:
    """Sample the faces that straightedge lines allow.

    Parameters
    ----------
    plan : Plan
        The face and its bores [mm].
    layings : sequence of Laying
        Lines with the leaves that go and stop [mm].
    leaf_width : float
        Width of the leaves [mm].
    effort : Effort
        How many faces and moves [count].
    edge_true_to : float
        How hollow or crowned the edge may be at most over the longest line [mm].
    seed : int
        Where chance begins [count].

    Returns
    -------
    Sampled
        The faces; the same for the same readings [µm].

    Raises
    ------
    OutOfRange
        If a line or a reading does not lie on the face.

    Valid for
    ---------
    A stiff edge; faces that bend smoothly but for up to eight round dips.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.surfaces.verdict import LeafReading
    >>> plan = Plan((0.0, 0.0), (300.0, 120.0))
    >>> tried = tuple(LeafReading(float(at), 0.05, 0.06) for at in range(20, 281, 20))
    >>> laid = Laying("edge", (5.0, 8.0), (295.0, 8.0), 0.05, tried)
    >>> sample(plan, [laid], effort=PREVIEW).number
    256
    """
    way = WayRound.of(plan, layings)
    face = way.face()
    places = stations(face, [way.laying(one) for one in layings], leaf_width)
    cloud = Cloud(face, places, effort.faces, seed, EVENLY * 1000.0 * edge_true_to)
    stages, scale = 0, 0.5
    while cloud.blur > LEAF_SCATTER:
        cloud.sharpen(KEPT)
        stages += 1
        scale = _moved(cloud, scale, effort.rounds if cloud.blur < BLURRED else 1, effort.grits)
    taken = []
    for _ in range(effort.takes):
        scale = _moved(cloud, scale, effort.between, effort.grits)
        for _ in range(LAST_GRITS):
            grit_moves.put_or_take(cloud)
        unlike = cloud.leaves.unlike(cloud.heights, cloud.weight, cloud.under)
        spoilt = np.maximum(cloud.grit != 0, unlike)
        taken.append((cloud.shapes.copy(), cloud.dips.copy(), cloud.count.copy(), spoilt))
    shapes, dips, count, spoilt = (np.concatenate(part, axis=-1) for part in zip(*taken, strict=True))
    share = np.empty(len(layings), dtype=np.float32)
    share[places.order] = spoilt.mean(axis=1)
    shapes, dips = way.back(shapes, dips)
    return Sampled(plan, tuple(layings), shapes, dips, count, share, stages)


def _moved(cloud: Cloud, scale: float, rounds: int, grits: int) -> float:
    """Move all faces some rounds; return the step of the shapes that suits."""
    cloud.learn()
    cloud.refresh()
    cloud.order = cloud.followed()
    for _ in range(rounds):
        accepted = smooth_moves.climb(cloud, cloud.order, scale, 3)
        scale = float(np.clip(scale * np.exp(accepted - 0.57), 0.05, 1.5))
        dip_moves.bear_or_kill(cloud)
        dip_moves.move(cloud)
        cloud.move_edges()
        for _ in range(grits):
            grit_moves.put_or_take(cloud)
        cloud.move_lifts()
        dip_moves.bear_or_kill(cloud)
        dip_moves.across(cloud)
        dip_moves.replace(cloud)
        cloud.slide_bow()
    return scale
