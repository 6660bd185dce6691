"""Where edges touch many faces: every edge is laid on the places of its line that can carry it."""

from dataclasses import dataclass

import numpy as np

from firedeck.surfaces.laying import FAR, Stations
from firedeck.surfaces.resting import Edges, Floats, rest


@dataclass(frozen=True)
class Touching:
    """Lines with equally many places: ``half`` each side of the weight, from ``first`` among all stations.

    ``left_at``, ``right_at`` (m, l, 1) are the places from the middle of each line [mm]; the last ``near`` of
    the left ones and the first of the right ones may come to lie on the other side of the weight.
    """

    first: int
    lines: slice
    half: int
    near: int
    left_at: Floats
    right_at: Floats

    @property
    def last(self) -> int:
        """Number of the station after the last one [count]."""
        return self.first + self.left_at.size + self.right_at.size

    def sides(self, heights: Floats) -> Floats:
        """Heights left and right of the weight.

        Parameters
        ----------
        heights : ndarray, shape (p, n)
            Heights at all stations [µm].

        Returns
        -------
        ndarray, shape (2, m, l, n)
            The same, by side, place and line [µm].

        Source
        ------
        derived
        """
        shape = (2, self.half, self.left_at.shape[1], heights.shape[1])
        return heights[self.first : self.last].reshape(shape)

    def edges(self, heights: Floats, weight: Floats) -> Edges:
        """Lay every edge on every face.

        Parameters
        ----------
        heights : ndarray, shape (p, n)
            Heights at all stations [µm].
        weight : ndarray, shape (l, n)
            Place of the weight from the middle of each line, of all lines [mm].

        Returns
        -------
        Edges
            How they lie [µm].

        Source
        ------
        derived
        """
        left, right = self.sides(heights).copy()
        weight = weight[self.lines]
        left[-self.near :] -= np.float32(FAR) * (self.left_at[-self.near :] > weight)
        right[: self.near] -= np.float32(FAR) * (self.right_at[: self.near] <= weight)
        return rest(left, right, self.left_at, self.right_at)


def touching(places: Stations) -> tuple[Touching, ...]:
    """Take the places the edges may touch out of all stations.

    Parameters
    ----------
    places : Stations
        Stations and readings [mm].

    Returns
    -------
    tuple of Touching
        Lines that rest on the face, and lines that hang on end leaves, as far as there are any [mm].

    Source
    ------
    derived
    """
    found, first, line = [], 0, 0
    for half, lines in places.blocks:
        if lines:
            last = first + 2 * half * lines
            at = places.along[first:last].astype(np.float32).reshape(2, half, lines, 1)
            free = places.weight[line : line + lines].astype(np.float32)[:, None]
            near = int((at[0] > -free).any(axis=(1, 2)).sum())
            found.append(Touching(first, slice(line, line + lines), half, near, at[0], at[1]))
            first, line = last, line + lines
    return tuple(found)
