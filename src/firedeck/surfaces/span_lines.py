"""Gaps under a short edge, as long as the span of a limit, laid over every stretch of the lines of a face."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.surfaces.allowed import Estimate
from firedeck.surfaces.book_lines import line_gaps
from firedeck.surfaces.face_model import Plan
from firedeck.surfaces.faces_allowed import Sampled
from firedeck.surfaces.laying import Laying
from firedeck.surfaces.lines import Place

ANY = "any"
"""Direction of the worst stretch, whichever way it runs."""

ON_BY = 0.25
"""Share of the span by which the short edge moves on each time [1]."""


@dataclass(frozen=True)
class SpanAllowed:
    """Largest gap of one direction under an edge as long as ``span`` [mm], each face with its own worst stretch.

    ``name`` and ``at`` are of the stretch that is worst in the middle of the faces.
    """

    span: float
    direction: str
    gap: Estimate
    name: str
    at: Place


def stretches(plan: Plan, lines: Sequence[Laying], span: float) -> tuple[Laying, ...]:
    """Lay an edge as long as the span along every line, a quarter of its length on each time.

    Parameters
    ----------
    plan : Plan
        The face [mm].
    lines : sequence of Laying
        Lines to go along; one that is shorter than the span is taken whole [mm].
    span : float
        Length of the edge [mm].

    Returns
    -------
    tuple of Laying
        Those whose ends lie on the face, outside the bores [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> plan = Plan((0.0, 0.0), (300.0, 120.0))
    >>> line = Laying("edge", (0.0, 8.0), (300.0, 8.0), 0.0, ())
    >>> [short.start[0] for short in stretches(plan, [line], 200.0)]
    [0.0, 50.0, 100.0]
    """
    return tuple(short for line in lines for short in _along(line, span) if _on_face(plan, short))


def _along(line: Laying, span: float) -> Iterator[Laying]:
    if line.length <= span:
        yield Laying(line.name, line.start, line.end, 0.0, ())
        return
    starts = np.arange(0.0, line.length - span + 1e-6, ON_BY * span)
    if line.length - span - starts[-1] > 1.0:
        starts = np.append(starts, line.length - span)
    for start in starts:
        x, y = line.places(np.array([start, start + span]))
        name = f"{line.name}, from {start:.0f} mm"
        yield Laying(name, (float(x[0]), float(y[0])), (float(x[1]), float(y[1])), 0.0, ())


def _on_face(plan: Plan, line: Laying) -> bool:
    x, y = line.places(np.array([0.0, line.length]))
    return bool(plan.on_face(x, y).all())


def span_gaps(
    sampled: Sampled, lines: Sequence[Laying], spans: Sequence[float], leaf_width: float
) -> tuple[SpanAllowed, ...]:
    """Put the faces the readings allow under a short edge on every stretch.

    Parameters
    ----------
    sampled : Sampled
        Faces the readings allow [µm].
    lines : sequence of Laying
        Lines to go along [mm].
    spans : sequence of float
        Lengths of the edge [mm].
    leaf_width : float
        Width of the leaf [mm].

    Returns
    -------
    tuple of SpanAllowed
        One for each span and direction, and one for any direction [mm].

    Valid for
    ---------
    An edge at rest with its weight in its middle.

    Source
    ------
    derived
    """
    found = []
    for span in spans:
        short = stretches(sampled.plan, lines, span)
        if not short:
            continue
        each, worst = line_gaps(sampled, short, leaf_width)
        for way in dict.fromkeys([*(one.direction for one in each), ANY]):
            first = max((one for one in each if way in (one.direction, ANY)), key=lambda one: one.gap.value)
            found.append(SpanAllowed(span, way, worst[way], first.name, first.at))
    return tuple(found)
