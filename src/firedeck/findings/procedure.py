"""How the joint is tightened: the papers' steps per group, order, wrench, and what the torque means."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from firedeck.errors import FiredeckError
from firedeck.fasteners import BearingPressure, Scatter, TrappedLiquid, scatter_of, trapped_liquid
from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_gaps import what_is_missing
from firedeck.fasteners.procedure_lines import Act, FastenerGroup, Lubrication, Setting
from firedeck.fasteners.procedure_reading import parse
from firedeck.fasteners.procedure_words import both_units
from firedeck.findings.finding import Findings
from firedeck.findings.groups import group_labels, metal, number, thread_in
from firedeck.findings.layout import Layout
from firedeck.findings.procedure_work import WorkLine, work_lines
from firedeck.findings.stretch import Stretch, stretch_found
from firedeck.findings.tension import TensionFound, bearing_found, other_lubricant, tension_found
from firedeck.findings.wrench import WrenchFound, wrench_found
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.trace import COMMON_PRACTICE, NO_UNIT, Band, Missing, Step

LUBRICANTS = {
    Lubrication.OILED: "oil",
    Lubrication.DRY: "dry",
    Lubrication.SEALER: "thread-sealer",
    Lubrication.MOLY: "moly",
    Lubrication.COATED: "maker-coated",
}


@dataclass(frozen=True)
class GroupTightening:
    """How one group is tightened; ``yields`` is None where no procedure is known.

    ``papers_lubricant`` is what the torque is written for, ``lubricant`` what will be on the threads. ``torque_again``: the
    papers write a torque, and no turn, for stretched ones after running.
    """

    name: str
    kind: str | None
    final: str
    turn: str
    yields: bool
    papers_lubricant: str | None
    lubricant: str | None
    tension: TensionFound | None
    bearing: BearingPressure | None
    same_tension: tuple[Step, Band] | None
    floor: str
    retorque: bool
    torque_again: bool
    stretch: Stretch | None = None
    trapped: TrappedLiquid | None = None
    scatter: Scatter | None = None
    diameter: float | None = None

    @property
    def torque_only(self) -> bool:
        """Tell whether the last tightening is a torque."""
        return not self.turn

    @property
    def lubricants_agree(self) -> bool:
        """Tell whether what is on the threads is what the torque was written for, as far as known."""
        return None in (self.papers_lubricant, self.lubricant) or self.papers_lubricant == self.lubricant


@dataclass(frozen=True)
class Order:
    """Labels in the order of tightening, whose order it is, and those it leaves out."""

    labels: tuple[str, ...]
    source: str
    from_papers: bool
    left_out: tuple[str, ...]


@dataclass(frozen=True)
class Tightening:
    """The procedure of one joint as work, with what is missing for it."""

    id: ClassVar[str] = "procedure"
    groups: tuple[GroupTightening, ...]
    lines: tuple[WorkLine, ...]
    order: Order
    source: str
    complete: Step
    gaps: tuple[Missing, ...]
    wrench: WrenchFound

    def group(self, name: str) -> GroupTightening | None:
        """Return the tightening of a group by its name."""
        return next((group for group in self.groups if group.name == name), None)


def find(job: Job, joint: Joint | None, found: Findings) -> Tightening | Missing:
    """Read the papers' procedure; without one there is nothing to tighten by."""
    assert joint is not None
    if joint.procedure is None:
        return unread(joint)
    path = f"joint.{joint.name}.procedure.text"
    procedure = parse(joint.procedure.text, path)
    written = joint.fasteners or (Fasteners(name="all"),)
    named = [FastenerGroup(group.name, group_labels(joint, group)) for group in written]
    groups = tuple(_group(joint, group, one, procedure) for group, one in zip(written, named, strict=True))
    order = order_of(joint, found)
    gaps = (*_gaps(procedure, written, named, path), *_unordered(joint, order))
    torques = [
        step.setting for step in procedure.steps if step.act in (Act.TORQUE, Act.FLOOR) and step.setting
    ]
    return Tightening(
        groups=groups,
        lines=work_lines(procedure),
        order=order,
        source=joint.procedure.source,
        complete=_complete(len(groups), gaps),
        gaps=gaps,
        wrench=wrench_found(job.document.tools.wrench, torques),
    )


def unread(joint: Joint) -> Missing:
    """Say what a procedure is."""
    return Missing(
        paths=(f"joint.{joint.name}.procedure.text",),
        measure="the tightening procedure: torque, turns, stages, order and lubricant of every group",
        tool="papers of this engine and the sheet with the gasket",
        how="Write it down step by step as the papers have it, with units. A torque belongs to its thread, "
        "lubricant, washer and gasket together: one from another engine is no stand-in.",
    )


