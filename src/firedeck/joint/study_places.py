"""From a joint with its life behind it to what is said of every ring, bead and fastener."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from firedeck.joint.comparing import SLACK, Rank, ranked
from firedeck.joint.line_loads import Ring, lift_between
from firedeck.joint.model import Whole
from firedeck.joint.opening import Quiet, pressure_for
from firedeck.joint.states import COLD, HOT, firing_name
from firedeck.joint.study import BeadNow, BoltNow, PlaceNow
from firedeck.joint.study_band import Moved, Part, whole
from firedeck.trace import DERIVED, NO_UNIT, Band, Step

RUN = "run:clamped-joint"
MOST_TRIED = 3.0
"""Pressures are tried up to this many times the peak."""
BANDS = "all that is not known, taken alone for both engines alike, added as roots of squares"


SETTLED = 1e-3
"""Rounds end when they miss a law by this much: a load nearer to nought than this is nought [N/mm]."""


def told(load: float) -> float:
    """A line load as far as the rounds can tell it from nought.

    Parameters
    ----------
    load : float
        Lowest load of a ring [N/mm].

    Returns
    -------
    float
        The same, or nought where it is nearer to nought than the rounds end [N/mm].

    Source
    ------
    derived

    Examples
    --------
    >>> told(-2e-5), told(12.5)
    (0.0, 12.5)
    """
    return 0.0 if abs(load) < SETTLED else load


def firing_case(this: Whole, bore: str) -> str:
    """Name of the case in which a ring is lowest while its own cylinder fires: hot or cold.

    Parameters
    ----------
    this : Whole
        The joint [N].
    bore : str
        Its name [text].

    Returns
    -------
    str
        Name of the case [text].

    Source
    ------
    derived
    """
    names = [firing_name(bore, warm) for warm in (True, False)]
    return min(names, key=lambda name: this.readings[name].ring(bore).lowest)


def opening_pressure(this: Whole, bore: str, level: float, peak: float) -> float | None:
    """Peak pressure at which the lowest place of a ring comes down to a load.

    Parameters
    ----------
    this : Whole
        The joint [mm], [N].
    bore : str
        Name of the ring [text].
    level : float
        The load, nought for opening [N/mm].
    peak : float
        Peak pressure reckoned with [MPa].

    Returns
    -------
    float or None
        The pressure; None where it lies above three times the peak [MPa].

    Raises
    ------
    DidNotConverge
        If the gas parts the joint.

    Source
    ------
    derived
    """
    load = this.service.hot if firing_case(this, bore).endswith(HOT) else this.service.rest
    quiet = Quiet(this.life, load, this.made.gas[bore], bore)
    return pressure_for(this.made.joint, this.operators, quiet, level, MOST_TRIED * peak)


@dataclass(frozen=True)
class Doubt:
    """All that makes the band: its parts, and how far the size of the bricks moves a load and a change [N/mm]."""

    parts: tuple[Part, ...]
    bricks: Moved
    bricks_change: Moved


def place_now(this: Whole, bore: str, peak: float, doubt: Doubt, anchor: Whole | None) -> PlaceNow:
    """Say all there is to say of one ring but where its lowest place lies in words.

    Parameters
    ----------
    this : Whole
        The joint now [mm], [N].
    bore : str
        Name of the ring [text].
    peak : float
        Peak pressure reckoned with [MPa].
    doubt : Doubt
        What makes the band [N/mm].
    anchor : Whole or None
        The joint as it left the factory, where that is known [N/mm].

    Returns
    -------
    PlaceNow
        The ring [N/mm].

    Raises
    ------
    DidNotConverge
        If the gas parts the joint while the pressure is looked for at which it opens.

    Source
    ------
    derived
    """
    case = firing_case(this, bore)
    fired, quiet = this.readings[case].ring(bore), HOT if case.endswith(HOT) else COLD
    at = int(np.argmin(fired.load))
    lift = lift_between(this.made.joint, this.judged.case(quiet)[0], this.judged.case(case)[0], bore)
    says = "Lowest line load of the ring, its own cylinder firing"
    lowest = told(fired.lowest)
    here = Step.work_out(says, "lowest", {"lowest": (lowest, "N/mm")}, ("line_load", "N/mm"), RUN)
    low, high = whole([*(part.load(bore) for part in doubt.parts), doubt.bricks])
    place = PlaceNow(
        bore=bore,
        side=fired.side,
        lowest_angle=fired.lowest_angle,
        cold_mean=this.readings[COLD].ring(bore).mean,
        cold_lowest=this.readings[COLD].ring(bore).lowest,
        hot_lowest=this.readings[HOT].ring(bore).lowest,
        firing_lowest=lowest,
        firing_band=Band(max(0.0, lowest + low), max(0.0, lowest + high), why=BANDS),
        lift=float(lift[at]),
        opens_at=opening_pressure(this, bore, 0.0, peak),
        steps=(here,),
        curve=_curve(fired, None),
    )
    return place if anchor is None else _against(place, fired, doubt, anchor)


def _against(place: PlaceNow, fired: Ring, doubt: Doubt, anchor: Whole) -> PlaceNow:
    """The same place held against the factory's joint."""
    then = anchor.readings[firing_case(anchor, place.bore)].ring(place.bore)
    standard = told(then.lowest)
    moved = {part.name: part.change(place.bore) for part in doubt.parts} | {"bricks": doubt.bricks_change}
    figures = {"now": (place.firing_lowest, "N/mm"), "as_built": (standard, "N/mm")}
    change = Step.work_out(
        "Change of the lowest line load", "now - as_built", figures, ("change", "N/mm"), DERIVED
    )
    ends = tuple(
        root_step(f"{name} end of its band", "change", change.figure(), moved, up)
        for name, up in (("Lower", False), ("Upper", True))
    )
    steps = [*place.steps, change, *ends]
    band = Band(ends[0].value, ends[1].value, why=BANDS)
    share, share_band = None, None
    shares = [part.share(place.bore, place.firing_lowest, standard) for part in doubt.parts]
    if standard > SLACK:
        share = Step.work_out(
            "Of what standard has left", "now / as_built", figures, ("share", NO_UNIT), DERIVED
        )
        steps.append(share)
        if None not in shares:
            low, high = whole([one for one in shares if one is not None])
            share_band = Band(max(0.0, share.value + low), share.value + high, why=BANDS)
    open_both = max(place.firing_lowest, standard) <= SLACK
    return replace(
        place,
        as_built_lowest=standard,
        change=change.value,
        change_band=band,
        share=share.value if share else None,
        share_band=share_band,
        rank=Rank.CANNOT_RANK if open_both else ranked(band),
        steps=tuple(steps),
        curve=_curve(fired, then),
    )


