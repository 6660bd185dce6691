"""Fasteners of the clamped joint as springs, and what the wrench of the papers' procedure does to each."""

from dataclasses import dataclass
from math import pi

from firedeck.errors import BadQuantity, OutOfRange
from firedeck.fasteners import Thread, bolt_stiffness, bolt_strength, round_section, scatter_of
from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_lines import FastenerGroup
from firedeck.fasteners.procedure_reading import parse
from firedeck.fasteners.stiffness import Section
from firedeck.findings.groups import class_in, group_labels, number, thread_in
from firedeck.findings.joint_said import Said
from firedeck.findings.layout import Layout
from firedeck.findings.procedure import LUBRICANTS
from firedeck.findings.tension import tension_found
from firedeck.job import Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.joint.assembling import Bolt
from firedeck.joint.assumed import assumed
from firedeck.joint.geometry.plan import Fastener
from firedeck.joint.model import Scatter
from firedeck.joint.tightening import Action
from firedeck.joint.turning import Wrench, actions_of, retorque_actions
from firedeck.quantity import Kind, split_rows
from firedeck.quantity import parse as parse_quantity
from firedeck.tables.materials import material
from firedeck.trace import Missing

THREAD_TOP, ENGAGED = assumed("thread top"), assumed("engaged")
"""Where threads begin below the block face [mm], and over how many diameters they hold, where not said."""
WIND_UP, SETTLING = assumed("wind-up"), assumed("settling")
"""Share of a turn that only twists the shank; how much each bolt loses by settling [mm]."""
WAIST, WAIST_LENGTH = assumed("waist"), assumed("waist length")
"""A waisted shank nobody measured: diameter over the pitch diameter of its thread, length over the grip."""
TRIED = 30e3
"""A torque to find out what a torque means [N·mm]; the answer is in proportion."""


@dataclass(frozen=True)
class Group:
    """A group with its thread, labels, yield load [N], torque over tension [mm], and doubt of that (share)."""

    written: Fasteners
    thread: Thread
    labels: tuple[str, ...]
    yield_load: float
    lever: float
    doubt: float
    lubricant: str

    @property
    def says(self) -> str:
        """What it is, in words: two groups of the same words pull alike."""
        return f"{self.written.thread} {self.written.class_} {self.lubricant} {self.lever:.4f} {len(self.labels)}"


@dataclass(frozen=True)
class Working:
    """Height of the face under the bolt heads [mm], how warm bolts run [K], whether the gasket asks to be retorqued."""

    seat: float
    rise: float
    retorque: bool


@dataclass(frozen=True)
class Wrenched:
    """Bolts by label [N/mm], growth of each when warm [mm], turns of the wrench, and again after running in."""

    bolts: dict[str, Bolt]
    growth: dict[str, float]
    actions: tuple[Action, ...]
    retorque: tuple[Action, ...]
    settling: dict[str, float]
    scatter: Scatter


def groups_of(joint: Joint, layout: Layout) -> tuple[Group, ...] | Missing:
    """Read every group of fasteners; what is missing where one is not known."""
    found = []
    for written in joint.fasteners:
        thread, labels = thread_in(written), group_labels(joint, written)
        strength = class_in(written, thread)
        lubricant = written.lubricant or _oiled(joint, written, labels)
        if thread is None or strength is None or lubricant is None:
            return _unknown(joint, written.name)
        pull = tension_found(written, TRIED, lubricant)
        if pull is None:
            return _unknown(joint, written.name)
        load = bolt_strength(thread, strength).yield_load
        thinnest = min((one.area for one in sections_of(written, thread, 0.0)), default=thread.stress_area)
        load = min(load, strength.yield_stress * thinnest)
        doubt = (pull.band.high - pull.band.low) / (2.0 * pull.tension)
        found.append(Group(written, thread, labels, load, TRIED / pull.tension, doubt, lubricant))
    known = {label for group in found for label in group.labels}
    if not found or {hole.label for hole in layout.fasteners} - known:
        return _unknown(joint, "NAME")
    return tuple(found)


def _oiled(joint: Joint, written: Fasteners, labels: tuple[str, ...]) -> str | None:
    said = procedure_of(joint).lubrication(FastenerGroup(written.name, labels))
    return LUBRICANTS[said[0].kind] if said else None


