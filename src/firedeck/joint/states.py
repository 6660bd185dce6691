"""The life of a joint from the wrench to the road, and what is judged at the end of it.

    tightened → bedded in → hot and every cylinder firing, until nothing changes any more → cold again

Gasket and bolts remember the worst of it. From this *shaken-down* joint cold, hot and each cylinder firing are judged;
none of these writes into the memory. All cylinders fire from the same memory and the worst of them is kept, so their
order cannot matter. An overheat or a cold soak is one more stretch of life.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from firedeck.errors import DidNotConverge, OutOfRange
from firedeck.joint.chord import STANDARD, Operator, Stop
from firedeck.joint.clamped import Case, ClampedJoint, Load, side_by_side
from firedeck.joint.laws import Floats
from firedeck.joint.settling import Settled, settle_all
from firedeck.joint.springs import State
from firedeck.joint.tightening import balance_steps
from firedeck.trace import Step

MOST_CYCLES = 30
STEADY = 1e-6
"""Change of a set or of a bolt's length in one cycle that counts as none [mm]."""
COLD, HOT = "cold", "hot"


@dataclass(frozen=True)
class Service:
    """Loads of use: at rest (weight, shape of faces), what warmth adds, what each cylinder adds when it fires.

    Each is a :class:`Load` of the joint [mm], [N]; ``fires`` by the cylinder's label at peak pressure.
    """

    rest: Load
    warmth: Load
    fires: Mapping[str, Load]

    @property
    def hot(self) -> Load:
        """At rest and warm."""
        return self.rest + self.warmth

    def firing(self, cylinder: str, warm: bool = True) -> Load:
        """Load with one cylinder firing.

        Parameters
        ----------
        cylinder : str
            Its label [text].
        warm : bool
            With the warmth of running, or cold [1].

        Returns
        -------
        Load
            Everything together [mm], [N].

        Source
        ------
        derived
        """
        return (self.hot if warm else self.rest) + self.fires[cylinder]


@dataclass(frozen=True)
class Life:
    """A joint that has been through something: what it remembers, closures when cold [mm], forces then [N].

    ``cycles``: rounds of heat it took until nothing changed.
    """

    state: State
    w: Floats
    forces: Floats
    cycles: int
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Judged:
    """The judged cases side by side: names, closures and forces (n, m) [mm], [N], and how they were settled."""

    names: tuple[str, ...]
    w: Floats
    forces: Floats
    residual: float
    ways: tuple[tuple[str, int], ...]
    steps: tuple[Step, ...]

    def case(self, name: str) -> tuple[Floats, Floats]:
        """Closures and forces of one case.

        Parameters
        ----------
        name : str
            cold, hot, or the name of a firing case [text].

        Returns
        -------
        tuple of ndarray
            Closures and forces, shape (n,) [mm], [N].

        Raises
        ------
        OutOfRange
            If there is no such case.

        Source
        ------
        derived
        """
        if name not in self.names:
            raise OutOfRange("case", repr(name), f"known: {', '.join(self.names)}")
        column = self.names.index(name)
        return self.w[:, column], self.forces[:, column]


def firing_name(cylinder: str, warm: bool = True) -> str:
    """Name of the case in which a cylinder fires.

    Parameters
    ----------
    cylinder : str
        Its label [text].
    warm : bool
        Hot or cold [1].

    Returns
    -------
    str
        The name [text].

    Source
    ------
    derived

    Examples
    --------
    >>> firing_name("2")
    '2 firing, hot'
    """
    return f"{cylinder} firing, {HOT if warm else COLD}"


