"""What the study of a clamped joint is fed with: castings, gasket, fasteners, wrench, gas, faces; all it assumes.

One joint of one document becomes one engine; the same joint of the document as it left the factory becomes the other.
Both are built from the same castings unless the document says they were not.
"""

from contextlib import suppress
from dataclasses import dataclass, replace
from math import hypot

from firedeck.errors import JobError, OutOfRange
from firedeck.findings import layout as layout_finding
from firedeck.findings.faces import Faces
from firedeck.findings.finding import Findings
from firedeck.findings.gas import Peak, peak_of, unknown_peak
from firedeck.findings.groups import number
from firedeck.findings.joint_castings import Sections, mass_of, sections_given, with_cuts_of
from firedeck.findings.joint_fasteners import (
    ENGAGED,
    THREAD_TOP,
    Group,
    Working,
    bearing_area,
    fastener_at,
    groups_of,
    wrenched,
)
from firedeck.findings.joint_gap import flat_gap, measured_gap
from firedeck.findings.joint_gasket import RING_WIDTH, GasketGiven, gasket_given
from firedeck.findings.joint_said import Said
from firedeck.findings.layout import Layout
from firedeck.findings.procedure import unread
from firedeck.job import Job, Joint
from firedeck.joint.assumed import assumed
from firedeck.joint.engine import Given
from firedeck.joint.geometry.mesh import PREVIEW, STANDARD, Recipe, scaled, through_liner
from firedeck.joint.geometry.plan import Bore, JointPlan, Opening, plain_outline
from firedeck.joint.model import Inputs, Warmth
from firedeck.runs import Castings, EngineRequest, JointRequest
from firedeck.tables import one
from firedeck.trace import Missing, Note

HEAD_RISE, BLOCK_RISE, BOLT_RISE = (assumed(f"{part} rise") for part in ("head", "block", "fastener"))
"""How much warmer than on the bench everything runs [K]."""
KNOCKS = ("petrol", "gas", "paraffin", "alcohol")
"""Fuels that can knock."""


@dataclass(frozen=True)
class ModelInputs:
    """One engine to be studied, its plan, and every assumption in words."""

    engine: EngineRequest
    sections: Sections
    plan: JointPlan
    exhaust: int
    assumptions: tuple[Note, ...]

    @property
    def request(self) -> JointRequest:
        """Its middle castings before any cut."""
        return self.engine.castings.request

    @property
    def inputs(self) -> Inputs:
        """What goes between and round them."""
        return self.engine.given.inputs


def model_inputs(
    job: Job,
    joint: Joint,
    recipe: Recipe = STANDARD,
    *,
    factory: bool = False,
    like: "ModelInputs | None" = None,
    faces: Faces | Missing | None = None,
) -> ModelInputs | Missing:
    """Gather the inputs of one joint; the first thing that is missing, where something is.

    ``factory``: faces flat, liners as the book wants them. ``like``: the engine it is compared with, for its castings;
    ``faces``: those of this joint, where they have been read before.
    """
    carried(job)
    none = Findings(job, joint, ())
    layout, peak = layout_finding.find(job, joint, none), peak_of(job)
    if isinstance(layout, Missing):
        return layout
    if peak is None:
        return unknown_peak()
    if joint.procedure is None:
        return unread(joint)
    said = Said()
    gasket, groups = gasket_given(joint, said), groups_of(joint, layout)
    if isinstance(gasket, Missing):
        return gasket
    if isinstance(groups, Missing):
        return groups
    sections = sections_given(job, joint, said)
    if like is not None:
        sections = with_cuts_of(like.sections, sections)
    plan = _plan(layout, gasket, groups, said)
    plans = plans_of(joint, plan)
    if plan != plans[-1]:
        said("half beads and body of the gasket lie as with the widest ring of the gaskets written down")
    fine, coarse = (scaled(one, plan.mean_bore) for one in (recipe, PREVIEW))
    fine = through_liner(fine, sections.block)
    metals = sections.head_metal, sections.block_metal
    request = JointRequest(plans[0], sections.head, sections.block, *metals, fine, others=plans[1:])
    cuts = sections.cut_head, sections.cut_block
    castings = Castings(request, sections.soft, sections.stiff, coarse, *cuts, gasket=plans.index(plan))
    given = _given(job, joint, request, (gasket, groups, peak), said)
    points = castings.points()
    said(
        "a short dip at a ring that no reading came near is not in the band: the check of the faces has to find it"
    )
    gap = (
        flat_gap(joint, points, gasket.stands, said)
        if factory
        else measured_gap((job, joint), faces, points, gasket.stands, said)
    )
    given = replace(given, inputs=replace(given.inputs, gap=gap.at), faces=gap.doubt)
    return ModelInputs(EngineRequest(castings, given), sections, plan, _exhaust(joint), said.notes)


