"""One joint on one mesh: rings when tightened, the lowest place while each cylinder fires, and how that changes."""

from dataclasses import dataclass, replace

import numpy as np

from firedeck.joint.assembling import Assembled, Bodies, assembled, gap_load
from firedeck.joint.clamped import Case, Load
from firedeck.joint.geometry.castings import BlockSection
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.loading import loaded_block, loaded_head
from firedeck.joint.geometry.mesh import Recipe, block_body, head_body, scaled, through_liner
from firedeck.joint.geometry.points import Sampling, gasket_points
from firedeck.joint.law_table import laws_of
from firedeck.joint.laws import Law
from firedeck.joint.newton import settle
from meshes.joints import Tried

ASKED = ("gas -20 %", "tension -10 %", "dip")


@dataclass(frozen=True)
class Read:
    """Mean ring load when tightened, loads of each ring with its cylinder firing (rings, points), and their changes."""

    mean: float
    firing: np.ndarray
    changes: dict[str, np.ndarray]

    @property
    def lowest(self) -> np.ndarray:
        """Lowest load of each ring."""
        return self.firing.min(axis=1)

    def change_at(self, places: np.ndarray) -> dict[str, np.ndarray]:
        """Change of each ring at one place of its own."""
        rings = np.arange(len(places))
        return {name: change[rings, places] for name, change in self.changes.items()}


def read(tried: Tried, recipe: Recipe, sampling: Sampling | None = None, cut: float | None = None) -> Read:
    """Read one joint on one mesh [N/mm]."""
    fitted = through_liner(scaled(recipe, tried.plan.mean_bore), tried.block)
    return asked(tried, joint(tried, fitted, sampling, cut))


def asked(tried: Tried, made: Assembled) -> Read:
    """Ask a joint for everything."""
    rest = made.joint.nothing()
    mean, usual = firing(made, rest, tried.tension, tried.pressure)
    changed = [
        firing(made, rest, tried.tension, 0.8 * tried.pressure)[1],
        firing(made, rest, 0.9 * tried.tension, tried.pressure)[1],
        firing(made, rest + dip(made, tried), tried.tension, tried.pressure)[1],
    ]
    return Read(mean, usual, {name: found - usual for name, found in zip(ASKED, changed, strict=True)})


def joint(tried: Tried, recipe: Recipe, sampling: Sampling | None, cut: float | None) -> Assembled:
    """Condense and put together."""
    block: BlockSection = tried.block if cut is None else replace(tried.block, cut_depth=cut)
    points = gasket_points(tried.plan, tried.head, tried.block, sampling)
    head, lower = tried.metals
    loaded = (
        loaded_head(tried.plan, tried.head, head_body(tried.plan, tried.head, head, recipe), points),
        loaded_block(tried.plan, block_body(tried.plan, block, lower, recipe), points),
    )
    flexible = put_together(tried.plan, points, *(condensed(body) for body in loaded))
    laws = {"half-bead": laws_of("multi-layer-steel")["half-bead"], "body": soft_body()}
    laws |= laws_of(tried.ring)
    bodies = Bodies(flexible.places, points.share, flexible.A, flexible.R, flexible.gas, flexible.warm)
    return assembled(bodies, laws, {one.label: tried.bolt for one in tried.plan.fasteners})


def soft_body() -> Law:
    """What lies beside the rings where a construction has no body of its own: invented, soft enough to leave them most."""
    return laws_of("wire-ring")["body"].scaled(0.5)


def firing(made: Assembled, rest: Load, tension: float, pressure: float) -> tuple[float, np.ndarray]:
    """Mean ring load when every bolt was drawn to its tension, and loads round each ring with its cylinder firing."""
    springs = made.joint.springs
    bolts = len(springs.stiffness)
    held = springs.turned_to(springs.fresh(), range(bolts), np.full(bolts, tension))
    cold = settle(made.joint, Case(held, rest))
    state = springs.let_go(cold.w, springs.remembered(cold.w, held))
    loads = []
    for bore, gas in made.gas.items():
        forces = settle(made.joint, Case(state, rest + pressure * gas), cold.w).forces
        ring = np.flatnonzero(made.joint.places.of("ring", bore))
        loads.append(forces[ring] / springs.share[ring])
    rings = np.flatnonzero(made.joint.places.of("ring"))
    return float((cold.forces[rings] / springs.share[rings]).mean()), np.array(loads)


def dip(made: Assembled, tried: Tried) -> Load:
    """A hollow as wide as an eighth of the bore beside the ring of the second cylinder."""
    places, points = made.joint.places, made.joint.springs.points
    bore = tried.plan.bores[1]
    x, y = places.x[:points], places.y[:points]
    far = np.hypot(x - bore.x, y - bore.y - bore.ring / 2.0)
    return gap_load(made.joint, tried.dip * np.exp(-((far / (bore.diameter / 8.0)) ** 2)))
