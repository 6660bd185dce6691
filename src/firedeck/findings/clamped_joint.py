"""What the study of a clamped joint is fed with: castings, gasket, fasteners, wrench, gas, faces; all it assumes.

One joint of one document becomes one engine; the same joint of the document as it left the factory becomes the other.
Both are built from the same castings unless the document says they were not.
"""

from dataclasses import dataclass, replace
from math import hypot

from firedeck.errors import OutOfRange
from firedeck.findings import gas as gas_finding
from firedeck.findings import layout as layout_finding
from firedeck.findings.finding import Findings
from firedeck.findings.gas import Gas, Peak, unknown_peak
from firedeck.findings.joint_castings import Sections, mass_of, sections_given, with_cuts_of
from firedeck.findings.joint_fasteners import Group, Working, bearing_area, fastener_at, groups_of, wrenched
from firedeck.findings.joint_gap import flat_gap, measured_gap
from firedeck.findings.joint_gasket import GasketGiven, gasket_given
from firedeck.findings.joint_said import Said
from firedeck.findings.layout import Layout
from firedeck.findings.procedure import unread
from firedeck.job import Job, Joint
from firedeck.joint.engine import Given
from firedeck.joint.geometry.mesh import PREVIEW, STANDARD, Recipe, scaled, through_liner
from firedeck.joint.geometry.plan import Bore, JointPlan, Opening, plain_outline
from firedeck.joint.model import Inputs, Warmth
from firedeck.runs import Castings, EngineRequest, JointRequest
from firedeck.trace import Missing, Note

HEAD_RISE, BLOCK_RISE, BOLT_RISE = 80.0, 70.0, 75.0
"""How much warmer than on the bench everything runs [K]."""
KNOCK = 0.2
"""Set aside for knock, over the peak pressure: our own allowance, not in the band."""


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
) -> ModelInputs | Missing:
    """Gather the inputs of one joint; the first thing that is missing, where something is.

    ``factory``: faces flat, liners as the book wants them. ``like``: the engine it is compared with, for its castings.
    """
    carried(job)
    none = Findings(job, joint, ())
    layout, gas = layout_finding.find(job, joint, none), gas_finding.find(job, joint, none)
    if isinstance(layout, Missing):
        return layout
    peak = gas.peak if isinstance(gas, Gas) else None
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
    fine, coarse = (scaled(one, plan.mean_bore) for one in (recipe, PREVIEW))
    fine = through_liner(fine, sections.block)
    request = JointRequest(
        plan, sections.head, sections.block, sections.head_metal, sections.block_metal, fine
    )
    castings = Castings(request, sections.soft, sections.stiff, coarse, sections.cut_head, sections.cut_block)
    given = _given(job, joint, request, (gasket, groups, peak), said)
    points = request.points()
    said(
        "a short dip at a ring that no reading came near is not in the band: the check of the faces has to find it"
    )
    gap = (
        flat_gap(joint, points, gasket.stands, said)
        if factory
        else measured_gap(job, joint, points, gasket.stands, said)
    )
    given = replace(given, inputs=replace(given.inputs, gap=gap.at), faces=gap.doubt)
    return ModelInputs(EngineRequest(castings, given), sections, plan, _exhaust(joint), said.notes)


def carried(job: Job) -> None:
    """Refuse shapes the bricks cannot carry."""
    shape = "barrels" if job.engine.arrangement == "barrels" else job.engine.valve_gear
    if shape in ("barrels", "side-valve", "ports"):
        allowed = "heads with a water jacket on a block: for this one there is only the simple sum of a check"
        raise OutOfRange("clamped joint", shape, allowed)


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
    said("threads begin 8 mm below the block face and hold over 1.5 diameters where not said")
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
    said(f"knock is not in the band: {100 * KNOCK:.0f} % of the peak pressure is set aside for it")
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
        knock=KNOCK * peak.value,
        bearing={one.label: bearing_area(one) for one in request.plan.fasteners},
        faces=0.0,
        retorque=turns.retorque,
        gasket=gasket.name,
        fasteners="; ".join(group.says for group in groups),
        gas=_gas_words(job, peak),
        friction=max(group.doubt for group in groups),
    )


def _gas_words(job: Job, peak: Peak) -> str:
    """What the peak pressure rests on, in words; equal words share their doubt."""
    if peak.from_papers:
        return "peak pressure of the papers"
    boost = job.document.running.boost
    charge = f", boost {boost.text}" if boost is not None else ""
    return f"peak pressure worked out: {job.engine.fuel}, ratio {job.engine.ratio.text if job.engine.ratio else ''}{charge}"
