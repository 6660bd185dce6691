"""Where it is worth trying a dip: beside readings, and beside dips that were taken."""

import numpy as np

from firedeck.surfaces.face_model import CELL, DipPlaces
from firedeck.surfaces.laying import Stations
from firedeck.surfaces.points import Array
from firedeck.surfaces.resting import Floats

AROUND = 12.0
"""How far from a leaf that went where no gap is a dip is tried [mm]."""


def nearness(where: DipPlaces, places: Stations) -> Floats:
    """Say how near every cell lies to every reading.

    Parameters
    ----------
    where : DipPlaces
        The cells [mm].
    places : Stations
        Stations and readings [mm].

    Returns
    -------
    ndarray
        Cells by readings, from nought to one [1].

    Source
    ------
    derived
    """
    number = np.arange(where.rows * where.columns)
    x = where.plan.low[0] + CELL * (number % where.columns + 0.5)
    y = where.plan.low[1] + CELL * (number // where.columns + 0.5)
    middle_x, middle_y = places.x[places.sides].mean(axis=0), places.y[places.sides].mean(axis=0)
    far = (x[:, None] - middle_x) ** 2 + (y[:, None] - middle_y) ** 2
    near = np.exp(np.maximum(far / (-2.0 * AROUND**2), -25.0))
    return np.vstack((near, np.zeros(len(middle_x)))).astype(np.float32)


def spread(grid: Array) -> Array:
    """Spread what lies in each row over its neighbours.

    Parameters
    ----------
    grid : ndarray, shape (m, k)
        What lies in each cell [count].

    Returns
    -------
    ndarray
        The same, a quarter of it in each neighbouring row [count].

    Source
    ------
    derived
    """
    padded = np.pad(grid, ((1, 1), (0, 0)))
    return np.asarray(0.25 * padded[:-2] + 0.5 * padded[1:-1] + 0.25 * padded[2:])
