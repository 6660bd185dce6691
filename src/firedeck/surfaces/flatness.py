"""Flatness of measured points: smallest zone, least squares and plain range, with the proof."""

from dataclasses import dataclass

from firedeck.surfaces.exchange import Contacts
from firedeck.surfaces.plane import LeastSquares, Plane, least_squares_plane, smallest_zone_plane
from firedeck.surfaces.points import Array, PointsLike, as_points, extent
from firedeck.trace import DERIVED, RUN, Figure, Note, Step

_SOURCE = f"{RUN}minimum-zone"
Point = tuple[float, float, float]


@dataclass(frozen=True)
class Flatness:
    """How far measured points are from a plane; lengths in mm.

    ``minimum_zone`` is the smallest out-of-flat by any tilt, ``least_squares`` the highest less the
    lowest over the least-squares plane, ``least_squares_peak`` and ``least_squares_valley`` its two
    parts (both positive), ``rms`` the root mean square over that plane, ``range`` the highest less
    the lowest as measured. ``plane`` is the least-squares plane, ``zone_plane`` the middle of the
    smallest zone. ``high_points`` and ``low_points`` hold the zone.
    """

    minimum_zone: float
    least_squares: float
    least_squares_peak: float
    least_squares_valley: float
    rms: float
    range: float
    plane: Plane
    zone_plane: Plane
    high_points: tuple[Point, ...]
    low_points: tuple[Point, ...]
    steps: tuple[Step, ...]
    notes: tuple[Note, ...] = ()


def flatness(points: PointsLike) -> Flatness:
    """Flatness of a face from measured points.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z, positive out of the metal [mm].

    Returns
    -------
    Flatness
        Every usual measure of flatness, the contact points and the written sums [mm].

    Raises
    ------
    OutOfRange
        If there are fewer than three points or a figure is not finite.

    Valid for
    ---------
    Heights small against the extent: distances are taken along z, which for a slope of 1 mm in
    100 mm is 0.005 % too much.

    Source
    ------
    iso-12781-1 definitions of the parameters; the exchange is derived

    Examples
    --------
    >>> hollow = [(0, 0, 0.0), (200, 0, -0.05), (400, 0, 0.0), (200, 100, -0.03), (200, -100, -0.03)]
    >>> found = flatness(hollow)
    >>> round(found.minimum_zone, 6), found.high_points, found.low_points
    (0.05, ((0.0, 0.0, 0.0), (400.0, 0.0, 0.0)), ((200.0, 0.0, -0.05),))
    """
    array = as_points(points)
    fitted = least_squares_plane(array)
    contacts, zone_plane = smallest_zone_plane(array, fitted.left)
    peak, valley = float(fitted.left.max()), -float(fitted.left.min())
    square_sum = float(fitted.left @ fitted.left)
    spread = _spread_steps(peak, valley, square_sum, array)
    return Flatness(
        minimum_zone=contacts.width,
        least_squares=spread[0].value,
        least_squares_peak=peak,
        least_squares_valley=valley,
        rms=spread[1].value,
        range=spread[2].value,
        plane=fitted.plane,
        zone_plane=zone_plane,
        high_points=_touching(array, contacts, 1),
        low_points=_touching(array, contacts, -1),
        steps=(*_proof(array, fitted, contacts), *fitted.steps, *spread),
        notes=_notes(fitted),
    )


def _notes(fitted: LeastSquares) -> tuple[Note, ...]:
    if fitted.spans:
        return ()
    says = "all points lie on one line: this is the straightness of that line, not of a face"
    return (Note(says, DERIVED),)


def _touching(points: Array, contacts: Contacts, sign: int) -> tuple[Point, ...]:
    return tuple(
        (float(points[row, 0]), float(points[row, 1]), float(points[row, 2]))
        for row, its in zip(contacts.rows, contacts.signs, strict=True)
        if its == sign
    )


def _spread_steps(peak: float, valley: float, square_sum: float, points: Array) -> tuple[Step, Step, Step]:
    return (
        Step.work_out(
            "Highest and lowest over the least-squares plane",
            "peak + valley",
            {"peak": (peak, "mm"), "valley": (valley, "mm")},
            ("least_squares", "mm"),
            DERIVED,
        ),
        Step.work_out(
            "Root mean square over the least-squares plane",
            "sqrt(sum_of_squares / points)",
            {"sum_of_squares": (square_sum, "mm²"), "points": (float(len(points)), "1")},
            ("rms", "mm"),
            DERIVED,
        ),
        Step.work_out(
            "Highest less lowest as measured",
            "highest - lowest",
            {"highest": (float(points[:, 2].max()), "mm"), "lowest": (float(points[:, 2].min()), "mm")},
            ("range", "mm"),
            DERIVED,
        ),
    )


def _proof(points: Array, fitted: LeastSquares, contacts: Contacts) -> tuple[Step, ...]:
    """Write the zone as the balance of its contact points, and show that no point stands outside it."""
    if not contacts.rows:
        flat = {"highest": (0.0, "mm"), "lowest": (0.0, "mm")}
        says = "All points lie in the least-squares plane"
        return (Step.work_out(says, "highest - lowest", flat, ("minimum_zone", "mm"), _SOURCE),)
    labels = _labels(contacts)
    zone = _weighted("height", fitted.left, "mm", contacts, labels)
    over = fitted.left - contacts.fit
    return (
        Step.work_out(
            "Smallest zone: heights of its contact points over the least-squares plane, each with its weight",
            *zone,
            ("minimum_zone", "mm"),
            _SOURCE,
        ),
        *(
            Step.work_out(
                f"Balance of the contact points along {axis}: nothing may be left "
                f"(within {1e-6 * extent(points):.1g} mm)",
                *_weighted(axis, points[:, column], "mm", contacts, labels),
                (f"balance_{axis}", "mm"),
                _SOURCE,
            )
            for column, axis in enumerate("xy")
        ),
        Step.work_out(
            f"No point stands outside the zone: nothing may be left (within {3e-6 * contacts.width:.1g} mm)",
            "highest - lowest - minimum_zone",
            {
                "highest": (float(over.max()), "mm"),
                "lowest": (float(over.min()), "mm"),
                "minimum_zone": (contacts.width, "mm"),
            },
            ("outside", "mm"),
            _SOURCE,
        ),
    )


def _labels(contacts: Contacts) -> tuple[str, ...]:
    counted = {1: 0, -1: 0}
    labels = []
    for sign in contacts.signs:
        counted[sign] += 1
        labels.append(f"{'high' if sign > 0 else 'low'}_{counted[sign]}")
    return tuple(labels)


def _weighted(
    what: str, values: Array, unit: str, contacts: Contacts, labels: tuple[str, ...]
) -> tuple[str, dict[str, Figure]]:
    """Formula and inputs of: weighted sum of the highs less that of the lows."""
    formula = ""
    inputs: dict[str, Figure] = {}
    for row, sign, weight, label in zip(contacts.rows, contacts.signs, contacts.weights, labels, strict=True):
        sum_sign = ("" if not formula else " + ") if sign > 0 else " - "
        formula += f"{sum_sign}weight_{label} * {what}_{label}"
        inputs[f"weight_{label}"] = (weight, "1")
        inputs[f"{what}_{label}"] = (float(values[row]), unit)
    return formula.strip(), inputs
