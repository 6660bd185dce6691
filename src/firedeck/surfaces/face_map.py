"""The face the leaves allow: heights with a band, gaps along the book's lines, what was not seen, what disagrees."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.allowed import SHARE, WEIGHTS, WIDENED, Estimate, estimate
from firedeck.surfaces.book_lines import LineAllowed, book_lines, line_gaps
from firedeck.surfaces.dips import DipFound, dips_found
from firedeck.surfaces.face_model import EDGE_TRUE_TO, Plan
from firedeck.surfaces.faces_allowed import Sampled, heights_on
from firedeck.surfaces.laying import LEAF_WIDTH, Laying
from firedeck.surfaces.misfit import Disagreement, both_looks, disagreements, in_doubt
from firedeck.surfaces.next_laying import NextLaying, next_layings
from firedeck.surfaces.points import Array
from firedeck.surfaces.posterior import FULL, PREVIEW, sample
from firedeck.surfaces.span_lines import SpanAllowed, span_gaps
from firedeck.surfaces.zones import smallest_zones
from firedeck.trace import Step

ZONES = 200
"""Faces whose smallest zone is worked out."""

WITHIN = 20.0
"""A place is seen when a leaf was tried within this distance [mm]."""

SECOND = 2
"""Where chance begins in a second look."""

RUN = "run:face-from-lines"


@dataclass(frozen=True)
class FaceMap:
    """A face from its lines: places (m, 2), heights and band (m,) over the plane that fits best [mm].

    ``seen`` (m,) tells where a leaf was tried near enough; ``worst`` is the largest gap on any line of a
    direction (along, across, diagonal, any); ``in_spans`` is the same for every span asked for; ``preview`` marks
    a first rough answer.
    """

    flatness: Estimate
    places: Array
    heights: Array
    low: Array
    high: Array
    seen: npt.NDArray[np.bool_]
    lines: tuple[LineAllowed, ...]
    worst: Mapping[str, Estimate]
    spoilt: tuple[Disagreement, ...]
    dips: tuple[DipFound, ...]
    next: tuple[NextLaying, ...]
    preview: bool
    steps: tuple[Step, ...]
    in_spans: tuple[SpanAllowed, ...] = ()


def face_from_lines(
    plan: Plan,
    layings: Sequence[Laying],
    leaves: Sequence[float],
    leaf_width: float = LEAF_WIDTH,
    *,
    edge_true_to: float = EDGE_TRUE_TO,
    preview: bool = False,
    name_next: int = 4,
    spans: Sequence[float] = (),
) -> FaceMap:
    """Work out the face that straightedge lines allow.

    Parameters
    ----------
    plan : Plan
        The face and its bores [mm].
    layings : sequence of Laying
        The lines with the leaves that go and stop [mm].
    leaves : sequence of float
        Thicknesses in the set, for the layings named next [mm].
    leaf_width : float
        Width of the leaves along the edge [mm].
    edge_true_to : float
        How hollow or crowned the edge may be at most over the longest line [mm].
    preview : bool
        True for a first rough answer at once, marked as such.
    name_next : int
        How many layings to name [count].
    spans : sequence of float
        Spans that limits are written for [mm].

    Returns
    -------
    FaceMap
        Heights, bands, gaps, what was not seen and where to lay next [mm].

    Raises
    ------
    OutOfRange
        If a line or a reading does not lie on the face.

    Valid for
    ---------
    A stiff edge, leaves of some 0.03 to 0.3 mm, faces that bend smoothly but for a few round dips.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.surfaces.verdict import LeafReading
    >>> plan = Plan((0.0, 0.0), (300.0, 120.0))
    >>> flat = tuple(LeafReading(float(at), None, 0.03) for at in range(20, 281, 20))
    >>> lines = [Laying(f"y {y}", (5.0, y), (295.0, y), 0.0, flat) for y in (8.0, 60.0, 112.0)]
    >>> found = face_from_lines(plan, lines, (0.03, 0.05, 0.10), preview=True)
    >>> found.preview, found.flatness.low < found.flatness.value < found.flatness.high
    (True, True)
    """
    effort = PREVIEW if preview else FULL
    sampled = sample(plan, layings, leaf_width, effort, edge_true_to)
    if in_doubt(sampled):
        careful = sample(plan, layings, leaf_width, effort.careful(), edge_true_to, seed=SECOND)
        sampled = both_looks(sampled, careful)
    spoilt = disagreements(sampled, leaf_width)
    bad = {one.line for one in spoilt}
    kept = [laying for laying in layings if laying.name not in bad]
    if spoilt and kept:
        sampled = sample(plan, kept, leaf_width, effort, edge_true_to)
    pick = sampled.spread_out(60 if preview else ZONES)
    zones = smallest_zones(sampled, pick, *grid(plan, *_mesh(plan, 420))) / 1000.0
    flatness = estimate(zones)
    places, heights, low, high = _map(sampled)
    every = (*layings, *book_lines(plan))
    lines, worst = line_gaps(sampled, every, leaf_width)
    return FaceMap(
        flatness=flatness,
        places=places,
        heights=heights,
        low=low,
        high=high,
        seen=_seen(places, kept),
        lines=lines,
        worst=worst,
        spoilt=spoilt,
        dips=dips_found(sampled),
        next=next_layings(sampled, leaves, pick, zones, name_next, leaf_width=leaf_width)
        if name_next
        else (),
        preview=preview,
        steps=_steps(zones),
        in_spans=span_gaps(sampled, every, spans, leaf_width),
    )


def _steps(zones: Array) -> tuple[Step, ...]:
    low, high = (float(one) for one in np.quantile(zones, SHARE))
    tenth, middle, ninth = (float(one) for one in np.quantile(zones, list(WEIGHTS)))
    return (
        Step.work_out(
            "Smallest out-of-flat by any tilt: of all faces the leaves allow the middle, and those a tenth from either end",
            "0.3 * tenth + 0.4 * middle + 0.3 * ninth",
            {"tenth": (tenth, "mm"), "middle": (middle, "mm"), "ninth": (ninth, "mm")},
            ("flatness", "mm"),
            RUN,
        ),
        Step.work_out(
            "Lower end: under 97.5 % of these faces, and a little for faces of other kinds",
            "max(lowest - widened, 0)",
            {"lowest": (low, "mm"), "widened": (WIDENED[0], "mm")},
            ("flatness_low", "mm"),
            RUN,
        ),
        Step.work_out(
            "Upper end: over 98.5 % of these faces, and a little for faces of other kinds",
            "highest + widened",
            {"highest": (high, "mm"), "widened": (WIDENED[1], "mm")},
            ("flatness_high", "mm"),
            RUN,
        ),
    )


def grid(plan: Plan, columns: int, rows: int) -> tuple[Array, Array]:
    """Places of a grid over the face, without those in bores.

    Parameters
    ----------
    plan : Plan
        The face [mm].
    columns, rows : int
        Places along and across [count].

    Returns
    -------
    tuple of ndarray
        x and y [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> len(grid(Plan((0.0, 0.0), (300.0, 120.0)), 5, 3)[0])
    15
    """
    x, y = np.meshgrid(
        np.linspace(plan.low[0], plan.high[0], columns), np.linspace(plan.low[1], plan.high[1], rows)
    )
    on = plan.on_face(x, y)
    return x[on], y[on]


def _mesh(plan: Plan, most: int) -> tuple[int, int]:
    across = max(5, round(np.sqrt(most * plan.size[1] / plan.size[0])))
    return max(5, most // across), across


def _map(sampled: Sampled) -> tuple[Array, Array, Array, Array]:
    x, y = grid(sampled.plan, *_mesh(sampled.plan, 400))
    heights = heights_on(sampled, sampled.spread_out(300), x, y)
    plane = np.column_stack((np.ones(len(x)), x, y))
    heights -= plane @ np.linalg.lstsq(plane, heights, rcond=None)[0]
    low, middle, high = np.quantile(heights, (0.025, 0.5, 0.975), axis=1) / 1000.0
    return np.column_stack((x, y)), middle, low - WIDENED[0], high + WIDENED[0]


def _seen(places: Array, kept: Sequence[Laying]) -> npt.NDArray[np.bool_]:
    seen = np.zeros(len(places), dtype=bool)
    for laying in kept:
        x, y = laying.places(np.array([reading.at for reading in laying.readings]))
        far = np.hypot(places[:, :1] - x, places[:, 1:] - y)
        seen |= far.min(axis=1, initial=np.inf) <= WITHIN
    return seen
