"""Fewer rounds: two steps show where they lead, and a leap goes there. A leap that does not help is taken back.

A round leads from x to x + a(x). From two rounds the leap goes to the point between, or beyond, their two ends at which a
would vanish were it straight there (Anderson's way with one step of memory). The size of a, counted by 1/D₀, never grows
in a plain round of the safe operator; a leap that does not bring it clearly below the smallest so far is given up for
the plain step it was made from. So rounds with leaps settle wherever plain rounds do (docs/method/joint.md).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firedeck.joint.laws import Floats

Bools = NDArray[np.bool_]
WORTH = 0.99
"""A leap is kept when the size of the next step falls to this share of the smallest so far."""


@dataclass(frozen=True)
class _Last:
    """Ends of the last plain step, the step, whether a leap followed, smallest size so far; a column per state."""

    x: Floats
    v: Floats
    step: Floats
    leapt: Bools
    smallest: Floats


class Leap:
    """Leaps of some columns, each with its own memory of one step."""

    def __init__(self, slope: Floats) -> None:
        self._weight = 1.0 / slope
        self._last: _Last | None = None

    def further(self, x: Floats, v: Floats, step: Floats) -> tuple[Floats, Floats]:
        """Go on from the end of a plain step.

        Parameters
        ----------
        x, v : ndarray, shape (n, m)
            Where the plain step has led [N], [mm].
        step : ndarray, shape (n, m)
            The step in x [N].

        Returns
        -------
        tuple of ndarray
            Where to go on, x and v [N], [mm].

        Source
        ------
        derived
        """
        size = self._weight @ (step * step)
        last = self._last
        if last is None:
            self._last = _Last(x.copy(), v.copy(), step, np.zeros(len(size), dtype=bool), size)
            return x, v
        back = last.leapt & (size > WORTH * last.smallest)
        turn = step - last.step
        bend = self._weight @ (turn * turn)
        far = np.where(back | (bend <= 0.0), 0.0, self._weight @ (turn * step) / np.maximum(bend, 1e-300))
        end_x, end_v = np.where(back, last.x, x), np.where(back, last.v, v)
        self._last = _Last(
            end_x, end_v, np.where(back, last.step, step), ~back, np.minimum(size, last.smallest)
        )
        return end_x - far * (end_x - last.x), end_v - far * (end_v - last.v)

    def keep(self, columns: Bools) -> None:
        """Go on with some of the columns.

        Parameters
        ----------
        columns : ndarray of bool, shape (m,)
            Which [1].

        Returns
        -------
        None
            Nothing [1].

        Source
        ------
        derived
        """
        if self._last is not None:
            last = self._last
            self._last = _Last(
                last.x[:, columns],
                last.v[:, columns],
                last.step[:, columns],
                last.leapt[columns],
                last.smallest[columns],
            )
