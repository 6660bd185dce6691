"""Both faces of a joint together: the gap the gasket has to fill."""

from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.exchange import first_largest
from firedeck.surfaces.flatness import Flatness, flatness
from firedeck.surfaces.interpolation import covers, heights_at, sheet
from firedeck.surfaces.lines import Place
from firedeck.surfaces.points import Array, PointsLike, as_points, one_per_place
from firedeck.trace import DERIVED, Step


@dataclass(frozen=True)
class GapField:
    """Gap between two faces at common places (m, 2), ``gap`` (m,) >= 0 and nought where they come closest.

    ``together`` is the flatness of both faces added, whose smallest zone is the largest gap.
    """

    places: Array
    gap: Array
    largest: float
    largest_at: Place
    together: Flatness
    steps: tuple[Step, ...]


def gap_field(deck: PointsLike, head: PointsLike) -> GapField:
    """Add both faces to the gap between them: gap = -(deck + head) + a constant and a tilt.

    Both faces are given in the frame of the joint, seen from above the deck, heights positive out of
    each metal towards the other part. Every set-up has a tilt of its own, so the head is tilted to
    where the gap is evenest.

    Parameters
    ----------
    deck : array_like, shape (n, 3)
        Points of the block face [mm].
    head : array_like, shape (k, 3)
        Points of the head face [mm].

    Returns
    -------
    GapField
        Gap at every point of either face that lies within the other [mm].

    Raises
    ------
    OutOfRange
        If fewer than three points are common to both faces.

    Valid for
    ---------
    Bare faces without load; between points each face runs straight.

    Source
    ------
    derived

    Examples
    --------
    >>> places = [(x, y) for x in (0, 100, 200) for y in (0, 50)]
    >>> deck = [(x, y, -0.02 * (x == 100)) for x, y in places]
    >>> head = [(x, y, -0.03 * (x == 100)) for x, y in places]
    >>> found = gap_field(deck, head)
    >>> round(found.largest, 9), round(float(found.gap.min()), 9)
    (0.05, 0.0)
    """
    deck_sheet, head_sheet = sheet(deck), sheet(head)
    places = one_per_place(np.vstack((as_points(deck), as_points(head))))[:, :2]
    places = places[covers(deck_sheet, places) & covers(head_sheet, places)]
    if len(places) < 3:
        raise OutOfRange("faces", f"{len(places)} places common to both", "at least three common places")
    added = heights_at(deck_sheet, places, "deck") + heights_at(head_sheet, places, "head")
    together = flatness(np.column_stack((places, added)))
    over = added - together.zone_plane.at(places)
    widest = first_largest(-over)
    step = Step.work_out(
        "Largest gap: highest less lowest of deck and head added, head tilted to where it is evenest",
        "highest - lowest",
        {"highest": (float(over.max()), "mm"), "lowest": (float(over[widest]), "mm")},
        ("largest_gap", "mm"),
        DERIVED,
    )
    where = (float(places[widest, 0]), float(places[widest, 1]))
    return GapField(places, over.max() - over, step.value, where, together, (*together.steps, step))
