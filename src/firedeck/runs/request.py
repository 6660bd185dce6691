"""What is to be condensed: a hole pattern, two castings, their metals and how fine; and the key it is kept under."""

import hashlib
import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass, field, replace
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, Literal

from firedeck.errors import OutOfRange
from firedeck.fem import Material
from firedeck.joint.geometry.castings import BlockSection, HeadSection
from firedeck.joint.geometry.loading import LoadedBody, loaded_block, loaded_head
from firedeck.joint.geometry.mesh import Recipe, block_body, head_body
from firedeck.joint.geometry.plan import JointPlan
from firedeck.joint.geometry.points import GasketPoints, Sampling, gasket_points

Part = Literal["head", "block"]
PARTS: tuple[Part, ...] = ("head", "block")
NAMES_ONLY = {"label", "says", "name"}
"""Fields that are words for a person and move no figure."""


@dataclass(frozen=True)
class JointRequest:
    """One joint to condense; the order of its parts is fixed.

    ``others``: the same joint with the rings of other gaskets, which are condensed with it.

    ``head_like`` and ``block_like``: the castings whose bricks are kept when sections are varied; ``stuck``: with ties
    along the face.
    """

    plan: JointPlan
    head: HeadSection
    block: BlockSection
    head_metal: Material
    block_metal: Material
    recipe: Recipe
    sampling: Sampling = field(default_factory=Sampling)
    head_like: HeadSection | None = None
    block_like: BlockSection | None = None
    stuck: bool = False
    others: tuple[JointPlan, ...] = ()

    def __post_init__(self) -> None:
        ordered = in_order(self.plan)
        if ordered != self.plan:
            object.__setattr__(self, "plan", ordered)
        object.__setattr__(self, "others", tuple(in_order(one) for one in self.others))

    def points(self) -> GasketPoints:
        """Points of all gaskets; those of the model castings, so that variants have the same."""
        like = self.head_like or self.head, self.block_like or self.block
        return gasket_points(self.plan, *like, self.sampling, self.others)

    def loaded(self, part: Part) -> LoadedBody:
        """Bricks and columns of one of the bodies."""
        points = self.points()
        if part == "head":
            head = head_body(self.plan, self.head, self.head_metal, self.recipe, self.head_like)
            return loaded_head(self.plan, self.head, head, points, self.stuck, others=self.others)
        block = block_body(self.plan, self.block, self.block_metal, self.recipe, self.block_like)
        return loaded_block(self.plan, block, points, self.stuck, others=self.others)

    def key(self, part: Part) -> str:
        """Name under which the condensed body is kept: all that moves a figure of it, and the source that worked it out.

        The other body moves it by its model casting alone, through the points of the gasket.
        """
        like = {"head": self.head_like or self.head, "block": self.block_like or self.block}
        own = (self.head, self.head_metal) if part == "head" else (self.block, self.block_metal)
        common = (self.plan, *self.others, self.sampling, self.recipe, like["head"], like["block"])
        plain = [self.stuck, *(_rounded(asdict(one)) for one in (*common, *own))]
        text = json.dumps([part, plain, source_hash()], sort_keys=True, allow_nan=False)
        return hashlib.sha256(text.encode()).hexdigest()[:40]


def in_order(plan: JointPlan) -> JointPlan:
    """Put bores, fasteners and openings in order of place, so that the same engine has one key however it is listed."""

    def sorted_by_place(parts: Sequence[Any]) -> tuple[Any, ...]:
        return tuple(sorted(parts, key=lambda one: (round(one.x, 3), round(one.y, 3), one.label)))

    return replace(
        plan,
        bores=sorted_by_place(plan.bores),
        fasteners=sorted_by_place(plan.fasteners),
        openings=sorted_by_place(plan.openings),
    )


def _rounded(value: Any) -> Any:
    """Plain data with lengths to a micrometre; small figures (growth per K, Poisson's ratio) keep six digits."""
    if isinstance(value, dict):
        return {name: _rounded(one) for name, one in value.items() if name not in NAMES_ONLY}
    if isinstance(value, list | tuple):
        return [_rounded(one) for one in value]
    if isinstance(value, float):
        if value - value != 0.0:
            raise OutOfRange("geometry", f"{value}", "plain numbers")
        return round(value, 3) + 0.0 if abs(value) >= 1.0 else float(f"{value:.6g}")
    return value


@cache
def source_hash() -> str:
    """Hash of the source that condenses: another version finds nothing of this one in the cache."""
    whole = hashlib.sha256()
    root = files("firedeck")
    for folder in (root / "fem", root / "joint" / "geometry"):
        for name, text in _sources(folder):
            whole.update(name.encode() + b"\0" + text + b"\0")
    return whole.hexdigest()[:16]


def _sources(folder: Traversable) -> list[tuple[str, bytes]]:
    found = [(one.name, one.read_bytes()) for one in folder.iterdir() if one.name.endswith(".py")]
    return sorted(found)
