"""What has to come off, what is planned, what that leaves, and what did come off when the head is back."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import zip_longest
from typing import ClassVar

from firedeck.findings.amounts import Amounts, amounts, height_after
from firedeck.findings.damage import Damage
from firedeck.findings.face_line import FaceLine
from firedeck.findings.faces import Faces
from firedeck.findings.finding import Findings
from firedeck.findings.stock import FaceStock, practice, stock_of
from firedeck.job import Job, Joint
from firedeck.quantity import Quantity
from firedeck.trace import DERIVED, Missing, Step, as_printed


@dataclass(frozen=True)
class Taken:
    """What the shop took off, by the heights before and after (or as measured): least and most, and what was allowed.

    ``evenness`` is how much more came off one corner than another, ``parallel`` how much the heights differ now.
    """

    least: Step
    most: Step
    evenness: Step | None
    allowed: Step | None
    parallel: Step | None = None


@dataclass(frozen=True)
class Corner:
    """Heights of the head at one corner, in the order they were written, and what was taken off there."""

    before: Quantity | None
    after: Quantity | None
    off: Step | None


@dataclass(frozen=True)
class OtherHead:
    """Another head of the engine, and how much higher this one stands than it once both have their cut, if known.

    ``alike`` tells that a vernier finds no difference.
    """

    name: str
    higher: Step | None
    alike: bool = True


@dataclass(frozen=True)
class Cut:
    """The cut of one joint: what each read face needs, what is planned, and the other heads of the engine."""

    id: ClassVar[str] = "cut"
    faces: tuple[FaceStock, ...]
    planned: Amounts
    height_now: Step | None
    height_planned: Step | None
    together: Step
    bow: FaceLine | None
    datum: str
    taken: Taken | None
    other_heads: tuple[OtherHead, ...]
    corners: tuple[Corner, ...] = ()

    def face(self, which: str) -> FaceStock | None:
        """Return what the head or the block needs, if it was read."""
        return next((stock for stock in self.faces if stock.face == which), None)


def find(job: Job, joint: Joint | None, found: Findings) -> Cut:
    """Put together what each face needs and what is planned."""
    assert joint is not None
    faces, damage = found.get(Faces), found.get(Damage)
    planned = amounts(joint)
    stocks = () if isinstance(faces, Missing) else tuple(_stocks(joint, faces, damage))
    return Cut(
        faces=stocks,
        planned=planned,
        height_now=_height_now(joint),
        height_planned=height_after(joint, planned),
        together=_together(planned),
        bow=None if isinstance(faces, Missing) else _bow(faces),
        datum=joint.cut.datum,
        taken=_taken(joint),
        other_heads=tuple(_beside(joint, other) for other in job.joints if other.name != joint.name),
        corners=tuple(_corners(joint)),
    )


def _stocks(joint: Joint, faces: Faces, damage: Damage | Missing) -> Iterator[FaceStock]:
    off = amounts(joint) if joint.cut.done else amounts(joint, head=0.0, block=0.0)
    earlier = {"head": off.head_in_all.value, "block": off.block_in_all.value}
    for face in faces.faces:
        stock = stock_of(joint, face, damage, earlier[face.face])
        if stock is not None:
            yield stock


def _bow(faces: Faces) -> FaceLine | None:
    """Return the worst line along the head."""
    head = faces.face("head")
    return max(head.lines_of("along"), key=lambda line: line.gap, default=None) if head else None


def _height_now(joint: Joint) -> Step | None:
    heights = joint.head.heights_after or joint.head.heights_before
    if not heights:
        return None
    return Step.work_out(
        "Lowest height of the head as it is",
        "lowest",
        {"lowest": (min(height.value for height in heights), "mm")},
        ("height", "mm"),
        DERIVED,
    )


def _beside(joint: Joint, other: Joint) -> OtherHead:
    """Hold the heights of two heads of one engine against each other, each after what is planned for it."""
    mine, theirs = (height_after(one, amounts(one)) for one in (joint, other))
    if mine is None or theirs is None:
        return OtherHead(other.name, None)
    step = Step.work_out(
        f"Head {joint.name} stands higher than head {other.name} by, each with its cut as planned",
        "height_after - other_height_after",
        {
            "height_after": (as_printed(mine.value), "mm"),
            "other_height_after": (as_printed(theirs.value), "mm"),
        },
        ("higher", "mm"),
        DERIVED,
    )
    return OtherHead(other.name, step, abs(step.value) <= practice("order_tolerance")[0])


def _together(planned: Amounts) -> Step:
    return Step.work_out(
        "Off head and block together since new",
        "head_cut + block_cut",
        {"head_cut": planned.head_in_all.figure(), "block_cut": planned.block_in_all.figure()},
        ("cut_together", "mm"),
        DERIVED,
    )


def _taken(joint: Joint) -> Taken | None:
    """Hold the heights after against those before, corner by corner in the order written."""
    before, after, measured = (
        joint.head.heights_before,
        joint.head.heights_after,
        joint.readings.after.cut_head,
    )
    if before and len(before) == len(after):
        pairs = [
            (as_printed(one.value), as_printed(other.value)) for one, other in zip(before, after, strict=True)
        ]
        order = sorted(range(len(pairs)), key=lambda corner: pairs[corner][0] - pairs[corner][1])
        least, most = (_corner(corner, *pairs[corner]) for corner in (order[0], order[-1]))
        if len(pairs) == 1:
            return Taken(least, most, None, _allowed(joint))
        return Taken(
            least, most, _evenness(least, most), _allowed(joint), _parallel([now for _, now in pairs])
        )
    if measured is None:
        return None
    step = Step.work_out(
        "Taken off, as measured", "reading", {"reading": (measured.value, "mm")}, ("cut", "mm"), DERIVED
    )
    return Taken(step, step, None, _allowed(joint))


def _corners(joint: Joint) -> Iterator[Corner]:
    """Pair the heights before and after, corner by corner in the order written."""
    both = zip_longest(joint.head.heights_before, joint.head.heights_after)
    for corner, (before, after) in enumerate(both):
        known = before is not None and after is not None
        off = _corner(corner, as_printed(before.value), as_printed(after.value)) if known else None
        yield Corner(before, after, off)


def _corner(corner: int, before: float, after: float) -> Step:
    return Step.work_out(
        f"Taken off at corner {corner + 1}",
        "before - after",
        {"before": (before, "mm"), "after": (after, "mm")},
        ("cut", "mm"),
        DERIVED,
    )


def _evenness(least: Step, most: Step) -> Step:
    return Step.work_out(
        "Most less least taken off at the corners",
        "most - least",
        {"most": most.figure(), "least": least.figure()},
        ("cut_evenness", "mm"),
        DERIVED,
    )


def _parallel(heights: list[float]) -> Step:
    return Step.work_out(
        "Highest less lowest corner now: so much it is out of parallel to its datum",
        "highest - lowest",
        {"highest": (max(heights), "mm"), "lowest": (min(heights), "mm")},
        ("out_of_parallel", "mm"),
        DERIVED,
    )


def _allowed(joint: Joint) -> Step | None:
    """Work out the most that may be gone: what was ordered, and what a vernier cannot tell."""
    if joint.cut.head is None:
        return None
    tolerance, source = practice("order_tolerance")
    return Step.work_out(
        "Most that may be gone by the order",
        "ordered + order_tolerance",
        {"ordered": (joint.cut.head.value, "mm"), "order_tolerance": (tolerance, "mm")},
        ("cut", "mm"),
        source,
    )
