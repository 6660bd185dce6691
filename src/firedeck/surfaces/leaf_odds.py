"""Gaps under all edges on many faces at once, and how likely the leaves go and stop in them as they did."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.laying import Stations
from firedeck.surfaces.leaf_said import LEAF_SCATTER, SPOILT, STRAY, STRAY_ODDS, LeafSaid
from firedeck.surfaces.resting import Edges, Floats, joined
from firedeck.surfaces.touching import Touching, touching

SHORTEST_ARM = np.float32(5.0)
"""Nearest that grit and the contact beyond the weight may lie together [mm]."""


@dataclass(frozen=True)
class LeafOdds(LeafSaid):
    """Readings with the stations of their layings, as arrays that broadcast over faces, the last axis of everything."""

    touching: tuple[Touching, ...]
    sides: npt.NDArray[np.intp]
    sides_at: Floats
    half_length: Floats

    @classmethod
    def of(cls, places: Stations) -> "LeafOdds":
        """Take the stations of layings.

        Parameters
        ----------
        places : Stations
            Stations and readings [mm].

        Returns
        -------
        LeafOdds
            The same, ready for many faces [mm].

        Source
        ------
        derived
        """
        return cls(
            **vars(LeafSaid.read(places)),
            touching=touching(places),
            sides=places.sides,
            sides_at=places.along.astype(np.float32)[places.sides][:, :, None],
            half_length=places.half_length.astype(np.float32)[:, None],
        )

    def edges(self, heights: Floats, weight: Floats) -> Edges:
        """Lay every edge on every face.

        Parameters
        ----------
        heights : ndarray, shape (p, n)
            Heights at all stations [µm].
        weight : ndarray, shape (l, n)
            Place of the weight from the middle of each line [mm].

        Returns
        -------
        Edges
            How they lie [µm].

        Source
        ------
        derived
        """
        return joined([block.edges(heights, weight) for block in self.touching])

    def gaps(self, heights: Floats, edges: Edges, under: Floats | None = None) -> Floats:
        """Gap a leaf feels at every reading: the smaller one of its two sides.

        Parameters
        ----------
        heights : ndarray, shape (p, n)
            Heights at all stations [µm].
        edges : Edges
            How the edges lie [µm].
        under : ndarray, shape (4, l, n), optional
            What lies under the left and under the right contact, grit on the left (on the right where
            negative), and where it is: share of the way to the end, or at the contact where 1 or more [µm].

        Returns
        -------
        ndarray, shape (r, n)
            Gaps; below nought where a hole would let the edge through [µm].

        Source
        ------
        derived
        """
        height, slope = edges.height, edges.slope
        if under is not None:
            tilt = (under[1] - under[0]) / np.maximum(edges.right - edges.left, np.float32(1.0))
            slope, height = slope + tilt, height + under[0] - tilt * edges.left
            if under[2].any():
                other, tilt = on_grit((edges.left, edges.right), self.half_length, under[2], under[3])
                slope, height = slope + tilt, height - tilt * other
        height, slope = height[self.line], slope[self.line]
        gap = slope * self.sides_at[0]
        gap -= heights[self.sides[0]]
        slope *= self.sides_at[1]
        slope -= heights[self.sides[1]]
        np.minimum(gap, slope, out=gap)
        gap += height
        return np.asarray(gap)

    def honest(self, heights: Floats, weight: Floats, under: Floats, blur: float = LEAF_SCATTER) -> Floats:
        """Logarithm of the odds of each line's readings.

        Parameters
        ----------
        heights : ndarray, shape (p, n)
            Heights at all stations [µm].
        weight : ndarray, shape (l, n)
            Place of the weight from the middle of each line [mm].
        under : ndarray, shape (4, l, n)
            What lies under the edges, as for :meth:`gaps` [µm].
        blur : float
            Scatter the leaves are taken to have [µm].

        Returns
        -------
        ndarray, shape (l, n)
            Logarithm of the odds [1].

        Source
        ------
        derived
        """
        return self.of_gaps(self.gaps(heights, self.edges(heights, weight), under), blur)

    def odds(self, heights: Floats, weight: Floats, under: Floats, blur: float = LEAF_SCATTER) -> Floats:
        """Logarithm of the odds of each line, also where it may say nothing; arguments as :meth:`honest`.

        Parameters
        ----------
        heights, weight, under : ndarray
            As for :meth:`honest` [µm].
        blur : float
            Scatter the leaves are taken to have [µm].

        Returns
        -------
        ndarray, shape (l, n)
            Logarithm of the odds [1].

        Source
        ------
        derived
        """
        return self.or_nothing(self.honest(heights, weight, under, blur), blur)

    def too_small(self, heights: Floats, weight: Floats, under: Floats) -> Floats:
        """By how much the gap is too small for the leaf that went, on average over the faces.

        Parameters
        ----------
        heights, weight, under : ndarray
            As for :meth:`honest` [µm].

        Returns
        -------
        ndarray, shape (r,)
            Missing gap at every reading, beyond what leaves scatter [µm].

        Source
        ------
        derived
        """
        gap = self.gaps(heights, self.edges(heights, weight), under)
        missing = np.maximum(self.goes - gap - np.float32(LEAF_SCATTER), 0)
        return np.asarray(missing.mean(axis=1))

    def unlike(self, heights: Floats, weight: Floats, under: Floats) -> Floats:
        """Odds that a line says nothing, or that most of its readings do not, for each face.

        Parameters
        ----------
        heights, weight, under : ndarray
            As for :meth:`honest` [µm].

        Returns
        -------
        ndarray, shape (l, n)
            From nought to one [1].

        Source
        ------
        derived
        """
        gaps = self.gaps(heights, self.edges(heights, weight), under)
        lead = np.log1p(-SPOILT) + self.of_gaps(gaps) - self.nothing
        thrown = 1.0 / (1.0 + np.exp(np.clip(lead, -50.0, 50.0)))
        stray = self.members @ (np.float32(STRAY * STRAY_ODDS) / self.by_reading(gaps))
        return np.asarray(np.maximum(thrown, stray > 0.5 * self.readings), dtype=np.float32)


def on_grit(
    contacts: tuple[Floats, Floats], half_length: Floats, grit: Floats, spot: Floats
) -> tuple[Floats, Floats]:
    """Contact on the side without grit, and how much the grit tilts the edge about it.

    Parameters
    ----------
    contacts : tuple of ndarray
        Places of the left and of the right contact from the middle of the line [mm].
    half_length : ndarray
        Half the length of the line [mm].
    grit, spot : ndarray
        As the last two of what lies under the edges, for :meth:`LeafOdds.gaps` [µm].

    Returns
    -------
    tuple of ndarray
        Place of the other contact [mm], tilt [µm/mm].

    Source
    ------
    derived

    Examples
    --------
    >>> one = np.ones(1, dtype=np.float32)
    >>> other, tilt = on_grit((-100 * one, 100 * one), 150 * one, 40 * one, one)
    >>> float(other[0]), round(float(tilt[0]), 6)
    (100.0, -0.2)
    """
    left, right = contacts
    on_left = grit > 0
    other = np.where(on_left, right, left)
    far = np.where(spot < 1, np.where(on_left, -spot, spot) * half_length, left + right - other)
    arm = np.where(on_left, np.minimum(far - other, -SHORTEST_ARM), np.maximum(far - other, SHORTEST_ARM))
    return other, np.abs(grit) / arm
