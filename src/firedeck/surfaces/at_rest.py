"""The largest gap under an edge at rest on a measured line: on a chord under its weight, or held level on a crown."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.edge import gap_under_chord, upper_hull
from firedeck.surfaces.lines import Place, Profile
from firedeck.surfaces.points import Array
from firedeck.trace import DERIVED, Step

Numbers = npt.NDArray[np.intp]

OFF_MIDDLE, SHARE_OFF = 20.0, 0.1
"""How far the weight of an edge may lie off the middle of the line: so many mm, and no more than this share of it [1]."""


@dataclass(frozen=True)
class LineGap:
    """The largest gap under the edge on one line, where it is, and the written sum."""

    name: str
    gap: float
    station: float
    place: Place
    step: Step


@dataclass(frozen=True)
class Resting:
    """How the edge lies, and its largest gap [mm].

    On a chord it touches at ``left`` and ``right`` and the gap is largest at ``at``. ``on_top`` it rocks on ``at``, and held
    level its largest gaps on either side, at ``left`` and ``right``, are alike. All three are numbers of stations.
    """

    gap: float
    left: int
    at: int
    right: int
    on_top: bool

    @property
    def worst(self) -> int:
        """Number of the station with the largest gap; of two that are alike the first [count]."""
        return self.left if self.on_top else self.at


def resting(stations: Array, heights: Array) -> Resting:
    """Lay an edge on a line: of the ways it can rest the one a hand steadies, with the least largest gap.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising [mm].
    heights : ndarray, shape (n,)
        Heights, positive out of the metal [mm].

    Returns
    -------
    Resting
        Contacts and largest gap; never less than the gap of an edge rocked over all its high points [mm].

    Raises
    ------
    OutOfRange
        If the stations do not rise or there are under two.

    Valid for
    ---------
    An edge as long as the line, its weight within 20 mm and a tenth of the line about the middle.

    Source
    ------
    derived

    Examples
    --------
    >>> crown = np.array([0.0, 0.09, 0.12, 0.09, 0.0])
    >>> found = resting(np.arange(5) * 100.0, crown)
    >>> found.gap, found.on_top
    (0.12, True)
    """
    return min(_ways(stations, heights), key=lambda way: way.gap)


def _ways(stations: Array, heights: Array) -> Iterator[Resting]:
    hull = upper_hull(stations, heights)
    middle, length = 0.5 * (stations[0] + stations[-1]), stations[-1] - stations[0]
    off = min(OFF_MIDDLE, SHARE_OFF * length)
    ends = stations[hull]
    slopes = np.diff(heights[hull]) / np.diff(ends)
    for chord in np.flatnonzero((ends[:-1] <= middle + off) & (ends[1:] >= middle - off)):
        yield _on_chord(stations, heights, int(hull[chord]), int(hull[chord + 1]))
    lower = upper_hull(stations, -heights)
    for number in range(1, len(hull) - 1):
        if abs(ends[number] - middle) <= off:
            held = _on_top(stations, heights, int(hull[number]), lower)
            tilt = (heights[held.right] - heights[held.left]) / (stations[held.right] - stations[held.left])
            if slopes[number] <= tilt <= slopes[number - 1]:
                yield held


def _on_chord(stations: Array, heights: Array, left: int, right: int) -> Resting:
    gap = gap_under_chord(stations, heights, left, right)
    worst = int(gap.argmax())
    if worst in (left, right):
        return Resting(0.0, left, left, right, on_top=False)
    return Resting(float(gap[worst]), left, worst, right, on_top=False)


def _on_top(stations: Array, heights: Array, top: int, lower: Numbers) -> Resting:
    """Tilt an edge on a high point until its largest gaps on both sides are alike: parallel to the low places below it."""
    place = int(np.searchsorted(lower, top))
    left, right = int(lower[place - 1]), int(lower[place])
    share = (stations[top] - stations[left]) / (stations[right] - stations[left])
    gap = heights[top] - heights[left] - share * (heights[right] - heights[left])
    return Resting(float(gap), left, top, right, on_top=True)


def rest_gap(profile: Profile) -> LineGap:
    """Largest gap under an edge at rest on one line, with its written sum.

    Parameters
    ----------
    profile : Profile
        Heights along the line [mm].

    Returns
    -------
    LineGap
        Gap, station, place and the written sum [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> stations, crown = np.array([0.0, 50.0, 100.0]), np.array([0.0, 0.05, 0.0])
    >>> rest_gap(Profile("edge", (0.0, 0.0), (100.0, 0.0), stations, crown)).gap
    0.05
    """
    stations = profile.stations
    over = profile.heights - np.interp(stations, stations[[0, -1]], profile.heights[[0, -1]])
    way = resting(stations, over)
    step = _as_written(profile.name, stations, over, way)
    station = float(stations[way.worst])
    return LineGap(profile.name, step.value, station, profile.place(station), step)


def _as_written(name: str, stations: Array, over: Array, way: Resting) -> Step:
    chord = "from_height + (to_height - from_height) * (at - from_at) / (to_at - from_at)"
    lies = (
        "on the high point it rocks on, held level: as far off the line on either side"
        if way.on_top
        else "at rest on the two high points under its weight"
    )
    return Step.work_out(
        f"Gap under the edge {lies}, heights over the line through both ends, {name}",
        f"height - ({chord})" if way.on_top else f"{chord} - height",
        {
            "from_at": (float(stations[way.left]), "mm"),
            "from_height": (float(over[way.left]), "mm"),
            "to_at": (float(stations[way.right]), "mm"),
            "to_height": (float(over[way.right]), "mm"),
            "at": (float(stations[way.at]), "mm"),
            "height": (float(over[way.at]), "mm"),
        },
        ("gap", "mm"),
        DERIVED,
    )
