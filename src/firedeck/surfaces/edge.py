"""A straightedge on a line of heights: where it lies, and the gap a leaf feels under it.

The edge is a rigid straight body. It lies on the upper hull of the line: on the one chord of the hull
that lies under its weight, on all of the hull in turn when it is rocked, or on two equal leaves at
the ends. Heights count positive out of the metal.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import numpy.typing as npt

from firedeck.errors import OutOfRange
from firedeck.surfaces.points import Array

FELT_DROP = 0.01
"""An end that falls by more than this [mm] when pressed is felt as rocking (our own assumption)."""


class Lies(StrEnum):
    """How a straightedge lies."""

    RESTS = "rests"
    ROCKS = "rocks"
    ON_END_LEAVES = "on end leaves"


@dataclass(frozen=True)
class Laid:
    """A straightedge as it lies: contact stations, its slope, the gap (n,) under it at each station.

    ``drop`` is how far its first and its last end fall when pressed [mm].
    """

    lies: Lies
    contacts: tuple[float, float]
    slope: float
    gap: Array
    drop: tuple[float, float]


def _check(stations: Array, heights: Array) -> None:
    if len(stations) != len(heights) or len(stations) < 2:
        raise OutOfRange("line", f"{len(stations)} stations", "two or more stations, a height for each")
    if not (np.diff(stations) > 0).all():
        raise OutOfRange("line", "stations that do not rise", "every station further than the one before")


def upper_hull(stations: Array, heights: Array) -> npt.NDArray[np.intp]:
    """Stations a straightedge can touch.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising [mm].
    heights : ndarray, shape (n,)
        Heights, positive out of the metal [mm].

    Returns
    -------
    ndarray of int
        Numbers of the stations on the upper hull, first and last among them [count].

    Raises
    ------
    OutOfRange
        If the stations do not rise.

    Source
    ------
    derived

    Examples
    --------
    >>> upper_hull(np.array([0.0, 1.0, 2.0, 3.0]), np.array([0.0, 0.5, 0.2, 0.0])).tolist()
    [0, 1, 3]
    """
    _check(stations, heights)
    hull: list[int] = []
    for new in range(len(stations)):
        while len(hull) >= 2:
            first, last = hull[-2], hull[-1]
            run, rise = stations[last] - stations[first], heights[last] - heights[first]
            if rise * (stations[new] - stations[first]) > run * (heights[new] - heights[first]):
                break
            hull.pop()
        hull.append(new)
    return np.array(hull, dtype=np.intp)


def gap_on_high_points(stations: Array, heights: Array) -> Array:
    """Gap under an edge that is rocked over all high points: upper hull less heights.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising [mm].
    heights : ndarray, shape (n,)
        Heights, positive out of the metal [mm].

    Returns
    -------
    ndarray, shape (n,)
        Gap, nought at the high points [mm].

    Valid for
    ---------
    Hollows. On a crown an edge lies on one chord only and shows more: :func:`lay`.

    Source
    ------
    derived

    Examples
    --------
    >>> gap_on_high_points(np.array([0.0, 50.0, 100.0]), np.array([0.0, -0.25, 0.5])).tolist()
    [0.0, 0.5, 0.0]
    """
    hull = upper_hull(stations, heights)
    gap = np.interp(stations, stations[hull], heights[hull]) - heights
    gap[hull] = 0.0
    return np.asarray(np.maximum(gap, 0.0))


def gap_under_chord(stations: Array, heights: Array, left: int, right: int) -> Array:
    """Gap under the straight line through two stations, going on beyond them.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising [mm].
    heights : ndarray, shape (n,)
        Heights, positive out of the metal [mm].
    left, right : int
        Numbers of the two stations [count].

    Returns
    -------
    ndarray, shape (n,)
        Gap, nought at the two, negative where the face stands above the line [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> gap_under_chord(np.array([0.0, 50.0, 100.0]), np.array([0.0, -0.25, 0.5]), 0, 2).tolist()
    [0.0, 0.5, 0.0]
    """
    slope = (heights[right] - heights[left]) / (stations[right] - stations[left])
    gap = heights[left] + slope * (stations - stations[left]) - heights
    gap[[left, right]] = 0.0
    return np.asarray(gap)


def lay(stations: Array, heights: Array, weight_at: float | None = None) -> Laid:
    """Lay a straightedge down: it comes to rest on the chord of the hull under its weight.

    With the weight exactly over a high point it may tip either way; the longer chord is taken.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising [mm].
    heights : ndarray, shape (n,)
        Heights, positive out of the metal [mm].
    weight_at : float, optional
        Station of its centre of gravity; the middle of the line if left out [mm].

    Returns
    -------
    Laid
        Contacts, slope, gap, and how far each end falls when pressed [mm].

    Raises
    ------
    OutOfRange
        If the weight lies beyond the line, where the edge would tip off.

    Source
    ------
    derived

    Examples
    --------
    >>> crown = np.array([-0.04, -0.01, 0.0, -0.01, -0.04])
    >>> laid = lay(np.array([0.0, 50.0, 100.0, 150.0, 200.0]), crown, weight_at=90.0)
    >>> laid.lies.value, laid.contacts, [round(float(gap), 3) for gap in laid.gap]
    ('rocks', (50.0, 100.0), [0.02, 0.0, 0.0, 0.02, 0.06])
    """
    hull = upper_hull(stations, heights)
    at = 0.5 * float(stations[0] + stations[-1]) if weight_at is None else weight_at
    if not stations[0] <= at <= stations[-1]:
        allowed = f"between {stations[0]:g} and {stations[-1]:g} mm"
        raise OutOfRange("weight of the straightedge", f"{at:g} mm", allowed)
    ends = stations[hull]
    under = np.flatnonzero((ends[:-1] <= at) & (at <= ends[1:]))
    chord = int(under[np.argmax(np.diff(ends)[under])])
    return _on_contacts(stations, heights, (int(hull[chord]), int(hull[chord + 1])))


def _on_contacts(stations: Array, heights: Array, contacts: tuple[int, int]) -> Laid:
    left, right = contacts
    slope = float((heights[right] - heights[left]) / (stations[right] - stations[left]))
    gap = np.maximum(gap_under_chord(stations, heights, left, right), 0.0)
    drop = (float(gap[0]), float(gap[-1]))
    return Laid(
        lies=Lies.ROCKS if max(drop) > FELT_DROP else Lies.RESTS,
        contacts=(float(stations[left]), float(stations[right])),
        slope=slope,
        gap=gap,
        drop=drop,
    )


def lay_on_end_leaves(stations: Array, heights: Array, leaf: float) -> Laid:
    """Lay a straightedge on two equal leaves at the ends of the line.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising [mm].
    heights : ndarray, shape (n,)
        Heights, positive out of the metal [mm].
    leaf : float
        Thickness of each of the two leaves [mm].

    Returns
    -------
    Laid
        Gap between edge and face, the leaf's thickness at the ends [mm].

    Raises
    ------
    OutOfRange
        If the leaf is not thicker than nothing, or the face touches the edge between the leaves, so
        that it does not lie on them.

    Source
    ------
    derived

    Examples
    --------
    >>> laid = lay_on_end_leaves(np.array([0.0, 50.0, 100.0]), np.array([0.0, 0.02, 0.0]), 0.05)
    >>> laid.gap.round(3).tolist()
    [0.05, 0.03, 0.05]
    """
    _check(stations, heights)
    if not leaf > 0.0:
        raise OutOfRange("end leaves", f"{leaf:g} mm", "thicker than nothing")
    slope = float((heights[-1] - heights[0]) / (stations[-1] - stations[0]))
    gap = heights[0] + leaf + slope * (stations - stations[0]) - heights
    if float(gap.min()) < 0.0:
        need = leaf - float(gap.min())
        allowed = f"leaves of {need:.3f} mm or more: the face touches between"
        raise OutOfRange("end leaves", f"{leaf:g} mm", allowed)
    ends = (float(stations[0]), float(stations[-1]))
    return Laid(Lies.ON_END_LEAVES, ends, slope, gap, (0.0, 0.0))
