"""What is known of a group of fasteners before any sum: thread, class, labels, gasket that goes on."""

from math import pi

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners import (
    Section,
    StrengthClass,
    Thread,
    class_by_marks,
    class_of,
    is_bare,
    round_section,
    thread_of,
)
from firedeck.job import Joint
from firedeck.job.schema.joint import Candidate, Fasteners
from firedeck.quantity import Kind, Quantity, parse, split_rows
from firedeck.tables.materials import Material, material


def number(quantity: Quantity | None) -> float | None:
    """Return the core number of a reading, None where there is none."""
    return None if quantity is None else quantity.value


def thread_in(group: Fasteners) -> Thread | None:
    """Return the thread of a group; None when it is not given, or is no thread of the tables."""
    try:
        return thread_of(group.thread) if group.thread else None
    except (OutOfRange, TableGap):
        return None


def class_in(group: Fasteners, thread: Thread | None) -> StrengthClass | None:
    """Return the strength class of a group, by its name or its head marks; None when neither says it, as a bare head."""
    if thread is None:
        return None
    try:
        if group.class_:
            return class_of(group.class_, thread)
        marked = bool(group.head_marks) and not is_bare(group.head_marks)
        return class_by_marks(group.head_marks, thread) if marked else None
    except TableGap:
        return None


def sections_in(group: Fasteners) -> tuple[Section, ...]:
    """Read the sections of a fastener: "9 mm/70 mm, 10 mm/30 mm", diameter and length of each; none where not written."""
    if not group.sections:
        return ()
    rows = split_rows(group.sections)
    return tuple(round_section(*(parse(cell, Kind.LENGTH).value for cell in row)) for row in rows)


def waist_in(group: Fasteners) -> float | None:
    """Return the thinnest diameter of the sections [mm]; None where none are written."""
    areas = [section.area for section in sections_in(group)]
    return (4.0 / pi * min(areas)) ** 0.5 if areas else None


def waist_unknown(group: Fasteners) -> bool:
    """Tell whether a fastener is waisted and nobody has written how thin it is."""
    return group.waisted and waist_in(group) is None


def metal(name: str | None) -> Material | None:
    """Return what a casting is made of; None when that is not known."""
    try:
        return material(name) if name and name != "unknown" else None
    except TableGap:
        return None


def gasket_that_goes_on(joint: Joint) -> Candidate | None:
    """Return the gasket chosen, or the only one there is."""
    candidates = joint.gasket.candidates
    chosen = [one for one in candidates if one.name == joint.gasket.fitted]
    if chosen:
        return chosen[0]
    return candidates[0] if len(candidates) == 1 else None


def group_labels(joint: Joint, group: Fasteners) -> tuple[str, ...]:
    """Return the labels of a group; a group alone without labels has all fasteners of the layout."""
    if group.labels or len(joint.fasteners) > 1 or joint.layout is None:
        return group.labels
    return tuple(hole.label for hole in joint.layout.fasteners)
