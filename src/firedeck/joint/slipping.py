"""The stuck case of an engine, on coarse bricks: hot faces that do not slip, with every cylinder firing in turn."""

from collections.abc import Mapping
from dataclasses import dataclass

from firedeck.joint.assumed import assumed
from firedeck.joint.engine import COARSE, TIED, Engine, ready
from firedeck.joint.line_loads import read_off
from firedeck.joint.model import service_of
from firedeck.joint.run_in import run_in
from firedeck.joint.shear import stuck
from firedeck.joint.study import Slip
from firedeck.trace import Step

FRICTION = assumed("slip friction")
"""Friction of metal on a gasket as reckoned with: low, so that the stuck case is dropped rather than believed."""


@dataclass(frozen=True)
class Held:
    """Lowest firing line load of every ring, faces free to slip and stuck [N/mm]; and shear against friction."""

    free: Mapping[str, float]
    firing: Mapping[str, float]
    slip: Slip
    steps: tuple[Step, ...] = ()


def held_fast(engine: Engine) -> Held | None:
    """Warm an engine whose faces do not slip; None where its castings were not condensed with ties.

    It begins from the memory of the same engine on the same bricks with faces that slip, when cold.

    Parameters
    ----------
    engine : Engine
        The engine [mm/N].

    Returns
    -------
    Held or None
        Loads at every ring [N/mm].

    Raises
    ------
    DidNotConverge
        If it does not settle.

    Source
    ------
    derived
    """
    if TIED not in engine.flexible:
        return None
    free, tied = run_in(ready(engine, COARSE)), ready(engine, TIED)
    joint, service = tied.made.joint, service_of(tied.made, tied.inputs)
    friction = (FRICTION, engine.patch[tied.made.kept[: joint.springs.points]])
    hot = stuck(joint, [tied.safe], free.life.state, (service.rest, service.hot), friction)
    lowest = {ring.bore: ring.lowest for ring in read_off(joint, hot.forces).rings}
    firing = {}
    for bore in lowest:
        loads = (service.rest, service.firing(bore))
        fired = stuck(joint, [tied.safe], free.life.state, loads, friction)
        firing[bore] = min(read_off(joint, fired.forces).ring(bore).lowest, free.cold_firing[bore])
    slip = Slip(min(free.hot.values()), min(lowest.values()), hot.carried, hot.believable)
    return Held(free.firing, firing, slip, hot.steps)
