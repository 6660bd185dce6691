"""How likely leaves go and stop as they did where the gaps are known, for many faces and many lines at once."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.laying import Stations
from firedeck.surfaces.resting import Floats

STICKS = np.float32(2.5)
"""A leaf sticks in a gap this much larger than itself, on average [µm]."""

LEAF_SCATTER = 3.0
"""Scatter of a leaf: how far it is pushed, and the texture under it [µm]."""

SLOPE = 0.8
"""tanh(0.8 x) is the sum of a normal scatter, to 0.02 [1]."""

MOST = 80.0
"""Beyond this a leaf goes or stops for certain; exp of more would not fit a number of single precision [1]."""

TOGETHER = 8
"""Readings whose odds are multiplied before a logarithm is taken [count]."""

STRAY = 0.003
"""Share of readings that say nothing."""

STRAY_ODDS = 0.1
"""Odds of any one pair of leaves where a reading says nothing."""

SPOILT = 0.01
"""Share of lines that say nothing at all."""

SPOILT_ODDS = 0.12
"""The same odds for every reading of a line that says nothing."""


@dataclass(frozen=True)
class LeafSaid:
    """Readings as arrays that broadcast over faces: ``goes``, ``stops`` (r, 1) of the line ``line`` (r,).

    Where none goes ``goes`` is a little below nought. ``members`` (l, r) adds readings up by line, ``nothing``
    (l, 1) is what they are worth on a line that says nothing, ``together`` takes them in groups and
    ``few_of_line`` adds groups up by line.
    """

    line: npt.NDArray[np.intp]
    goes: Floats
    stops: Floats
    members: Floats
    nothing: Floats
    readings: Floats
    together: tuple[npt.NDArray[np.intp], ...]
    few_of_line: Floats

    @classmethod
    def read(cls, places: Stations) -> "LeafSaid":
        """Take the readings of layings.

        Parameters
        ----------
        places : Stations
            Stations and readings [mm].

        Returns
        -------
        LeafSaid
            The same, ready for many faces [µm].

        Source
        ------
        derived
        """
        members = (np.arange(places.lines)[:, None] == places.line).astype(np.float32)
        readings = members.sum(axis=1, keepdims=True)
        nothing = np.log(SPOILT) + readings * np.log(SPOILT_ODDS)
        goes, stops = (one.astype(np.float32)[:, None] for one in (places.goes, places.stops))
        together = _together(places.line)
        return cls(
            line=places.line,
            goes=goes,
            stops=stops,
            members=members,
            nothing=nothing.astype(np.float32),
            readings=readings,
            together=together,
            few_of_line=np.ascontiguousarray(members[:, together[0]]),
        )

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
        return self._by_line(self.by_reading(gaps, blur))

    def by_reading(self, gaps: Floats, blur: float = LEAF_SCATTER) -> Floats:
        """Odds of every reading from the gaps.

        Parameters
        ----------
        gaps : ndarray, shape (r, n)
            Gap at every reading [µm].
        blur : float
            Scatter the leaves are taken to have [µm].

        Returns
        -------
        ndarray, shape (r, n)
            Odds [1].

        Source
        ------
        derived
        """
        below, odds = self._below(gaps, blur)
        odds -= below
        odds *= np.float32(1.0 - STRAY)
        odds += np.float32(STRAY * STRAY_ODDS)
        return odds

    def told_and_pull(self, gaps: Floats, blur: float = LEAF_SCATTER) -> tuple[Floats, Floats]:
        """Logarithm of the odds of each line's readings, and what it gains per µm of each gap.

        Parameters
        ----------
        gaps : ndarray, shape (r, n)
            Gap at every reading [µm].
        blur : float
            Scatter the leaves are taken to have [µm].

        Returns
        -------
        tuple of ndarray, shapes (l, n) and (r, n)
            Logarithm of the odds [1], its slope [1/µm].

        Source
        ------
        derived
        """
        below, odds = self._below(gaps, blur)
        pull = np.float32(1.0) - below
        pull -= odds
        odds -= below
        pull *= odds
        odds *= np.float32(1.0 - STRAY)
        pull *= np.float32(-2.0 * SLOPE / blur * (1.0 - STRAY))
        odds += np.float32(STRAY * STRAY_ODDS)
        pull /= odds
        return self._by_line(odds), pull

    def _below(self, gaps: Floats, blur: float) -> tuple[Floats, Floats]:
        """Odds that the gap as felt is below the leaf that goes, and below the one that stops (r, n).

        Both are 1/(1 + e^2x): one exp does for the two, which is most of the time a face takes.
        """
        sharp = 2.0 * SLOPE / blur
        wide = sharp * (self.stops - self.goes)
        felt = _grown(gaps, self.goes, sharp)
        stops = felt * np.exp(np.maximum(-wide, -MOST))
        far = np.flatnonzero(wide[:, 0] > 0.5 * MOST)
        stops[far] = _grown(gaps[far], self.stops[far], sharp)
        felt += np.float32(1.0)
        stops += np.float32(1.0)
        return np.divide(np.float32(1.0), felt, out=felt), np.divide(np.float32(1.0), stops, out=stops)

    def _by_line(self, odds: Floats) -> Floats:
        """Logarithm of the product of the odds of each line's readings (l, n); up to eight before a logarithm."""
        few = odds[self.together[0]]
        for rows in self.together[1:]:
            few[: len(rows)] *= odds[rows]
        return np.asarray(self.few_of_line @ np.log(few, out=few), dtype=np.float32)

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


def _grown(gaps: Floats, leaf: Floats, sharp: float) -> Floats:
    """Return e to the power of how far the gaps are over a leaf."""
    over = gaps - (leaf + STICKS)
    over *= np.float32(sharp)
    np.clip(over, -MOST, MOST, out=over)
    return np.asarray(np.exp(over, out=over))


def _together(line: npt.NDArray[np.intp]) -> tuple[npt.NDArray[np.intp], ...]:
    """Readings of each line in groups of up to eight, larger ones first: the first of each, the second of each, ..."""
    place = np.arange(len(line)) - np.searchsorted(line, line)
    first = np.flatnonzero(place % TOGETHER == 0)
    size = np.diff(np.append(first, len(line)))
    first = first[np.argsort(-size, kind="stable")]
    size = -np.sort(-size)
    return tuple(first[size > number] + number for number in range(int(size.max(initial=1))))
