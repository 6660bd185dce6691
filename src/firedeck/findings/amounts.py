"""What comes off head and block in this job, and what is off in all since the engine was new."""

from dataclasses import dataclass

from firedeck.job import Joint
from firedeck.quantity import Quantity
from firedeck.trace import DERIVED, Step, as_printed


@dataclass(frozen=True)
class Amounts:
    """Metal off head and block: still to come off, and in all since new [mm].

    ``stated`` is False where the job says nothing of a cut; ``removed`` is what the height of the
    head shows against a new one.
    """

    head: float
    block: float
    head_in_all: Step
    block_in_all: Step
    removed: Step | None
    stated: bool


def amounts(joint: Joint, head: float | None = None, block: float | None = None) -> Amounts:
    """Read the cuts of a joint; other figures for the planned ones may be tried instead."""
    cut = joint.cut
    planned_head = _number(cut.head) if head is None else head
    planned_block = _number(cut.block) if block is None else block
    removed = _removed(joint)
    earlier_head = cut.earlier_head.value if cut.earlier_head else removed.value if removed else 0.0
    given = (cut.head, cut.block, cut.earlier_head, cut.earlier_block, head, block)
    return Amounts(
        head=0.0 if cut.done else planned_head,
        block=0.0 if cut.done else planned_block,
        head_in_all=_sum("head", planned_head, earlier_head),
        block_in_all=_sum("block", planned_block, _number(cut.earlier_block)),
        removed=removed,
        stated=removed is not None or any(one is not None for one in given),
    )


def drop(cuts: Amounts, gasket_change: float, in_all: bool = True) -> Step:
    """Work out by how much the head comes nearer the crank: since new, or by this job alone."""
    head = cuts.head_in_all.value if in_all else cuts.head
    block = cuts.block_in_all.value if in_all else cuts.block
    return Step.work_out(
        "Head comes down by" + (" since new" if in_all else ""),
        "head_cut + block_cut - gasket_change",
        {"head_cut": (head, "mm"), "block_cut": (block, "mm"), "gasket_change": (gasket_change, "mm")},
        ("drop", "mm"),
        DERIVED,
    )


def height_after(joint: Joint, cuts: Amounts) -> Step | None:
    """Work out the lowest height of the head once this job's cut is made."""
    after = [height.value for height in joint.head.heights_after]
    before = [height.value for height in joint.head.heights_before]
    if not (after or before):
        return None
    return Step.work_out(
        "Lowest height of the head after the cut",
        "height - head_cut",
        {"height": (min(after or before), "mm"), "head_cut": (0.0 if after else cuts.head, "mm")},
        ("height_after", "mm"),
        DERIVED,
    )


def _removed(joint: Joint) -> Step | None:
    """Hold the height of the head as it is against a new one."""
    heights = joint.head.heights_before
    if not (joint.head.height_new and heights):
        return None
    mean = sum(height.value for height in heights) / len(heights)
    return Step.work_out(
        "Removed from the head before this job",
        "height_new - height",
        {"height_new": (as_printed(joint.head.height_new.value), "mm"), "height": (as_printed(mean), "mm")},
        ("removed", "mm"),
        DERIVED,
    )


def _sum(part: str, planned: float, earlier: float) -> Step:
    return Step.work_out(
        f"Off the {part} in all",
        "planned + earlier",
        {"planned": (planned, "mm"), "earlier": (earlier, "mm")},
        ("cut", "mm"),
        DERIVED,
    )


def _number(quantity: Quantity | None) -> float:
    return quantity.value if quantity else 0.0
