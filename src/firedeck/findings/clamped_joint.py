"""What the model of the clamped joint is fed with: hole pattern, castings, gasket, bolts, wrench, gas; all it assumes.

Not one of the findings of a check: it is asked for on its own, because condensing takes seconds.
"""

from dataclasses import dataclass, replace
from math import hypot

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners import Thread, bolt_stiffness, bolt_strength, scatter_of
from firedeck.fasteners.procedure_lines import FastenerGroup
from firedeck.fasteners.procedure_reading import parse
from firedeck.fasteners.stiffness import round_section
from firedeck.fem import Material as Metal
from firedeck.findings import gas as gas_finding
from firedeck.findings import layout as layout_finding
from firedeck.findings.finding import Findings
from firedeck.findings.gas import Gas, unknown_peak
from firedeck.findings.groups import class_in, gasket_that_goes_on, group_labels, metal, number, thread_in
from firedeck.findings.layout import Layout
from firedeck.findings.procedure import LUBRICANTS, unread
from firedeck.findings.tension import tension_found
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.joint.assembling import Bolt
from firedeck.joint.geometry.castings import BlockSection, HeadSection, block_section, head_section
from firedeck.joint.geometry.mesh import STANDARD, Recipe, scaled
from firedeck.joint.geometry.plan import Bore, Fastener, JointPlan, Opening, plain_outline
from firedeck.joint.law_table import laws_of
from firedeck.joint.laws import Law, Per
from firedeck.joint.model import Inputs, Scatter, Warmth
from firedeck.joint.turning import Wrench, actions_of
from firedeck.runs import JointRequest
from firedeck.tables.materials import material
from firedeck.trace import GENERIC, Missing, Note

RING_WIDTH, SEAL_OVER_BORE = 2.0, 1.5
THREAD_TOP, ENGAGED = 8.0, 1.5
WIND_UP, SETTLING = 0.1, 0.004
HEAD_RISE, BLOCK_RISE, BOLT_RISE = 80.0, 70.0, 75.0
DENSITY = {"aluminium": 2.7e-6, "iron": 7.2e-6}
"""Mass of a cubic millimetre [kg]; only for a head nobody weighed."""


@dataclass(frozen=True)
class ModelInputs:
    """Everything the model wants: what to condense, what to put between, and every assumption in words."""

    request: JointRequest
    inputs: Inputs
    assumptions: tuple[Note, ...]


def model_inputs(job: Job, joint: Joint, recipe: Recipe = STANDARD) -> ModelInputs | Missing:
    """Gather the inputs of one joint; the first thing that is missing, where something is."""
    _carried(job)
    none = Findings(job, joint, ())
    layout, gas = layout_finding.find(job, joint, none), gas_finding.find(job, joint, none)
    if isinstance(layout, Missing):
        return layout
    peak = gas.peak if isinstance(gas, Gas) else None
    if peak is None:
        return unknown_peak()
    if joint.procedure is None:
        return unread(joint)
    gasket = gasket_laws(joint)
    bolts = _groups(joint, layout)
    for found in (gasket, bolts):
        if isinstance(found, Missing):
            return found
    assert not isinstance(gasket, Missing)
    assert not isinstance(bolts, Missing)
    said = _Said([])
    said(
        f"gasket taken as {gasket['ring'].name}: {gasket['ring'].note}"
        if gasket["ring"].note
        else "gasket: table"
    )
    head, block = _sections(job, joint, said)
    plan = _plan(joint, layout, bolts, said)
    request = JointRequest(plan, head, block, *_metals(joint, said), scaled(recipe, plan.mean_bore))
    inputs = _inputs(joint, request, gasket, bolts, said)
    if joint.cut.head is not None or joint.cut.block is not None:
        said("cuts are not taken off the decks: measure head and deck after the cut and write them in")
    said("bands hold the scatter of tension only, not the inside of the castings or the curve of the gasket")
    said("faces taken as flat, liners flush: what was measured of them is judged elsewhere")
    return ModelInputs(request, replace(inputs, peak_pressure=peak.value), said.notes)


def _carried(job: Job) -> None:
    """Refuse shapes the bricks cannot carry."""
    shape = "barrels" if job.engine.arrangement == "barrels" else job.engine.valve_gear
    if shape in ("barrels", "side-valve", "ports"):
        allowed = "heads with a water jacket on a block: for this one there is only the simple sum of a check"
        raise OutOfRange("clamped joint", shape, allowed)


class _Said:
    """Assumptions as they are made, each once."""

    def __init__(self, texts: list[str]) -> None:
        self._texts = texts

    def __call__(self, text: str) -> None:
        if text not in self._texts:
            self._texts.append(text)

    @property
    def notes(self) -> tuple[Note, ...]:
        return tuple(Note(text, GENERIC) for text in self._texts)