def root_step(says: str, name: str, middle: tuple[float, str], moved: Mapping[str, Moved], up: bool) -> Step:
    """Write down one end of a band: the middle and the root of the squares of its parts.

    Parameters
    ----------
    says : str
        What it is [text].
    name : str
        Name of the middle [text].
    middle : tuple of float and str
        The middle with its unit [core].
    moved : mapping of str to (float, float)
        What each thing does, down and up [core].
    up : bool
        The upper end [1].

    Returns
    -------
    Step
        The end of the band [core].

    Source
    ------
    derived
    """
    figures = {
        part.replace(" ", "_"): (ends[1] if up else ends[0], middle[1]) for part, ends in moved.items()
    }
    sums = " + ".join(f"{part}**2" for part in figures)
    sign, end = ("+", "high") if up else ("-", "low")
    formula = f"{name} {sign} sqrt({sums})"
    return Step.work_out(says, formula, {name: middle, **figures}, (f"{name}_{end}", middle[1]), DERIVED)


def _curve(now: Ring, then: Ring | None) -> tuple[tuple[float, float, float | None], ...]:
    order = np.argsort(now.angle)
    if then is None:
        return tuple((_short(now.angle[at]), _short(now.load[at]), None) for at in order)
    turn = np.argsort(then.angle)
    loads = np.interp(now.angle, then.angle[turn], then.load[turn], period=2.0 * np.pi)
    return tuple((_short(now.angle[at]), _short(now.load[at]), _short(loads[at])) for at in order)


def _short(value: float) -> float:
    return round(float(value), 3) + 0.0


def beads_now(this: Whole) -> tuple[BeadNow, ...]:
    """Lowest load of the bead round every passage, cold, hot and in the worst firing case.

    Parameters
    ----------
    this : Whole
        The joint [N].

    Returns
    -------
    tuple of BeadNow
        One for each place that has a bead [N/mm].

    Source
    ------
    derived
    """
    cases = {name: dict(reading.beads) for name, reading in this.readings.items()}
    firing = [beads for name, beads in cases.items() if name not in (COLD, HOT)]
    return tuple(
        BeadNow(place, cases[COLD][place], cases[HOT][place], min(beads[place] for beads in firing))
        for place in cases[COLD]
    )


def bolts_now(this: Whole, bearing: Mapping[str, float]) -> tuple[BoltNow, ...]:
    """Pull of every fastener from state to state.

    Parameters
    ----------
    this : Whole
        The joint [N].
    bearing : mapping of str to float
        Area under each head or washer by label [mm²].

    Returns
    -------
    tuple of BoltNow
        One for each fastener [N], [MPa].

    Source
    ------
    derived
    """
    joint = this.made.joint
    points, labels = joint.springs.points, joint.places.names("bolt")
    states = {"tightened": this.tightened.forces, "bedded": this.bedded.forces}
    pulls = {
        name: dict(zip(labels, forces[points:].tolist(), strict=True)) for name, forces in states.items()
    }
    cold, hot = (dict(this.readings[name].bolts) for name in (COLD, HOT))
    firing = [dict(reading.bolts) for name, reading in this.readings.items() if name not in (COLD, HOT)]
    found = []
    for place, label in enumerate(labels):
        most = max(reading[label] for reading in firing)
        states_of = (pulls["tightened"][label], pulls["bedded"][label], cold[label], hot[label], most)
        found.append(
            BoltNow(
                label,
                *states_of,
                share_of_yield=max(states_of) / float(joint.springs.most[place]),
                bearing=max(states_of) / bearing[label],
            )
        )
    return tuple(found)
