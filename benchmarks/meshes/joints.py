"""The joints the standard mesh is tried on: two it was chosen by, three nothing was fitted to. All invented.

The rule for wet liners (two bricks through the wall) was found on ``wet``; ``fresh`` was made after it. For both the rule
makes the bricks of the standard mesh as narrow as the fine mesh has them, so ``fresh`` has a finer one to be held against.
"""

from dataclasses import dataclass, field

from firedeck.fem import Material
from firedeck.joint.assembling import Bolt
from firedeck.joint.geometry.castings import BlockSection, HeadSection, block_section, head_section
from firedeck.joint.geometry.mesh import FINE, Recipe
from firedeck.joint.geometry.plan import Bore, Fastener, JointPlan, Opening

FINER = Recipe("finer", 2.0, 2.5, 12.5, 9.0)
"""Three bricks through the wall of a wet liner [mm]."""
ALLOY, IRON = Material(71e3, 0.33, 21.5e-6), Material(110e3, 0.26, 10.7e-6)


@dataclass(frozen=True)
class Tried:
    """A joint and what it is put through: tension [N], peak pressure [MPa], gasket."""

    says: str
    chosen_by: bool
    plan: JointPlan
    head: HeadSection
    block: BlockSection
    metals: tuple[Material, Material]
    ring: str
    tension: float
    pressure: float
    bolt: Bolt = field(default_factory=lambda: Bolt(2.5e5, 90e3))
    dip: float = 0.03
    """Depth of the hollow tried [mm]: less where the ring springs back less."""
    fine: Recipe = FINE
    """Mesh the others are held against."""


def inline(
    bore: float, pitch: float, count: int, *, across: tuple[float, float], bolt: float, skew: float = 0.0
) -> JointPlan:
    """An inline row: bolts between and beside the bores, a passage beside each, ``skew`` moves one side along."""
    x = [pitch * (n - (count - 1) / 2) for n in range(count)]
    rows = [pitch * (n - count / 2) for n in range(count + 1)]
    low, high = across
    end = pitch * count / 2 + 0.35 * bore
    margin = 0.26 * bore
    sizes = (bolt, bolt - 1.0, bolt, 1.85 * bolt, 0.85 * bolt, 3.4 * bolt)
    return JointPlan(
        outline=(
            (-end, -low - margin),
            (end, -low - margin),
            (end, high + margin),
            (-end, high + margin),
        ),
        bores=tuple(Bore(str(n + 1), at, 0.0, bore, 1.035 * bore, 1.012 * bore) for n, at in enumerate(x)),
        fasteners=tuple(
            Fastener(f"{n}{side}", at + (skew if side == "e" and n else 0.0), y, *sizes)
            for n, at in enumerate(rows)
            for side, y in (("i", -low), ("e", high))
        ),
        openings=tuple(
            Opening(f"water {n}{side}", at, y, 0.11 * bore)
            for n, at in enumerate(x)
            for side, y in (("i", -0.72 * bore), ("e", 0.72 * bore))
        ),
    )


CLOSED = inline(86.0, 96.0, 4, across=(68.0, 68.0), bolt=12.0)
BANK = inline(92.0, 103.0, 3, across=(66.0, 74.0), bolt=11.0, skew=4.0)
FRESH = inline(98.0, 120.0, 2, across=(74.0, 80.0), bolt=13.0, skew=-3.0)
WET = inline(104.0, 126.0, 3, across=(78.0, 82.0), bolt=14.0)

JOINTS = {
    "closed": Tried(
        "inline four, alloy head, closed iron deck",
        True,
        CLOSED,
        head_section("aluminium-overhead-cam", 86.0),
        block_section("closed-deck", 86.0),
        (ALLOY, IRON),
        "multi-layer-steel",
        50e3,
        6.0,
    ),
    "open": Tried(
        "inline four, alloy head, open alloy deck",
        True,
        CLOSED,
        head_section("aluminium-overhead-cam", 86.0),
        block_section("open-deck", 86.0),
        (ALLOY, ALLOY),
        "multi-layer-steel-plain",
        50e3,
        6.0,
    ),
    "bank": Tried(
        "bank of a vee six, alloy push-rod head, closed alloy deck, bolts skewed",
        False,
        BANK,
        head_section("aluminium-push-rod", 92.0),
        block_section("closed-deck", 92.0),
        (ALLOY, ALLOY),
        "multi-layer-steel",
        52e3,
        5.0,
    ),
    "wet": Tried(
        "inline three, iron diesel head, iron block with wet liners",
        False,
        WET,
        head_section("iron-diesel", 104.0),
        block_section("wet-liner", 104.0),
        (Material(115e3, 0.26, 10.7e-6), IRON),
        "wire-ring",
        95e3,
        12.0,
        Bolt(4.0e5, 150e3),
        0.01,
    ),
    "fresh": Tried(
        "inline two, alloy head, iron block with wet liners, bolts skewed, steel layers",
        False,
        FRESH,
        head_section("aluminium-push-rod", 98.0),
        block_section("wet-liner", 98.0),
        (ALLOY, IRON),
        "multi-layer-steel-plain",
        95e3,
        7.0,
        Bolt(3.0e5, 120e3),
        fine=FINER,
    ),
}
