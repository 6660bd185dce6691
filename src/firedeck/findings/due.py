"""What is due after the first run: re-torque steps of the papers head by head, and what forbids them."""

from dataclasses import dataclass
from typing import ClassVar

from firedeck.fasteners.procedure_lines import Act, FastenerGroup, ProcedureStep
from firedeck.fasteners.procedure_reading import parse
from firedeck.fasteners.procedure_words import both_units
from firedeck.findings.finding import Findings
from firedeck.findings.groups import gasket_that_goes_on, group_labels
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.trace import COMMON_PRACTICE, NO_UNIT, Missing, Step


@dataclass(frozen=True)
class Again:
    """One re-torque step of a group: when, hot or cold, what, and its figure."""

    joint: str
    group: str
    when: str
    text: str
    figure: str


@dataclass(frozen=True)
class DueJoint:
    """One head: its re-torque steps, whether it was stretched, what its gasket says.

    ``torque_again``: the papers write a torque, and no turn, for stretched ones.
    """

    name: str
    again: tuple[Again, ...]
    known: bool
    stretched: bool
    gasket_says_no: bool
    source: str
    torque_again: bool = False


@dataclass(frozen=True)
class Due:
    """What is due of every head; ``counted`` is how many re-torque steps the papers write."""

    id: ClassVar[str] = "due"
    joints: tuple[DueJoint, ...]
    counted: Step
    missing: tuple[Missing, ...]

    @property
    def clashes(self) -> tuple[str, ...]:
        """Heads whose papers write a re-torque that their gasket forbids."""
        return tuple(one.name for one in self.joints if one.again and one.gasket_says_no)


def find(job: Job, _joint: Joint | None, _found: Findings) -> Due | Missing:
    """Read the re-torque of every head."""
    joints = tuple(_of(joint) for joint in job.joints)
    steps = float(sum(len(one.again) for one in joints))
    counted = Step.work_out(
        "Re-torque steps the papers write",
        "steps",
        {"steps": (steps, NO_UNIT)},
        ("steps", NO_UNIT),
        COMMON_PRACTICE,
    )
    return Due(joints, counted, tuple(_unknown(one.name) for one in joints if not one.known))


def no_retorque(joint: Joint) -> bool:
    """Tell whether the gasket that goes on is one that is not tightened again: its sheet first, then its kind."""
    gasket = gasket_that_goes_on(joint)
    if gasket is None or gasket.retorque is not None:
        return gasket is not None and gasket.retorque == "no"
    return gasket.construction == "multi-layer-steel"


def _of(joint: Joint) -> DueJoint:
    if joint.procedure is None:
        return DueJoint(joint.name, (), False, False, no_retorque(joint), "")
    procedure = parse(joint.procedure.text, f"joint.{joint.name}.procedure.text")
    written = joint.fasteners or (Fasteners(name="all"),)
    again: list[Again] = []
    stretched = torque_again = False
    for group in written:
        named = FastenerGroup(group.name, group_labels(joint, group))
        yields = procedure.is_torque_plus_angle(named) and joint.procedure.yields is not False
        stretched = stretched or yields
        acts = {step.act for step in procedure.retorques(named)}
        torque_again = torque_again or (yields and Act.TORQUE in acts and Act.TURN not in acts)
        if procedure.needs_retorque(named):
            again.extend(_again(joint.name, group.name, step) for step in procedure.retorques(named))
    no = no_retorque(joint)
    return DueJoint(joint.name, tuple(again), True, stretched, no, joint.procedure.source, torque_again)


def _again(joint: str, group: str, step: ProcedureStep) -> Again:
    when = "after " * bool(step.after) + " or ".join(one.text for one in step.after)
    heat = f"engine {step.heat}" if step.heat else ""
    does = {
        Act.TORQUE: "to the torque, in order",
        Act.TURN: "turn on by the angle, in order",
        Act.LOOSEN: "back off, one at a time",
        Act.FLOOR: "none may move below this",
    }.get(step.act, str(step.act))
    figure = both_units(step.setting) if step.setting else ""
    return Again(joint, group, ", ".join(part for part in (when, heat) if part), does, figure)


def _unknown(joint: str) -> Missing:
    return Missing(
        (f"joint.{joint}.procedure.text",),
        "whether this joint is tightened again, after what distance or time, hot or cold",
        "papers of this engine and the sheet with the gasket",
        "Look for re-torque or re-tightening beside the procedure; silent papers with an old soft gasket are not a no.",
    )