def procedure_of(joint: Joint) -> Procedure:
    """Read the papers' procedure, which must be there."""
    assert joint.procedure is not None
    return parse(joint.procedure.text, f"joint.{joint.name}.procedure.text")


def _unknown(joint: Joint, name: str) -> Missing:
    path = f"joint.{joint.name}.fasteners.{name}"
    return Missing(
        (f"{path}.thread", f"{path}.class", f"{path}.lubricant", f"{path}.labels"),
        "thread, class, lubricant of every fastener, and which holes each group is in",
        "thread gauge, marks on the head",
        "Try the thread with a gauge, read the marks on the head, and write the labels of the holes beside the group.",
    )


def sections_of(written: Fasteners, thread: Thread, grip: float) -> tuple[Section, ...]:
    """Sections as written ("9 mm/70 mm, 11 mm/30 mm"), or a waist nobody measured; the rest at the pitch diameter."""
    given: list[tuple[float, float]] = []
    if written.sections:
        try:
            given = [
                tuple(parse_quantity(cell, Kind.LENGTH).value for cell in row)[:2]  # type: ignore[misc]
                for row in split_rows(written.sections)
            ]
        except (BadQuantity, OutOfRange):
            given = []
    elif written.waisted:
        given = [(WAIST * thread.pitch_diameter, WAIST_LENGTH * grip or 1.0)]
    long = sum(length for _, length in given)
    share = min(1.0, grip / long) if long and grip else 1.0
    rest = grip - share * long
    if grip:
        given = [(diameter, share * length) for diameter, length in given]
    if rest > 1e-6:
        given = [*given, (thread.pitch_diameter, rest)]
    return tuple(round_section(diameter, length) for diameter, length in given)


def fastener_at(group: Group, label: str, x: float, y: float) -> Fastener:
    """Put one fastener of a group at its place."""
    written, size = group.written, group.thread.major_diameter
    washer = written.washer
    hole = number(written.hole_diameter) or size + 1.0
    outer = (
        number(washer.outer_diameter if washer else None) or number(written.bearing_diameter) or 1.8 * size
    )
    engaged = number(written.engagement) or ENGAGED * size
    inner = min(hole, outer - 2.0)
    return Fastener(label, x, y, hole, size, inner, outer, THREAD_TOP, THREAD_TOP + engaged)


def bearing_area(fastener: Fastener) -> float:
    """Area under the head or washer [mm²]."""
    return pi / 4.0 * (fastener.washer_outer**2 - fastener.washer_inner**2)


def wrenched(
    joint: Joint, groups: tuple[Group, ...], labels: list[str], working: Working, said: Said
) -> Wrenched:
    """Make springs of the fasteners and turns of the procedure."""
    procedure, steel = procedure_of(joint), material("steel")
    length = working.seat + THREAD_TOP
    bolts, growth, wrenches = {}, {}, {}
    for group in groups:
        sections = sections_of(group.written, group.thread, length)
        rod = bolt_stiffness(sections, steel.usual_modulus)
        wrench = Wrench(group.lever, group.thread.pitch, WIND_UP, SETTLING)
        for label in group.labels:
            bolts[label] = Bolt(rod.stiffness, group.yield_load)
            growth[label], wrenches[label] = steel.usual_expansion * working.rise * length, wrench
    said(
        f"bolts stretch over {length:.0f} mm, of their pitch diameter where no sections are written; "
        f"{100 * WIND_UP:.0f} % of a turn winds up"
    )
    said(f"each bolt loses {1000 * SETTLING:g} µm by settling")
    laid = sorted(hole for group in groups for hole in group.labels)
    order = (joint.procedure.order if joint.procedure else ()) or tuple(laid)
    named = [
        FastenerGroup(group.written.name, tuple(label for label in order if label in group.labels))
        for group in groups
    ]
    turned = any(procedure.total_angle(group) is not None for group in named)
    scatter = scatter_of("angle" if turned else "torque-wrench")
    return Wrenched(
        bolts={label: bolts[label] for label in labels},
        growth={label: growth[label] for label in labels},
        actions=actions_of(procedure, named, labels, wrenches),
        retorque=retorque_actions(procedure, named, labels, wrenches, working.retorque),
        settling=dict.fromkeys(labels, SETTLING),
        scatter=Scatter(scatter.common, scatter.individual),
    )
