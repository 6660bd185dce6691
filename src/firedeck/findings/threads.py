"""The holes the fasteners screw into: what is in them, what carries, and whether a fastener bottoms."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar

from firedeck.findings.finding import Findings
from firedeck.findings.groups import group_labels, number, thread_in
from firedeck.findings.thread_sums import (
    engagement_left,
    in_diameters,
    load_per_thread,
    room_below,
    shank_proud,
    strip_share,
    stud_rooms,
    threads_of_nut,
)
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.job.schema.layout import Hole
from firedeck.trace import Band, Missing, Step

ALL = "all"
STATES = ("cracked", "pulled", "raised", "dirty", "good", "insert")
"""States of a thread, the one that rules first."""


@dataclass(frozen=True)
class HoleFound:
    """One hole, or all holes of a group nobody has drawn; None is what nobody has looked at."""

    label: str
    hole: str | None
    leads: str | None
    depth: float | None
    thread: str | None
    liquid: bool | None

    @property
    def wet(self) -> bool:
        """Tell whether the hole opens into water or oil."""
        return self.leads in ("water", "oil", "drain")


@dataclass(frozen=True)
class GroupThreads:
    """Sums of one group; each None where a figure for it is missing."""

    name: str
    kind: str | None
    engagement: Step | None
    engagement_share: Step | None
    strip: tuple[Step, ...]
    strip_band: Band | None
    room: Step | None
    room_label: str
    nut: Step | None
    load_per_thread: Step | None
    shortened: float | None
    stud_rooms: tuple[Step, ...] = ()
    shank: Step | None = None
    shank_clears: bool | None = None


@dataclass(frozen=True)
class Threads:
    """Every hole of one joint and the sums of each group; ``unnamed``: holes only counted, that no reading names."""

    id: ClassVar[str] = "threads"
    holes: tuple[HoleFound, ...]
    groups: tuple[GroupThreads, ...]
    checked: str | None
    unnamed: int = 0

    def in_state(self, state: str) -> tuple[str, ...]:
        """Return the labels of the holes in a state."""
        return tuple(hole.label for hole in self.holes if hole.thread == state)

    @property
    def unlooked(self) -> tuple[str, ...]:
        """Return the labels of the holes whose thread nobody has looked at."""
        return tuple(hole.label for hole in self.holes if hole.thread is None)

    def leading_to(self, *where: str) -> tuple[str, ...]:
        """Return the labels of the holes that open into water, oil ..."""
        return tuple(hole.label for hole in self.holes if hole.leads in where)


def find(_job: Job, joint: Joint | None, _found: Findings) -> Threads | Missing:
    """Read every hole; a joint without holes, groups or readings has nothing to tell."""
    assert joint is not None
    holes = _holes(joint)
    groups = tuple(_group(joint, group, holes) for group in joint.fasteners)
    told = any(
        group.nut or group.engagement or group.room or group.stud_rooms or group.shank for group in groups
    )
    if not told and not any(_told(hole) for hole in holes):
        return unread(joint)
    return Threads(holes, groups, joint.readings.holes.checked, _unnamed(joint, holes))


def unread(joint: Joint) -> Missing:
    """Say how the holes are looked at."""
    return Missing(
        paths=(f"joint.{joint.name}.layout.fasteners", f"joint.{joint.name}.readings.holes"),
        measure="every bolt hole: depth, thread, what is in it, and where it leads",
        tool="stiff wire, torch, a clean bolt of the set",
        how="Probe each hole to the bottom: dry or not, blind, or open to water or oil. Screw a clean bolt "
        "in by hand to full depth: count the turns, note where it binds and any mouth above the face.",
    )


def _unnamed(joint: Joint, holes: tuple[HoleFound, ...]) -> int:
    """Count the holes nobody names, where the groups say how many there are."""
    drawn = joint.layout is not None and bool(joint.layout.fasteners)
    if drawn or any(hole.label == ALL for hole in holes) or joint.readings.holes.good == (ALL,):
        return 0
    counts = [len(group.labels) or group.count or 0 for group in joint.fasteners]
    return max(0, sum(counts) - len(holes))


def _told(hole: HoleFound) -> bool:
    return any(one is not None for one in (hole.hole, hole.leads, hole.depth, hole.thread, hole.liquid))


def _holes(joint: Joint) -> tuple[HoleFound, ...]:
    drawn = joint.layout.fasteners if joint.layout else ()
    if drawn:
        return tuple(_drawn(joint, hole) for hole in drawn)
    labels = [label for group in joint.fasteners for label in group.labels]
    readings = joint.readings.holes
    lists = (
        readings.cracked,
        readings.pulled,
        readings.raised,
        readings.dirty,
        readings.liquid,
        readings.good,
    )
    named = [label for one in lists for label in one]
    each = dict.fromkeys([*labels, *(label for label in named if label != ALL)]) or {ALL: None}
    return tuple(_named(joint, label) for label in each)


def _drawn(joint: Joint, hole: Hole) -> HoleFound:
    group = _group_of(joint, hole.label)
    written = hole.thread if hole.thread != "not-checked" else None
    return HoleFound(
        label=hole.label,
        hole=hole.hole or (group.hole if group else None),
        leads=hole.leads or (group.leads if group else None),
        depth=number(hole.depth) if hole.depth else number(group.hole_depth) if group else None,
        thread=_state(joint, hole.label) or written,
        liquid=True if _liquid(joint, hole.label) else hole.liquid,
    )


def _named(joint: Joint, label: str) -> HoleFound:
    group = _group_of(joint, label)
    return HoleFound(
        label=label,
        hole=group.hole if group else None,
        leads=group.leads if group else None,
        depth=number(group.hole_depth) if group else None,
        thread=_state(joint, label),
        liquid=_liquid(joint, label),
    )


def _group_of(joint: Joint, label: str) -> Fasteners | None:
    if len(joint.fasteners) == 1:
        return joint.fasteners[0]
    return next((group for group in joint.fasteners if label in group.labels), None)


def _state(joint: Joint, label: str) -> str | None:
    readings = joint.readings.holes
    for state in STATES[:-1]:
        labels: tuple[str, ...] = getattr(readings, state)
        if label in labels or ALL in labels:
            return state
    return None


def _liquid(joint: Joint, label: str) -> bool | None:
    readings = joint.readings.holes
    return True if label in readings.liquid or ALL in readings.liquid else None


def _group(joint: Joint, group: Fasteners, holes: tuple[HoleFound, ...]) -> GroupThreads:
    thread = thread_in(group)
    shortest = None if group.kind == "stud" else _length(joint, group, group_labels(joint, group), min)
    engagement = engagement_left(joint, group, shortest)
    strip = strip_share(joint, group, thread, engagement)
    room, label = _least_room(joint, group, holes)
    return GroupThreads(
        name=group.name,
        kind=group.kind,
        engagement=engagement,
        engagement_share=in_diameters(group, thread, engagement),
        strip=strip[0] if strip else (),
        strip_band=strip[1] if strip else None,
        room=room,
        room_label=label,
        nut=threads_of_nut(group),
        load_per_thread=load_per_thread(group),
        shortened=number(group.shortened),
        stud_rooms=stud_rooms(joint, group),
        shank=shank_proud(joint, group),
        shank_clears=_shank_clears(group),
    )


def _shank_clears(group: Fasteners) -> bool | None:
    """Tell whether the hole of the head is wider than the thread; None where it was not measured."""
    hole, thread = number(group.hole_diameter), thread_in(group)
    return None if hole is None or thread is None else hole > thread.major_diameter


def _least_room(joint: Joint, group: Fasteners, holes: tuple[HoleFound, ...]) -> tuple[Step | None, str]:
    """Find the hole of a group that leaves the least room; through holes have no bottom."""
    labels = group_labels(joint, group)
    length = _length(joint, group, labels, max)
    rooms = [
        (room, hole.label)
        for hole in holes
        if hole.hole != "through" and (not labels or hole.label in labels or hole.label == ALL)
        if (room := room_below(joint, group, hole.depth, length)) is not None
    ]
    return min(rooms, key=lambda one: one[0].value, default=(None, ""))


def _length(
    joint: Joint, group: Fasteners, labels: tuple[str, ...], of: Callable[[list[float]], float]
) -> float | None:
    """Take the longest or the shortest of those measured, or else the new one less what was cut off."""
    lengths = joint.readings.fasteners.lengths
    measured = [length.value for label, length in lengths.items() if not labels or label in labels]
    if measured:
        return of(measured)
    new = number(group.length_new)
    return None if new is None else new - (number(group.shortened) or 0.0)