def _group(joint: Joint, group: Fasteners, named: FastenerGroup, procedure: Procedure) -> GroupTightening:
    final, turn, floor = procedure.final_torque(named), procedure.total_angle(named), procedure.floor(named)
    said = procedure.lubrication(named)
    papers = LUBRICANTS[said[0].kind] if said else None
    lubricant = group.lubricant or papers
    states = joint.procedure.yields if joint.procedure else None
    tension = _tension(group, final, lubricant) if turn is None else None
    at_torque = _tension(group, final, lubricant or "oil")
    pull = at_torque.tension if at_torque else None
    yields = states if states is not None else turn is not None
    acts = {step.act for step in procedure.retorques(named)}
    differ = papers and group.lubricant and papers != group.lubricant and turn is None and final
    return GroupTightening(
        name=group.name,
        kind=group.kind,
        final=both_units(final) if final else "",
        turn=turn.text if turn else "",
        yields=yields,
        papers_lubricant=papers,
        lubricant=lubricant,
        tension=tension,
        bearing=bearing_found(joint, group, tension.tension if tension else None),
        same_tension=other_lubricant(group, final.aim, papers, group.lubricant)  # type: ignore[arg-type, union-attr]
        if differ
        else None,
        floor=both_units(floor) if floor else "",
        retorque=procedure.needs_retorque(named),
        torque_again=yields and Act.TORQUE in acts and Act.TURN not in acts,
        stretch=stretch_found(
            joint, group, snug=pull, angle=turn.aim if turn else None, tension=None if turn else pull
        ),
        trapped=_trapped(joint, group, pull),
        scatter=scatter_of("angle" if turn else "torque-wrench") if final or turn else None,
        diameter=_diameter(group),
    )


def _diameter(group: Fasteners) -> float | None:
    thread = thread_in(group)
    return thread.major_diameter if thread else None


def _trapped(joint: Joint, group: Fasteners, pull: float | None) -> TrappedLiquid | None:
    """Work out what liquid left in a blind hole would do; None where thread or torque is not known."""
    thread = thread_in(group)
    if thread is None or not pull:
        return None
    try:
        return trapped_liquid(thread, pull, number(group.boss_diameter), metal(joint.block.material))
    except FiredeckError:
        return None


def _tension(group: Fasteners, final: Setting | None, lubricant: str | None) -> TensionFound | None:
    return tension_found(group, final.aim, lubricant) if final and lubricant else None


def _gaps(
    procedure: Procedure, written: Sequence[Fasteners], named: Sequence[FastenerGroup], path: str
) -> tuple[Missing, ...]:
    """Find what the papers must still say; a lubricant stated with the fasteners counts as said."""
    stated = {f"the lubrication of group {group.name}" for group in written if group.lubricant}
    return tuple(gap for gap in what_is_missing(procedure, named, path) if gap.measure not in stated)


def order_of(joint: Joint, found: Findings) -> Order:
    """Return the papers' order, else the one from the middle outwards, else none."""
    known = [hole.label for hole in joint.layout.fasteners] if joint.layout else []
    known = known or [label for group in joint.fasteners for label in group.labels]
    if joint.procedure and joint.procedure.order:
        labels = joint.procedure.order
        left_out = tuple(label for label in known if label not in labels)
        return Order(labels, joint.procedure.source or "the papers", True, left_out)
    layout = found.get(Layout)
    if isinstance(layout, Missing):
        return Order((), "", False, ())
    turns = sorted((one.order, one.label) for one in layout.fasteners if one.order is not None)
    return Order(tuple(label for _, label in turns), layout.order_from, False, ())


def _unordered(joint: Joint, order: Order) -> tuple[Missing, ...]:
    if not order.left_out:
        return ()
    return (
        Missing(
            paths=(f"joint.{joint.name}.procedure.order",),
            measure=f"the turn of {', '.join(order.left_out)} in the order of tightening",
            tool="papers",
            how="The order written down leaves them out: look whether they come last or in a row of their own.",
        ),
    )


def _complete(groups: int, gaps: Sequence[Missing]) -> Step:
    figures = {"wanted": (float(groups + len(gaps)), NO_UNIT), "gaps": (float(len(gaps)), NO_UNIT)}
    says = "Groups and figures wanted, less what the papers do not say"
    return Step.work_out(says, "wanted - gaps", figures, ("known", NO_UNIT), COMMON_PRACTICE)
