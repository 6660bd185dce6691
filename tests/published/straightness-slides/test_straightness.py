"""A line stepped with a foot: heights from angles and three measures of straightness."""

from math import pi

import numpy as np
import pytest
from cases import Row, published

from firedeck.surfaces.straightness import heights_from_angles, straightness

ARCSEC = pi / 180 / 3600


def heights(row: Row) -> np.ndarray:
    """Heights in um, nought at the start: the first reading is that of station 0."""
    seconds = np.array([float(cell) for cell in row["seconds"].split("/")])
    over = seconds[1:] - seconds[0]
    if row["um_per_arcsec"] == "true":
        return heights_from_angles(over * ARCSEC, 100.0) * 1000
    return np.concatenate(([0.0], np.cumsum(over * float(row["um_per_arcsec"]))))


@published(__file__, "lines.csv")
def test_straightness(row: Row) -> None:
    found = straightness(np.arange(7.0), heights(row))
    assert getattr(found, row["measure"]) == pytest.approx(
        float(row["expected"]), abs=float(row["tolerance"])
    )


@published(__file__, "lines.csv", where=lambda row: row["measure"] == "minimum_zone")
def test_contacts_are_low_high_low(row: Row) -> None:
    found = straightness(np.arange(7.0), heights(row))
    assert (found.low_stations, found.high_stations) == ((1.0, 5.0), (3.0,))


@published(__file__, "rise.csv")
def test_rise_of_a_foot(row: Row) -> None:
    rise = heights_from_angles(np.array([float(row["arcsec"]) * ARCSEC]), float(row["foot"]))[-1] * 1000
    assert rise == pytest.approx(float(row["rise_um"]), abs=float(row["tolerance"]))
