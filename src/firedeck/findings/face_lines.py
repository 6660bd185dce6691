"""A face read by enough straightedge lines: what its leaves allow, in the frame of the joint."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from firedeck.job import Job, Joint
from firedeck.job.frame import Frame, Place, layout_frame, point
from firedeck.job.schema.fields import Point
from firedeck.job.schema.layout import Layout
from firedeck.job.schema.readings import ON_LEAVES, FaceReadings, Line
from firedeck.quantity import Kind, parse
from firedeck.surfaces.face_map import FaceMap, face_from_lines
from firedeck.surfaces.face_model import EDGE_TRUE_TO, Bore, Plan
from firedeck.surfaces.laying import LEAF_WIDTH, Laying
from firedeck.surfaces.next_laying import NextLaying
from firedeck.surfaces.verdict import LeafReading

FEWEST_LINES, FEWEST_READINGS = 4, 20
"""With fewer the leaves bracket each line for itself; a face cannot be told from them."""

BESIDE = 8.0
"""Without an outline the face is taken to reach this far beyond the lines [mm]."""


TRUEST_EDGE = 0.001
"""No edge is taken to be truer than this over its length [mm]: our own assumption."""


@dataclass(frozen=True)
class ReadWith:
    """What the lines were read with: leaves of the set, their width, and how true the edge is over its length [mm]."""

    leaves: tuple[float, ...]
    leaf_width: float
    edge_true_to: float


def read_with(job: Job, readings: FaceReadings, edge_said: float | None) -> ReadWith:
    """Take what this set says of its tools, else what the garage's tools say, else what is usual."""
    tools = job.document.tools
    width = readings.leaf_width or tools.leaf_width
    return ReadWith(
        leaves=tuple(leaf.value for leaf in tools.leaves),
        leaf_width=width.value if width else LEAF_WIDTH,
        edge_true_to=EDGE_TRUE_TO if edge_said is None else max(edge_said, TRUEST_EDGE),
    )


def face_map(
    joint: Joint, readings: FaceReadings, frame: Frame, tools: ReadWith, spans: Sequence[float] = ()
) -> FaceMap | None:
    """Work the face out from its lines; None where they are too few, OutOfRange where one does not lie on the face."""
    lines = [line for line in readings.lines if line.readings and line.stands_on == "face"]
    if len(lines) < FEWEST_LINES or sum(len(line.readings) for line in lines) < FEWEST_READINGS:
        return None
    layings = [_laying(line, frame) for line in lines]
    leaves = {leaf for one in layings for leaf in _leaves(one)}
    if not leaves:
        return None
    tools = replace(tools, leaves=tuple(sorted(leaves.union(tools.leaves))))
    return _worked_out(_plan(joint, layings), tuple(layings), tools, tuple(spans))


@lru_cache(maxsize=8)
def _worked_out(
    plan: Plan, layings: tuple[Laying, ...], tools: ReadWith, spans: tuple[float, ...]
) -> FaceMap:
    """Work a face out once for the job and all its other ways: the same readings give the same face."""
    return face_from_lines(
        plan, layings, tools.leaves, tools.leaf_width, edge_true_to=tools.edge_true_to, spans=spans
    )


def _laying(line: Line, frame: Frame) -> Laying:
    laid = line.laid.strip()
    on_leaves = laid.startswith(ON_LEAVES)
    thick = parse(laid.removeprefix(ON_LEAVES).strip(), Kind.LENGTH).value if on_leaves else 0.0
    tried = tuple(LeafReading(one.at.value, _leaf(one.goes), _leaf(one.stops)) for one in line.readings)
    return Laying(line.name, _place(frame, line.start), _place(frame, line.end), thick, tried)


def _place(frame: Frame, pair: Point) -> Place:
    """Map a place; what is left of rounding is taken away, so that one face seen in two ways is one face."""
    x, y = frame.place(*point(pair))
    return round(x, 6), round(y, 6)


def _leaf(text: str) -> float | None:
    return None if text.strip() == "none" else parse(text, Kind.LENGTH).value


def _leaves(laying: Laying) -> list[float]:
    """Leaves that were used on a line."""
    pairs = [leaf for reading in laying.readings for leaf in (reading.goes, reading.stops)]
    return [leaf for leaf in (*pairs, laying.end_leaves) if leaf]


def _plan(joint: Joint, layings: list[Laying]) -> Plan:
    """Take the box of the outline, or else of the lines and a little beyond."""
    layout = joint.layout or Layout()
    frame = layout_frame(layout)
    corners = [_place(frame, pair) for pair in layout.outline]
    margin = 0.0
    if not corners:
        corners, margin = [end for one in layings for end in (one.start, one.end)], BESIDE
    xs, ys = zip(*corners, strict=True)
    bores = []
    for bore in layout.bores:
        x, y = _place(frame, (bore.x, bore.y))
        bores.append(Bore(bore.label, x, y, bore.diameter.value))
    low, high = (min(xs) - margin, min(ys) - margin), (max(xs) + margin, max(ys) + margin)
    return Plan(low, high, tuple(sorted(bores, key=lambda one: (one.x, one.y))))


def said(laying: NextLaying, frame: Frame) -> str:
    """Say a laying in the axes of the readings."""
    start, end = (_corner(frame.back(*place)) for place in (laying.start, laying.end))
    how = f"{ON_LEAVES} {laying.end_leaves:g} mm" if laying.end_leaves else "resting"
    return f"the edge laid from {start} to {end} mm, {how}, a leaf tried every 10 mm"


def _corner(place: Place) -> str:
    return f"{place[0]:.0f}/{place[1]:.0f}"
