"""The dip a sealing ring has to follow: heights round a circle with the plane taken out."""

from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.exchange import first_largest
from firedeck.surfaces.interpolation import heights_at, sheet
from firedeck.surfaces.lines import Place
from firedeck.surfaces.points import Array, PointsLike
from firedeck.trace import DERIVED, Step

PLACES_ROUND = 72


@dataclass(frozen=True)
class RingDip:
    """Heights round a ring over the plane that fits them best; lengths in mm, angles in rad.

    ``dip`` is highest less lowest, ``lowest_at`` and ``highest_at`` are places, ``angles`` (m,) run
    from the x axis towards y, ``heights`` (m,) are over the plane.
    """

    dip: float
    lowest_at: Place
    highest_at: Place
    angles: Array
    heights: Array
    steps: tuple[Step, ...]


def ring_dip(points: PointsLike, centre: Place, diameter: float, places: int = PLACES_ROUND) -> RingDip:
    """Dip along a sealing ring: what a ring cannot follow by lying tilted.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z of the face, positive out of the metal [mm].
    centre : tuple of float
        x and y of the middle of the ring [mm].
    diameter : float
        Diameter at which the ring seals [mm].
    places : int
        Places looked at round the ring [count].

    Returns
    -------
    RingDip
        Highest less lowest round the ring, where, and the heights [mm].

    Raises
    ------
    OutOfRange
        If the ring has no diameter, fewer than eight places, or leaves the measured points.

    Valid for
    ---------
    Dips that the points around the ring have seen; heights run straight between points.

    Source
    ------
    derived

    Examples
    --------
    >>> face = [(x, y, -1e-5 * x * x) for x in (-60, -30, 0, 30, 60) for y in (-60, 0, 60)]
    >>> found = ring_dip(face, (0.0, 0.0), 60.0)
    >>> round(found.dip, 4), abs(round(found.lowest_at[0]))
    (0.009, 30)
    """
    if not diameter > 0.0:
        raise OutOfRange("diameter of the ring", f"{diameter:g} mm", "larger than nothing")
    if places < 8:
        raise OutOfRange("places round the ring", f"{places}", "at least 8")
    angles = 2.0 * np.pi * np.arange(places) / places
    circle = np.column_stack((np.cos(angles), np.sin(angles)))
    round_it = np.asarray(centre) + 0.5 * diameter * circle
    heights = heights_at(sheet(points), round_it, "ring")
    level = heights.mean()
    tilt = 2.0 * circle.T @ heights / places
    over = heights - level - circle @ tilt
    low, high = first_largest(-over), first_largest(over)
    step = Step.work_out(
        f"Highest less lowest of {places} places round the ring, over the plane that fits them best",
        "highest - lowest",
        {"highest": (float(over[high]), "mm"), "lowest": (float(over[low]), "mm")},
        ("dip", "mm"),
        DERIVED,
    )
    return RingDip(step.value, _place(round_it[low]), _place(round_it[high]), angles, over, (step,))


def _place(row: Array) -> Place:
    return float(row[0]), float(row[1])
