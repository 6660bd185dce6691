"""Tension and share of yield a torque of the papers means, and the pressure under the washer."""

from dataclasses import dataclass, replace

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners import (
    BearingPressure,
    BoltTension,
    StrengthClass,
    Thread,
    bearing_of,
    bearing_pressure,
    bolt_strength,
    bolt_tension,
    friction_of,
    same_tension_torque,
    softest_class,
)
from firedeck.findings.groups import class_in, metal, number, thread_in, waist_in, waist_unknown
from firedeck.job import Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.trace import DERIVED, NO_UNIT, Band, Note, Step


@dataclass(frozen=True)
class TensionFound:
    """Tension [N] with its band, share of yield with its band, written out.

    Without a class both shares are None and ``softest`` is the share of yield of the softest class of the tables.
    A waisted fastener whose sections nobody wrote has none of them.
    """

    tension: float
    band: Band
    share: Step | None
    share_band: Band | None
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]
    softest: Step | None = None
    softest_class: str = ""


def tension_found(group: Fasteners, torque: float, lubricant: str) -> TensionFound | None:
    """Work out what a torque means; None when the thread is not known."""
    thread = thread_in(group)
    if thread is None:
        return None
    try:
        return _tension(group, thread, class_in(group, thread), torque, lubricant)
    except (OutOfRange, TableGap):
        return None


def _tension(
    group: Fasteners, thread: Thread, strength: StrengthClass | None, torque: float, lubricant: str
) -> TensionFound:
    friction = friction_of(lubricant)
    bearing = bearing_of(thread, number(group.bearing_diameter), number(group.hole_diameter))

    def at(value: float) -> BoltTension:
        return bolt_tension(
            thread,
            torque,
            thread_friction=value,
            head_friction=value,
            strength=strength,
            bearing=bearing,
            friction_band=friction,
            waist=waist_in(group),
        )

    usual, slippery, rough = at(friction.usual), at(friction.low), at(friction.high)
    why = f"friction of {friction.name}, {friction.low:g} to {friction.high:g}"
    band = Band(usual.tension_low, usual.tension_high, 0.95, why)
    if waist_unknown(group):
        steps = tuple(step for step in usual.steps if step.result.keys() & _OF_TORQUE)
        return TensionFound(usual.tension, band, None, None, steps, (friction.note, *usual.notes, _NO_WAIST))
    if strength is None or slippery.yield_fraction is None or rough.yield_fraction is None:
        soft = softest_class(thread)
        bound = _tension(group, thread, soft, torque, lubricant)
        return replace(
            bound, share=None, share_band=None, softest=bound.share, softest_class=f"class {soft.name}"
        )
    shares = sorted((rough.yield_fraction, slippery.yield_fraction))
    return TensionFound(
        usual.tension,
        band,
        usual.steps[-1],
        Band(shares[0], shares[1], 0.95, why),
        usual.steps,
        (friction.note, *usual.notes),
    )


_OF_TORQUE = {"thread_lever", "head_lever", "tension", "tension_low", "tension_high"}
_NO_WAIST = Note("waisted, and how thin is not written: its share of yield is not known", DERIVED)


def bearing_found(joint: Joint, group: Fasteners, tension: float | None) -> BearingPressure | None:
    """Work out the pressure under washer, head or nut at the tension given, or else at the yield of the bolt."""
    washer, face = group.washer, metal(joint.head.material)
    outer = number(washer.outer_diameter if washer else group.bearing_diameter)
    hole = number(group.hole_diameter) or number(washer.hole_diameter if washer else None)
    load = tension if tension is not None else _yield_load(group)
    if outer is None or face is None or hole is None or load is None:
        return None
    try:
        return bearing_pressure(load, outer, hole, face)
    except (OutOfRange, TableGap):
        return None


def _yield_load(group: Fasteners) -> float | None:
    thread = thread_in(group)
    strength = class_in(group, thread)
    return bolt_strength(thread, strength, waist_in(group)).yield_load if thread and strength else None


def other_lubricant(group: Fasteners, torque: float, written_for: str, used: str) -> tuple[Step, Band] | None:
    """Torque that gives with the lubricant used the tension the papers mean, as a band."""
    thread = thread_in(group)
    if thread is None:
        return None
    same = same_tension_torque(thread, torque, friction_of(written_for), friction_of(used))
    low, high = sorted((same.torque_low, same.torque_high))
    ratio = Step.work_out(
        f"Torque for the same tension, {used} in place of {written_for}, over that of the papers",
        "torque_now / torque",
        {"torque_now": (same.torque, "N·mm"), "torque": (torque, "N·mm")},
        ("ratio", NO_UNIT),
        "vdi-2230",
    )
    return ratio, Band(low, high, 0.95, "both bands of friction")