@dataclass(frozen=True)
class _Group:
    """A group with its thread, labels, yield load [N] and tension per torque [1/mm]."""

    written: Fasteners
    thread: Thread
    labels: tuple[str, ...]
    yield_load: float
    lever: float


def gasket_laws(joint: Joint) -> dict[str, Law] | Missing:
    """Pressing laws of the gasket that goes on, or of the old one."""
    gasket = gasket_that_goes_on(joint) or joint.gasket.old
    construction = gasket.construction if gasket else None
    try:
        laws = dict(laws_of(construction or ""))
    except TableGap:
        path = f"joint.{joint.name}.gasket.fitted"
        how = "Read it off the wrapper, or look at the edge: layers of steel, graphite, copper, a wire. Then name it."
        return Missing((path,), "of what construction the gasket is that goes on", "eye", how)
    width = number(getattr(gasket, "ring_width", None)) or RING_WIDTH
    return {
        kind: law.along(width) if kind != "body" and law.per is Per.AREA else law
        for kind, law in laws.items()
    }


def _groups(joint: Joint, layout: Layout) -> tuple[_Group, ...] | Missing:
    found = []
    for written in joint.fasteners:
        thread, labels = thread_in(written), group_labels(joint, written)
        strength = class_in(written, thread)
        lubricant = written.lubricant or _oiled(joint, written, labels)
        if thread is None or strength is None or lubricant is None:
            return _unknown_fasteners(joint, written.name)
        pull = tension_found(written, torque := 30e3, lubricant)
        if pull is None:
            return _unknown_fasteners(joint, written.name)
        load = bolt_strength(thread, strength).yield_load
        found.append(_Group(written, thread, labels, load, torque / pull.tension))
    known = {label for group in found for label in group.labels}
    if not found or {hole.label for hole in layout.fasteners} - known:
        return _unknown_fasteners(joint, "NAME")
    return tuple(found)


def _oiled(joint: Joint, written: Fasteners, labels: tuple[str, ...]) -> str | None:
    assert joint.procedure is not None
    said = parse(joint.procedure.text, f"joint.{joint.name}.procedure.text").lubrication(
        FastenerGroup(written.name, labels)
    )
    return LUBRICANTS[said[0].kind] if said else None


def _unknown_fasteners(joint: Joint, name: str) -> Missing:
    path = f"joint.{joint.name}.fasteners.{name}"
    return Missing(
        (f"{path}.thread", f"{path}.class", f"{path}.lubricant", f"{path}.labels"),
        "thread, class, lubricant of every fastener, and which holes each group is in",
        "thread gauge, marks on the head",
        "Try the thread with a gauge, read the marks on the head, and write the labels of the holes beside the group.",
    )


def _sections(job: Job, joint: Joint, said: _Said) -> tuple[HeadSection, BlockSection]:
    """Sections of an invented family, with what was measured put in."""
    bore = job.engine.bore.value if job.engine.bore else 86.0
    family, diesel = _family(joint), job.engine.fuel == "diesel"
    if family == "aluminium":
        name = "aluminium-diesel" if diesel else "aluminium-overhead-cam"
        name = "aluminium-push-rod" if job.engine.valve_gear == "push-rod" and not diesel else name
    else:
        name = "iron-diesel" if diesel else "iron-overhead-valve"
    usual = head_section(name, bore)
    section, measured = joint.head.section, {}
    if section is not None:
        given = {"deck": section.deck, "roof": section.roof, "height": section.overall_height}
        measured = {key: one.value for key, one in given.items() if one is not None}
    if "height" in measured:
        measured["seat"] = usual.seat * measured["height"] / usual.height
    said(
        f"head: inside of the invented family {name}"
        + (f", measured: {', '.join(measured)}" if measured else "")
    )
    wet = joint.block.liners == "wet"
    said(f"block: inside of the invented family {'wet-liner' if wet else 'closed-deck'}")
    return head_section(name, bore, measured=measured), block_section(
        "wet-liner" if wet else "closed-deck", bore
    )


def _family(joint: Joint) -> str:
    found = metal(joint.head.material)
    return "aluminium" if found is None or found.family == "aluminium" else "iron"


def _metals(joint: Joint, said: _Said) -> tuple[Metal, Metal]:
    metals = []
    for part, written, usual in (
        ("head", joint.head.material, "aluminium"),
        ("block", joint.block.material, "grey-iron"),
    ):
        found = metal(written)
        if found is None:
            said(f"{part} taken as {usual}: not said")
            found = material(usual)
        metals.append(Metal(found.usual_modulus, found.poisson, found.usual_expansion))
    return metals[0], metals[1]


