"""A line read by steps: angles of a stepped foot, a dial between two feet, depths from a bar; and what their error does."""

from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.at_rest import resting
from firedeck.surfaces.points import Array
from firedeck.surfaces.straightness import heights_from_angles
from firedeck.trace import DERIVED, Figure, Step


@dataclass(frozen=True)
class ReadLine:
    """Heights along a line: ``stations`` (n,) rising, ``heights`` (n,) out of the metal [mm].

    ``weights`` (n, m) is how much each of the m readings counts in each height (mm per unit of the reading).
    """

    stations: Array
    heights: Array
    weights: Array


def by_angles(angles: Array, foot: float) -> ReadLine:
    """Heights at the ends of a foot that is stepped along a line and read as an angle.

    Parameters
    ----------
    angles : ndarray, shape (m,)
        Angle of each step, positive when it rises [rad].
    foot : float
        Length of the foot [mm].

    Returns
    -------
    ReadLine
        One height more than readings, nought at the start [mm].

    Raises
    ------
    OutOfRange
        If the foot has no length or there are under two steps.

    Source
    ------
    moody-1955 stepping a foot along a line

    Examples
    --------
    >>> second = np.pi / 180 / 3600
    >>> by_angles(np.array([1.0, -1.0]) * second, 100.0).heights.round(6).tolist()
    [0.0, 0.000485, 0.0]
    """
    _enough(angles, 2, "steps of the foot")
    heights = heights_from_angles(angles, foot)
    count = len(angles)
    weights = foot * np.tri(count + 1, count, -1)
    return ReadLine(foot * np.arange(count + 1.0), heights, weights)


def by_bridge(readings: Array, span: float) -> ReadLine:
    """Heights from a dial midway between two feet, moved on by half their distance each time.

    A reading is the height of the middle over the mean of both feet, with nought set on a true plate. Each
    height then obeys z[i] - (z[i-1] + z[i+1]) / 2 = reading, with both ends of the line at nought.

    Parameters
    ----------
    readings : ndarray, shape (m,)
        Height of the middle over the feet, positive out of the metal [mm].
    span : float
        Distance between the feet [mm].

    Returns
    -------
    ReadLine
        Two heights more than readings [mm].

    Raises
    ------
    OutOfRange
        If the feet are not apart or there is no reading.

    Valid for
    ---------
    Readings half a span apart along one line.

    Source
    ------
    derived

    Examples
    --------
    >>> by_bridge(np.array([-0.01, -0.01, -0.01]), 100.0).heights.round(6).tolist()
    [0.0, -0.03, -0.04, -0.03, 0.0]
    """
    if not span > 0.0:
        raise OutOfRange("foot", f"{span:g} mm", "feet apart from one another")
    _enough(readings, 1, "readings of the bridge")
    count = len(readings)
    bends = np.eye(count) - 0.5 * (np.eye(count, k=1) + np.eye(count, k=-1))
    weights = np.vstack((np.zeros(count), np.linalg.inv(bends), np.zeros(count)))
    return ReadLine(0.5 * span * np.arange(count + 2.0), weights @ readings, weights)


def by_height(stations: Array, readings: Array, *, deeper_is_more: bool = False) -> ReadLine:
    """Heights read one by one under a bar or over a plate.

    Parameters
    ----------
    stations : ndarray, shape (m,)
        Places along the line, rising [mm].
    readings : ndarray, shape (m,)
        A height each, or a depth if deeper is more [mm].
    deeper_is_more : bool
        True for a depth micrometer.

    Returns
    -------
    ReadLine
        As many heights as readings [mm].

    Raises
    ------
    OutOfRange
        If the places do not rise or there are under three.

    Source
    ------
    derived

    Examples
    --------
    >>> by_height(np.array([0.0, 50.0, 100.0]), np.array([10.0, 10.04, 10.0]), deeper_is_more=True).heights.tolist()
    [-10.0, -10.04, -10.0]
    """
    if len(stations) != len(readings) or not (np.diff(stations) > 0.0).all():
        found = f"{len(stations)} places, {len(readings)} readings"
        raise OutOfRange("readings", found, "a reading for each of the rising places")
    _enough(readings, 3, "readings")
    sign = -1.0 if deeper_is_more else 1.0
    return ReadLine(stations, sign * readings, sign * np.eye(len(readings)))


