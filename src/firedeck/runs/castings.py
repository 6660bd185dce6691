"""What has to be condensed for the study of one engine, and how its castings are put together from that.

Fine bricks for head and block in the middle of their families; coarse ones for the soft and the stiff head, for metal
off a face, and for faces that are stuck to each other. Two engines that share a plan share all of it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from firedeck.joint.engine import COARSE, MIDDLE, SOFT, STIFF, TIED, Engine, Given
from firedeck.joint.geometry.castings import HeadSection, skimmed
from firedeck.joint.geometry.condensed import CondensedBody, Flexibility, part, put_together
from firedeck.joint.geometry.loading import patches
from firedeck.joint.geometry.mesh import Recipe
from firedeck.joint.geometry.plan import JointPlan
from firedeck.joint.geometry.points import GasketPoints
from firedeck.joint.geometry.variants import moved, skimmed_block, without_ties
from firedeck.joint.springs import Ints
from firedeck.runs.condensing import Wanted
from firedeck.runs.request import JointRequest

DEEP = 1.0
"""Cuts are condensed in steps of this depth; what lies between is taken on a straight line [mm]."""


@dataclass(frozen=True)
class Castings:
    """Castings of one engine: the middle ones before any cut, both ends of the head, metal off either face [mm].

    ``coarse``: bricks for everything of which only a difference is used; ``gasket``: which of the request's rings it has.
    """

    request: JointRequest
    soft: HeadSection
    stiff: HeadSection
    coarse: Recipe
    cut_head: float = 0.0
    cut_block: float = 0.0
    gasket: int = 0

    @property
    def plan(self) -> JointPlan:
        """Hole pattern with the rings of the gasket that goes on."""
        return (self.request.plan, *self.request.others)[self.gasket]

    def points(self) -> GasketPoints:
        """Points of the gasket that goes on."""
        every = self.request.points()
        return every.only(self._mine(every))

    def _mine(self, every: GasketPoints) -> Ints:
        return every.of_gasket(self.gasket, 1 + len(self.request.others))

    def wanted(self) -> dict[str, Wanted]:
        """Every body by name, the longest work first."""
        request = self.request
        like, rough = request.head, replace(request, recipe=self.coarse)
        tied = replace(rough, stuck=True)
        found = {
            "head": Wanted(request, "head", "head"),
            "tied head": Wanted(tied, "head", "head, coarse"),
            "soft head": Wanted(replace(rough, head=self.soft, head_like=like), "head", "soft head"),
            "stiff head": Wanted(replace(rough, head=self.stiff, head_like=like), "head", "stiff head"),
            "block": Wanted(request, "block", "block"),
            "tied block": Wanted(tied, "block", "block, coarse"),
        }
        if request.recipe == self.coarse:
            found |= {"head": found["tied head"], "block": found["tied block"]}
        if self.cut_head > 0.0:
            cut = replace(rough, head=skimmed(like, deep(self.cut_head)), head_like=like)
            found["cut head"] = Wanted(cut, "head", "head with metal off")
        if self.cut_block > 0.0:
            block = skimmed_block(request.block, deep(self.cut_block))
            cut = replace(rough, block=block, block_like=request.block)
            found["cut block"] = Wanted(cut, "block", "block with metal off")
        return found

    def together(self, bodies: dict[str, CondensedBody]) -> dict[str, Flexibility]:
        """Head and block of every casting, as the springs between them feel them."""
        coarse = {part: without_ties(bodies[f"tied {part}"]) for part in ("head", "block")}
        head, block = without_ties(bodies["head"]), without_ties(bodies["block"])
        if self.cut_head > 0.0:
            head = moved(head, bodies["cut head"], coarse["head"], self.cut_head / deep(self.cut_head))
        if self.cut_block > 0.0:
            block = moved(block, bodies["cut block"], coarse["block"], self.cut_block / deep(self.cut_block))
        heads = {
            MIDDLE: (head, block),
            SOFT: (moved(head, bodies["soft head"], coarse["head"]), block),
            STIFF: (moved(head, bodies["stiff head"], coarse["head"]), block),
            COARSE: (coarse["head"], coarse["block"]),
            TIED: (bodies["tied head"], bodies["tied block"]),
        }
        every = self.request.points()
        mine = self._mine(every)
        found = {}
        for name, pair in heads.items():
            gas_from = self.gasket * len(self.plan.bores)
            whole = put_together(self.plan, every, *pair, gas_from=gas_from)
            rods = np.arange(every.count, len(whole.places.x))
            found[name] = part(whole, np.concatenate([mine, rods]))
        return found

    def engine(self, bodies: dict[str, CondensedBody], given: Given) -> Engine:
        """The engine with these castings."""
        every = self.request.points()
        mine = self._mine(every)
        return Engine(self.together(bodies), every.share[mine], patches(every)[mine], given)


def deep(cut: float) -> float:
    """Depth of the cut that is condensed for one that lies between it and none [mm]."""
    return DEEP * ceil(cut / DEEP - 1e-9)


def all_wanted(castings: Sequence[Castings]) -> list[Wanted]:
    """Every body of several engines once."""
    found: dict[str, Wanted] = {}
    for one in castings:
        for body in one.wanted().values():
            found.setdefault(body.key, body)
    return list(found.values())
