"""Gaps under a true edge on the book's lines, as the faces that are allowed have them."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from firedeck.surfaces.allowed import Estimate, estimate
from firedeck.surfaces.face_model import Plan
from firedeck.surfaces.faces_allowed import Sampled, heights_at
from firedeck.surfaces.laying import Laying, stations
from firedeck.surfaces.leaf_odds import LeafOdds
from firedeck.surfaces.lines import Place
from firedeck.surfaces.points import Array
from firedeck.surfaces.verdict import LeafReading

BOOK_MARGIN = 8.0
"""How far inside the rim a book lays the edge [mm]."""

FACES = 250


@dataclass(frozen=True)
class LineAllowed:
    """Largest gap under a true edge at rest on one line, as the faces allow; ``laid`` if it is a line of the readings."""

    name: str
    direction: str
    gap: Estimate
    at: Place
    laid: bool


def direction(start: Place, end: Place) -> str:
    """Say which way a line runs.

    Parameters
    ----------
    start, end : tuple of float
        Ends of the line [mm].

    Returns
    -------
    str
        along, across or diagonal [text].

    Source
    ------
    common-practice

    Examples
    --------
    >>> direction((0.0, 8.0), (400.0, 8.0)), direction((10.0, 0.0), (10.0, 150.0))
    ('along', 'across')
    """
    along, across = abs(end[0] - start[0]), abs(end[1] - start[1])
    if across <= 0.1 * along:
        return "along"
    return "across" if along <= 0.5 * across else "diagonal"


def book_lines(plan: Plan) -> tuple[Laying, ...]:
    """Lines a book lays: both edges and the middle, both diagonals, both ends and every bridge.

    Parameters
    ----------
    plan : Plan
        The face [mm].

    Returns
    -------
    tuple of Laying
        Lines whose ends are face [mm].

    Source
    ------
    common-practice

    Examples
    --------
    >>> [line.name for line in book_lines(Plan((0.0, 0.0), (300.0, 120.0)))][:3]
    ['along, front edge', 'along, middle', 'along, rear edge']
    """
    (x0, y0), (x1, y1) = (plan.low, plan.high)
    left, right, near, far = x0 + BOOK_MARGIN, x1 - BOOK_MARGIN, y0 + BOOK_MARGIN, y1 - BOOK_MARGIN
    lines = {
        "along, front edge": ((left, near), (right, near)),
        "along, middle": ((left, plan.middle[1]), (right, plan.middle[1])),
        "along, rear edge": ((left, far), (right, far)),
        "diagonal 1": ((left, near), (right, far)),
        "diagonal 2": ((left, far), (right, near)),
        "across, first end": ((left, near), (left, far)),
        "across, last end": ((right, near), (right, far)),
    }
    middles = sorted(bore.x for bore in plan.bores)
    for number, (one, other) in enumerate(pairwise(middles), 1):
        x = 0.5 * (one + other)
        lines[f"across, bridge {number}"] = ((x, near), (x, far))
    return tuple(
        Laying(name, start, end, 0.0, ())
        for name, (start, end) in lines.items()
        if plan.on_face(np.array([start[0], end[0]]), np.array([start[1], end[1]])).all()
    )


def line_gaps(
    sampled: Sampled, lines: Sequence[Laying], leaf_width: float
) -> tuple[tuple[LineAllowed, ...], dict[str, Estimate]]:
    """Put the faces through the resting rule: largest gap a leaf feels under a true edge on each line.

    Parameters
    ----------
    sampled : Sampled
        Faces the readings allow [µm].
    lines : sequence of Laying
        Lines; end leaves are left out, the weight is in the middle [mm].
    leaf_width : float
        Width of the leaf [mm].

    Returns
    -------
    tuple of LineAllowed, dict of Estimate
        One for each line, and the largest of each direction and of any [mm].

    Source
    ------
    derived
    """
    tried = [_tried_everywhere(sampled.plan, line) for line in lines]
    places = stations(sampled.plan, tried, leaf_width)
    heights = heights_at(sampled, places, sampled.spread_out(FACES))
    odds = LeafOdds.of(places)
    edges = odds.edges(heights, np.zeros((places.lines, FACES), dtype=np.float32))
    gaps = np.maximum(odds.gaps(heights, edges), 0.0) / 1000.0
    found = []
    largest: dict[str, list[Array]] = {"any": []}
    for number, line in enumerate(lines):
        mine = gaps[places.line == number]
        worst = tried[number].readings[int(mine.mean(axis=1).argmax())].at
        x, y = line.places(np.array([worst]))
        most = mine.max(axis=0).astype(np.float64)
        allowed = estimate(most)
        way = direction(line.start, line.end)
        for word in (way, "any"):
            largest.setdefault(word, []).append(most)
        found.append(LineAllowed(line.name, way, allowed, (float(x[0]), float(y[0])), bool(line.readings)))
    return tuple(found), {word: estimate(np.max(gaps, axis=0)) for word, gaps in largest.items()}


def _tried_everywhere(plan: Plan, line: Laying) -> Laying:
    at = np.arange(5.0, line.length - 4.9, 7.0)
    on = plan.on_face(*line.places(at - 5.0)) & plan.on_face(*line.places(at + 5.0))
    at = at[on] if on.any() else at[:1]
    return Laying(
        line.name, line.start, line.end, 0.0, tuple(LeafReading(float(one), None, None) for one in at)
    )
