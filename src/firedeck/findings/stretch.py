"""What a bolt does after it is tight: the turn past snug, bedding in, and heat; the metal alone, no gasket."""

from dataclasses import dataclass

from firedeck.errors import FiredeckError
from firedeck.fasteners import (
    DuctilityUsed,
    Frustum,
    GripPart,
    Section,
    Thread,
    angle_tension,
    bolt_stiffness,
    ductility_used,
    embedding_loss,
    grip_parts,
    member_stiffness,
    round_section,
    settlement_given,
    thermal_tension,
)
from firedeck.findings.groups import class_in, metal, number, thread_in
from firedeck.job import Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.tables.materials import Material, material
from firedeck.trace import COMMON_PRACTICE, NO_UNIT, Note, Step

WARM = 70.0
"""Rise of head and bolt from the bench to working heat [K]."""

ROUGHNESS = 0.016
"""Rz of machined faces where nobody measured it [mm]."""

JOINT_FACES = 2.0
"""Head on gasket, gasket on block."""


@dataclass(frozen=True)
class Stretch:
    """Stiffness of one bolt and of the head under it, and what becomes of its tension; None: not known.

    ``turned`` is the share of yield or of ductility after the turn; ``loss`` the share lost by bedding in;
    ``warm`` and ``early`` the change of tension [N] with everything warm, and with the bolt still cold.
    """

    turned: DuctilityUsed | None
    yielded: bool | None
    loss: Step | None
    warm: Step | None
    early: Step | None
    steps: tuple[Step, ...]
    heat_steps: tuple[Step, ...]
    notes: tuple[Note, ...]


@dataclass(frozen=True)
class _Springs:
    bolt: float
    head: float
    thinnest: Section
    steps: tuple[Step, ...]


def stretch_found(
    joint: Joint, group: Fasteners, snug: float | None, angle: float | None, tension: float | None
) -> Stretch | None:
    """Work out what becomes of the tension of one bolt; None where thread, grip or metal is not known."""
    thread, head = thread_in(group), metal(joint.head.material)
    if thread is None or head is None or group.grip_in_head is None or (group.waisted and not group.sections):
        return None
    try:
        springs = _springs(group, thread, head, group.grip_in_head.value)
        return _stretch(joint, group, thread, springs, (snug, angle, tension))
    except FiredeckError:
        return None


def _springs(group: Fasteners, thread: Thread, head: Material, grip: float) -> _Springs:
    """Springs of bolt and head; without sections the bolt is taken as threaded all the way, the softest it can be."""
    sections = _sections(group) or (Section(thread.stress_area, grip),)
    bolt = bolt_stiffness(sections, material("steel").usual_modulus)
    face = number(group.washer.outer_diameter) if group.washer else None
    face = face or number(group.bearing_diameter) or 1.5 * thread.major_diameter
    parts = member_stiffness((Frustum(head.usual_modulus, face, grip),), thread.major_diameter)
    thinnest = min(sections, key=lambda one: one.area)
    return _Springs(bolt.stiffness, parts.stiffness, thinnest, (*bolt.steps, *parts.steps))


def _sections(group: Fasteners) -> tuple[Section, ...]:
    """Read the sections of a bolt: "9 mm/70 mm, 10 mm/30 mm", diameter and length of each."""
    if not group.sections:
        return ()
    from firedeck.quantity import Kind, parse, split_rows

    rows = split_rows(group.sections)
    return tuple(round_section(*(parse(cell, Kind.LENGTH).value for cell in row)) for row in rows)


def _stretch(
    joint: Joint,
    group: Fasteners,
    thread: Thread,
    springs: _Springs,
    loads: tuple[float | None, float | None, float | None],
) -> Stretch:
    snug, angle, tension = loads
    turned, yielded, steps = None, None, springs.steps
    strength = class_in(group, thread)
    if angle is not None and strength is not None:
        area = springs.thinnest.area if group.sections else None
        found = angle_tension(
            thread,
            angle,
            springs.bolt,
            springs.head,
            snug_tension=snug or 0.0,
            strength=strength,
            stress_area=area,
        )
        turned = ductility_used(found.plastic_stretch, springs.thinnest.length, strength)
        yielded, tension, steps = found.reached_yield, found.tension, (*steps, *found.steps, *turned.steps)
    loss = _loss(joint, springs, tension)
    warm, early, heat_steps = _heat(joint, group, springs)
    return Stretch(
        turned, yielded, loss[-1] if loss else None, warm, early, (*steps, *loss), heat_steps, _NOTES
    )


_NOTES = (
    Note("metal alone: the gasket is softer and takes part of every change", "derived"),
    Note(f"head and bolt taken {WARM:g} °C warmer than the bench at working heat", COMMON_PRACTICE),
)


def _loss(joint: Joint, springs: _Springs, tension: float | None) -> tuple[Step, ...]:
    """Share of the tension that goes when metal faces bed in."""
    if not tension:
        return ()
    read = [one.Rz.value for one in joint.readings.finish if one.face == "head" and one.Rz is not None]
    lost = embedding_loss(
        springs.bolt, springs.head, settlement_given(None, read[-1] if read else ROUGHNESS, JOINT_FACES)
    )
    figures = {"loss": (lost.loss, "N"), "tension": (tension, "N")}
    share = Step.work_out(
        "Share of the tension lost by bedding in",
        "loss / tension",
        figures,
        ("loss_share", NO_UNIT),
        "derived",
    )
    return (*lost.steps, share)


def _heat(
    joint: Joint, group: Fasteners, springs: _Springs
) -> tuple[Step | None, Step | None, tuple[Step, ...]]:
    assert group.grip_in_head is not None
    grip: tuple[GripPart, ...] = grip_parts(f"{joint.head.material}/{group.grip_in_head.value} mm")
    steel = material("steel")
    warm = thermal_tension(grip, (WARM, WARM), steel, springs.bolt, springs.head)
    early = thermal_tension(grip, (WARM, 0.0), steel, springs.bolt, springs.head)
    return warm.steps[-1], early.steps[-1], (*warm.steps, *early.steps)
