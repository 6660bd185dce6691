"""How each gasket of the job lies on the faces: ring over bore, recess, sides, marks, and what is seen through it."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from firedeck.errors import OutOfRange
from firedeck.findings.doubted import doubted
from firedeck.findings.finding import Findings
from firedeck.findings.matching import Match, match_of
from firedeck.findings.wire import Wire, wire_of
from firedeck.gasket.ring_fit import RingFit, ring_fit, ring_margins
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Candidate
from firedeck.job.schema.layout import Passage
from firedeck.trace import DERIVED, Limit, Missing, Step


@dataclass(frozen=True)
class PassageSeen:
    """A passage as looked at through the gasket: as laid, and laid the other way."""

    label: str
    leads: str
    seen: str | None
    turned: str | None
    only_in: str | None
    share: Step | None


@dataclass(frozen=True)
class CandidateFit:
    """One gasket over the bores: the worst cylinder, and what else decides whether it belongs here."""

    name: str
    construction: str | None
    ring: RingFit | None
    at_cylinder: str
    margins: tuple[Limit, ...]
    reach: Step | None
    marks: str
    mark_side: str | None
    ways: tuple[str, ...]
    towards_head: str | None
    towards_block: str | None
    grooved: bool
    used: bool
    source: str
    match: Match | Missing | None = None
    over_chamber: RingFit | None = None
    wire: Wire | None = None


@dataclass(frozen=True)
class Fits:
    """Every gasket of the job over this joint."""

    id: ClassVar[str] = "fits"
    candidates: tuple[CandidateFit, ...]
    passages: tuple[PassageSeen, ...]
    head_material: str | None
    block_material: str | None

    def of(self, name: str) -> CandidateFit | None:
        """Return the fit of one candidate."""
        return next((one for one in self.candidates if one.name == name), None)


def find(job: Job, joint: Joint | None, _found: Findings) -> Fits | Missing:
    """Lay every candidate over the bores."""
    assert joint is not None
    passages = joint.layout.passages if joint.layout else ()
    if not joint.gasket.candidates and not any(one.seen_through or one.only_in for one in passages):
        return _no_gasket(joint)
    try:
        candidates = tuple(_candidate(job, joint, one) for one in joint.gasket.candidates)
    except OutOfRange as fault:
        return doubted(joint, fault, "gasket.candidates")
    return Fits(
        candidates=candidates,
        passages=tuple(_passage(one) for one in passages),
        head_material=joint.head.material,
        block_material=joint.block.material,
    )


def _no_gasket(joint: Joint) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.gasket.candidates",),
        measure="the gasket on the bench: its bore, thickness, construction and marks",
        tool="vernier and eye",
        how="Measure the ring inside at two diameters, note every mark and the side it is on.",
    )


def _candidate(job: Job, joint: Joint, candidate: Candidate) -> CandidateFit:
    label, ring = _worst_ring(job, joint, candidate)
    return CandidateFit(
        name=candidate.name,
        construction=candidate.construction,
        ring=ring,
        at_cylinder=label,
        margins=ring_margins(candidate.construction),
        reach=_reach(joint, candidate),
        marks=candidate.marks,
        mark_side=candidate.mark_side,
        ways=candidate.ways_that_fit,
        towards_head=candidate.towards_head,
        towards_block=candidate.towards_block,
        grooved=_grooved(joint),
        used=candidate.used,
        source=candidate.source,
        match=match_of(job, joint, candidate),
        over_chamber=_over_chamber(joint, candidate),
        wire=wire_of(joint, candidate),
    )


def _worst_ring(job: Job, joint: Joint, candidate: Candidate) -> tuple[str, RingFit | None]:
    bores = dict(_bores(job, joint))
    ring = candidate.bore.value if candidate.bore else _ring_of_layout(candidate)
    if not bores or ring is None:
        return "", None
    label = max(bores, key=lambda each: bores[each])
    return label, ring_fit(bore=bores[label], gasket_bore=ring)


def _grooved(joint: Joint) -> bool:
    """Tell whether deck or head has a groove for a wire or ring."""
    parts = (joint.block, joint.head)
    return any(part.groove_depth is not None or part.groove_width is not None for part in parts)


def _over_chamber(joint: Joint, candidate: Candidate) -> RingFit | None:
    """Hold the ring against the edge of the chamber, where that was measured."""
    width = joint.chamber.width
    ring = candidate.bore.value if candidate.bore else _ring_of_layout(candidate)
    return ring_fit(bore=width.value, gasket_bore=ring) if width and ring is not None else None


def _ring_of_layout(candidate: Candidate) -> float | None:
    """Return the smallest ring of the layout of the gasket, where no bore is given for all."""
    bores = candidate.layout.bores if candidate.layout else ()
    return min((bore.diameter.value for bore in bores), default=None)


def _bores(job: Job, joint: Joint) -> Iterator[tuple[str, float]]:
    if joint.layout and joint.layout.bores:
        yield from ((bore.label, bore.diameter.value) for bore in joint.layout.bores)
    elif job.engine.bore:
        yield "", job.engine.bore.value


def _reach(joint: Joint, candidate: Candidate) -> Step | None:
    """Work out whether the ring fills the recess round the bores; a flat gasket has no stand."""
    recess = joint.block.recess
    if recess is None or not recess.value or candidate.ring_stand_out is None:
        return None
    return Step.work_out(
        "Stand of the ring less the recess it has to fill",
        "ring_stand_out - recess",
        {"ring_stand_out": (candidate.ring_stand_out.value, "mm"), "recess": (recess.value, "mm")},
        ("ring_reach", "mm"),
        DERIVED,
    )


def _passage(passage: Passage) -> PassageSeen:
    share = None
    if passage.diameter and passage.gasket_diameter and passage.diameter.value:
        share = Step.work_out(
            "Share of the passage the gasket leaves open",
            "(gasket_diameter / diameter)**2",
            {
                "gasket_diameter": (passage.gasket_diameter.value, "mm"),
                "diameter": (passage.diameter.value, "mm"),
            },
            ("share", "1"),
            DERIVED,
        )
    seen = passage.seen_through
    if seen is None and share is not None:
        seen = "smaller" if share.value < 1.0 else "open"
    return PassageSeen(
        passage.label, passage.leads or "unknown", seen, passage.seen_turned, passage.only_in, share
    )
