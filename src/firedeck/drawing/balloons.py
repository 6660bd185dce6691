"""Numbered circles that keep off one another: each stays as near its place as it can."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.drawing.palette import INK, PAPER
from firedeck.drawing.svg import CHARACTER, Value, tag, words
from firedeck.drawing.view import Place

ROUNDS = 200
MOVED = 0.4
RING = 0.9
"""How far the second ring lies outside the first [mm]."""


@dataclass(frozen=True)
class Balloon:
    """One circle: its true place on paper, what stands in it, and a second ring if the hole is not dry."""

    place: Place
    text: str
    ringed: bool
    part: str


def radius_of(texts: Sequence[str], size: float) -> float:
    """Return the radius that holds the longest text [mm]."""
    longest = max((len(text) for text in texts), default=1)
    return max(0.72 * size, math.hypot(CHARACTER * size * longest / 2, 0.36 * size) + 0.25)


def kept_apart(places: Sequence[Place], radius: float, width: float, height: float) -> list[Place]:
    """Push overlapping circles apart, step by step and always in the same way."""
    now = [(x, y) for x, y in places]
    for _ in range(ROUNDS):
        if not _push(now, 2 * radius + 0.3):
            break
        now = [
            (
                min(max(x, radius + 0.3), width - radius - 0.3),
                min(max(y, radius + 0.3), height - radius - 0.3),
            )
            for x, y in now
        ]
    return now


def _push(places: list[Place], least: float) -> bool:
    pushed = False
    for first in range(len(places)):
        for second in range(first + 1, len(places)):
            (ax, ay), (bx, by) = places[first], places[second]
            apart = math.hypot(bx - ax, by - ay)
            if apart >= least - 1e-6:
                continue
            ux, uy = ((bx - ax) / apart, (by - ay) / apart) if apart > 1e-9 else (1.0, 0.0)
            step = (least - apart) / 2
            places[first] = (ax - step * ux, ay - step * uy)
            places[second] = (bx + step * ux, by + step * uy)
            pushed = True
    return pushed


def drawn(balloons: Sequence[Balloon], size: float, width: float, height: float) -> str:
    """Draw all circles; one that had to move keeps a line to its place."""
    radius = radius_of([balloon.text for balloon in balloons], size)
    room = radius + (RING if any(balloon.ringed for balloon in balloons) else 0.0)
    moved = kept_apart([balloon.place for balloon in balloons], room, width, height)
    pairs = list(zip(balloons, moved, strict=True))
    leaders = "".join(_leader(balloon.place, at) for balloon, at in pairs)
    return leaders + "".join(_circle(balloon, at, radius, size) for balloon, at in pairs)


def _leader(place: Place, at: Place) -> str:
    if math.dist(place, at) < MOVED:
        return ""
    line: dict[str, Value] = {"x1": place[0], "y1": place[1], "x2": at[0], "y2": at[1]}
    dot = tag("circle", {"cx": place[0], "cy": place[1], "r": 0.7, "fill": INK})
    return tag("line", {**line, "stroke": INK, "stroke-width": 0.3}) + dot


def _circle(balloon: Balloon, at: Place, radius: float, size: float) -> str:
    x, y = at
    ring: dict[str, Value] = {"cx": x, "cy": y, "fill": PAPER, "stroke": INK, "stroke-width": 0.5}
    second = tag("circle", {**ring, "r": radius + RING, "stroke-width": 0.3}) if balloon.ringed else ""
    first = tag("circle", {**ring, "r": radius})
    text = words(x, y, balloon.text, size, fill=INK, font_weight="bold")
    return tag("g", {"data-part": balloon.part}, second + first + text)
