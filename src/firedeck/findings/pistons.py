"""How far the pistons stand out, by each rule books use, and the classes the job's gaskets are made for."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from firedeck.cylinder.piston_class import RULES, deciding_step, neighbour_step
from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.trace import Missing, Step


@dataclass(frozen=True)
class PistonClass:
    """A gasket made for pistons that stand from ``low`` to ``high`` [mm]; an end may be unknown."""

    name: str
    low: float
    high: float | None
    thickness: float | None
    source: str


@dataclass(frozen=True)
class Pistons:
    """Stand of the pistons of one joint [mm]; ``by_rule`` is the deciding value by each rule of books."""

    id: ClassVar[str] = "pistons"
    readings: Mapping[str, tuple[float, ...]]
    by_rule: Mapping[str, Step]
    rule: str | None
    neighbours: Step
    classes: tuple[PistonClass, ...]
    from_deck: bool
    unread: tuple[str, ...]


def find(job: Job, joint: Joint | None, _found: Findings) -> Pistons | Missing:
    """Read how the pistons stand; a depth below the deck counts as a negative stand."""
    assert joint is not None
    readings = {
        piston.name: tuple(stand.value for stand in piston.stands) for piston in joint.readings.pistons
    }
    from_deck = not readings
    if from_deck:
        readings = {label: (-depth.value,) for label, depth in joint.block.deck_clearance.items()}
    if not readings:
        return unread(joint)
    each = list(readings.values())
    own = joint.cylinders or job.engine.cylinders
    return Pistons(
        readings=MappingProxyType(readings),
        by_rule=MappingProxyType({rule: deciding_step(each, rule) for rule in RULES}),
        rule=joint.block.piston_rule,
        neighbours=neighbour_step(each),
        classes=classes_of(joint),
        from_deck=from_deck,
        unread=tuple(label for label in own if label not in readings),
    )


def classes_of(joint: Joint) -> tuple[PistonClass, ...]:
    """Return the classes of the gaskets in the job, thinnest first."""
    made_for = [
        PistonClass(
            name=candidate.name,
            low=candidate.piston_from.value,
            high=candidate.piston_to.value if candidate.piston_to else None,
            thickness=candidate.thickness.value if candidate.thickness else None,
            source=candidate.source or "sheet with the gasket",
        )
        for candidate in joint.gasket.candidates
        if candidate.piston_from is not None
    ]
    return tuple(sorted(made_for, key=lambda one: one.low))


def unread(joint: Joint) -> Missing:
    """Say how the stand of a piston is read."""
    return Missing(
        paths=(f"joint.{joint.name}.readings.pistons", f"joint.{joint.name}.block.piston_rule"),
        measure="piston protrusion (or depth below the deck) of every piston, at two places over the gudgeon pin",
        tool="indicator on a bridge",
        how="Crown and deck clean, turn slowly over top dead centre, press the piston to one side then the other, "
        "note the highest reading of each place; do not average before you know the rule of the book.",
    )