def carried(job: Job) -> None:
    """Refuse shapes the bricks cannot carry."""
    shape = "barrels" if job.engine.arrangement == "barrels" else job.engine.valve_gear
    if shape in ("barrels", "side-valve", "ports"):
        allowed = "heads with a water jacket on a block: for this one there is only the simple sum of a check"
        raise OutOfRange("clamped joint", shape, allowed)


def plans_of(joint: Joint, plan: JointPlan) -> tuple[JointPlan, ...]:
    """The plan with the rings of every gasket of the document, in a fixed order: they are condensed together."""
    gaskets = [joint.gasket.old, *joint.gasket.candidates]
    found = {plan}
    for gasket in gaskets:
        if gasket is None or gasket.bore is None:
            continue
        width = number(getattr(gasket, "ring_width", None)) or RING_WIDTH
        gas = gasket.bore.value
        bores = tuple(replace(bore, ring=gas + width, gas=gas) for bore in plan.bores)
        with suppress(JobError):  # a gasket that cannot lie here has no ring
            found.add(replace(plan, bores=bores))
    return tuple(sorted(found, key=lambda one: [(bore.ring, bore.gas) for bore in one.bores]))


def _exhaust(joint: Joint) -> int:
    """Which side of the frame the exhaust is on: 1 rising y, -1 the other, 0 where nobody said."""
    from firedeck.job.frame import turned

    if joint.layout is None or joint.layout.exhaust is None:
        return 0
    up = 1 if joint.layout.exhaust == "above" else -1
    return up if turned(joint.layout)[1] > 0.0 else -up


def _plan(layout: Layout, gasket: GasketGiven, groups: tuple[Group, ...], said: Said) -> JointPlan:
    bores = []
    for bore in layout.bores:
        gas = gasket.gas(bore.diameter)
        bores.append(Bore(bore.label, bore.x, bore.y, bore.diameter, gas + gasket.width, gas))
    of = {label: group for group in groups for label in group.labels}
    fasteners = [fastener_at(of[hole.label], hole.label, hole.x, hole.y) for hole in layout.fasteners]
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
    outline = layout.outline or plain_outline(bores, fasteners)
    return JointPlan(outline, tuple(bores), tuple(fasteners), openings)


Chosen = tuple[GasketGiven, tuple[Group, ...], Peak]


def _given(job: Job, joint: Joint, request: JointRequest, chosen: Chosen, said: Said) -> Given:
    gasket, groups, peak = chosen
    labels = [one.label for one in request.plan.fasteners]
    working = Working(request.head.seat, BOLT_RISE, gasket.retorque)
    turns = wrenched(joint, groups, labels, working, said)
    said(
        f"running: head {HEAD_RISE:g} K, block {BLOCK_RISE:g} K, bolts {BOLT_RISE:g} K warmer than when tightened"
    )
    knock = _knock(job, said)
    low_x, high_x, low_y, high_y = request.plan.box
    inputs = Inputs(
        laws=gasket.laws,
        bolts=turns.bolts,
        actions=turns.actions,
        settling=turns.settling,
        weight=9.81 * mass_of(joint, request.plan.box, request.head.height),
        weight_at=((low_x + high_x) / 2.0, (low_y + high_y) / 2.0),
        peak_pressure=peak.value,
        warmth=Warmth(HEAD_RISE, BLOCK_RISE, turns.growth, BOLT_RISE),
        scatter=turns.scatter,
    )
    return Given(
        inputs=inputs,
        peak=(min(peak.band.low, peak.value), max(peak.band.high, peak.value)),
        knock=knock,
        bearing={one.label: bearing_area(one) for one in request.plan.fasteners},
        faces=0.0,
        retorque=turns.retorque,
        gasket=gasket.name,
        fasteners="; ".join(group.says for group in groups),
        gas=_gas_words(job, peak),
        friction=max(group.doubt for group in groups),
    )


def _knock(job: Job, said: Said) -> float:
    """What heavy knock adds at most [MPa]; nothing where the fuel does not knock."""
    if job.engine.fuel is not None and job.engine.fuel not in KNOCKS:
        return 0.0
    heavy = one("knock", "heavy", lambda row: row["severity"] == "heavy")
    adds = f"{heavy['low']} to {heavy['high']} {heavy['unit']}"
    said(
        f"knock is not in the band: heavy knock adds {adds} to the peak; its most is set aside",
        heavy["source"],
    )
    return float(heavy["high"])


def _gas_words(job: Job, peak: Peak) -> str:
    """What the peak pressure rests on, in words; equal words share their doubt."""
    if peak.from_papers:
        return "peak pressure of the papers"
    boost = job.document.running.boost
    charge = f", boost {boost.text}" if boost is not None else ""
    ratio = job.engine.ratio.text if job.engine.ratio else ""
    return f"peak pressure worked out: {job.engine.fuel}, ratio {ratio}{charge}"