def gap_error(line: ReadLine, error: float, unit: str = "mm") -> Step:
    """How far the instrument's own error may put the largest gap of a line.

    The gap is a sum of readings, each with its weight. Readings are out by up to the error each for itself, and all
    alike by up to the error (a nought set wrongly); what is alike cancels in angles and heights, but not under a bridge.
    Of the gap as read and the gap in the middle of the whole line the one with the larger error counts.

    Parameters
    ----------
    line : ReadLine
        The line as read [mm].
    error : float
        How far one reading may be out, in its own unit [core].
    unit : str
        Unit of the readings, mm or rad [text].

    Returns
    -------
    Step
        The error of the gap, as a written sum [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> hollow = by_height(np.array([0.0, 50.0, 100.0]), np.array([0.0, -0.04, 0.0]))
    >>> round(gap_error(hollow, 0.01).value, 6)
    0.012247
    """
    shares = [weights @ line.weights for weights in _weights_of_gap(line)]
    share = max(shares, key=lambda one: float(one @ one + one.sum() ** 2))
    per_reading = ("1", "1") if unit == "mm" else ("mm²", "mm")
    figures: dict[str, Figure] = {
        "error": (error, unit),
        "squares": (float(share @ share), per_reading[0]),
        "alike": (abs(round(float(share.sum()), 9)), per_reading[1]),
    }
    return Step.work_out(
        "How far the error of the instrument may put this gap",
        "error * sqrt(squares + alike**2)",
        figures,
        ("gap_error", "mm"),
        DERIVED,
    )


def _weights_of_gap(line: ReadLine) -> tuple[Array, Array]:
    """Weights of the heights in a gap: the largest as read, and the one under the middle of the whole line.

    The second is what a line that was read as straight may have been.
    """
    way = resting(line.stations, line.heights)
    last = len(line.stations) - 1
    whole = _lever(line.stations, (0, max(1, last // 2), last))
    if way.at in (way.left, way.right):
        return whole, whole
    return _lever(line.stations, (way.left, way.at, way.right)), whole


def _lever(stations: Array, contacts: tuple[int, int, int]) -> Array:
    """Both contacts by their lever, less the place between or beyond them."""
    left, lowest, right = contacts
    along = (stations[lowest] - stations[left]) / (stations[right] - stations[left])
    weights = np.zeros(len(stations))
    weights[[left, lowest, right]] = 1.0 - along, -1.0, along
    return weights


def sag_of_edge(length: float, height: float) -> Step:
    """How far a steel edge on its narrow side sags between its ends by its own weight.

    Parameters
    ----------
    length : float
        Between the places it lies on [mm].
    height : float
        Height of the edge as it stands [mm].

    Returns
    -------
    Step
        Sag in the middle, as a written sum [mm].

    Raises
    ------
    OutOfRange
        If length or height is not positive.

    Valid for
    ---------
    An edge of even section that lies on its ends; alloy sags as much, for its weight goes with its stiffness.

    Source
    ------
    derived

    Examples
    --------
    >>> round(sag_of_edge(600.0, 40.0).value, 4)
    0.0047
    """
    if not (length > 0.0 and height > 0.0):
        raise OutOfRange("edge", f"{length:g} x {height:g} mm", "a length and a height")
    figures: dict[str, Figure] = {
        "weight": (STEEL_WEIGHT, "N/mm³"),
        "length": (length, "mm"),
        "modulus": (STEEL_MODULUS, "MPa"),
        "height": (height, "mm"),
    }
    return Step.work_out(
        "Sag of the edge by its own weight, lying on its ends",
        "5 * weight * length**4 / (32 * modulus * height**2)",
        figures,
        ("sag", "mm"),
        DERIVED,
    )


STEEL_WEIGHT = 7.7e-5
"""Weight of steel, 7850 kg/m³ [N/mm³]."""

STEEL_MODULUS = 206_000.0
"""Stiffness of steel [MPa]."""


def _enough(readings: Array, fewest: int, what: str) -> None:
    if len(readings) < fewest or not np.isfinite(readings).all():
        raise OutOfRange("readings", f"{len(readings)} {what}", f"{fewest} or more")
