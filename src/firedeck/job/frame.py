"""Everybody's x, y, z: one function maps a set of places, however it was seen, onto the block face.

The frame is right-handed and fixed to the block face of a joint: origin at the centroid of the
bores, x along the crankshaft from front to rear, z from block to head. Everything is kept as seen
looking down on the deck. A set's own x runs right and its own y up in the picture. Heights count
positive out of the metal in every picture, so they are never changed here.
"""

from dataclasses import dataclass

from firedeck.errors import JobError
from firedeck.job.schema.fields import Point
from firedeck.job.schema.layout import Layout, Placed

Place = tuple[float, float]


@dataclass(frozen=True)
class Frame:
    """Maps the own x, y of one set [mm] to the frame of the joint [mm]."""

    sign_x: float
    sign_y: float
    shift_x: float
    shift_y: float

    def place(self, x: float, y: float) -> Place:
        """Return the place in the frame of the joint."""
        return (self.sign_x * x + self.shift_x, self.sign_y * y + self.shift_y)

    def back(self, x: float, y: float) -> Place:
        """Return the place in the set's own axes."""
        return ((x - self.shift_x) / self.sign_x, (y - self.shift_y) / self.sign_y)


def point(pair: Point) -> Place:
    """Return the core numbers of a place typed with units."""
    return (pair[0].value, pair[1].value)


def turned(placed: Placed) -> tuple[float, float]:
    """Return the signs of x and y: turning a head over keeps x, front to the right turns both."""
    over = -1.0 if placed.seen == "head face up on the bench" else 1.0
    end = -1.0 if placed.front == "right" else 1.0
    return end, end * over


def layout_frame(layout: Layout) -> Frame:
    """Return the frame of the hole pattern itself: the centroid of its bores becomes the origin."""
    sign_x, sign_y = turned(layout)
    if not layout.bores:
        return Frame(sign_x, sign_y, 0.0, 0.0)
    middle_x = sum(bore.x.value for bore in layout.bores) / len(layout.bores)
    middle_y = sum(bore.y.value for bore in layout.bores) / len(layout.bores)
    return Frame(sign_x, sign_y, -sign_x * middle_x, -sign_y * middle_y)


def set_frame(placed: Placed, layout: Layout | None, path: str) -> Frame:
    """Return the frame of a set of readings: its zero is a feature of the hole pattern, else the zero of that pattern.

    Without a hole pattern the set keeps its own zero.
    """
    sign_x, sign_y = turned(placed)
    if layout is None:
        return Frame(sign_x, sign_y, 0.0, 0.0)
    zero_x, zero_y = point(placed.zero_at) if placed.zero_at else (0.0, 0.0)
    if not placed.zero:
        at_x, at_y = layout_frame(layout).place(0.0, 0.0)
    elif placed.zero == "outline corner":
        at_x, at_y = _corner(placed, layout)
    else:
        at_x, at_y = _feature(placed.zero, layout, path)
    return Frame(sign_x, sign_y, at_x - sign_x * zero_x, at_y - sign_y * zero_y)


def _feature(zero: str, layout: Layout, path: str) -> Place:
    frame = layout_frame(layout)
    places = {f"bore {bore.label}": (bore.x, bore.y) for bore in layout.bores}
    places |= {f"dowel {dowel.label}": (dowel.x, dowel.y) for dowel in layout.dowels}
    places |= {f"fastener {hole.label}": (hole.x, hole.y) for hole in layout.fasteners}
    if zero not in places:
        known = ", ".join([*places][:6])
        raise JobError(f"{path}.zero", repr(zero), f'allowed: "outline corner", {known} ...')
    return frame.place(*point(places[zero]))


def _corner(placed: Placed, layout: Layout) -> Place:
    """Return the lower left corner of the outline in the picture of this set."""
    frame = layout_frame(layout)
    corners = [frame.place(*point(pair)) for pair in layout.outline]
    if not corners:
        return (0.0, 0.0)
    sign_x, sign_y = turned(placed)
    return (
        min((x for x, _ in corners), key=lambda x: sign_x * x),
        min((y for _, y in corners), key=lambda y: sign_y * y),
    )
