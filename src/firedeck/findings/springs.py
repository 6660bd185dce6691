"""The springs of one fastener: itself by its sections, the head under it, and how long its thinnest part is."""

from dataclasses import dataclass

from firedeck.errors import FiredeckError
from firedeck.fasteners import Frustum, Section, Thread, bolt_stiffness, member_stiffness
from firedeck.findings.groups import metal, number, sections_in, thread_in, waist_unknown
from firedeck.job import Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.tables.materials import material
from firedeck.trace import Step


@dataclass(frozen=True)
class Springs:
    """Stiffness of a fastener and of the head under it [N/mm], smallest area [mm²], length that yields [mm].

    ``yielding`` is None where the thread is the smallest and its free length is not among the sections.
    """

    bolt: float
    head: float
    smallest: float
    yielding: float | None
    steps: tuple[Step, ...]


def springs_of(joint: Joint, group: Fasteners) -> Springs | None:
    """Work out both springs; None where thread, grip, metal or the sections of a waist are not known."""
    thread, head = thread_in(group), metal(joint.head.material)
    if thread is None or head is None or group.grip_in_head is None or waist_unknown(group):
        return None
    grip = group.grip_in_head.value
    try:
        sections = sections_in(group) or (Section(thread.stress_area, grip),)
        bolt = bolt_stiffness(sections, material("steel").usual_modulus)
        face = number(group.washer.outer_diameter) if group.washer else None
        face = face or number(group.bearing_diameter) or 1.5 * thread.major_diameter
        parts = member_stiffness((Frustum(head.usual_modulus, face, grip),), thread.major_diameter)
    except FiredeckError:
        return None
    smallest = min(thread.stress_area, *(one.area for one in sections))
    return Springs(
        bolt.stiffness,
        parts.stiffness,
        smallest,
        _yielding(thread, sections, smallest),
        (*bolt.steps, *parts.steps),
    )


def _yielding(thread: Thread, sections: tuple[Section, ...], smallest: float) -> float | None:
    """Length of the sections that are as small as the smallest, a thread written by its own diameters among them."""
    about = 1.1 * smallest if smallest == thread.stress_area else 1.001 * smallest
    return sum(one.length for one in sections if one.area <= about) or None