def bedded_in(
    joint: ClampedJoint,
    operators: Sequence[Operator],
    tightened: tuple[State, Floats],
    rest: Load,
    settling: Floats,
) -> Life:
    """Let a tightened joint bed in: creep of the gasket, settling under heads and in threads.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    operators : sequence of Operator
        Operators to settle with, the safe one last [mm/N].
    tightened : tuple of State and ndarray
        What it remembers and its closures, shape (n,) [mm], [N].
    rest : Load
        Loads at rest [mm], [N].
    settling : ndarray, shape (b,)
        Length each bolt loses [mm].

    Returns
    -------
    Life
        The joint after it, cold [mm], [N].

    Raises
    ------
    DidNotConverge
        If it does not settle.

    Valid for
    ---------
    All bedding-in at once, in its final amount.

    Source
    ------
    derived
    """
    springs = joint.springs
    state, w = tightened
    after = springs.bedded_in(w, state, settling)
    found = settle_all(joint, operators, Case(after, rest), w[:, None])
    w = found.w[:, 0]
    forces = found.forces[:, 0]
    return Life(springs.remembered(w, after), w, forces, 0, balance_steps(joint, forces, rest))


def shaken_down(
    joint: ClampedJoint, operators: Sequence[Operator], life: Life, service: Service, stop: Stop = STANDARD
) -> Life:
    """Run a joint hot with every cylinder firing until its memory is steady, and let it cool.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    operators : sequence of Operator
        Operators to settle with, the safe one last [mm/N].
    life : Life
        Before [mm], [N].
    service : Service
        Loads of use [mm], [N].
    stop : Stop
        When a case counts as settled [N/mm or MPa].

    Returns
    -------
    Life
        After, cold [mm], [N].

    Raises
    ------
    DidNotConverge
        If the memory does not come to rest: the joint ratchets.

    Source
    ------
    derived
    """
    springs = joint.springs
    loads = side_by_side([service.hot, *(service.firing(cylinder) for cylinder in service.fires)])
    state, cold = life.state, life.w
    start = np.repeat(cold[:, None], loads.w.shape[1], axis=1)
    for cycle in range(1, MOST_CYCLES + 1):
        run = settle_all(joint, operators, Case(state, loads), start, stop)
        after = worst_of(state, springs.remembered(run.w, state))
        cool = settle_all(joint, operators, Case(after, service.rest), cold[:, None], stop)
        after = springs.remembered(cool.w[:, 0], after)
        change = max(
            float(np.abs(after.permanent_set - state.permanent_set).max()),
            float(np.abs(after.shortening - state.shortening).max()),
        )
        state, cold, start = after, cool.w[:, 0], run.w
        if change <= STEADY:
            forces = cool.forces[:, 0]
            return Life(state, cold, forces, cycle, balance_steps(joint, forces, service.rest))
    raise DidNotConverge("the memory of the joint, run hot and cooled again,", MOST_CYCLES, change)


def worst_of(before: State, columns: State) -> State:
    """Keep the worst each spring has seen in any of several cases that began alike.

    Parameters
    ----------
    before : State
        What they began with [mm], [N].
    columns : State
        What each would leave, with a column per case [mm].

    Returns
    -------
    State
        Largest set of each point, least shortening of each rod [mm].

    Source
    ------
    derived
    """
    return replace(
        before,
        permanent_set=columns.permanent_set.max(axis=1),
        shortening=columns.shortening.min(axis=1),
    )


def judged(
    joint: ClampedJoint, operators: Sequence[Operator], life: Life, service: Service, stop: Stop = STANDARD
) -> Judged:
    """Judge a joint cold, hot, and with each cylinder firing hot and cold; nothing is written into its memory.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    operators : sequence of Operator
        Operators to settle with, the safe one last [mm/N].
    life : Life
        What it has been through [mm], [N].
    service : Service
        Loads of use [mm], [N].
    stop : Stop
        When a case counts as settled [N/mm or MPa].

    Returns
    -------
    Judged
        All cases side by side [mm], [N].

    Raises
    ------
    DidNotConverge
        If a case does not settle.

    Source
    ------
    derived
    """
    cases = {COLD: service.rest, HOT: service.hot}
    for warm in (True, False):
        cases |= {firing_name(name, warm): service.firing(name, warm) for name in service.fires}
    loads = side_by_side(list(cases.values()))
    start = np.repeat(life.w[:, None], len(cases), axis=1)
    found: Settled = settle_all(joint, operators, Case(life.state, loads), start, stop)
    hot = balance_steps(joint, found.forces[:, 1], service.hot)
    return Judged(tuple(cases), found.w, found.forces, found.residual, found.ways, hot)
