"""What a bolt does after it is tight: the turn past snug, bedding in, and heat; gasket in the sum where it is known."""

from dataclasses import dataclass

from firedeck.errors import FiredeckError
from firedeck.fasteners import (
    DuctilityUsed,
    StrengthClass,
    Thread,
    angle_tension,
    ductility_used,
    embedding_loss,
    grip_parts,
    settlement_given,
    thermal_tension,
)
from firedeck.findings.gasket_spring import GasketBearing, GasketUnder, gasket_bearing
from firedeck.findings.groups import class_in, thread_in
from firedeck.findings.springs import Springs, springs_of
from firedeck.job import Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.tables.materials import material
from firedeck.trace import COMMON_PRACTICE, DERIVED, NO_UNIT, Band, Note, Step

WARM = 70.0
"""Rise of head and bolt from the bench to working heat [K]."""

ROUGHNESS = 0.016
"""Rz of machined faces where nobody measured it [mm]."""

JOINT_FACES = 2.0
"""Head on gasket, gasket on block."""

METAL_ALONE = Note("metal alone: the gasket is softer and takes part of every change", DERIVED)


@dataclass(frozen=True)
class Turned:
    """What a turn past snug makes of a bolt: tension [N], whether it yields, ductility used (None: not known)."""

    tension: float
    yielded: bool
    ductility: DuctilityUsed | None
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Stretch:
    """What becomes of the tension of one bolt; each part None where it is not known.

    ``hot`` is the most pull while it warms up over the yield load, for one not turned into yield. ``loss`` is the share
    lost by bedding in; ``warm`` and ``early`` the change of tension [N] with everything
    warm, and with the bolt still cold, from the softest the gasket can be to the stiffest.
    """

    turned: Turned | None
    loss: Step | None
    warm: Band | None
    early: Band | None
    with_gasket: bool
    loss_steps: tuple[Step, ...]
    heat_steps: tuple[Step, ...]
    notes: tuple[Note, ...]
    hot: Step | None = None


def stretch_found(
    joint: Joint, group: Fasteners, snug: float | None, angle: float | None, tension: float | None
) -> Stretch | None:
    """Work out what becomes of the tension of one bolt; None where thread, grip or metal is not known."""
    springs, thread = springs_of(joint, group), thread_in(group)
    if springs is None or thread is None:
        return None
    bearing = gasket_bearing(joint)
    strength = class_in(group, thread)
    try:
        turned = None
        if angle is not None and strength is not None:
            turned = _turned((thread, strength), springs, bearing, snug or 0.0, angle)
            tension = turned.tension
        gasket = bearing.under(tension) if bearing and tension else None
        loss = _loss(joint, springs, gasket, tension)
        warm, early, heat_steps = _heat(joint, group, springs, gasket)
        hot = _hot(springs, strength, tension, early) if turned is None else None
    except FiredeckError:
        return None
    last = loss[-1] if loss else None
    return Stretch(turned, last, warm, early, gasket is not None, loss, heat_steps, _notes(gasket), hot)


def _notes(gasket: GasketUnder | None) -> tuple[Note, ...]:
    warm = Note(f"head and bolt taken {WARM:g} °C warmer than the bench at working heat", COMMON_PRACTICE)
    return (*(gasket.notes if gasket else (METAL_ALONE,)), warm)


def _turned(
    bolt: tuple[Thread, StrengthClass],
    springs: Springs,
    bearing: GasketBearing | None,
    snug: float,
    angle: float,
) -> Turned:
    """Turn past snug; the gasket closes along its own curve from snug up to the yield of the bolt."""
    thread, strength = bolt
    most = springs.smallest * strength.yield_stress
    closing = bearing.between(snug, most) if bearing else None
    steps, member = springs.steps, springs.head
    if closing is not None:
        together = _in_series(springs, closing, "while it is turned")
        steps, member = (*steps, closing, together), together.value
    found = angle_tension(
        thread,
        angle,
        springs.bolt,
        member,
        snug_tension=snug,
        strength=strength,
        stress_area=springs.smallest,
    )
    used = None
    if springs.yielding is not None:
        used = ductility_used(found.plastic_stretch, springs.yielding, strength)
    yielded = bool(found.reached_yield)
    return Turned(found.tension, yielded, used, (*steps, *found.steps, *(used.steps if used else ())))


