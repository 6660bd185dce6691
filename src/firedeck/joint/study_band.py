"""The band of a change: everything that is not known, one thing at a time, each for both engines alike.

Each thing (tension, inside of the castings, curve of the gasket ...) gives pairs of joints, now and as built, that
share it. How far a pair's change lies from the middle pair's change is that thing's part of the band, down and up. The
parts are taken as independent and added as the roots of their squares, down and up apart.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, copysign, hypot

import numpy as np

from firedeck.joint.laws import Floats

ENDS = (0.025, 0.975)
"""Share of drawn joints left out below and above."""
DRAWN_TO = 0.1
"""Drawn joints are worked out to this much; ends of what they do are taken outward to it [N/mm]."""
NOTHING_LEFT = 1.0
"""Where standard may have less than this left, no share of it is given [N/mm]."""
Moved = tuple[float, float]
"""How far something moves, down (nought or less) and up (nought or more)."""


@dataclass(frozen=True)
class Pair:
    """Lowest firing line load of every ring now and as built (None where that is not known) [N/mm]."""

    now: Mapping[str, float]
    as_built: Mapping[str, float] | None

    def then(self, bore: str) -> float:
        """Load as built, nought where there is none to compare with [N/mm]."""
        return 0.0 if self.as_built is None else self.as_built.get(bore, 0.0)


@dataclass(frozen=True)
class Part:
    """What one thing does: pairs at its ends (or drawn, when ``drawn``), and the pair in the middle they go with."""

    name: str
    says: str
    middle: Pair
    pairs: tuple[Pair, ...]
    drawn: bool = False

    def load(self, bore: str) -> Moved:
        """How far the load of a ring moves.

        Parameters
        ----------
        bore : str
            Its name [text].

        Returns
        -------
        tuple of float
            Down and up [N/mm].

        Source
        ------
        derived
        """
        return self._ends([pair.now[bore] - self.middle.now[bore] for pair in self.pairs])

    def change(self, bore: str) -> Moved:
        """How far the change of a ring against the factory's joint moves.

        Parameters
        ----------
        bore : str
            Its name [text].

        Returns
        -------
        tuple of float
            Down and up [N/mm].

        Source
        ------
        derived
        """
        middle = self.middle.now[bore] - self.middle.then(bore)
        return self._ends([pair.now[bore] - pair.then(bore) - middle for pair in self.pairs])

    def share(self, bore: str, now: float, as_built: float) -> Moved | None:
        """How far the share of what standard has left moves.

        Parameters
        ----------
        bore : str
            Its name [text].
        now, as_built : float
            Loads in the middle, by the long way [N/mm].

        Returns
        -------
        tuple of float or None
            Down and up; None where standard may have nothing left [1].

        Source
        ------
        derived
        """
        here = [max(0.0, now + pair.now[bore] - self.middle.now[bore]) for pair in self.pairs]
        there = [as_built + pair.then(bore) - self.middle.then(bore) for pair in self.pairs]
        if min([as_built, *there]) < NOTHING_LEFT:
            return None
        meant = now / as_built
        return self._ends([one / other - meant for one, other in zip(here, there, strict=True)], 0.001)

    def _ends(self, moved: Sequence[float], step: float = DRAWN_TO) -> Moved:
        if self.drawn:
            low, high = (_outward(float(end), step) for end in np.quantile(np.array(moved), ENDS))
        else:
            low, high = min(moved), max(moved)
        return min(low, 0.0), max(high, 0.0)


def _outward(end: float, step: float) -> float:
    """The next whole step away from nought; what is nought to rounding stays so."""
    steps = abs(end) / step
    return 0.0 if steps < 1e-9 else copysign(ceil(steps - 1e-9) * step, end)


def whole(parts: Sequence[Moved]) -> Moved:
    """Add parts of a band as the roots of their squares, down and up apart.

    Parameters
    ----------
    parts : sequence of (float, float)
        Each down (nought or less) and up (nought or more) [N/mm].

    Returns
    -------
    tuple of float
        All together, down and up [N/mm].

    Valid for
    ---------
    Things that have nothing to do with one another and hardly change each other's effect.

    Source
    ------
    derived

    Examples
    --------
    >>> whole([(-3.0, 1.0), (-4.0, 0.0)])
    (-5.0, 1.0)
    """
    return -hypot(*(part[0] for part in parts)), hypot(*(part[1] for part in parts))


def weight_of(parts: Sequence[Moved]) -> Floats:
    """Share of each part in the squared width of the whole band.

    Parameters
    ----------
    parts : sequence of (float, float)
        Each down and up [N/mm].

    Returns
    -------
    ndarray, shape (parts,)
        Shares that add up to one; all nought where nothing moves [1].

    Source
    ------
    derived

    Examples
    --------
    >>> weight_of([(-1.0, 1.0), (-3.0, 3.0)]).tolist()
    [0.1, 0.9]
    """
    squares = np.array([low * low + high * high for low, high in parts])
    total = float(squares.sum())
    shares: Floats = squares / total if total > 0.0 else squares
    return shares
