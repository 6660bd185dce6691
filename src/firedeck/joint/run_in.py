"""A joint tightened all round at once, run in and judged: the short way, for what one figure does to the band.

The wrench's order is left out (all bolts of a pass turn together), so a run costs some hundredths of a second. It is
only ever used for differences between two such runs.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from firedeck.joint.chord import Operator, fast_operator
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.engine import Ready
from firedeck.joint.laws import Floats
from firedeck.joint.model import Inputs, service_of
from firedeck.joint.settling import settle_all
from firedeck.joint.springs import Ints, State
from firedeck.joint.states import HOT, Judged, Life, Service, bedded_in, firing_name, judged, shaken_down
from firedeck.joint.tightening import SLACK, Action, BedIn, Loosen, TurnBy, TurnTo


@dataclass(frozen=True)
class RunIn:
    """A joint that has been run in: lowest line load of each ring hot, firing cold, and firing hot or cold [N/mm]."""

    service: Service
    operators: tuple[Operator, ...]
    tensions: Floats
    life: Life
    cases: Judged
    hot: dict[str, float]
    cold_firing: dict[str, float]
    firing: dict[str, float]


def run_in(this: Ready, inputs: Inputs | None = None) -> RunIn:
    """Tighten a joint, run it in, judge it.

    Parameters
    ----------
    this : Ready
        The joint [mm/N].
    inputs : Inputs, optional
        Other loads, wrench or gap than those it was put together with; laws and bolts must be the same [core].

    Returns
    -------
    RunIn
        Its life and what is left at every ring [N/mm].

    Raises
    ------
    DidNotConverge
        If a state does not settle.

    Source
    ------
    derived
    """
    given = inputs or this.inputs
    joint, service = this.made.joint, service_of(this.made, given)
    state, w = all_round(joint, this.safe, given.actions, service.rest)
    operators = (this.fast or fast_operator(joint, w, state), this.safe)
    labels = joint.places.names("bolt")
    settling = np.array([given.settling.get(label, 0.0) for label in labels])
    tensions = joint.springs.force(w, state)[joint.springs.points :]
    begun = bedded_in(joint, operators, (state, w), service.rest, settling)
    life = shaken_down(joint, operators, begun, service)
    cases = judged(joint, operators, life, service)
    warm = cases.case(HOT)[1]
    hot = {bore: lowest_of(joint, warm, bore) for bore in joint.places.names("ring")}
    cold_firing = firing_places(joint, cases, warm=False)
    firing = lower_of(cold_firing, firing_places(joint, cases, warm=True))
    return RunIn(service, operators, tensions, life, cases, hot, cold_firing, firing)


def firing_places(joint: ClampedJoint, cases: Judged, warm: bool) -> dict[str, float]:
    """Lowest line load of every ring with its own cylinder firing.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [1].
    cases : Judged
        Its judged cases [N].
    warm : bool
        Hot or cold [1].

    Returns
    -------
    dict of str to float
        By bore [N/mm].

    Source
    ------
    derived
    """
    names = joint.places.names("ring")
    return {bore: lowest_of(joint, cases.case(firing_name(bore, warm))[1], bore) for bore in names}


def lowest_of(joint: ClampedJoint, forces: Floats, bore: str) -> float:
    """Lowest line load of one ring.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [1].
    forces : ndarray, shape (n,)
        Forces of all springs [N].
    bore : str
        Name of the ring [text].

    Returns
    -------
    float
        The load [N/mm].

    Source
    ------
    derived
    """
    ring = np.flatnonzero(joint.places.of("ring", bore))
    return float((forces[ring] / joint.springs.share[ring]).min())


def lower_of(one: Mapping[str, float], other: Mapping[str, float]) -> dict[str, float]:
    """The lower of two loads at every ring.

    Parameters
    ----------
    one, other : mapping of str to float
        Loads by bore [N/mm].

    Returns
    -------
    dict of str to float
        By bore [N/mm].

    Source
    ------
    derived
    """
    return {bore: min(load, other[bore]) for bore, load in one.items()}


def all_round(
    joint: ClampedJoint,
    safe: Operator,
    actions: Sequence[Action],
    weight: Load,
    begin: tuple[State, Floats] | None = None,
) -> tuple[State, Floats]:
    """Tighten a joint with all bolts of a pass turning together.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    safe : Operator
        The operator that always settles [mm/N].
    actions : sequence of Action
        What the wrench does, in order [N], [mm].
    weight : Load
        Load while tightening [mm], [N].
    begin : tuple of State and ndarray, optional
        A joint to go on with; a new gasket if not given [mm], [N].

    Returns
    -------
    tuple of State and ndarray
        What it remembers and its closures [mm].

    Raises
    ------
    DidNotConverge
        If it does not settle.

    Source
    ------
    derived
    """
    springs = joint.springs
    state, w = begin if begin is not None else (springs.fresh(), weight.w)
    for turn in passes(actions):
        state = _begun(joint, turn, state, w)
        w = settle_all(joint, [safe], Case(state, weight), w[:, None]).w[:, 0]
        state = springs.let_go(w, springs.remembered(w, state))
    return state, w


def as_left(actions: Sequence[Action], tensions: Floats) -> tuple[Action, ...]:
    """Actions of the short way that leave every bolt as the wrench's order left it.

    Parameters
    ----------
    actions : sequence of Action
        What the wrench does, in order [N], [mm].
    tensions : ndarray, shape (b,)
        Pull of every bolt when all was done the long way [N].

    Returns
    -------
    tuple of Action
        Each bolt to its own pull, where all is done by torque; with angles the actions as they are, since what a turn
        gives hangs on gasket and castings [N], [mm].

    Source
    ------
    derived
    """
    if all(isinstance(action, TurnTo) for action in actions):
        return tuple(TurnTo(bolt, float(pull)) for bolt, pull in enumerate(tensions))
    return tuple(actions)


def passes(actions: Sequence[Action]) -> list[tuple[Action, ...]]:
    """Group what the wrench does into passes: a pass ends where a bolt comes round again.

    Parameters
    ----------
    actions : sequence of Action
        In order [N], [mm].

    Returns
    -------
    list of tuple of Action
        Pass by pass; bedding in is a pass of its own [N], [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> [len(one) for one in passes((TurnTo(0, 1e4), TurnTo(1, 1e4), TurnTo(0, 2e4), TurnTo(1, 2e4)))]
    [2, 2]
    """
    found: list[tuple[Action, ...]] = []
    now: list[Action] = []
    for action in actions:
        again = not isinstance(action, BedIn) and any(
            action.bolt == one.bolt for one in now if not isinstance(one, BedIn)
        )
        if now and (again or isinstance(action, BedIn) or isinstance(now[-1], BedIn)):
            found.append(tuple(now))
            now = []
        now.append(action)
    return [*found, tuple(now)] if now else found


def _begun(joint: ClampedJoint, turn: Sequence[Action], state: State, w: Floats) -> State:
    """State with a wrench on every bolt of a pass."""
    springs = joint.springs
    pull = springs.force(w, state)[springs.points :]
    shortening = state.shortening.copy()
    rods: list[int] = []
    tensions: list[float] = []
    for action in turn:
        match action:
            case BedIn():
                return springs.bedded_in(w, state, np.asarray(action.settling), action.part)
            case TurnTo():
                if pull[action.bolt] < action.tension:
                    rods.append(action.bolt)
                    tensions.append(action.tension)
            case TurnBy():
                shortening[action.bolt] += action.shortening
            case Loosen():
                shortening[action.bolt] = -SLACK - float(w[springs.points + action.bolt])
    held: Ints = np.array(rods, dtype=np.int64)
    return springs.turned_to(replace(state, shortening=shortening), held, np.array(tensions))
