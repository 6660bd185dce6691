"""A dip beside a line is moved across it and made as much deeper as leaves the readings of that line as they were."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.laying import Stations
from firedeck.surfaces.points import Array
from firedeck.surfaces.resting import Floats

REACH = 2.2
"""How far beside a line a dip is put, over its size [1]."""

BEYOND = 10.0
"""How far past its last leaf a line is taken to go on [mm]."""


@dataclass(frozen=True)
class LinesRead:
    """Lines as far as leaves were tried: a point (2, l), the direction (2, l) and how far it goes both ways (2, l) [mm]."""

    point: Array
    direction: Array
    ends: Array

    @classmethod
    def of(cls, places: Stations) -> "LinesRead":
        """Take the lines from their readings.

        Parameters
        ----------
        places : Stations
            Stations and readings [mm].

        Returns
        -------
        LinesRead
            One line for each that has readings [mm].

        Source
        ------
        derived
        """
        points, directions, ends = [], [], []
        for number in np.unique(places.line):
            sides = places.sides[:, places.line == number].ravel()
            x, y, along = places.x[sides], places.y[sides], places.along[sides]
            first, last = along.argmin(), along.argmax()
            step = np.array([x[last] - x[first], y[last] - y[first]])
            points.append((x[first], y[first]))
            directions.append(step / np.hypot(*step))
            ends.append((-BEYOND, np.hypot(*step) + BEYOND))
        return cls(*(np.array(one, dtype=np.float64).T for one in (points, directions, ends)))

    def nearest(self, x: Floats, y: Floats) -> tuple[npt.NDArray[np.intp], Array]:
        """Nearest line of each place and how far to its left it lies; infinitely far where none passes by.

        Parameters
        ----------
        x, y : ndarray, shape (n,)
            Places [mm].

        Returns
        -------
        tuple of ndarray, shapes (n,)
            Number of the line [count], distance [mm].

        Source
        ------
        derived
        """
        from_x, from_y = x[:, None] - self.point[0], y[:, None] - self.point[1]
        along = from_x * self.direction[0] + from_y * self.direction[1]
        aside = from_y * self.direction[0] - from_x * self.direction[1]
        aside = np.where((along >= self.ends[0]) & (along <= self.ends[1]), aside, np.inf)
        line = np.abs(aside).argmin(axis=1)
        return line, aside[np.arange(len(line)), line]

    def across(self, dip: Floats, share: Array) -> tuple[Floats, Array, npt.NDArray[np.bool_]]:
        """Put dips elsewhere beside their nearest line, as deep as the line wants.

        Along a line a round dip d·exp(−(t² + o²)/2s²) shows its size and d·exp(−o²/2s²) and nothing else.

        Parameters
        ----------
        dip : ndarray, shape (4, n)
            Place [mm], depth [µm] and logarithm of the size of each dip.
        share : ndarray, shape (n,)
            Where to, from −1 far to the right of the line to 1 far to its left [1].

        Returns
        -------
        tuple of ndarray
            The dips (4, n); logarithm of how much deeper each is (n,), which is also that of the stretch of the step [1];
            and whether the way back is open (n,).

        Source
        ------
        derived

        Examples
        --------
        >>> lines = LinesRead(np.zeros((2, 1)), np.array([[1.0], [0.0]]), np.array([[0.0], [100.0]]))
        >>> dip = np.array([[50.0], [0.0], [40.0], [np.log(10.0)]], dtype=np.float32)
        >>> there, deeper, able = lines.across(dip, np.array([0.5]))
        >>> there[:3, 0].round().tolist(), round(float(deeper[0]), 3), bool(able[0])
        ([50.0, 11.0, 73.0], 0.605, True)
        """
        size = np.exp(dip[3])
        line, aside = self.nearest(dip[0], dip[1])
        near = np.abs(aside) <= REACH * size
        before = np.where(near, aside, 0.0)
        after = REACH * size * share
        deeper = (after**2 - before**2) / (2.0 * size**2)
        by = after - before
        there = dip.copy()
        there[0] -= by * self.direction[1][line]
        there[1] += by * self.direction[0][line]
        there[2] *= np.exp(deeper)
        same, _ = self.nearest(there[0], there[1])
        return there, deeper, near & (same == line)
