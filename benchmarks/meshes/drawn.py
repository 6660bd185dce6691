"""Joints drawn at random, all invented: bores, spacing, bolts, castings, gasket, tension and pressure."""

from dataclasses import dataclass

import numpy as np

from firedeck.fem import Material
from firedeck.joint.assembling import Assembled, Bodies, Bolt, assembled
from firedeck.joint.geometry.castings import Variant, block_section, families, head_section
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.loading import loaded_block, loaded_head
from firedeck.joint.geometry.mesh import Recipe, block_body, head_body, scaled
from firedeck.joint.geometry.plan import Bore, Fastener, JointPlan
from firedeck.joint.geometry.points import Sampling, gasket_points
from firedeck.joint.law_table import laws_of

COARSE = Recipe("coarse", 12.0, 18.0, 0.0, 18.0)
FEW = Sampling(ring=24, half_bead=20.0, body=25.0)
METALS = Material(71e3, 0.33, 2.1e-5), Material(110e3, 0.26, 1.07e-5)
GASKETS = (
    "multi-layer-steel",
    "multi-layer-steel-plain",
    "graphite-metal-core",
    "composite",
    "steel-shim",
    "wire-ring",
    "soft-copper",
)


@dataclass(frozen=True)
class Drawn:
    """A joint put together, the tension of its bolts [N], its peak pressure [MPa], and in words what it is."""

    made: Assembled
    tension: float
    pressure: float
    says: str


def drawn(seed: int) -> Drawn:
    """One joint; the same seed gives the same joint."""
    rng = np.random.default_rng(seed)
    size, count = rng.uniform(50.0, 130.0), int(rng.integers(1, 5))
    plan = row_of(rng, size, count)
    head = str(rng.choice(families("head")))
    block = str(rng.choice(families("block")))
    variant = rng.choice(list(Variant))
    sections = head_section(head, size, variant), block_section(block, size, variant)
    metals = [METALS[0] if "aluminium" in head else METALS[1], METALS[int(rng.integers(2))]]
    recipe = scaled(COARSE, size)
    points = gasket_points(plan, *sections, FEW)
    flexible = put_together(
        plan,
        points,
        condensed(loaded_head(plan, sections[0], head_body(plan, sections[0], metals[0], recipe), points)),
        condensed(loaded_block(plan, block_body(plan, sections[1], metals[1], recipe), points)),
    )
    gasket = str(rng.choice(GASKETS))
    laws = laws_of(gasket)
    if laws["ring"].per.value == "MPa":
        laws["ring"] = laws["ring"].along(2.0)
    pressure = float(rng.uniform(4.0, 12.0))
    lift = pressure * np.pi * size**2 / 4.0
    tension = float(rng.uniform(2.0, 4.0) * lift * count / len(plan.fasteners))
    bolt = Bolt(float(rng.uniform(2.0, 5.0)) * 30.0 * size, 3.0 * tension)
    bodies = Bodies(flexible.places, points.share, flexible.A, flexible.R, flexible.gas, flexible.warm)
    made = assembled(bodies, laws, {one.label: bolt for one in plan.fasteners})
    says = f"{count} × {size:.0f} mm, {head} on {block} ({variant}), {gasket}, {tension / 1e3:.0f} kN, {pressure:.1f} MPa"
    return Drawn(made, tension, pressure, says)


def row_of(rng: np.random.Generator, size: float, count: int) -> JointPlan:
    """A row of bores, a little staggered, bolts on both sides, none exactly where symmetry would have it."""
    pitch, half = size * rng.uniform(1.12, 1.35), size * rng.uniform(0.68, 0.80)
    x = pitch * (np.arange(count) - (count - 1) / 2)
    stagger = size * rng.uniform(0.0, 0.04) * (-1.0) ** np.arange(count)
    hole = 0.12 * size
    sizes = (hole, 0.9 * hole, hole, 2.0 * hole, 0.1 * size, 0.45 * size)
    at = pitch * (np.arange(count + 1) - count / 2)
    fasteners = tuple(
        Fastener(f"{n}{side}", float(a + 0.03 * size * rng.uniform(-1, 1)), side_y, *sizes)
        for n, a in enumerate(at)
        for side, side_y in (("i", -half), ("e", half))
    )
    long, wide = pitch * count / 2 + 0.28 * size, half + 0.22 * size
    return JointPlan(
        ((-long, -wide), (long, -wide), (long, wide), (-long, wide)),
        tuple(
            Bore(str(n + 1), float(a), float(s), size, 1.03 * size, 1.01 * size)
            for n, (a, s) in enumerate(zip(x, stagger, strict=True))
        ),
        fasteners,
    )
