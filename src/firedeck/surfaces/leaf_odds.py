"""How likely leaves go and stop as they did, for many faces and many lines at once."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.laying import FAR, Stations
from firedeck.surfaces.resting import Edges, Floats, joined
from firedeck.surfaces.touching import Touching, touching

STICKS = np.float32(2.5)
"""A leaf sticks in a gap this much larger than itself, on average [µm]."""

LEAF_SCATTER = 3.0
"""Scatter of a leaf: how far it is pushed, and the texture under it [µm]."""

SLOPE = 0.8
"""tanh(0.8 x) is the sum of a normal scatter, to 0.02 [1]."""

MOST = 40.0
"""Beyond this a leaf goes or stops for certain; exp of more would not fit a number of single precision [1]."""

TOGETHER = 8
"""Readings whose odds are multiplied before a logarithm is taken [count]."""

SHORTEST_ARM = np.float32(5.0)
"""Nearest that grit and the contact beyond the weight may lie together [mm]."""

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
    half_length: Floats
    one: Floats
    may_go: Floats
    may_stop: Floats
    together: tuple[npt.NDArray[np.intp], ...]
    few_of_line: Floats

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
        goes, stops = (one.astype(np.float32)[:, None] for one in (places.goes, places.stops))
        together = _together(places.line)
        nothing = np.log(SPOILT) + readings * np.log(SPOILT_ODDS)
        return cls(
            touching=touching(places),
            line=places.line,
            sides=places.sides,
            sides_at=places.along.astype(np.float32)[places.sides][:, :, None],
            goes=goes,
            stops=stops,
            members=members,
            nothing=nothing.astype(np.float32),
            readings=readings,
            half_length=places.half_length.astype(np.float32)[:, None],
            one=np.where(goes > -FAR, goes, stops),
            may_go=(goes > -FAR).astype(np.float32),
            may_stop=(stops < FAR).astype(np.float32),
            together=together,
            few_of_line=np.ascontiguousarray(members[:, together[0]]),
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
                other, tilt = self._on_grit(edges, under[2], under[3])
                slope, height = slope + tilt, height - tilt * other
        height, slope = height[self.line], slope[self.line]
        gap = slope * self.sides_at[0]
        gap -= heights[self.sides[0]]
        slope *= self.sides_at[1]
        slope -= heights[self.sides[1]]
        np.minimum(gap, slope, out=gap)
        gap += height
        return np.asarray(gap)

    def _on_grit(self, edges: Edges, grit: Floats, spot: Floats) -> tuple[Floats, Floats]:
        """Contact on the side without grit, and how much the grit tilts the edge about it."""
        left = grit > 0
        other = np.where(left, edges.right, edges.left)
        far = np.where(
            spot < 1, np.where(left, -spot, spot) * self.half_length, edges.left + edges.right - other
        )
        arm = np.where(left, np.minimum(far - other, -SHORTEST_ARM), np.maximum(far - other, SHORTEST_ARM))
        return other, np.abs(grit) / arm

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
        more = np.exp(np.maximum(sharp * (self.one - self.stops), -MOST)) * self.may_stop
        felt = gaps - (self.one + STICKS)
        felt *= np.float32(sharp)
        np.clip(felt, -MOST, MOST, out=felt)
        np.exp(felt, out=felt)
        stops = felt * more.astype(np.float32)
        stops += np.float32(1.0)
        np.divide(np.float32(1.0), stops, out=stops)
        felt += np.float32(1.0)
        np.divide(self.may_go, felt, out=felt)
        return felt, stops

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


def _together(line: npt.NDArray[np.intp]) -> tuple[npt.NDArray[np.intp], ...]:
    """Readings of each line in groups of up to eight, larger ones first: the first of each, the second of each, ..."""
    place = np.arange(len(line)) - np.searchsorted(line, line)
    first = np.flatnonzero(place % TOGETHER == 0)
    size = np.diff(np.append(first, len(line)))
    first = first[np.argsort(-size, kind="stable")]
    size = -np.sort(-size)
    return tuple(first[size > number] + number for number in range(int(size.max(initial=1))))
