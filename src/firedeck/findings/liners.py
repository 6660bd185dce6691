"""How liners or barrels stand, how they were held when read, and what a planned seat or shim makes of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from firedeck.cylinder.liners import LinerStand, liner_stand
from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Block
from firedeck.quantity import Quantity
from firedeck.trace import DERIVED, Missing, Step

ENOUGH = 3
"""Readings round one liner that show whether it tilts."""


@dataclass(frozen=True)
class Plan:
    """What is planned under the liners, and the lowest and highest stand it leaves."""

    action: str
    lowest: Step
    highest: Step


@dataclass(frozen=True)
class Liners:
    """Liners or barrels of one joint; ``few`` are those with too few readings to show a tilt."""

    id: ClassVar[str] = "liners"
    what: str
    readings: Mapping[str, tuple[float, ...]]
    stand: LinerStand
    clamped: str | None
    rule: str
    few: tuple[str, ...]
    plan: Plan | None
    step_by: str | None = None

    @property
    def steps(self) -> tuple[Step, ...]:
        """The step between neighbours by the rule of the book; by means and by highest readings where none is given."""
        both = {"means": self.stand.step_between, "highest": self.stand.step_of_highest}
        return (both[self.step_by],) if self.step_by else tuple(both.values())

    @property
    def needs_clamps(self) -> bool:
        """Wet liners and barrels move until they are held down."""
        return self.what in ("wet", "unknown")


def find(job: Job, joint: Joint | None, _found: Findings) -> Liners | Missing:
    """Read how the liners stand."""
    assert joint is not None
    read = joint.readings.liners
    if not read:
        return unread(joint)
    what = what_stands(job, joint)
    readings = {liner.name: tuple(stand.value for stand in liner.stands) for liner in read}
    stand = liner_stand(list(readings.values()))
    return Liners(
        what=what,
        readings=MappingProxyType(readings),
        stand=stand,
        clamped=joint.block.liners_clamped,
        rule=joint.block.liner_rule,
        few=() if what == "barrels" else tuple(n for n, each in readings.items() if len(each) < ENOUGH),
        plan=_plan(joint.block, stand),
        step_by=joint.block.liner_step_by,
    )


def what_stands(job: Job, joint: Joint) -> str:
    """Say what kind of liner the joint has: wet, dry, cast-in, barrels, none or unknown."""
    if joint.block.liners is None and job.engine.arrangement == "barrels":
        return "barrels"
    return joint.block.liners or "unknown"


def unread(joint: Joint) -> Missing:
    """Say how the stand of liners is read."""
    return Missing(
        paths=(f"joint.{joint.name}.readings.liners", f"joint.{joint.name}.block.liners_clamped"),
        measure="liner protrusion (or barrel length) at three or four places round each, and how they were clamped",
        tool="indicator on a bridge, or depth micrometer",
        how="Seats and flanges clean, no rubber rings, held down as the book says; set nought on the block beside "
        "each liner, read at 12, 3, 6 and 9 o'clock, note every reading.",
    )


def _plan(block: Block, stand: LinerStand) -> Plan | None:
    """Work out what a planned seat cut, shim or base gasket leaves."""
    parts: dict[str, Quantity | None] = {
        "shim": block.shim,
        "seat_cut": block.seat_cut,
        "base_gasket_new": block.base_gasket_new,
        "base_gasket": block.base_gasket if block.base_gasket_new else None,
    }
    given = {name: (part.value, "mm") for name, part in parts.items() if part is not None}
    if not given or (block.base_gasket_new and not block.base_gasket):
        return None
    signs = {"shim": "+", "seat_cut": "-", "base_gasket_new": "+", "base_gasket": "-"}
    formula = "stand " + " ".join(f"{signs[name]} {name}" for name in given)
    low, high = (
        Step.work_out(
            f"{words} stand after the work",
            formula,
            {"stand": before.figure(), **given},
            ("stand_after", "mm"),
            DERIVED,
        )
        for words, before in (("Lowest", stand.lowest), ("Highest", stand.highest))
    )
    action = "change-class" if block.base_gasket_new else "cut-seat" if block.seat_cut else "shim"
    return Plan(action, low, high)
