"""What scatter of bolt tension does to every place: many joints side by side, the same draws for every variant.

Tension differs from bolt to bolt, and all bolts of one job differ together (same lot, oil, wrench). Half widths of the
table of scatter are taken as two standard deviations; draws beyond three are drawn again. The seed is fixed, so two
engines that are compared meet the same luck.
"""

from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.chord import Operator, Stop, fast_operator, safe_operator
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.foresight import NONE, Foresight, learnt
from firedeck.joint.laws import Floats
from firedeck.joint.settling import Settled, settle_all
from firedeck.joint.springs import Ints, State
from firedeck.joint.states import Service, worst_of

SEED = 20240
DEVIATIONS = 2.0
"""Standard deviations in a half width of the table of scatter."""
FARTHEST = 3.0
"""Draws farther out than this many standard deviations are drawn again."""
LEARN_FROM = 64
"""Joints settled first, from which the starts of the others are learnt."""
CHUNK = 256
"""Joints settled at a time: what stays in the processor's cache."""
COARSE = Stop(tolerance=0.02, rounds=300, quick=12, short=True)
"""A fiftieth of a newton per millimetre, in numbers of half the length, is plenty for a band."""


@dataclass(frozen=True)
class Stage:
    """One case of the joint as it is meant to be: its load, its closures w (n,) [mm], an operator made there or near."""

    name: str
    load: Load
    w: Floats
    operator: Operator


@dataclass(frozen=True)
class Course:
    """What every scattered joint goes through: tightened, run hot and firing, judged cold and firing."""

    tightened: Stage
    run: tuple[Stage, ...]
    judged: tuple[Stage, ...]
    safe: Operator
    meant: Floats

    def share(self, tensions: Floats) -> Floats:
        """Tensions (b, m) over those that are meant, less one."""
        return tensions / np.maximum(self.meant, 1.0)[:, None] - 1.0


@dataclass(frozen=True)
class Scattered:
    """Lowest line load [N/mm] of each ring (bores, cases, m), tensions (b, m) [N] as tightened, who settled how many.

    ``cases``: cold, then each cylinder firing; ``bores``: names of the rings.
    """

    bores: tuple[str, ...]
    cases: tuple[str, ...]
    lowest: Floats
    tensions: Floats
    ways: tuple[tuple[str, int], ...]

    def band(self, bore: str, case: str, share: float = 0.90) -> tuple[float, float]:
        """Band of the lowest line load of a ring.

        Parameters
        ----------
        bore : str
            Name of the ring [text].
        case : str
            cold or the label of the cylinder that fires [text].
        share : float
            Share of the joints inside the band [1].

        Returns
        -------
        tuple of float
            Low and high [N/mm].

        Source
        ------
        derived
        """
        loads = self.lowest[self.bores.index(bore), self.cases.index(case)]
        low, high = np.quantile(loads, [0.5 - share / 2.0, 0.5 + share / 2.0])
        return float(low), float(high)


def draws(bolts: int, joints: int, common: float, individual: float, seed: int = SEED) -> Floats:
    """Draw factors on the tension of every bolt of many joints.

    Parameters
    ----------
    bolts : int
        Bolts of a joint [1].
    joints : int
        How many joints [1].
    common : float
        Half width that all bolts of one joint share, about 1 [share].
    individual : float
        Half width from bolt to bolt, about 1 [share].
    seed : int
        Seed of the draws [1].

    Returns
    -------
    ndarray, shape (bolts, joints)
        Factors [1].

    Raises
    ------
    OutOfRange
        If the widths could make a tension negative.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> found = draws(10, 2000, 0.2, 0.1)
    >>> found.shape, round(float(found.mean()), 2)
    ((10, 2000), 1.0)
    """
    if not (common >= 0.0 and individual >= 0.0 and (common + individual) * FARTHEST / DEVIATIONS < 1.0):
        raise OutOfRange("scatter", f"{common:g} common, {individual:g} individual", "together below 0.66")
    luck = np.random.Generator(np.random.PCG64(seed)).standard_normal((bolts + 1, joints))
    again = np.random.Generator(np.random.PCG64(seed + 1))
    while (far := np.abs(luck) > FARTHEST).any():
        luck[far] = again.standard_normal(int(far.sum()))
    factors: Floats = 1.0 + (common * luck[0] + individual * luck[1:]) / DEVIATIONS
    return factors


