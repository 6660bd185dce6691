"""More stretches of life after running in: tightened again, overheated once, left out in the cold."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from firedeck.joint.assumed import assumed
from firedeck.joint.clamped import Case, ClampedJoint
from firedeck.joint.model import Inputs, Whole, service_of
from firedeck.joint.run_in import firing_places, lower_of
from firedeck.joint.settling import settle_all
from firedeck.joint.states import Judged, Life, judged, shaken_down
from firedeck.joint.study import After
from firedeck.joint.tightening import Action, balance_steps, tighten

OVERHEAT = assumed("overheat")
"""How much hotter than in use a head gets that has lost its water [K]."""
ROOM, COLD_SOAK = assumed("bench"), assumed("frost")
"""The joint was put together at the one and is left out at the other [°C]."""


def tightened_again(whole: Whole, actions: Sequence[Action]) -> After:
    """Tighten a joint again that has run in, and run it once more.

    Parameters
    ----------
    whole : Whole
        The joint, run in [mm], [N].
    actions : sequence of Action
        What the wrench does the second time [N], [mm].

    Returns
    -------
    After
        Lowest place firing and least fastener cold, afterwards [N/mm], [N].

    Raises
    ------
    DidNotConverge
        If it does not settle.

    Source
    ------
    derived
    """
    joint, service = whole.made.joint, whole.service
    again = tighten(joint, whole.operators, actions, service.rest, (whole.life.state, whole.life.w))
    life = Life(again.state, again.w, again.forces, 0, again.steps)
    life = shaken_down(joint, whole.operators, life, service)
    cases = judged(joint, whole.operators, life, service)
    return _after("tightened again after running in", joint, life, _lowest(joint, cases))


def overheated(whole: Whole, inputs: Inputs) -> After:
    """Overheat a joint once, firing, and judge it again as in use.

    Parameters
    ----------
    whole : Whole
        The joint, run in [mm], [N].
    inputs : Inputs
        What it was made from [core].

    Returns
    -------
    After
        Lowest place firing and least fastener cold, afterwards [N/mm], [N].

    Raises
    ------
    DidNotConverge
        If it does not settle.

    Source
    ------
    derived
    """
    joint = whole.made.joint
    warmth = inputs.warmth
    hotter = replace(inputs, warmth=replace(warmth, head=warmth.head + OVERHEAT))
    once = shaken_down(joint, whole.operators, whole.life, service_of(whole.made, hotter))
    cases = judged(joint, whole.operators, once, whole.service)
    what = f"after one overheat, head {OVERHEAT:g} K hotter than in use, block and fasteners as in use"
    return _after(what, joint, once, _lowest(joint, cases))


def cold_soaked(whole: Whole, inputs: Inputs) -> After:
    """Start a joint that has stood in the frost: everything as cold as the air, each cylinder firing.

    Parameters
    ----------
    whole : Whole
        The joint, run in [mm], [N].
    inputs : Inputs
        What it was made from; the growth of its fasteners when warm gives their shrinking [core].

    Returns
    -------
    After
        Lowest place in the first firings and least fastener before them [N/mm], [N].

    Raises
    ------
    DidNotConverge
        If it does not settle.

    Source
    ------
    derived
    """
    joint = whole.made.joint
    warmth = inputs.warmth.all_at(COLD_SOAK - ROOM)
    frost = service_of(whole.made, replace(inputs, warmth=warmth))
    rest = settle_all(joint, whole.operators, Case(whole.life.state, frost.hot), whole.life.w[:, None])
    w, forces = rest.w[:, 0], rest.forces[:, 0]
    state = joint.springs.remembered(w, whole.life.state)
    life = Life(state, w, forces, 0, balance_steps(joint, forces, frost.hot))
    cases = judged(joint, whole.operators, life, frost)
    return _after(f"first start at {COLD_SOAK:g} °C", joint, life, firing_places(joint, cases, warm=True))


def _after(what: str, joint: ClampedJoint, life: Life, firing: Mapping[str, float]) -> After:
    bore = min(firing, key=lambda one: firing[one])
    pull = life.forces[joint.springs.points :]
    return After(what, bore, firing[bore], float(np.min(pull)))


def _lowest(joint: ClampedJoint, cases: Judged) -> dict[str, float]:
    return lower_of(firing_places(joint, cases, warm=True), firing_places(joint, cases, warm=False))
