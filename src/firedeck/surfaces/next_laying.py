"""Where to lay the edge next: where the faces that are still possible disagree most, and what says how flat they are."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.face_model import Plan
from firedeck.surfaces.faces_allowed import Counts, Sampled, heights_at
from firedeck.surfaces.laying import LEAF_WIDTH, Laying, stations
from firedeck.surfaces.leaf_odds import LeafOdds
from firedeck.surfaces.lines import Place
from firedeck.surfaces.points import Array
from firedeck.surfaces.verdict import LeafReading
from firedeck.surfaces.worth_knowing import less_told, share_told

MARGIN = 4.0
"""How near to the rim a laying may end [mm]."""

STEP = 10.0
"""Distance at which leaves are tried [mm]."""

SHORT_FROM = (0.0, 0.25, 0.5)
"""Where layings over half the length begin: a long bow hides less under them [1]."""

BESIDE = 6.0
"""Room that a leaf wants between the edge and a bore [mm]."""

LONGEST_ACROSS = 300.0
LEAST_ROOM = 0.03
"""Gap that end leaves must leave for a leaf to be tried [mm]."""

NOISE = 4.0
"""Scatter of a leaf [µm]."""

BEYOND = 0.1
"""Distance to the next leaf taken beyond the thickest one [mm]."""


@dataclass(frozen=True)
class NextLaying:
    """A laying worth doing: from, to, on end leaves of what thickness (0: on the face), and its spread [µm]."""

    start: Place
    end: Place
    end_leaves: float
    spread: float


def candidates(plan: Plan) -> tuple[Laying, ...]:
    """Layings across, along and along half of the face, tried every 10 mm where there is face.

    Parameters
    ----------
    plan : Plan
        The face [mm].

    Returns
    -------
    tuple of Laying
        Layings without leaves tried [mm].

    Source
    ------
    derived
    """
    (x0, y0), (x1, y1) = plan.low, plan.high
    across = min(plan.size[1] - 2 * MARGIN, LONGEST_ACROSS)
    low, high = x0 + MARGIN, x1 - MARGIN
    found = [
        ((float(x), y), (float(x), y + across))
        for x in np.arange(x0 + 6.0, x1 - 5.0, 8.0)
        for y in _starts(y0 + MARGIN, y1 - MARGIN, across)
    ]
    spans = [(low, high)]
    if 0.5 * (high - low) > across:
        spans += [
            (float(x), float(x) + 0.5 * (high - low)) for x in low + (high - low) * np.array(SHORT_FROM)
        ]
    rows = np.arange(y0 + 6.0, y1 - 5.0, 4.0)
    found += [((first, float(y)), (last, float(y))) for first, last in spans for y in rows]
    return tuple(line for ends in found if (line := _line(plan, *ends)))


def _starts(low: float, high: float, length: float) -> list[float]:
    free = high - low - length
    count = int(free // 25.0) + 2 if free > 1.0 else 1
    return [float(low + share * free) for share in np.linspace(0.0, 1.0, count)]


def _line(plan: Plan, start: Place, end: Place) -> Laying | None:
    line = Laying("next", start, end, 0.0, ())
    at = np.arange(STEP / 2, line.length, STEP)
    x, y = line.places(np.clip(at + np.array([[-5.0], [0.0], [5.0]]), 0.0, line.length))
    aside = np.array([-1.0, 0.0, 1.0])[:, None, None] * BESIDE / line.length
    x, y = x + aside * (start[1] - end[1]), y + aside * (end[0] - start[0])
    ok = plan.on_face(x, y, BESIDE).all(axis=(0, 1))
    ends = plan.on_face(np.array([start[0], end[0]]), np.array([start[1], end[1]]))
    if not ends.all() or ok.sum() < 4:
        return None
    return replace(line, readings=tuple(LeafReading(float(one), None, None) for one in at[ok]))


def next_layings(
    sampled: Sampled,
    leaves: Sequence[float],
    pick: Counts,
    zones: Array,
    number: int = 4,
    *,
    leaf_width: float = LEAF_WIDTH,
) -> tuple[NextLaying, ...]:
    """Name the layings that tell most about the face and how flat it is, one after the other.

    Each laying named is taken as done: what it would tell is taken out of the spread of all the others.

    Parameters
    ----------
    sampled : Sampled
        Faces the readings allow [µm].
    leaves : sequence of float
        Thicknesses in the set [mm].
    pick : ndarray of int, shape (n,)
        Numbers of the faces to go by [count].
    zones : ndarray, shape (n,)
        Smallest out-of-flat of each of them [mm].
    number : int
        How many to name [count].
    leaf_width : float
        Width of the leaves [mm].

    Returns
    -------
    tuple of NextLaying
        The one that tells most first; fewer where no more lines fit on the face [mm].

    Source
    ------
    derived
    """
    lines = candidates(sampled.plan)
    if not lines:
        return ()
    lines, gaps, line = _on_leaves(sampled, lines, leaves, pick, leaf_width)
    noise = _blur(gaps, leaves)
    gaps = gaps - gaps.mean(axis=1, keepdims=True)
    flatness = 1000.0 * (zones - zones.mean())
    rows = np.split(np.arange(len(line)), np.searchsorted(line, np.arange(1, len(lines))))
    found: list[NextLaying] = []
    for _ in range(min(number, len(lines))):
        told = np.log1p((gaps**2).mean(axis=1) / noise**2)
        of_face = np.array([told[row].sum() for row in rows])
        of_flatness = np.array([share_told(flatness, gaps[row], noise[row]) for row in rows])
        best = int((_of_most(of_face) + _of_most(of_flatness)).argmax())
        mine, blur = gaps[rows[best]], noise[rows[best]]
        spread = float(np.sqrt((mine**2).mean()))
        found.append(NextLaying(lines[best].start, lines[best].end, lines[best].end_leaves, spread))
        flatness = less_told(flatness[None], mine, blur)[0]
        gaps = less_told(gaps, mine, blur)
    return tuple(found)


def _of_most(told: Array) -> Array:
    """Shares of what the best laying tells [1]."""
    most = float(told.max())
    return told / most if most > 0 else told


def _blur(gaps: Array, leaves: Sequence[float]) -> Array:
    """Scatter of what a reading tells: of the leaf, and of the gap between the leaf that goes and the one that stops."""
    steps = 1000.0 * np.array([0.0, *sorted(leaves), max(leaves) + BEYOND])
    apart = np.diff(steps)[np.clip(np.searchsorted(steps, gaps) - 1, 0, len(steps) - 2)]
    return np.asarray(np.sqrt(NOISE**2 + (apart**2).mean(axis=1) / 12.0))


def _on_leaves(
    sampled: Sampled, lines: Sequence[Laying], leaves: Sequence[float], pick: Counts, leaf_width: float
) -> tuple[tuple[Laying, ...], Array, npt.NDArray[np.intp]]:
    """Lay every candidate on the thinnest pair of leaves that leaves 0.03 mm for a leaf to be tried."""
    places = stations(sampled.plan, lines, leaf_width)
    heights = heights_at(sampled, places, pick)
    odds = LeafOdds.of(places)
    (block,) = odds.touching
    sides, left_at, right_at = block.sides(heights), block.left_at, block.right_at
    slope = (sides[1, -1] - sides[0, 0]) / (right_at[-1] - left_at[0])
    poke = np.maximum(
        (sides[0] - sides[0, 0] - slope * (left_at - left_at[0])).max(axis=0),
        (sides[1] - sides[0, 0] - slope * (right_at - left_at[0])).max(axis=0),
    )
    need = np.quantile(poke, 0.8, axis=1) / 1000.0 + LEAST_ROOM
    chosen = [min((leaf for leaf in leaves if leaf >= one), default=max(leaves)) for one in need]
    thick = 1000.0 * np.array(chosen, dtype=np.float32)[:, None]
    sides[0, 0] += thick
    sides[1, -1] += thick
    edges = odds.edges(heights, np.zeros((places.lines, len(pick)), dtype=np.float32))
    felt = odds.gaps(heights, edges)
    low, high = 1000.0 * min(leaves) - 10.0, 1000.0 * max(leaves) + 20.0
    laid = tuple(replace(one, end_leaves=float(leaf)) for one, leaf in zip(lines, chosen, strict=True))
    return laid, np.clip(felt, low, high).astype(np.float64), places.line.astype(np.intp)
