"""Tightening, simulated bolt by bolt: each turn presses the gasket further and takes pull from its neighbours.

Only elastic: no friction between the faces and no creep while the wrench goes round, so the model gives no order of
tightening an advantage over another of the same kind. Do not rank orders with it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.chord import Operator, Stop
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.laws import Floats
from firedeck.joint.settling import settle_all
from firedeck.joint.springs import State
from firedeck.trace import DERIVED, Note, Step

SLACK = 10.0
"""How far a bolt is turned back when it is loosened fully [mm]."""


@dataclass(frozen=True)
class TurnTo:
    """Turn a bolt until its tension [N] is reached; one that has it already is left alone."""

    bolt: int
    tension: float


@dataclass(frozen=True)
class TurnBy:
    """Turn a bolt by an angle: it is drawn shorter by this much [mm], longer when negative."""

    bolt: int
    shortening: float


@dataclass(frozen=True)
class Loosen:
    """Loosen a bolt fully."""

    bolt: int


@dataclass(frozen=True)
class BedIn:
    """Let the joint settle: this part [share] of the whole creep, and of the settling of each bolt [mm]."""

    settling: tuple[float, ...]
    part: float = 1.0


Action = TurnTo | TurnBy | Loosen | BedIn


@dataclass(frozen=True)
class Tightened:
    """A joint after the wrench: what it remembers, closures w [mm], forces [N].

    ``tensions`` [N] of every bolt after each action, shape (actions, b); ``untouched``: the actions at which
    the wrench clicked without turning the bolt.
    """

    state: State
    w: Floats
    forces: Floats
    tensions: Floats
    untouched: tuple[int, ...]
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


_ASSUMED = (
    Note("elastic interaction only: no friction between faces while tightening", DERIVED),
    Note("orders of tightening are not ranked by this sum: follow the order of the papers", DERIVED),
)


def tighten(
    joint: ClampedJoint,
    operators: Sequence[Operator],
    actions: Sequence[Action],
    weight: Load,
    begin: tuple[State, Floats] | None = None,
) -> Tightened:
    """Tighten a joint bolt by bolt.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    operators : sequence of Operator
        Operators to settle with, the safe one last [mm/N].
    actions : sequence of Action
        What the wrench does, in order [N], [mm].
    weight : Load
        Load while tightening: the head's weight, faces that are not flat [mm], [N].
    begin : tuple of State and ndarray, optional
        A joint to go on with: what it remembers and its closures; a new gasket if not given [mm], [N].

    Returns
    -------
    Tightened
        The joint with the wrench put away [mm], [N].

    Raises
    ------
    OutOfRange
        If a bolt is turned to a tension of its yield load or more, or a tension below nought.
    DidNotConverge
        If the joint does not settle.

    Valid for
    ---------
    Elastic interaction, bolts perfectly plastic past yield.

    Source
    ------
    derived
    """
    springs = joint.springs
    bolts = slice(springs.points, None)
    state, w = begin if begin is not None else (springs.fresh(), weight.w)
    w, forces = _rest(joint, operators, Case(state, weight), w)
    pulls, untouched = [], []
    for number, action in enumerate(actions):
        if isinstance(action, TurnTo):
            _check(joint, action)
            if forces[bolts][action.bolt] >= action.tension:
                untouched.append(number)
                pulls.append(forces[bolts])
                continue
        state = _begun(joint, action, state, w)
        w, forces = _rest(joint, operators, Case(state, weight), w)
        state = springs.let_go(w, springs.remembered(w, state))
        pulls.append(forces[bolts])
    tensions = np.array(pulls).reshape(len(pulls), len(springs.stiffness))
    return Tightened(
        state, w, forces, tensions, tuple(untouched), balance_steps(joint, forces, weight), _ASSUMED
    )


def _rest(joint: ClampedJoint, operators: Sequence[Operator], case: Case, w: Floats) -> tuple[Floats, Floats]:
    found = settle_all(joint, operators, case, w[:, None], Stop(rounds=2000))
    return found.w[:, 0], found.forces[:, 0]


def _check(joint: ClampedJoint, action: TurnTo) -> None:
    most = float(joint.springs.most[action.bolt])
    name = f"tension of bolt {joint.places.place[joint.springs.points + action.bolt]}"
    if not action.tension >= 0.0:
        raise OutOfRange(name, f"{action.tension:g} N", "nought or more")
    if action.tension >= most:
        raise OutOfRange(name, f"{action.tension:.0f} N", f"it yields at {most:.0f} N: no torque holds more")


def _begun(joint: ClampedJoint, action: Action, state: State, w: Floats) -> State:
    """State with the wrench on."""
    springs = joint.springs
    if isinstance(action, BedIn):
        return springs.bedded_in(w, state, np.asarray(action.settling), action.part)
    if isinstance(action, TurnTo):
        return springs.turned_to(state, [action.bolt], np.array([action.tension]))
    shortening = state.shortening.copy()
    if isinstance(action, TurnBy):
        shortening[action.bolt] += action.shortening
    else:
        shortening[action.bolt] = -SLACK - float(w[springs.points + action.bolt])
    return State(state.permanent_set, shortening, state.least, state.most)


def balance_steps(joint: ClampedJoint, forces: Floats, load: Load) -> tuple[Step, ...]:
    """Write down that the forces balance: pull of the bolts, push of the gasket, load on the head.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [1].
    forces : ndarray, shape (n,)
        Forces of all springs [N].
    load : Load
        Loads; the first rigid motion is the lift of the head [N].

    Returns
    -------
    tuple of Step
        One step: what is left over, as a share of the pull [1].

    Source
    ------
    derived
    """
    lift = joint.R[:, 0]
    run = "run:clamped joint"
    figures = {
        "bolt_pull": (float(forces[lift > 0.5].sum()), "N"),
        "gasket_push": (float(forces[lift < -0.5].sum()), "N"),
        "lift": (float(load.r[0]), "N"),
    }
    says = f"Left over when all forces are added up, of the pull ({run})"
    formula = "abs(bolt_pull - gasket_push - lift) / max(bolt_pull, 1)"
    return (Step.work_out(says, formula, figures, ("left_over", "1"), DERIVED),)
