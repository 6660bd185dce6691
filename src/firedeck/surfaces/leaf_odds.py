"""How likely leaves go and stop as they did, for many faces and many lines at once."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.laying import FAR, Stations
from firedeck.surfaces.resting import Edges, Floats, rest

STICKS = np.float32(2.5)
"""A leaf sticks in a gap this much larger than itself, on average [µm]."""

LEAF_SCATTER = 3.3
"""Scatter of a leaf [µm]."""

TEXTURE = 2.3
"""Scatter of each contact of the edge, which the lever of the edge makes larger or smaller [µm]."""

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

    half: int
    lines: int
    touch: int
    near: int
    line: npt.NDArray[np.intp]
    left_at: Floats
    right_at: Floats
    sides_at: Floats
    at: Floats
    goes: Floats
    stops: Floats
    members: Floats
    nothing: Floats

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
        touch = 2 * places.half * places.lines
        along = places.along.astype(np.float32)
        left_at, right_at = along[:touch].reshape(2, places.half, places.lines, 1)
        free = places.weight.astype(np.float32)[:, None]
        members = (np.arange(places.lines)[:, None] == places.line).astype(np.float32)
        nothing = np.log(SPOILT) + members.sum(axis=1, keepdims=True) * np.log(SPOILT_ODDS)
        column = [part.astype(np.float32)[:, None] for part in (places.at, places.goes, places.stops)]
        return cls(
            half=places.half,
            lines=places.lines,
            touch=touch,
            near=int((left_at > -free).any(axis=(1, 2)).sum()),
            line=places.line,
            left_at=left_at,
            right_at=right_at,
            sides_at=along[touch:].reshape(2, -1, 1),
            at=column[0],
            goes=column[1],
            stops=column[2],
            members=members,
            nothing=nothing.astype(np.float32),
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
        left, right = heights[: self.touch].reshape(2, self.half, self.lines, -1).copy()
        left[-self.near :] -= np.float32(FAR) * (self.left_at[-self.near :] > weight)
        right[: self.near] -= np.float32(FAR) * (self.right_at[: self.near] <= weight)
        return rest(left, right, self.left_at, self.right_at)

    def honest(self, heights: Floats, weight: Floats, grit: Floats) -> Floats:
        """Logarithm of the odds of each line's readings.

        Parameters
        ----------
        heights : ndarray, shape (p, n)
            Heights at all stations [µm].
        weight : ndarray, shape (l, n)
            Place of the weight from the middle of each line [mm].
        grit : ndarray, shape (l, n)
            What lies under the left contact; under the right one where negative [µm].

        Returns
        -------
        ndarray, shape (l, n)
            Logarithm of the odds [1].

        Source
        ------
        derived
        """
        edges, of = self.edges(heights, weight), self.line
        per = 1 / np.maximum(edges.right - edges.left, np.float32(1.0))
        under_left, under_right = np.maximum(grit, 0), np.maximum(-grit, 0)
        tilt = (under_right - under_left) * per
        slope = (edges.slope + tilt)[of]
        over = (edges.height + under_left - tilt * edges.left - STICKS)[of]
        gap = over + slope * self.sides_at[0] - heights[self.touch : self.touch + len(of)]
        np.minimum(gap, over + slope * self.sides_at[1] - heights[self.touch + len(of) :], out=gap)
        right = self.at * per[of] - (edges.left * per)[of]
        lever = right * right
        right -= 1
        right *= right
        lever += right
        lever *= np.float32(TEXTURE**2)
        lever += np.float32(LEAF_SCATTER**2)
        sharp = np.float32(0.8) / np.sqrt(lever)
        odds = np.tanh((gap - self.goes) * sharp)
        odds -= np.tanh((gap - self.stops) * sharp)
        odds *= np.float32(0.5 * (1.0 - STRAY))
        odds += np.float32(STRAY * STRAY_ODDS)
        return np.asarray(self.members @ np.log(odds), dtype=np.float32)

    def odds(self, heights: Floats, weight: Floats, grit: Floats) -> Floats:
        """Logarithm of the odds of each line, also where it may say nothing; arguments as :meth:`honest`.

        Parameters
        ----------
        heights, weight, grit : ndarray
            As for :meth:`honest` [µm].

        Returns
        -------
        ndarray, shape (l, n)
            Logarithm of the odds [1].

        Source
        ------
        derived
        """
        told = np.float32(np.log1p(-SPOILT)) + self.honest(heights, weight, grit)
        return np.asarray(np.logaddexp(told, self.nothing), dtype=np.float32)

    def thrown(self, heights: Floats, weight: Floats, grit: Floats) -> Floats:
        """Odds that a line says nothing, for each face.

        Parameters
        ----------
        heights, weight, grit : ndarray
            As for :meth:`honest` [µm].

        Returns
        -------
        ndarray, shape (l, n)
            From nought to one [1].

        Source
        ------
        derived
        """
        lead = np.log1p(-SPOILT) + self.honest(heights, weight, grit) - self.nothing
        return np.asarray(1.0 / (1.0 + np.exp(np.clip(lead, -50.0, 50.0))), dtype=np.float32)
