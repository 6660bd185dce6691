"""A wire or ring in its groove: what a cut leaves of the groove, whether the wire goes in, how far it stands proud."""

from dataclasses import dataclass

from firedeck.job import Joint
from firedeck.job.schema.joint import Candidate
from firedeck.quantity import Quantity
from firedeck.trace import DERIVED, Step


@dataclass(frozen=True)
class Wire:
    """One wire over one groove; ``room`` is None where the width was not measured."""

    face: str
    left: Step
    stand_out: Step
    room: Step | None


def wire_of(joint: Joint, candidate: Candidate) -> Wire | None:
    """Lay the wire of a gasket into the groove of the deck, or of the head; None where one of them is not known."""
    block, head = joint.block, joint.head
    if candidate.wire is None:
        return None
    if block.groove_depth is not None:
        return _laid(
            "block", candidate.wire, block.groove_depth, block.groove_width, _off(joint, joint.cut.block)
        )
    if head.groove_depth is not None:
        return _laid(
            "head", candidate.wire, head.groove_depth, head.groove_width, _off(joint, joint.cut.head)
        )
    return None


def _off(joint: Joint, cut: Quantity | None) -> float:
    """Return what the planned cut still takes off the groove [mm]."""
    return 0.0 if cut is None or joint.cut.done else cut.value


def _laid(face: str, wire: Quantity, depth: Quantity, width: Quantity | None, cut: float) -> Wire:
    left = Step.work_out(
        f"Depth of the groove in the {face} once it is cut",
        "groove_depth - cut",
        {"groove_depth": (depth.value, "mm"), "cut": (cut, "mm")},
        ("groove_left", "mm"),
        DERIVED,
    )
    stand_out = Step.work_out(
        "Wire stands out of its groove by",
        "wire_diameter - groove_left",
        {"wire_diameter": (wire.value, "mm"), "groove_left": left.figure()},
        ("wire_stand_out", "mm"),
        DERIVED,
    )
    if width is None:
        return Wire(face, left, stand_out, None)
    room = Step.work_out(
        "Room for the wire across its groove",
        "groove_width - wire_diameter",
        {"groove_width": (width.value, "mm"), "wire_diameter": (wire.value, "mm")},
        ("groove_room", "mm"),
        DERIVED,
    )
    return Wire(face, left, stand_out, room)