def _plan(joint: Joint, layout: Layout, groups: tuple[_Group, ...], said: _Said) -> JointPlan:
    gasket = gasket_that_goes_on(joint) or joint.gasket.old
    seal, width = number(gasket.bore if gasket else None), number(getattr(gasket, "ring_width", None))
    if width is None:
        said(f"ring of the gasket taken as {RING_WIDTH:g} mm wide")
    bores = []
    for bore in layout.bores:
        gas = seal or bore.diameter + SEAL_OVER_BORE
        bores.append(Bore(bore.label, bore.x, bore.y, bore.diameter, gas + (width or RING_WIDTH), gas))
    if seal is None:
        said(f"gasket taken to seal {SEAL_OVER_BORE:g} mm over the bore")
    of = {label: group for group in groups for label in group.labels}
    fasteners = [_fastener(of[hole.label], hole.label, hole.x, hole.y) for hole in layout.fasteners]
    said(
        f"threads begin {THREAD_TOP:g} mm below the block face and hold over {ENGAGED:g} diameters where not said"
    )
    if not layout.outline:
        said("outline taken as a rectangle round bores and fasteners")
    openings = tuple(
        Opening(one.label, one.x, one.y, one.diameter, one.length or 0.0, one.angle or 0.0)
        for one in layout.passages
        if one.diameter and not any(hypot(one.x - b.x, one.y - b.y) < b.ring / 2.0 for b in bores)
    )
    return JointPlan(
        layout.outline or plain_outline(bores, fasteners), tuple(bores), tuple(fasteners), openings
    )


def _fastener(group: _Group, label: str, x: float, y: float) -> Fastener:
    written, size = group.written, group.thread.major_diameter
    washer = written.washer
    hole = number(written.hole_diameter) or size + 1.0
    outer = (
        number(washer.outer_diameter if washer else None) or number(written.bearing_diameter) or 1.8 * size
    )
    engaged = number(written.engagement) or ENGAGED * size
    inner = min(hole, outer - 2.0)
    return Fastener(label, x, y, hole, size, inner, outer, THREAD_TOP, THREAD_TOP + engaged)


def _inputs(
    joint: Joint,
    request: JointRequest,
    laws: dict[str, Law],
    groups: tuple[_Group, ...],
    said: _Said,
) -> Inputs:
    assert joint.procedure is not None
    procedure = parse(joint.procedure.text, f"joint.{joint.name}.procedure.text")
    steel = material("steel")
    length = request.head.seat + THREAD_TOP
    bolts, growth, wrenches = {}, {}, {}
    for group in groups:
        rod = bolt_stiffness([round_section(group.thread.pitch_diameter, length)], steel.usual_modulus)
        wrench = Wrench(group.lever, group.thread.pitch, WIND_UP, SETTLING)
        for label in group.labels:
            bolts[label] = Bolt(rod.stiffness, group.yield_load)
            growth[label], wrenches[label] = steel.usual_expansion * BOLT_RISE * length, wrench
    said(
        f"bolts stretch over {length:.0f} mm of their pitch diameter; {100 * WIND_UP:.0f} % of a turn winds up"
    )
    said(f"each bolt loses {1000 * SETTLING:g} µm by settling")
    said(
        f"running: head {HEAD_RISE:g} K, block {BLOCK_RISE:g} K, bolts {BOLT_RISE:g} K warmer than when tightened"
    )
    laid = sorted(hole for group in groups for hole in group.labels)
    order = (joint.procedure.order if joint.procedure else ()) or tuple(laid)
    named = [
        FastenerGroup(group.written.name, tuple(label for label in order if label in group.labels))
        for group in groups
    ]
    labels = [one.label for one in request.plan.fasteners]
    turned = any(procedure.total_angle(group) is not None for group in named)
    scatter = scatter_of("angle" if turned else "torque-wrench")
    x, y = request.plan.box[:2], request.plan.box[2:]
    return Inputs(
        laws=laws,
        bolts={label: bolts[label] for label in labels},
        actions=actions_of(procedure, named, labels, wrenches),
        settling=dict.fromkeys(labels, SETTLING),
        weight=9.81 * _mass(joint, request),
        weight_at=(sum(x) / 2.0, sum(y) / 2.0),
        peak_pressure=0.0,
        warmth=Warmth(HEAD_RISE, BLOCK_RISE, {label: growth[label] for label in labels}),
        scatter=Scatter(scatter.common, scatter.individual),
    )


def _mass(joint: Joint, request: JointRequest) -> float:
    section = joint.head.section
    weighed = number(joint.head.weight) or number(section.mass if section else None)
    low_x, high_x, low_y, high_y = request.plan.box
    half_full = 0.5 * (high_x - low_x) * (high_y - low_y) * request.head.height
    return weighed or DENSITY[_family(joint)] * half_full
