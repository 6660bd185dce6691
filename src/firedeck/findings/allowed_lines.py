"""Lines of a face that its leaves allow: every allowed face under the edge, whole lines and short spans."""

from collections.abc import Iterator

from firedeck.findings.face_line import ANY, FaceLine
from firedeck.surfaces.allowed import Estimate
from firedeck.surfaces.face_map import RUN, FaceMap
from firedeck.trace import Band, Step

WHY = "what the leaves on all lines allow"


def lines_allowed(allowed: FaceMap) -> Iterator[FaceLine]:
    """Put the faces that the leaves allow through the resting rule, along the lines laid and the book's lines.

    The line with the largest gap of its direction stands for all of them, each face with its own worst line. Limits per
    span are held against a short edge on every stretch of these lines.
    """
    for line in allowed.lines:
        peers = [one.gap.value for one in allowed.lines if one.direction == line.direction]
        gap = allowed.worst[line.direction] if line.gap.value == max(peers) else line.gap
        step = _middle(f"Largest gap under a true edge, {line.name}", gap)
        yield FaceLine(line.name, line.direction, step.value, _band(gap), line.at, step, by="leaves")
    for one in allowed.in_spans:
        if one.direction == ANY:
            continue
        name = f"in any {one.span:g} mm {one.direction}, {one.name}"
        step = _middle(f"Largest gap under a true edge {one.span:g} mm long, {one.name}", one.gap)
        yield FaceLine(
            name, one.direction, step.value, _band(one.gap), one.at, step, span=one.span, by="leaves"
        )


def _middle(says: str, gap: Estimate) -> Step:
    return Step.work_out(
        f"{says}: the middle of all faces the leaves allow",
        "middle",
        {"middle": (gap.value, "mm")},
        ("gap", "mm"),
        RUN,
    )


def _band(gap: Estimate) -> Band:
    return Band(gap.low, gap.high, 0.95, WHY)