def _in_series(springs: Springs, gasket: Step, says: str) -> Step:
    ((name, figure),) = gasket.result.items()
    return Step.work_out(
        f"Head and gasket together, {says}",
        f"1 / (1 / member_stiffness + 1 / {name})",
        {"member_stiffness": (springs.head, "N/mm"), name: figure},
        ("clamped_stiffness", "N/mm"),
        DERIVED,
    )


def _loss(
    joint: Joint, springs: Springs, gasket: GasketUnder | None, tension: float | None
) -> tuple[Step, ...]:
    """Share of the tension that goes when metal faces bed in, and the gasket in itself."""
    if not tension:
        return ()
    read = [one.Rz.value for one in joint.readings.finish if one.face == "head" and one.Rz is not None]
    settled = settlement_given(None, read[-1] if read else ROUGHNESS, JOINT_FACES)
    if gasket is None:
        lost = embedding_loss(springs.bolt, springs.head, settled)
        parts = {"loss": (lost.loss, "N")}
        steps = (*springs.steps, *lost.steps)
    else:
        together = _in_series(springs, gasket.steps[-1], "springing back")
        lost = embedding_loss(springs.bolt, together.value, settled)
        creep = _creep(springs, gasket, tension)
        parts = {"loss": (lost.loss, "N"), **creep.result}
        steps = (*springs.steps, *gasket.steps, together, *lost.steps, creep)
    share = Step.work_out(
        "Share of the tension lost by bedding in",
        f"({' + '.join(parts)}) / tension",
        {**parts, "tension": (tension, "N")},
        ("loss_share", NO_UNIT),
        DERIVED,
    )
    return (*steps, share)


def _creep(springs: Springs, gasket: GasketUnder, tension: float) -> Step:
    """The gasket gives way under its load; bolt and head follow it as springs and lose what they let go."""
    return Step.work_out(
        "Tension lost because the gasket itself beds in",
        "creep_share * tension / (1 + gasket_springing * (1 / bolt_stiffness + 1 / member_stiffness))",
        {
            "creep_share": (gasket.creep, NO_UNIT),
            "tension": (tension, "N"),
            "gasket_springing": (gasket.springing, "N/mm"),
            "bolt_stiffness": (springs.bolt, "N/mm"),
            "member_stiffness": (springs.head, "N/mm"),
        },
        ("creep_loss", "N"),
        DERIVED,
    )


def _heat(
    joint: Joint, group: Fasteners, springs: Springs, gasket: GasketUnder | None
) -> tuple[Band | None, Band | None, tuple[Step, ...]]:
    """Change of tension all warm, and with the bolt still cold; a gasket gives way at first and springs later."""
    assert group.grip_in_head is not None
    grip = grip_parts(f"{joint.head.material}/{group.grip_in_head.value} mm")
    steel = material("steel")
    series = (
        [
            _in_series(springs, step, says)
            for step, says in zip(gasket.steps[-2:], ("pressed on further", "springing back"), strict=True)
        ]
        if gasket
        else []
    )
    members = [one.value for one in series] or [springs.head]
    found = [
        [thermal_tension(grip, (WARM, bolt), steel, springs.bolt, member) for member in members]
        for bolt in (WARM, 0.0)
    ]
    bands = [_between([one.change for one in pair]) for pair in found]
    steps = [*series, *(step for pair in found for one in pair for step in one.steps)]
    return bands[0], bands[1], tuple(step for place, step in enumerate(steps) if step not in steps[:place])


def _hot(
    springs: Springs, strength: StrengthClass | None, tension: float | None, early: Band | None
) -> Step | None:
    """Hold the pull while the parts are warm and the bolt is not against its yield; its twist is half gone by then."""
    if strength is None or not tension or early is None:
        return None
    return Step.work_out(
        "Most pull while it warms up, the bolt still cold, over the load at yield",
        "(tension + change) / (stress_area * yield_stress)",
        {
            "tension": (tension, "N"),
            "change": (early.high, "N"),
            "stress_area": (springs.smallest, "mm²"),
            "yield_stress": (strength.yield_stress, "MPa"),
        },
        ("yield_share", NO_UNIT),
        DERIVED,
    )


def _between(ends: list[float]) -> Band:
    low, high = min(ends), max(ends)
    return Band(low, high, why="gasket pressed on for the first time, and once it has set")