def course_of(joint: ClampedJoint, tensions: Floats, service: Service) -> Course:
    """Take the joint as it is meant to be through its life once, and make an operator at every stage.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    tensions : ndarray, shape (b,)
        Tension of every bolt as the wrench should leave it [N].
    service : Service
        Loads of use [mm], [N].

    Returns
    -------
    Course
        To be used for any number of draws [mm], [N].

    Raises
    ------
    DidNotConverge
        If a stage does not settle.

    Source
    ------
    derived
    """
    springs, safe = joint.springs, safe_operator(joint)

    def stage(name: str, state: State, load: Load, start: Floats, near: Stage | None = None) -> Stage:
        w = settle_all(joint, [safe], Case(state, load), start[:, None]).w[:, 0]
        made = near.operator if near else fast_operator(joint, w, state)
        return Stage(name, load, w, made)

    held = springs.turned_to(springs.fresh(), np.arange(len(tensions)), tensions)
    tightened = stage("tightened", held, service.rest, service.rest.w)
    state = springs.let_go(tightened.w, springs.remembered(tightened.w, held))
    firing = {name: service.firing(name) for name in service.fires}
    hot = stage("hot", state, service.hot, tightened.w)
    run = (hot, *(stage(name, state, load, hot.w) for name, load in firing.items()))
    state = worst_of(state, springs.remembered(np.stack([one.w for one in run], axis=1), state))
    cold = stage("cold", state, service.rest, tightened.w)
    judged = (cold, *(stage(name, state, load, hot.w, near=cold) for name, load in firing.items()))
    return Course(tightened, run, judged, safe, tensions)


def scattered(joint: ClampedJoint, course: Course, tensions: Floats, stop: Stop = COARSE) -> Scattered:
    """Tighten many joints to their own tensions, run each hot with every cylinder firing, judge it cold and firing.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    course : Course
        What each goes through, from :func:`course_of` [mm], [N].
    tensions : ndarray, shape (b, m)
        Tension of every bolt as the wrench leaves it, all at once [N].
    stop : Stop
        When a joint counts as settled [N/mm or MPa].

    Returns
    -------
    Scattered
        Lowest line loads of every ring [N/mm].

    Raises
    ------
    OutOfRange
        If a tension is below nought.
    DidNotConverge
        If a joint does not settle.

    Valid for
    ---------
    The last pass alone: interaction between passes is left out; one round of heat.

    Source
    ------
    derived
    """
    if not (tensions >= 0.0).all():
        raise OutOfRange("tension", f"{tensions.min():g} N", "nought or more")
    lowest = np.empty((len(joint.places.names("ring")), len(course.judged), tensions.shape[1]))
    ways, foresight = dict[str, int](), NONE
    for some in _portions(tensions):
        settled, missed = _lived(joint, course, tensions[:, some], stop, foresight)
        lowest[:, :, some] = _lowest(joint, settled[-len(course.judged) :])
        for way, count in (part for one in settled for part in one.ways):
            ways[way] = ways.get(way, 0) + count
        if foresight is NONE:
            foresight = learnt(course.share(tensions[:, some]), missed)
    return Scattered(
        bores=joint.places.names("ring"),
        cases=tuple(stage.name for stage in course.judged),
        lowest=lowest,
        tensions=tensions,
        ways=tuple(ways.items()),
    )


def _portions(tensions: Floats) -> list[Ints]:
    """Joints to settle together: first a few of all kinds to learn from, then from loose to tight, like beside like."""
    joints = np.argsort(tensions.mean(axis=0), kind="stable")
    if len(joints) <= CHUNK:
        return [joints]
    first = np.linspace(0, len(joints) - 1, LEARN_FROM).astype(np.int64)
    rest = np.delete(joints, first)
    return [joints[first], *np.array_split(rest, -(-len(rest) // CHUNK))]


def _lived(
    joint: ClampedJoint, course: Course, tensions: Floats, stop: Stop, foresight: Foresight
) -> tuple[list[Settled], list[Floats]]:
    """Take some joints through the course; also by how much the plain start of every stage missed."""
    springs, share = joint.springs, course.share(tensions)
    settled, missed = list[Settled](), list[Floats]()

    def go(stage: Stage, state: State, start: Floats) -> Settled:
        ahead = start + foresight.of(len(settled), share)
        operators = (stage.operator, course.safe)
        settled.append(settle_all(joint, operators, Case(state, stage.load), ahead, stop))
        missed.append(settled[-1].w - start)
        return settled[-1]

    held = springs.turned_to(springs.fresh(), np.arange(len(tensions)), tensions)
    tightened = go(course.tightened, held, np.repeat(course.tightened.w[:, None], tensions.shape[1], axis=1))
    state = springs.let_go(tightened.w, springs.remembered(tightened.w, held))
    passed = {"cold": (course.tightened, tightened)}
    worst, hot = state, course.run[0]
    for stage in course.run:
        before, there = passed["cold"] if stage is hot else passed[hot.name]
        found = go(stage, state, there.w + (stage.w - before.w)[:, None])
        worst = springs.remembered(found.w, worst)
        passed[stage.name] = stage, found
    for stage in course.judged:
        before, there = passed[stage.name]
        go(stage, worst, there.w + (stage.w - before.w)[:, None])
    return settled, missed


def _lowest(joint: ClampedJoint, judged: list[Settled]) -> Floats:
    """Lowest line load, shape (bores, cases, m)."""
    share = joint.springs.share
    rings: list[Ints] = [np.flatnonzero(joint.places.of("ring", bore)) for bore in joint.places.names("ring")]
    found: Floats = np.array(
        [[(case.forces[ring] / share[ring, None]).min(axis=0) for case in judged] for ring in rings]
    )
    return found
