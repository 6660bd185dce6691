"""Laying a gasket on the block: four ways, and for each the best place on dowels and fasteners.

A gasket can lie as drawn, end for end, turned over, or both. For each way its fastener and dowel holes
are paired with those of the block and the place (shift and small turn) is sought in which the holes
clear best: the least shortfall of clearance over all pairs is made as small as it can be. It fits when
no pair is short.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
import numpy.typing as npt

from firedeck.gasket.pattern import HELD, Opening, Pattern, places
from firedeck.trace import RUN, Step

Array = npt.NDArray[np.float64]
CLEARS_TO = 1e-6
"""A hole that lies on its pin to this much [mm] clears it: the last binary digit is no metal."""
BORE_OFF = 1.0
"""A ring further off the middle of its bore than its room and this [mm] lies over another engine's bore."""
FAR = 10.0
"""A head that is further off its bolts than this [mm] is of another engine."""
DIRECTIONS = 48
"""A clearance is held in this many directions round a hole: a shortfall is right within 0.3 %."""


class Way(StrEnum):
    """The four ways to lay a gasket, seen from above."""

    AS_DRAWN = "as drawn"
    END_FOR_END = "end for end"
    TURNED_OVER = "turned over"
    BOTH = "turned over and end for end"

    @property
    def signs(self) -> tuple[float, float]:
        """Signs of x and y."""
        return {"as drawn": (1, 1), "end for end": (-1, -1), "turned over": (1, -1)}.get(self.value, (-1, 1))


@dataclass(frozen=True)
class Residual:
    """One hole in the best place: how far it lies off its pin, and how much room that leaves [mm]."""

    name: str
    off: float
    clears: float


@dataclass(frozen=True)
class Laid:
    """A gasket laid one way: where it ended, and by how much its tightest hole clears (negative: it does not) [mm]."""

    way: Way
    pattern: Pattern
    clears: float
    tightest: str
    fits: bool
    step: Step | None
    residuals: tuple[Residual, ...] = ()


def lay(gasket: Pattern, block: Pattern, way: Way) -> Laid:
    """Lay a gasket one way in its best place.

    Parameters
    ----------
    gasket, block : Pattern
        The two hole patterns, both seen looking down on the deck [mm].
    way : Way
        How it is laid [text].

    Returns
    -------
    Laid
        The pattern in its place, and how it clears [mm].

    Valid for
    ---------
    Flat parts; round fastener and dowel holes; a turn of less than a degree from the way itself.

    Source
    ------
    derived

    Examples
    --------
    >>> held = tuple(Opening("fastener", str(x), x, y, 10.0) for x, y in ((0.0, 50.0), (90.0, 50.0), (45.0, -50.0)))
    >>> block = Pattern("block", (Opening("bore", "1", 45.0, 0.0, 80.0), *held))
    >>> gasket = Pattern("gasket", (Opening("bore", "1", 45.0, 0.0, 81.0), *held))
    >>> lay(gasket, block, Way.AS_DRAWN).fits, lay(gasket, block, Way.TURNED_OVER).fits
    (True, False)
    """
    turned = gasket.turned(*way.signs)
    start = _shifted(
        turned, places(block.of("bore")).mean(axis=0) - places(turned.of("bore")).mean(axis=0), 0.0
    )
    pairs = _paired(start, block)
    if pairs is None:
        return _no_fit(way, start, "another number of holes")
    mine, theirs, room = pairs
    move = _best_move(places(mine), places(theirs), room)
    laid = _shifted(start, np.array(move[:2]), move[2])
    held = [_place_of(laid, opening) for opening in mine]
    off = np.hypot(*(places(held) - places(theirs)).T)
    left = room - off
    worst = int(left.argmin())
    names = [f"{pin.kind} {pin.label}" for pin in theirs]
    step = _clearance_step(way, held[worst], theirs[worst], float(room[worst]))
    residuals = tuple(
        Residual(name, float(apart), float(clear))
        for name, apart, clear in zip(names, off, left, strict=True)
    )
    clear = step.value >= -CLEARS_TO
    astray = _ring_off(laid, block) if clear else ""
    return Laid(way, laid, step.value, astray or names[worst], clear and not astray, step, residuals)


def put_on(head: Pattern, block: Pattern) -> Pattern:
    """Move a head face onto the block it is bolted to, by its fasteners and dowels, else by its chambers.

    Parameters
    ----------
    head, block : Pattern
        Two faces, both seen looking down on the deck [mm].

    Returns
    -------
    Pattern
        The head in the place of the block [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> bore = Opening("bore", "1", 5.0, 0.0, 80.0)
    >>> put_on(Pattern("head", (bore,)), Pattern("block", (Opening("bore", "1", 0.0, 0.0, 80.0),))).openings[0].x
    0.0
    """
    if head.of("bore"):
        laid = lay(head, block, Way.AS_DRAWN)
        if laid.step is not None and laid.clears > -FAR:
            return laid.pattern
    for kinds in (HELD, ("bore",)):
        mine, theirs = head.of(*kinds), block.of(*kinds)
        if mine and len(mine) == len(theirs):
            return _shifted(head, places(theirs).mean(axis=0) - places(mine).mean(axis=0), 0.0)
    return head


