"""Torque for a tension: what the thread takes and what the head takes."""

from dataclasses import dataclass

from firedeck.fasteners.friction import Friction, must_hold
from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.levers import SOURCE, Bearing, Levers, bearing_of, lever_figures, levers_of
from firedeck.fasteners.strength import StrengthClass
from firedeck.fasteners.stresses import past_yield, share_of_yield, torsion_steps
from firedeck.fasteners.threads import Thread
from firedeck.trace import Note, Step


@dataclass(frozen=True)
class BoltTorque:
    """Torque that pulls a bolt to a tension [N·mm], its band and the share of yield; None where not asked."""

    torque: float
    torque_low: float | None
    torque_high: float | None
    yield_fraction: float | None
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]
    cautions: tuple[Note, ...] = ()


def bolt_torque(
    thread: Thread,
    tension: float,
    *,
    thread_friction: float,
    head_friction: float,
    strength: StrengthClass | None = None,
    bearing: Bearing | None = None,
    friction_band: Friction | None = None,
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
    strength : StrengthClass or None
        Class, for the share of yield [MPa].
    bearing : Bearing or None
        Ring under the head, standard where None [mm].
    friction_band : Friction or None
        Lowest and highest friction, for the band of torque [1].

    Returns
    -------
    BoltTorque
        The torque [N·mm].

    Raises
    ------
    OutOfRange
        If the tension is not above nought, a friction is not one of steel threads, or the band does
        not hold the two frictions.

    Valid for
    ---------
    Elastic bolt, turned evenly at the head or nut.

    Source
    ------
    [vdi-2230] and [shigley-9] eq. 8-26: the same sum.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> work = bolt_torque(thread_of("M10"), 30000.0, thread_friction=0.12, head_friction=0.12)
    >>> round(work.torque, -3)
    49000.0
    """
    above_nought("tension", tension, "N")
    bearing = bearing or bearing_of(thread)
    levers = levers_of(thread, thread_friction, head_friction, bearing)
    torque = _torque_step("Torque at the head", tension, levers, "torque")
    ends: tuple[Step, ...] = ()
    band_notes: tuple[Note, ...] = ()
    if friction_band is not None:
        must_hold(friction_band, thread_friction, head_friction)
        ends, band_notes = (
            _torques_by_friction(thread, tension, bearing, friction_band),
            (friction_band.note,),
        )
    stresses = torsion_steps(thread, (tension, "N"), levers) if strength else ()
    share = share_of_yield(stresses[-1], strength) if stresses else ()
    named = {name: step.value for step in ends for name in step.result}
    return BoltTorque(
        torque=torque.value,
        torque_low=named.get("torque_low"),
        torque_high=named.get("torque_high"),
        yield_fraction=share[0].value if share else None,
        steps=(*levers.steps, torque, *ends, *stresses, *share),
        notes=(*levers.notes, *band_notes),
        cautions=past_yield(share),
    )


def _torque_step(says: str, tension: float, levers: Levers, result: str) -> Step:
    return Step.work_out(
        says,
        "tension * (thread_lever + head_lever)",
        {"tension": (tension, "N"), **lever_figures(levers)},
        (result, "N·mm"),
        SOURCE,
    )


def _torques_by_friction(
    thread: Thread, tension: float, bearing: Bearing, band: Friction
) -> tuple[Step, ...]:
    slippery = levers_of(thread, band.low, band.low, bearing)
    rough = levers_of(thread, band.high, band.high, bearing)
    return (
        *slippery.steps[2:],
        _torque_step("Lowest torque, at the lowest friction", tension, slippery, "torque_low"),
        *rough.steps[2:],
        _torque_step("Highest torque, at the highest friction", tension, rough, "torque_high"),
    )
