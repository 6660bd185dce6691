"""The pull of the fasteners as the papers' procedure gives it, group by group, and what has gone since."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners import Thread, assembly_tension, bearing_of, friction_of, scatter_of
from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_lines import FastenerGroup
from firedeck.fasteners.procedure_reading import parse
from firedeck.findings.fasteners import sections_wanted
from firedeck.findings.finding import Findings
from firedeck.findings.groups import class_in, group_labels, number, thread_in, waist_in, waist_unknown
from firedeck.findings.procedure import LUBRICANTS, unread
from firedeck.findings.stretch import Turned, stretch_found
from firedeck.findings.tension import tension_found
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.trace import COMMON_PRACTICE, DERIVED, NO_UNIT, Band, Missing, Note, Step, as_printed


@dataclass(frozen=True)
class GroupClamp:
    """One group: tension of each [N] with its band, and the torque that made it.

    ``turned`` when it was tightened by angle: then the tension is that at the yield of its smallest section, if the
    class is known, or less where bolt, head and gasket as springs say that the turn does not get there.
    """

    name: str
    labels: tuple[str, ...]
    count: int | None
    thread: str
    lubricant: str | None
    torque: Band | None
    turned: bool
    tension: float | None
    band: Band | None
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


@dataclass(frozen=True)
class Lost:
    """Share of the clamp that is gone by the torque at which fasteners move on: middle and band."""

    share: Step
    band: Band


@dataclass(frozen=True)
class Clamp:
    """The clamp of one joint, and what is missing for a figure."""

    id: ClassVar[str] = "clamp"
    groups: tuple[GroupClamp, ...]
    lost: Lost | None
    missing: tuple[Missing, ...]

    @property
    def whole(self) -> tuple[float, float] | None:
        """Pull of all fasteners and half the width of its band, as a share; None where a group is not known."""
        parts = [(group.count, group.tension, group.band) for group in self.groups]
        if not parts or any(None in part for part in parts):
            return None
        pull = sum(count * tension for count, tension, _ in parts if count and tension)
        wide = sum(count * (band.high - band.low) / 2 for count, _, band in parts if count and band)
        return pull, wide / pull


def find(job: Job, joint: Joint | None, _found: Findings) -> Clamp | Missing:
    """Work out the clamp of a joint from its procedure."""
    assert joint is not None
    return clamp_of(job, joint)


def clamp_of(_job: Job, joint: Joint) -> Clamp | Missing:
    """Work out the clamp; without a procedure there is none."""
    if joint.procedure is None:
        return unread(joint)
    procedure = parse(joint.procedure.text, f"joint.{joint.name}.procedure.text")
    written = joint.fasteners or (Fasteners(name="all"),)
    groups = tuple(_group(joint, one, procedure) for one in written)
    lacking = tuple(group for group in groups if group.tension is None)
    thin = [group for group in joint.fasteners if waist_unknown(group)]
    unknown = (_unknown(joint, lacking),) if lacking else ()
    missing = (*unknown, *(sections_wanted(joint, group.name) for group in thin))
    return Clamp(groups, _lost(joint, groups), missing)


def _group(joint: Joint, group: Fasteners, procedure: Procedure) -> GroupClamp:
    labels = group_labels(joint, group)
    named = FastenerGroup(group.name, labels)
    final, turn = procedure.final_torque(named), procedure.total_angle(named)
    said = procedure.lubrication(named)
    lubricant = group.lubricant or (LUBRICANTS[said[0].kind] if said else None)
    reached = joint.procedure.reached if joint.procedure else None
    torque = Band(final.low, final.high, why="torque of the papers") if final and turn is None else None
    if reached is not None:
        torque = Band(reached.value, reached.value, why="torque reached at the end of the turn")
    thread = thread_in(group)
    tension, band, steps, notes = _tension(group, thread, lubricant, torque, turned=turn is not None)
    if tension is not None and final is not None and turn is not None:
        below = _below_yield(joint, group, (final.aim, turn.aim), lubricant or "oil", tension)
        tension, band, steps, notes = below or (tension, band, steps, notes)
    return GroupClamp(
        name=group.name,
        labels=labels,
        count=len(labels) or group.count,
        thread=group.thread,
        lubricant=lubricant,
        torque=torque,
        turned=turn is not None,
        tension=tension,
        band=band,
        steps=steps,
        notes=notes,
    )


Tension = tuple[float | None, Band | None, tuple[Step, ...], tuple[Note, ...]]


def _tension(
    group: Fasteners, thread: Thread | None, lubricant: str | None, torque: Band | None, *, turned: bool
) -> Tension:
    """Take torque to tension by friction; a turn past torque is bounded by yield."""
    if turned:
        return _at_yield(group, thread, lubricant or "oil")
    if torque is None or lubricant is None:
        return None, None, (), ()
    found = tension_found(group, (torque.low + torque.high) / 2, lubricant)
    return (found.tension, found.band, found.steps, found.notes) if found else (None, None, (), ())


def _at_yield(group: Fasteners, thread: Thread | None, lubricant: str) -> Tension:
    strength = class_in(group, thread)
    if thread is None or strength is None or waist_unknown(group):
        return None, None, (), ()
    try:
        friction = friction_of(lubricant)
        found = assembly_tension(
            thread,
            (strength.yield_stress, strength.source),
            thread_friction=friction.usual,
            head_friction=friction.usual,
            utilisation=1.0,
            bearing=bearing_of(thread, number(group.bearing_diameter), number(group.hole_diameter)),
            waist=waist_in(group),
        )
    except (OutOfRange, TableGap):
        return None, None, (), ()
    scatter = scatter_of("angle")
    band = Band(scatter.low * found.tension, scatter.high * found.tension, why=scatter.says)
    waist = waist_in(group)
    of = "thread" if waist is None or waist >= thread.stress_diameter else f"waist of {waist:g} mm"
    note = Note(
        f"turned past torque: taken as pulled to the least yield of its class in the {of}", COMMON_PRACTICE
    )
    return found.tension, band, found.steps, (*found.notes, note)


def _below_yield(
    joint: Joint, group: Fasteners, turn: tuple[float, float], lubricant: str, most: float
) -> Tension | None:
    """Take the tension after the turn by springs where it stays below yield; None where it gets there or is not known."""
    torque, angle = turn
    snug = tension_found(group, torque, lubricant)
    stretch = stretch_found(joint, group, snug.tension if snug else None, angle, None)
    turned: Turned | None = stretch.turned if stretch and snug else None
    if turned is None or turned.tension >= most:
        return None
    scatter = scatter_of("angle")
    band = Band(scatter.low * turned.tension, scatter.high * turned.tension, why=scatter.says)
    note = Note("the turn stays below yield: tension by the springs of bolt, head and gasket", DERIVED)
    return turned.tension, band, turned.steps, (note, *(stretch.notes if stretch else ()))


def _unknown(joint: Joint, lacking: Sequence[GroupClamp]) -> Missing:
    names = ", ".join(group.name for group in lacking)
    return Missing(
        paths=tuple(f"joint.{joint.name}.fasteners.{group.name}.thread" for group in lacking),
        measure=f"true tension of {names}: thread, class, lubricant and torque together",
        tool="thread gauge, marks on the heads, papers; length before and after tightening",
        how="Read thread and class off the fastener, write what is on the threads; the stretch of a fastener, read "
        "with a micrometer before and after, tells its tension best.",
    )


def _lost(joint: Joint, groups: Sequence[GroupClamp]) -> Lost | None:
    """Hold the torque at which they move on against the one they were left at, in the tightening direction."""
    moved = [torque.value for torque in joint.readings.fasteners.moves_on.values()]
    left_at = [group.torque for group in groups if group.torque is not None]
    if not moved or len(left_at) != 1:
        return None
    target = (left_at[0].low + left_at[0].high) / 2
    shares = [
        Step.work_out(
            f"Share of the clamp gone, by the {word} torque at which one moves on",
            "1 - moves_on / left_at",
            {"moves_on": (as_printed(torque), "N·mm"), "left_at": (as_printed(target), "N·mm")},
            ("clamp_lost", NO_UNIT),
            COMMON_PRACTICE,
        )
        for word, torque in (
            ("middle", sum(moved) / len(moved)),
            ("lowest", min(moved)),
            ("highest", max(moved)),
        )
    ]
    ends = sorted((shares[1].value, shares[2].value))
    return Lost(shares[0], Band(ends[0], ends[1], why="from the slackest to the tightest one"))
