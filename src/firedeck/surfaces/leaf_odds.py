"""How likely leaves go and stop as they did, for many faces and many lines at once."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.laying import Stations
from firedeck.surfaces.resting import Edges, Floats, joined
from firedeck.surfaces.touching import Touching, touching

STICKS = np.float32(2.5)
"""A leaf sticks in a gap this much larger than itself, on average [µm]."""

LEAF_SCATTER = 3.0
"""Scatter of a leaf: how far it is pushed, and the texture under it [µm]."""

SLOPE = 0.8
"""tanh(0.8 x) is the sum of a normal scatter, to 0.02 [1]."""

STRAY = 0.02
"""Share of readings that say nothing."""

STRAY_ODDS = 0.1
"""Odds of any one pair of leaves where a reading says nothing."""

SPOILT = 0.01
"""Share of lines that say nothing at all."""

SPOILT_ODDS = 0.12
"""The same odds for every reading of a line that says nothing."""


@dataclass(frozen=True)
class LeafOdds:
    """Stations of all layings as arrays that broadcast over faces, the last axis of everything."""

    touching: tuple[Touching, ...]
    line: npt.NDArray[np.intp]
    sides: npt.NDArray[np.intp]
    sides_at: Floats
    goes: Floats
    stops: Floats
    members: Floats
    nothing: Floats
    readings: Floats

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
        members = (np.arange(places.lines)[:, None] == places.line).astype(np.float32)
        readings = members.sum(axis=1, keepdims=True)
        nothing = np.log(SPOILT) + readings * np.log(SPOILT_ODDS)
        return cls(
            touching=touching(places),
            line=places.line,
            sides=places.sides,
            sides_at=places.along.astype(np.float32)[places.sides][:, :, None],
            goes=places.goes.astype(np.float32)[:, None],
            stops=places.stops.astype(np.float32)[:, None],
            members=members,
            nothing=nothing.astype(np.float32),
            readings=readings,
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
        under : ndarray, shape (2, l, n), optional
            What lies under the left and under the right contact [µm].

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
            slope = slope + tilt
            height = height + under[0] - tilt * edges.left
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
        under : ndarray, shape (2, l, n)
            What lies under the left and under the right contact [µm].
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

    def of_gaps(self, gaps: Floats, blur: float = LEAF_SCATTER) -> Floats:
        """The same from the gaps.

        Parameters
        ----------
        gaps : ndarray, shape (r, n)
            Gap at every reading [µm].
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
        sharp = np.float32(SLOPE / blur)
        odds = gaps - (self.goes + STICKS)
        odds *= sharp
        np.tanh(odds, out=odds)
        stops = gaps - (self.stops + STICKS)
        stops *= sharp
        odds -= np.tanh(stops, out=stops)
        odds *= np.float32(0.5 * (1.0 - STRAY))
        odds += np.float32(STRAY * STRAY_ODDS)
        return np.asarray(self.members @ np.log(odds, out=odds), dtype=np.float32)

    def or_nothing(self, told: Floats, blur: float = LEAF_SCATTER) -> Floats:
        """Odds of each line where it may also say nothing at all.

        Parameters
        ----------
        told : ndarray, shape (l, n)
            Logarithm of the odds of lines that say something [1].
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
        nothing = self.nothing + np.float32(np.log(LEAF_SCATTER / blur)) * self.readings
        return np.asarray(np.logaddexp(told + np.float32(np.log1p(-SPOILT)), nothing), dtype=np.float32)

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

    def thrown(self, heights: Floats, weight: Floats, under: Floats) -> Floats:
        """Odds that a line says nothing, for each face.

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
        lead = np.log1p(-SPOILT) + self.honest(heights, weight, under) - self.nothing
        return np.asarray(1.0 / (1.0 + np.exp(np.clip(lead, -50.0, 50.0))), dtype=np.float32)

