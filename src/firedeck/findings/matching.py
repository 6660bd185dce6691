"""A gasket with a layout of its own laid on block and head: which ways go, and what is seen through it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from firedeck.findings.erosion import Erosion, erosions
from firedeck.findings.groups import thread_in
from firedeck.gasket.hole_match import HoleMatch, LaidWay, Verdict, hole_match
from firedeck.gasket.laying import Laid
from firedeck.gasket.pattern import HELD, Opening, Pattern
from firedeck.gasket.through import Passage
from firedeck.job import Job, Joint
from firedeck.job.hole_pattern import hole_pattern
from firedeck.job.schema.joint import Candidate
from firedeck.trace import Missing, Step

Kind = Literal["one-way", "any-way", "by-this-passage", "wrong-part"]
KINDS: Mapping[Verdict, Kind] = {
    Verdict.ONE_WAY: "one-way",
    Verdict.ANY_WAY: "any-way",
    Verdict.BY_PASSAGE: "by-this-passage",
    Verdict.NONE: "wrong-part",
}


@dataclass(frozen=True)
class WayLaid:
    """One way of laying: how its tightest hole clears, the largest residual of the best fit, and what is seen through it."""

    way: str
    fits: bool
    allowed: bool
    clears: float | None
    tightest: str
    off_most: float | None
    step: Step | None
    passages: tuple[Passage, ...]


@dataclass(frozen=True)
class Match:
    """How a gasket goes on by its layout; ``good`` are the ways it may lie, ``deciding`` the passages to look at."""

    kind: Kind
    why: str
    ways: tuple[WayLaid, ...]
    good: tuple[str, ...]
    deciding: tuple[str, ...]
    with_head: bool
    other_bank: str
    erosion: tuple[Erosion, ...]

    def way(self, name: str) -> WayLaid:
        """Return one of the four ways."""
        return next(one for one in self.ways if one.way == name)

    def lone(self, face: str) -> tuple[Passage, ...]:
        """Return the passages only one face has, as seen the way the gasket goes on."""
        seen = next((one.passages for one in self.ways if one.way in self.good or one.fits), ())
        return tuple(one for one in seen if one.only_in == face)


def match_of(job: Job, joint: Joint, candidate: Candidate) -> Match | Missing | None:
    """Lay a candidate by its layout; None without one, what is missing where a size is not known."""
    if candidate.layout is None or not candidate.layout.bores:
        return None
    block = block_pattern(joint)
    if block is None:
        return _no_block(joint)
    gasket = _marked(candidate, hole_pattern(candidate.layout, f"gasket {candidate.name}"))
    missing = next(_sizes(joint, candidate, block, gasket), None)
    if missing is not None:
        return missing
    head = hole_pattern(joint.head.layout, "head") if joint.head.layout else None
    found = hole_match(gasket, block, head)
    best = _best(found)
    return Match(
        kind=KINDS[found.verdict],
        why=found.why,
        ways=tuple(_way(one, found) for one in found.ways),
        good=tuple(way.value for way in found.fitting),
        deciding=found.deciding,
        with_head=head is not None,
        other_bank=_other_bank(job, joint, gasket) if found.verdict is Verdict.NONE else "",
        erosion=tuple(erosions(joint, candidate, best.pattern, block)) if best.step else (),
    )


def block_pattern(joint: Joint) -> Pattern | None:
    """Return the block face with its fasteners as thick as their threads; None where it is not written down."""
    layout = joint.layout
    if layout is None or not (layout.bores and layout.fasteners):
        return None
    threads = [(group, thread_in(group)) for group in joint.fasteners]
    labels = [hole.label for hole in layout.fasteners]
    alone = len(joint.fasteners) == 1
    pins = {
        label: thread.major_diameter
        for group, thread in threads
        if thread is not None
        for label in (group.labels or (labels if alone else ()))
    }
    return hole_pattern(layout, "block", pins)


def _marked(candidate: Candidate, gasket: Pattern) -> Pattern:
    """Add the words of the document to those of the layout: in the middle, so that only the side as drawn counts."""
    if not candidate.marks or gasket.of("mark"):
        return gasket
    bores = gasket.of("bore")
    middle = sum(bore.x for bore in bores) / len(bores)
    return replace(
        gasket, openings=(*gasket.openings, Opening("mark", "words", middle, 0.0, text=candidate.marks))
    )


def _best(found: HoleMatch) -> Laid:
    good = [one.laid for one in found.ways if one.laid.way in found.fitting]
    return good[0] if good else max((one.laid for one in found.ways), key=lambda laid: laid.clears)


def _way(one: LaidWay, found: HoleMatch) -> WayLaid:
    laid = one.laid
    known = laid.step is not None
    return WayLaid(
        way=laid.way.value,
        fits=laid.fits,
        allowed=laid.way in found.fitting,
        clears=laid.clears if known else None,
        tightest=laid.tightest,
        off_most=max((each.off for each in laid.residuals), default=None),
        step=laid.step,
        passages=one.passages,
    )


def _other_bank(job: Job, joint: Joint, gasket: Pattern) -> str:
    """Return the joint of the other bank that a gasket fits which does not fit here."""
    for other in job.joints:
        block = block_pattern(other) if other.name != joint.name else None
        if block is None or any(not one.diameter for one in block.of(*HELD)):
            continue
        head = hole_pattern(other.head.layout, "head") if other.head.layout else None
        if hole_match(gasket, block, head).verdict is not Verdict.NONE:
            return other.name
    return ""


def _sizes(joint: Joint, candidate: Candidate, block: Pattern, gasket: Pattern) -> Iterator[Missing]:
    """Go through the sizes without which nobody can tell whether a hole clears."""
    at = f"joint.{joint.name}"
    for pattern, path in (
        (block, f"{at}.layout"),
        (gasket, f"{at}.gasket.candidates.{candidate.name}.layout"),
    ):
        bare = [f"{one.kind} {one.label}" for one in pattern.of(*HELD) if not one.diameter]
        if bare:
            yield Missing(
                (f"{path}.fasteners", f"{path}.dowels"),
                f"diameters in the layout of the {pattern.part}: {', '.join(bare[:6])}",
                "vernier",
                "Bolts and dowels over their thickest part, the holes of the gasket inside.",
            )


def _no_block(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.layout",),
        "the hole pattern of the block face: bores, bolts, dowels and passages, each with x, y and diameter",
        "vernier, or a picture laid out by a length you measured",
        "Looking down on the deck, front at the left, all from one bore: write a CSV file, or make one with "
        "firedeck layout.",
    )
