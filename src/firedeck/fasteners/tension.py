"""Tension from a torque: its band, its stresses, and how near to yield the bolt is."""

from dataclasses import dataclass

from firedeck.fasteners.friction import Friction, must_hold
from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.levers import SOURCE, Bearing, Levers, bearing_of, lever_figures, levers_of
from firedeck.fasteners.scatter import scatter_of
from firedeck.fasteners.strength import StrengthClass
from firedeck.fasteners.stresses import past_yield, share_of_yield, torsion_steps
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


def bolt_tension(
    thread: Thread,
    torque: float,
    *,
    thread_friction: float,
    head_friction: float,
    strength: StrengthClass | None = None,
    bearing: Bearing | None = None,
    friction_band: Friction | None = None,
    waist: float | None = None,
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
    waist : float or None
        Thinnest diameter of the shank, None for one no thinner than the thread [mm].

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
        must_hold(friction_band, thread_friction, head_friction)
        ends, band_note = _ends_by_friction(thread, torque, bearing, friction_band), friction_band.note
    torsion, equivalent = torsion_steps(thread, tension.figure(), levers, waist)
    share = share_of_yield(equivalent, strength)
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
        cautions=past_yield(share),
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


def _ends_by_friction(thread: Thread, torque: float, bearing: Bearing, band: Friction) -> tuple[Step, ...]:
    slippery = levers_of(thread, band.low, band.low, bearing)
    rough = levers_of(thread, band.high, band.high, bearing)
    return (
        *rough.steps[2:],
        _tension_step("Lowest tension, at the highest friction", torque, rough, "tension_low"),
        *slippery.steps[2:],
        _tension_step("Highest tension, at the lowest friction", torque, slippery, "tension_high"),
    )
