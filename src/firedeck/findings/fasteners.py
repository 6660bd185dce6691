"""The fasteners themselves: strength, lengths, necks, uses, and what is wrong with which of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from firedeck.fasteners import (
    BoltStrength,
    BreakAwayTension,
    bearing_of,
    bolt_strength,
    break_away_tension,
    friction_of,
)
from firedeck.findings.finding import Findings
from firedeck.findings.groups import class_in, group_labels, number, thread_in, waist_in
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Fasteners as Written
from firedeck.quantity import Quantity
from firedeck.trace import COMMON_PRACTICE, DERIVED, NO_UNIT, Band, Missing, Step


@dataclass(frozen=True)
class Faults:
    """Labels of the fasteners of a group with each fault; ``damaged`` when the threads of the set are."""

    broken: tuple[str, ...]
    necked: tuple[str, ...]
    corroded: tuple[str, ...]
    doubtful: tuple[str, ...]
    lost: tuple[str, ...]
    damaged: bool
    mixed: bool

    @property
    def bad(self) -> tuple[str, ...]:
        """Every label with a fault, once."""
        every = (*self.broken, *self.necked, *self.corroded, *self.doubtful, *self.lost)
        return tuple(dict.fromkeys(every))


@dataclass(frozen=True)
class GroupFound:
    """One group: None where a figure is missing; lengths, necks and crack-off torques as steps."""

    name: str
    labels: tuple[str, ...]
    count: int | None
    kind: str | None
    thread: str
    strength: BoltStrength | None
    new: bool | None
    reuse: str | None
    replace_singly: bool | None
    uses: int | None
    uses_allowed: int | None
    lengths: Mapping[str, float]
    longest: Step | None
    longest_label: str
    necks: Mapping[str, float]
    thinnest: Step | None
    thinnest_label: str
    neck_loss: Step | None
    looked_at: bool
    faults: Faults


@dataclass(frozen=True)
class LeftTension:
    """Tension that stood in one fastener before it was slackened, by its crack-off torque: at most so much."""

    label: str
    tension: float
    band: Band
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class FastenersFound:
    """Every group of fasteners of one joint; ``slackest`` is the lowest over the highest crack-off torque."""

    id: ClassVar[str] = "fasteners"
    groups: tuple[GroupFound, ...]
    slackest: Step | None
    slackest_label: str
    loose: tuple[str, ...]
    left: tuple["LeftTension", ...] = ()


def find(_job: Job, joint: Joint | None, _found: Findings) -> FastenersFound | Missing:
    """Read every group; readings of fasteners without any group stand for one group of all."""
    assert joint is not None
    written = joint.fasteners or ((Written(name="all"),) if _read(joint) else ())
    if not written:
        return unread(joint)
    slackest, label = _slackest(joint.readings.fasteners.break_away)
    return FastenersFound(
        tuple(_group(joint, group, alone=len(written) == 1) for group in written),
        slackest,
        label,
        joint.readings.fasteners.loose,
        _left(joint, written),
    )


def _left(joint: Joint, written: Sequence[Written]) -> tuple[LeftTension, ...]:
    """Read tension off the lowest and the highest crack-off torque, where thread and lubricant are known."""
    torques = joint.readings.fasteners.break_away
    ends = (
        {choose(torques, key=lambda name: torques[name].value) for choose in (min, max)} if torques else set()
    )
    found = []
    for label in sorted(ends, key=lambda name: torques[name].value):
        group = next((one for one in written if label in group_labels(joint, one)), written[0])
        thread = thread_in(group)
        if thread is None or group.lubricant is None:
            continue
        work = break_away_tension(
            thread,
            torques[label].value,
            friction_of(group.lubricant),
            bearing=bearing_of(thread, number(group.bearing_diameter), number(group.hole_diameter)),
        )
        strength = class_in(group, thread)
        most = (
            bolt_strength(thread, strength, waist_in(group)).tensile_load if strength else work.tension_high
        )
        found.append(LeftTension(label, work.tension, _bearable(work, group.lubricant, most), work.steps))
    return tuple(found)


def _bearable(work: BreakAwayTension, lubricant: str, most: float) -> Band:
    """Give the band of tension by friction, up to what the fastener can bear; beyond that something else held it."""
    if work.tension_high <= most:
        return Band(work.tension_low, work.tension_high, why=f"friction of {lubricant}")
    return Band(min(work.tension_low, most), most, why="no more than it can bear")


def unread(joint: Joint) -> Missing:
    """Say what of the fasteners is looked at."""
    return Missing(
        paths=(f"joint.{joint.name}.fasteners", f"joint.{joint.name}.readings.fasteners"),
        measure="the bolts or studs: how many, thread, head marks, length and neck of each",
        tool="vernier, thread gauge, eye",
        how="Wire-brush and wipe each one. Read the marks on the head, the length from under the head to the "
        "end, the thinnest place of shank and thread, and run a nut down the whole thread by hand.",
    )


def sections_wanted(joint: Joint, group: str) -> Missing:
    """Say how the sections of a waisted fastener are read."""
    return Missing(
        (f"joint.{joint.name}.fasteners.{group}.sections",),
        f"sections of the waisted fasteners of group {group}: diameter and length of each part that stretches",
        "vernier",
        'From the head to the first thread in the block, such as "9.2 mm/70 mm, 11 mm/25 mm": the thinnest one yields.',
    )


def _read(joint: Joint) -> bool:
    return bool(joint.readings.fasteners.model_fields_set)


def _group(joint: Joint, group: Written, *, alone: bool) -> GroupFound:
    labels = group_labels(joint, group)
    readings = joint.readings.fasteners
    lengths = _mine(readings.lengths, labels, alone=alone)
    necks = _mine(readings.neck_diameters, labels, alone=alone)
    longest, longest_label = _extreme("Longest", "max", lengths, "longest")
    thinnest, thinnest_label = _extreme("Thinnest neck", "min", necks, "thinnest")
    thread = thread_in(group)
    strength = class_in(group, thread)
    return GroupFound(
        name=group.name,
        labels=labels,
        count=len(labels) or group.count,
        kind=group.kind,
        thread=group.thread,
        strength=bolt_strength(thread, strength, waist_in(group)) if thread and strength else None,
        new=group.new,
        reuse=group.reuse,
        replace_singly=group.replace_singly,
        uses=_whole(group.uses),
        uses_allowed=_whole(group.uses_allowed),
        lengths=lengths,
        longest=longest,
        longest_label=longest_label,
        thinnest=thinnest,
        thinnest_label=thinnest_label,
        necks=necks,
        neck_loss=_loss(necks),
        looked_at=readings.threads not in (None, "not-checked"),
        faults=_faults(joint, labels, alone=alone),
    )


def _faults(joint: Joint, labels: Sequence[str], *, alone: bool) -> Faults:
    readings = joint.readings.fasteners

    def mine(named: Sequence[str]) -> tuple[str, ...]:
        return tuple(label for label in named if alone or label in labels)

    return Faults(
        broken=mine(readings.broken),
        necked=mine(readings.necked),
        corroded=mine(readings.corroded),
        doubtful=mine(readings.doubtful),
        lost=mine(readings.missing),
        damaged=readings.threads == "damaged",
        mixed=bool(readings.mixed),
    )


def _mine(readings: Mapping[str, Quantity], labels: Sequence[str], *, alone: bool) -> dict[str, float]:
    return {label: one.value for label, one in readings.items() if label in labels or (alone and not labels)}


def _extreme(says: str, of: str, readings: Mapping[str, float], result: str) -> tuple[Step | None, str]:
    """Find the longest or thinnest of a group, and which it is."""
    if not readings:
        return None, ""
    label = (max if of == "max" else min)(readings, key=lambda name: readings[name])
    inputs = {f"reading_{place}": (value, "mm") for place, value in enumerate(readings.values(), start=1)}
    formula = f"{of}({', '.join(inputs)})" if len(inputs) > 1 else "reading_1"
    return Step.work_out(f"{says}, number {label}", formula, inputs, (result, "mm"), DERIVED), label


def _loss(necks: Mapping[str, float]) -> Step | None:
    if len(necks) < 2:
        return None
    ends = {"thickest": (max(necks.values()), "mm"), "thinnest": (min(necks.values()), "mm")}
    says = "Thickest less thinnest neck of the set"
    return Step.work_out(says, "thickest - thinnest", ends, ("neck_loss", "mm"), DERIVED)


def _slackest(torques: Mapping[str, Quantity]) -> tuple[Step | None, str]:
    """Hold the lowest crack-off torque against the highest: it says which bolt had let go."""
    if len(torques) < 2:
        return None, ""
    label = min(torques, key=lambda name: torques[name].value)
    ends = {
        "lowest": (torques[label].value, "N·mm"),
        "highest": (max(torque.value for torque in torques.values()), "N·mm"),
    }
    says = f"Lowest crack-off torque, number {label}, over the highest"
    step = Step.work_out(says, "lowest / highest", ends, ("share", NO_UNIT), COMMON_PRACTICE)
    return step, label


def _whole(text: str) -> int | None:
    return int(text) if text.strip().isdigit() else None
