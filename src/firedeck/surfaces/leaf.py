"""What a leaf of some width feels under a straightedge: the smallest gap over its width."""

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.points import Array


def _check_width(stations: Array, width: float) -> None:
    length = float(stations[-1] - stations[0])
    if not 0.0 <= width < length:
        allowed = f"0 mm or more and under the {length:g} mm of the line"
        raise OutOfRange("width of the leaf", f"{width:g} mm", allowed)


def felt_gap(stations: Array, gap: Array, at: Array, width: float) -> Array:
    """Gap a leaf feels with its middle at given stations: the smallest over its width.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising; the gap runs straight between them [mm].
    gap : ndarray, shape (n,)
        Gap under the edge [mm].
    at : ndarray, shape (m,)
        Stations of the middle of the leaf; at an end the part beyond the line feels nothing [mm].
    width : float
        Width of the leaf along the edge [mm].

    Returns
    -------
    ndarray, shape (m,)
        Gap felt, never more for a wider leaf [mm].

    Raises
    ------
    OutOfRange
        If the leaf is wider than the line or a station lies beyond it.

    Source
    ------
    derived

    Examples
    --------
    >>> line, gap = np.array([0.0, 50.0, 100.0]), np.array([0.0, 0.1, 0.0])
    >>> felt_gap(line, gap, np.array([50.0]), 10.0).round(6).tolist()
    [0.09]
    """
    _check_width(stations, width)
    if len(at) and not (stations[0] <= at.min() and at.max() <= stations[-1]):
        allowed = f"{stations[0]:g} to {stations[-1]:g} mm"
        raise OutOfRange("leaf", f"a station of {at.min():g} to {at.max():g} mm", allowed)
    ends = np.clip(np.column_stack((at - width / 2, at + width / 2)), stations[0], stations[-1])
    return _smallest_between(stations, gap, ends[:, 0], ends[:, 1])


def _smallest_between(stations: Array, gap: Array, left: Array, right: Array) -> Array:
    at_ends = np.minimum(np.interp(left, stations, gap), np.interp(right, stations, gap))
    inside = (stations[None, :] > left[:, None]) & (stations[None, :] < right[:, None])
    between = np.where(inside, gap[None, :], np.inf).min(axis=1)
    return np.asarray(np.minimum(at_ends, between))


def largest_felt_gap(stations: Array, gap: Array, width: float = 0.0) -> tuple[float, float]:
    """Largest gap a leaf of some width finds anywhere along the line.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising; the gap runs straight between them [mm].
    gap : ndarray, shape (n,)
        Gap under the edge [mm].
    width : float
        Width of the leaf along the edge; nought for the largest gap itself [mm].

    Returns
    -------
    tuple of float
        The gap and the station of the middle of the leaf [mm].

    Raises
    ------
    OutOfRange
        If the leaf is wider than the line.

    Source
    ------
    derived

    Examples
    --------
    >>> line = np.array([0.0, 40.0, 100.0])
    >>> gap, at = largest_felt_gap(line, np.array([0.0, 0.1, 0.0]), 10.0)
    >>> round(gap, 6), round(at, 6)
    (0.09, 41.0)
    """
    _check_width(stations, width)
    if width == 0.0:
        best = int(np.argmax(gap))
        return float(gap[best]), float(stations[best])
    left = _candidates(stations, gap, width)
    felt = _smallest_between(stations, gap, left, left + width)
    best = int(np.argmax(felt))
    return float(felt[best]), float(left[best] + width / 2)


def _candidates(stations: Array, gap: Array, width: float) -> Array:
    """Left ends of the leaf among which the best one is: ends of straight parts, and both ends alike."""
    marks = np.unique(np.concatenate((stations, stations - width)))
    marks = marks[(marks >= stations[0]) & (marks <= stations[-1] - width)]
    lead = np.interp(marks, stations, gap) - np.interp(marks + width, stations, gap)
    turns = np.flatnonzero(lead[:-1] * lead[1:] < 0.0)
    share = lead[turns] / (lead[turns] - lead[turns + 1])
    return np.concatenate((marks, marks[turns] + share * (marks[turns + 1] - marks[turns])))