def _no_fit(way: Way, pattern: Pattern, why: str) -> Laid:
    return Laid(way, pattern, -math.inf, why, False, None)


def _paired(gasket: Pattern, block: Pattern) -> tuple[list[Opening], list[Opening], Array] | None:
    """Pair every fastener and dowel of the block with the nearest hole of the gasket of its kind, each once.

    Bores count only where fewer than two others are there to hold it; how its rings lie is judged apart.
    """
    if len(gasket.of("bore")) != len(block.of("bore")):
        return None
    pairs: list[tuple[Opening, Opening]] = []
    for kind in (*HELD, "bore"):
        own, other = gasket.of(kind), block.of(kind)
        if (kind == "dowel" and not own) or (kind == "bore" and len(pairs) >= 2):
            continue
        if len(own) < len(other):
            return None
        pairs += _nearest(own, other)
    if len(pairs) < 2:
        return None
    mine, theirs = [hole for hole, _ in pairs], [pin for _, pin in pairs]
    return mine, theirs, np.array([(hole.diameter - pin.diameter) / 2 for hole, pin in pairs])


def _nearest(own: Sequence[Opening], other: Sequence[Opening]) -> Iterator[tuple[Opening, Opening]]:
    left = list(own)
    for opening in other:
        nearest = min(left, key=lambda hole: math.hypot(hole.x - opening.x, hole.y - opening.y))
        left.remove(nearest)
        yield nearest, opening


def _ring_off(laid: Pattern, block: Pattern) -> str:
    """Return the bore over which a ring lies further off than its room and a reading, if one does."""
    for ring, bore in _nearest(laid.of("bore"), block.of("bore")):
        room = max(ring.diameter - bore.diameter, 0.0) / 2 + BORE_OFF
        if math.hypot(ring.x - bore.x, ring.y - bore.y) > room:
            return f"ring over bore {bore.label}"
    return ""


def _best_move(mine: Array, theirs: Array, room: Array) -> tuple[float, float, float]:
    """Return the shift and turn that leave the tightest hole as much clearance as can be."""
    move = _least_squares(mine, theirs)
    left = room - np.hypot(*(_moved(mine, move) - theirs).T)
    if left.min() >= 0 or left.min() < -0.05 * np.abs(mine).max():
        return move
    return _least_shortfall(mine, theirs, room)


def _least_squares(mine: Array, theirs: Array) -> tuple[float, float, float]:
    a, b = mine - mine.mean(axis=0), theirs - theirs.mean(axis=0)
    turn = math.atan2(float((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum()), float((a * b).sum()))
    turn = turn if abs(turn) < math.radians(1) else 0.0
    shift = theirs.mean(axis=0) - _turned(mine, turn).mean(axis=0)
    return (float(shift[0]), float(shift[1]), turn)


def _least_shortfall(mine: Array, theirs: Array, room: Array) -> tuple[float, float, float]:
    """Minimise the largest (distance - room): a small linear programme, holes held in many directions."""
    from scipy.optimize import linprog

    angles = np.arange(DIRECTIONS) * 2 * math.pi / DIRECTIONS
    ways = np.column_stack((np.cos(angles), np.sin(angles)))
    scale = float(np.abs(mine).max())
    apart = mine - theirs
    across = np.column_stack((-mine[:, 1], mine[:, 0])) / scale
    rows = [np.column_stack((ways, ways @ across[i], -np.ones(DIRECTIONS))) for i in range(len(mine))]
    bounds = [room[i] - ways @ apart[i] for i in range(len(mine))]
    found = linprog(
        [0, 0, 0, 1], A_ub=np.vstack(rows), b_ub=np.concatenate(bounds), bounds=[(None, None)] * 4
    )
    return (float(found.x[0]), float(found.x[1]), float(found.x[2]) / scale)


def _turned(points: Array, turn: float) -> Array:
    cos, sin = math.cos(turn), math.sin(turn)
    turned: Array = points @ np.array([[cos, sin], [-sin, cos]])
    return turned


def _moved(points: Array, move: tuple[float, float, float]) -> Array:
    moved: Array = _turned(points, move[2]) + np.array(move[:2])
    return moved


def _shifted(pattern: Pattern, shift: Array, turn: float) -> Pattern:
    at = _turned(places(pattern.openings), turn) + shift
    moved = (
        replace(opening, x=float(x), y=float(y), angle=opening.angle + turn)
        for opening, (x, y) in zip(pattern.openings, at, strict=True)
    )
    return replace(pattern, openings=tuple(moved))


def _place_of(pattern: Pattern, opening: Opening) -> Opening:
    return next(one for one in pattern.openings if one.kind == opening.kind and one.label == opening.label)


def _clearance_step(way: Way, hole: Opening, pin: Opening, room: float) -> Step:
    return Step.work_out(
        f"Laid {way.value}: clearance at {pin.kind} {pin.label}, in the best place",
        "room - sqrt((hole_x - pin_x)**2 + (hole_y - pin_y)**2)",
        {
            "room": (room, "mm"),
            "hole_x": (hole.x, "mm"),
            "hole_y": (hole.y, "mm"),
            "pin_x": (pin.x, "mm"),
            "pin_y": (pin.y, "mm"),
        },
        ("clearance", "mm"),
        f"{RUN}best-place",
    )
