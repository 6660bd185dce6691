"""Where everything lies on the face, in the frame of the joint, as seen looking down on the deck."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from firedeck.errors import OutOfRange
from firedeck.fasteners.order import NOT_THE_BOOK, FastenerPlace, tightening_order
from firedeck.fasteners.threads import thread_of
from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.job.frame import Frame, layout_frame, point, turned
from firedeck.job.paths import join_path
from firedeck.job.schema.layout import Bore, Dowel, Hole, Passage
from firedeck.job.schema.layout import Layout as Written
from firedeck.quantity import Quantity
from firedeck.trace import Missing

Place = tuple[float, float]


@dataclass(frozen=True)
class PlacedBore:
    """A cylinder opening [mm]."""

    label: str
    x: float
    y: float
    diameter: float


@dataclass(frozen=True)
class PlacedFastener:
    """A fastener, the hole it screws into, and its turn in the order of tightening (None: not in it)."""

    label: str
    x: float
    y: float
    order: int | None
    hole: str | None
    leads: str | None
    depth: float | None


@dataclass(frozen=True)
class PlacedDowel:
    """A dowel [mm]."""

    label: str
    x: float
    y: float
    diameter: float | None


@dataclass(frozen=True)
class PlacedPassage:
    """An opening for water, oil or air; ``angle`` turns left from the x axis of the frame [rad]."""

    label: str
    x: float
    y: float
    shape: str
    diameter: float | None
    length: float | None
    angle: float | None
    leads: str | None


@dataclass(frozen=True)
class Layout:
    """The hole pattern of one joint: x to the rear, y by the right hand, looking down on the deck [mm].

    ``order_from`` says whose order of tightening the fasteners are numbered by.
    """

    id: ClassVar[str] = "layout"

    outline: tuple[Place, ...]
    bores: tuple[PlacedBore, ...]
    fasteners: tuple[PlacedFastener, ...]
    dowels: tuple[PlacedDowel, ...]
    passages: tuple[PlacedPassage, ...]
    order_from: str


def find(_job: Job, joint: Joint | None, _found: Findings) -> Layout | Missing:
    """Put the hole pattern of the document into the frame of the joint."""
    written = joint.layout if joint else None
    if joint is None or written is None or not (written.bores or written.fasteners):
        return _missing(joint)
    frame = layout_frame(written)
    labels, order_from = _order(joint, written, frame)
    turns = {label: turn for turn, label in reversed(list(enumerate(labels, start=1)))}
    return Layout(
        outline=tuple(frame.place(*point(pair)) for pair in written.outline),
        bores=tuple(_bore(bore, frame) for bore in written.bores),
        fasteners=tuple(_fastener(hole, frame, turns) for hole in written.fasteners),
        dowels=tuple(_dowel(dowel, frame) for dowel in written.dowels),
        passages=tuple(_passage(passage, frame, written) for passage in written.passages),
        order_from=order_from,
    )


def _order(joint: Joint, written: Written, frame: Frame) -> tuple[tuple[str, ...], str]:
    """Return the papers' order, or else one from the middle outwards, and whose it is."""
    if joint.procedure and joint.procedure.order:
        return joint.procedure.order, joint.procedure.source
    if not written.fasteners:
        return (), ""
    sizes = {label: _size(group.thread) for group in joint.fasteners for label in group.labels}
    places = [
        FastenerPlace(hole.label, *_place(hole, frame), sizes.get(hole.label)) for hole in written.fasteners
    ]
    return tightening_order(places).labels, NOT_THE_BOOK


def _size(thread: str) -> float | None:
    """Return the diameter of a thread; a name nobody can read is reported where threads are judged."""
    try:
        return thread_of(thread).major_diameter if thread else None
    except OutOfRange:
        return None


def _missing(joint: Joint | None) -> Missing:
    return Missing(
        paths=(join_path(("joint", joint.name if joint else "NAME", "layout")),),
        measure="where bores, fasteners, dowels and passages lie on the deck",
        tool="steel rule or caliper",
        how=(
            "Looking down on the deck with the front end at the left, measure every centre from one bore or "
            "dowel: so far to the right, so far up. Write the diameter beside each."
        ),
    )


def _place(thing: Bore | Hole | Dowel | Passage, frame: Frame) -> Place:
    return frame.place(thing.x.value, thing.y.value)


def _number(quantity: Quantity | None) -> float | None:
    return quantity.value if quantity else None


def _bore(bore: Bore, frame: Frame) -> PlacedBore:
    return PlacedBore(bore.label, *_place(bore, frame), bore.diameter.value)


def _fastener(hole: Hole, frame: Frame, turns: Mapping[str, int]) -> PlacedFastener:
    x, y = _place(hole, frame)
    return PlacedFastener(
        label=hole.label,
        x=x,
        y=y,
        order=turns.get(hole.label),
        hole=hole.hole,
        leads=hole.leads,
        depth=_number(hole.depth),
    )


def _dowel(dowel: Dowel, frame: Frame) -> PlacedDowel:
    return PlacedDowel(dowel.label, *_place(dowel, frame), _number(dowel.diameter))


def _passage(passage: Passage, frame: Frame, written: Written) -> PlacedPassage:
    x, y = _place(passage, frame)
    return PlacedPassage(
        label=passage.label,
        x=x,
        y=y,
        shape=passage.shape,
        diameter=_number(passage.diameter),
        length=_number(passage.length),
        angle=_angle(passage, written),
        leads=passage.leads,
    )


def _angle(passage: Passage, written: Written) -> float | None:
    """Turn the long axis of a slot with the picture it was measured in."""
    if passage.angle is None:
        return None
    sign_x, sign_y = turned(written)
    typed = passage.angle.value
    return math.atan2(sign_y * math.sin(typed), sign_x * math.cos(typed)) % math.pi
