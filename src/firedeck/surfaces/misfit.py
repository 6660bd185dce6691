"""Lines that do not agree with the others: named, and asked for again, never averaged in."""

from dataclasses import dataclass, replace

import numpy as np

from firedeck.surfaces.faces_allowed import Sampled, heights_at
from firedeck.surfaces.laying import LEAF_WIDTH, Laying, stations
from firedeck.surfaces.leaf_odds import LeafOdds
from firedeck.surfaces.points import Array
from firedeck.surfaces.verdict import LeafReading

THROWN = 0.08
"""A line that more than this share of the faces wants grit under, or thrown away, in each of two looks, is spoilt."""

FACES = 100


@dataclass(frozen=True)
class Disagreement:
    """A line that disagrees, by how much at most [mm] and where along it, and the line it crosses there."""

    line: str
    other: str | None
    by: float
    at: float

    @property
    def says(self) -> str:
        """The disagreement in words."""
        if self.other is None:
            return f"{self.line} disagrees with all other lines by {self.by:.2f} mm: clean and lay again"
        return (
            f"{self.line} and {self.other} disagree by {self.by:.2f} mm where they cross: clean and lay again"
        )


def in_doubt(sampled: Sampled) -> bool:
    """Say whether some line may be spoilt, so that a careful look is worth its time.

    Whether a line stood on grit is one yes or no, which faces that replace each other can settle too soon.

    Parameters
    ----------
    sampled : Sampled
        Faces the readings allow [µm].

    Returns
    -------
    bool
        True where some line may be spoilt.

    Source
    ------
    derived
    """
    return bool(max(sampled.spoilt) > THROWN)


def both_looks(first: Sampled, careful: Sampled) -> Sampled:
    """Take the faces of a careful look; a line is as doubtful as both looks say at least.

    Two looks seldom settle on the same wrong line.

    Parameters
    ----------
    first, careful : Sampled
        Faces the same readings allow, from two beginnings [µm].

    Returns
    -------
    Sampled
        The second one, with the lesser doubt of every line [1].

    Source
    ------
    derived
    """
    return replace(careful, spoilt=np.minimum(first.spoilt, careful.spoilt))


def disagreements(sampled: Sampled, leaf_width: float = LEAF_WIDTH) -> tuple[Disagreement, ...]:
    """Name the lines that the faces allowed by all the others do not explain.

    Parameters
    ----------
    sampled : Sampled
        Faces the readings allow; a spoilt line has no say in them [µm].
    leaf_width : float
        Width of the leaves [mm].

    Returns
    -------
    tuple of Disagreement
        One for each spoilt line [mm].

    Source
    ------
    derived
    """
    bad = [number for number, share in enumerate(sampled.spoilt) if share > THROWN]
    return tuple(_named(sampled, number, leaf_width) for number in bad)


def _named(sampled: Sampled, number: int, leaf_width: float) -> Disagreement:
    line = sampled.layings[number]
    off = np.abs(_off(sampled, line, leaf_width))
    at = np.array([reading.at for reading in line.readings])
    crossed = [
        (station, other.name) for other in sampled.layings if (station := _crossing(line, other)) is not None
    ]
    if not crossed:
        worst = int(off.argmax())
        return Disagreement(line.name, None, float(off[worst]), float(at[worst]))
    by, station, name = max(
        (float(off[np.abs(at - station).argmin()]), station, name) for station, name in crossed
    )
    return Disagreement(line.name, name, by, station)


def _off(sampled: Sampled, line: Laying, leaf_width: float) -> Array:
    """Gap that was read less gap that the other lines allow, at every reading [mm]."""
    places = stations(sampled.plan, [line], leaf_width)
    leaves = LeafOdds.of(places)
    heights = heights_at(sampled, places, sampled.spread_out(FACES))
    heights += np.maximum(places.raised, 0.0).astype(np.float32)[:, None]
    edges = leaves.edges(heights, np.zeros((1, FACES), dtype=np.float32))
    gap = leaves.gaps(heights, edges)
    allowed = np.median(gap, axis=1) / 1000.0
    pairs = zip(line.readings, allowed, strict=True)
    return np.array([_between(reading, float(one)) - float(one) for reading, one in pairs])


def _between(reading: LeafReading, allowed: float) -> float:
    """Gap between the leaves that is nearest to what is allowed [mm]."""
    low = 0.0 if reading.goes is None else reading.goes
    return max(allowed, low) if reading.stops is None else min(max(allowed, low), reading.stops)


def _crossing(line: Laying, other: Laying) -> float | None:
    """Station at which another line crosses this one, if it does [mm]."""
    way = np.subtract(line.end, line.start)
    side = np.subtract(other.end, other.start)
    across = way[0] * side[1] - way[1] * side[0]
    if abs(across) < 1e-9 * line.length * other.length:
        return None
    off = np.subtract(other.start, line.start)
    share = (off[0] * side[1] - off[1] * side[0]) / across
    theirs = (off[0] * way[1] - off[1] * way[0]) / across
    return float(share * line.length) if 0.0 <= share <= 1.0 and 0.0 <= theirs <= 1.0 else None
