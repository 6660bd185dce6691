"""Torque and tension: what the thread takes, what the head takes, and what is left as pull."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.fasteners.friction import Friction
from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.levers import SOURCE, Bearing, Levers, bearing_of, lever_figures, levers_of
from firedeck.fasteners.scatter import scatter_of
from firedeck.fasteners.strength import StrengthClass
from firedeck.fasteners.threads import Thread
from firedeck.trace import NO_UNIT, Note, Step

ASSUMED_METHOD = "torque-wrench"


@dataclass(frozen=True)
class BoltTension:
    """What a torque leaves in a bolt: tension [N] with its band, stresses [MPa], share of yield.

    ``equivalent_stress`` counts the torsion of tightening; ``yield_fraction`` is None without a class.
    """

    tension: float
    tension_low: float
    tension_high: float
    torsion_stress: float
    equivalent_stress: float
    yield_fraction: float | None
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]
    cautions: tuple[Note, ...] = ()


@dataclass(frozen=True)
class BoltTorque:
    """Torque that pulls a bolt to a tension [N·mm]."""

    torque: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def bolt_torque(
    thread: Thread,
    tension: float,
    thread_friction: float,
    head_friction: float,
    bearing: Bearing | None = None,
) -> BoltTorque:
    """Torque that pulls a bolt to a tension.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    tension : float
        Wanted tension [N].
    thread_friction : float
        Friction in the thread [1].
    head_friction : float
        Friction under the head [1].
    bearing : Bearing or None
        Ring under the head, standard where None [mm].

    Returns
    -------
    BoltTorque
        The torque [N·mm].

    Raises
    ------
    OutOfRange
        If the tension is not above nought or a friction is not one of steel threads.

    Valid for
    ---------
    Elastic bolt, turned evenly at the head or nut.

    Source
    ------
    [vdi-2230] and [shigley-9] eq. 8-26: the same sum.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(bolt_torque(thread_of("M10"), 30000.0, 0.12, 0.12).torque, -3)
    49000.0
    """
    above_nought("tension", tension, "N")
    levers = levers_of(thread, thread_friction, head_friction, bearing or bearing_of(thread))
    step = Step.work_out(
        "Torque at the head",
        "tension * (thread_lever + head_lever)",
        {"tension": (tension, "N"), **lever_figures(levers)},
        ("torque", "N·mm"),
        SOURCE,
    )
    return BoltTorque(step.value, (*levers.steps, step), levers.notes)


def bolt_tension(
    thread: Thread,
    torque: float,
    *,
    thread_friction: float,
    head_friction: float,
    strength: StrengthClass | None = None,
    bearing: Bearing | None = None,
    friction_band: Friction | None = None,
) -> BoltTension:
    """Tension that a torque leaves in a bolt, its band, and how near to yield the bolt is.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    torque : float
        Torque at the head [N·mm].
    thread_friction : float
        Friction in the thread [1].
    head_friction : float
        Friction under the head [1].
    strength : StrengthClass or None
        Class, for the share of yield [MPa].
    bearing : Bearing or None
        Ring under the head, standard where None [mm].
    friction_band : Friction or None
        Lowest and highest friction; where None the band is that of a torque wrench with the
        friction from a table [1].

    Returns
    -------
    BoltTension
        Tension and stresses [N and MPa].

    Raises
    ------
    OutOfRange
        If the torque is not above nought, a friction is not one of steel threads, or the band does
        not hold the two frictions.

    Valid for
    ---------
    Below yield; above it the tension no longer follows the torque, which a note then says.

    Source
    ------
    [vdi-2230] torsion section fully plastic, pi d0³ / 12.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(bolt_tension(thread_of("M10"), 49180.0, thread_friction=0.12, head_friction=0.12).tension, -2)
    30000.0
    """
    above_nought("torque", torque, "N·mm")
    bearing = bearing or bearing_of(thread)
    levers = levers_of(thread, thread_friction, head_friction, bearing)
    tension = _tension_step("Bolt tension from torque", torque, levers, "tension")
    if friction_band is None:
        ends, band_note = _usual_ends(tension)
    else:
        _holds(friction_band, thread_friction, head_friction)
        ends, band_note = _ends_by_friction(thread, torque, bearing, friction_band), friction_band.note
    torsion, equivalent = torsion_steps(thread, tension.figure(), levers)
    share = _share_of_yield(equivalent, strength)
    named = {name: step.value for step in ends for name in step.result}
    return BoltTension(
        tension=tension.value,
        tension_low=named["tension_low"],
        tension_high=named["tension_high"],
        torsion_stress=torsion.value,
        equivalent_stress=equivalent.value,
        yield_fraction=share[0].value if share else None,
        steps=(*levers.steps, tension, *ends, torsion, equivalent, *share),
        notes=(*levers.notes, band_note),
        cautions=_past_yield(share),
    )


def _tension_step(says: str, torque: float, levers: Levers, result: str) -> Step:
    return Step.work_out(
        says,
        "torque / (thread_lever + head_lever)",
        {"torque": (torque, "N·mm"), **lever_figures(levers)},
        (result, "N"),
        SOURCE,
    )


def _usual_ends(tension: Step) -> tuple[tuple[Step, ...], Note]:
    scatter = scatter_of(ASSUMED_METHOD)
    shares = {"tension_low": ("Lowest", scatter.low), "tension_high": ("Highest", scatter.high)}
    ends = tuple(
        Step.work_out(
            f"{word} tension likely",
            "tension * share",
            {"tension": tension.figure(), "share": (share, NO_UNIT)},
            (result, "N"),
            scatter.source,
        )
        for result, (word, share) in shares.items()
    )
    return ends, Note(f"no band of friction given: the band is that of a {scatter.says}", scatter.source)


def _holds(band: Friction, thread_friction: float, head_friction: float) -> None:
    least, most = min(thread_friction, head_friction), max(thread_friction, head_friction)
    if not band.low <= least <= most <= band.high:
        must = f"it must hold the friction typed, {least:g} to {most:g}"
        raise OutOfRange("friction_band", f"{band.low:g} to {band.high:g}", must)


def _ends_by_friction(thread: Thread, torque: float, bearing: Bearing, band: Friction) -> tuple[Step, ...]:
    slippery = levers_of(thread, band.low, band.low, bearing)
    rough = levers_of(thread, band.high, band.high, bearing)
    return (
        *rough.steps[2:],
        _tension_step("Lowest tension, at the highest friction", torque, rough, "tension_low"),
        *slippery.steps[2:],
        _tension_step("Highest tension, at the lowest friction", torque, slippery, "tension_high"),
    )


def torsion_steps(thread: Thread, tension: tuple[float, str], levers: Levers) -> tuple[Step, Step]:
    """Torsion that tightening leaves in the thread, and what it makes of the stress.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    tension : tuple of (float, str)
        Tension as a figure of a step [N].
    levers : Levers
        Torque per tension [mm].

    Returns
    -------
    tuple of (Step, Step)
        Torsion stress and equivalent stress [MPa].

    Source
    ------
    [vdi-2230] torsion section pi d0³ / 12; equivalent stress after von Mises.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> thread = thread_of("M10")
    >>> levers = levers_of(thread, 0.12, 0.12, bearing_of(thread))
    >>> [round(step.value) for step in torsion_steps(thread, (30000.0, "N"), levers)]
    [157, 585]
    """
    torsion = Step.work_out(
        "Torsion stress while tightening",
        "tension * thread_lever / (pi * stress_diameter**3 / 12)",
        {
            "tension": tension,
            "thread_lever": (levers.thread_lever, "mm"),
            "stress_diameter": (thread.stress_diameter, "mm"),
        },
        ("torsion_stress", "MPa"),
        SOURCE,
    )
    equivalent = Step.work_out(
        "Pull and torsion together",
        "sqrt((tension / stress_area)**2 + 3 * torsion_stress**2)",
        {"tension": tension, "stress_area": (thread.stress_area, "mm²"), "torsion_stress": torsion.figure()},
        ("equivalent_stress", "MPa"),
        SOURCE,
    )
    return torsion, equivalent


def _share_of_yield(equivalent: Step, strength: StrengthClass | None) -> tuple[Step, ...]:
    if strength is None:
        return ()
    step = Step.work_out(
        f"Share of yield, class {strength.name}",
        "equivalent_stress / yield_stress",
        {"equivalent_stress": equivalent.figure(), "yield_stress": (strength.yield_stress, "MPa")},
        ("yield_fraction", NO_UNIT),
        strength.source,
    )
    return (step,)


def _past_yield(share: tuple[Step, ...]) -> tuple[Note, ...]:
    if not share or share[0].value <= 1.0:
        return ()
    said = "past yield at this torque: the bolt stretches for good and the tension is less than this sum says"
    return (Note(said, "derived"),)
