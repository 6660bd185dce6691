"""Straightness of a line: end points, least squares and smallest zone; heights from angles of a foot."""

from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.exchange import Contacts, independent_columns, smallest_zone
from firedeck.surfaces.points import Array
from firedeck.trace import DERIVED, RUN, Figure, Step


@dataclass(frozen=True)
class Straightness:
    """How far a line is from straight, three ways; lengths in mm, stations of the contacts beside.

    ``end_point`` is the range over the line through both ends, ``deviation`` (n,) the heights over it.
    """

    end_point: float
    least_squares: float
    minimum_zone: float
    deviation: Array
    high_stations: tuple[float, ...]
    low_stations: tuple[float, ...]
    steps: tuple[Step, ...]


def heights_from_angles(angles: Array, foot: float) -> Array:
    """Heights at the ends of a foot that is stepped along a line and read as an angle at each step.

    Parameters
    ----------
    angles : ndarray, shape (n,)
        Angle of each step, positive when it rises [rad].
    foot : float
        Length of the foot, which is the length of a step [mm].

    Returns
    -------
    ndarray, shape (n + 1,)
        Heights, nought at the start [mm].

    Raises
    ------
    OutOfRange
        If the foot has no length.

    Source
    ------
    moody-1955 stepping a foot along a line

    Examples
    --------
    >>> second = np.pi / 180 / 3600
    >>> heights_from_angles(np.array([1.0, -1.0]) * second, 100.0).round(9).tolist()
    [0.0, 0.000484814, 0.0]
    """
    if not foot > 0.0:
        raise OutOfRange("foot", f"{foot:g} mm", "longer than nothing")
    return np.concatenate(([0.0], np.cumsum(foot * np.tan(angles))))


def straightness(stations: Array, heights: Array) -> Straightness:
    """Straightness of a line of heights.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising [mm].
    heights : ndarray, shape (n,)
        Heights [mm].

    Returns
    -------
    Straightness
        Range over the end-point line, over the least-squares line, and the smallest zone [mm].

    Raises
    ------
    OutOfRange
        If there are under two stations or they do not rise.

    Source
    ------
    iso-12780-1 definitions of the parameters; the exchange is derived

    Examples
    --------
    >>> found = straightness(np.arange(7.0), np.array([0.0, 0.0, 1.5, 5.0, 4.0, 4.0, 6.0]))
    >>> found.end_point, round(found.minimum_zone, 6), found.low_stations
    (3.0, 3.0, (1.0, 5.0))
    """
    if len(stations) != len(heights) or len(stations) < 2 or not (np.diff(stations) > 0).all():
        allowed = "two or more rising stations, a height for each"
        raise OutOfRange("line", f"{len(stations)} stations", allowed)
    run = stations - stations[0]
    deviation = heights - heights[0] - run * (heights[-1] - heights[0]) / run[-1]
    contacts = zone_of_line(stations, heights)
    slope, level = np.polyfit(run / run[-1], deviation, 1)
    return Straightness(
        end_point=float(np.ptp(deviation)),
        least_squares=float(np.ptp(deviation - slope * run / run[-1] - level)),
        minimum_zone=contacts.width,
        deviation=deviation,
        high_stations=_stations(stations, contacts, 1),
        low_stations=_stations(stations, contacts, -1),
        steps=_steps(stations, deviation, contacts),
    )


def zone_of_line(stations: Array, heights: Array) -> Contacts:
    """Smallest zone of a line of heights, without the written sums.

    Parameters
    ----------
    stations : ndarray, shape (n,)
        Places along the line, rising [mm].
    heights : ndarray, shape (n,)
        Heights [mm].

    Returns
    -------
    Contacts
        Who holds the zone and its width, over the least-squares line [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> round(zone_of_line(np.array([0.0, 50.0, 100.0]), np.array([0.0, -0.5, 0.0])).width, 9)
    0.5
    """
    centred = stations - stations.mean()
    basis = independent_columns(np.column_stack((np.ones(len(stations)), centred)))
    about = heights - heights.mean()
    left = about - basis @ (basis.T @ about) / len(stations)
    flat = float(np.abs(left).max()) <= 1e-13 * max(float(np.abs(heights).max()), 1e-3)
    return smallest_zone(basis, np.zeros_like(left) if flat else left)


def _stations(stations: Array, contacts: Contacts, sign: int) -> tuple[float, ...]:
    held = zip(contacts.rows, contacts.signs, strict=True)
    return tuple(float(stations[row]) for row, its in held if its == sign)


def _steps(stations: Array, deviation: Array, contacts: Contacts) -> tuple[Step, ...]:
    ends: dict[str, Figure] = {
        "highest": (float(deviation.max()), "mm"),
        "lowest": (float(deviation.min()), "mm"),
    }
    first = Step.work_out(
        "Range over the line through both ends", "highest - lowest", ends, ("end_point", "mm"), DERIVED
    )
    if not contacts.rows:
        return (first,)
    return (first, *_balance(stations, deviation, contacts))


def _balance(stations: Array, deviation: Array, contacts: Contacts) -> tuple[Step, Step]:
    heights: dict[str, Figure] = {}
    places: dict[str, Figure] = {}
    terms: list[tuple[str, str]] = []
    for number, (row, sign, weight) in enumerate(
        zip(contacts.rows, contacts.signs, contacts.weights, strict=True), start=1
    ):
        name = f"{'high' if sign > 0 else 'low'}_{number}"
        terms.append(("+" if sign > 0 else "-", name))
        heights |= {f"weight_{name}": (weight, "1"), f"height_{name}": (float(deviation[row]), "mm")}
        places |= {f"weight_{name}": (weight, "1"), f"at_{name}": (float(stations[row]), "mm")}
    source = f"{RUN}minimum-zone"
    return (
        Step.work_out(
            "Smallest zone: heights of its contact points over the end-point line, each with its weight",
            _sum("height", terms),
            heights,
            ("minimum_zone", "mm"),
            source,
        ),
        Step.work_out(
            "Balance of the contact points along the line: nothing may be left (within 0.001 mm)",
            _sum("at", terms),
            places,
            ("balance", "mm"),
            source,
        ),
    )


def _sum(what: str, terms: list[tuple[str, str]]) -> str:
    text = " ".join(f"{sign} weight_{name} * {what}_{name}" for sign, name in terms)
    return text.removeprefix("+ ")
