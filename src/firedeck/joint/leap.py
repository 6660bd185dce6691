"""Fewer rounds: a few steps show where they lead, and a leap goes there. A leap that does not help is taken back.

A round leads from x to x + a(x). When x has moved by dx and the step has turned with it by da, taking s dx back takes s da
off the step, were a straight. The leap takes that mixture of the last moves back which leaves least of the step
(Anderson's way; moves are kept square to each other by their turns, so each share is one product). The size of a,
counted by 1/D₀, never grows in a plain round of the safe operator; a leap that does not bring it clearly below the
smallest so far is given up for the plain step it was made from, and what was learnt before is forgotten. So rounds
with leaps settle wherever plain rounds do (docs/method/joint.md).
"""

import numpy as np
from numpy.typing import NDArray

from firedeck.joint.laws import Floats

Bools = NDArray[np.bool_]
WORTH = 0.99
"""A leap is kept when the size of the next step falls to this share of the smallest so far."""
MEMORY = 3
"""Moves a leap is made from; with more the safe operator needs hardly fewer rounds."""
NEW = 1e-5
"""A turn of which no more than this share is new teaches nothing."""


class Leap:
    """Leaps of some columns, each with its own memory of a few moves.

    ``_last`` (3, n, m): where the last plain step led, x and v, and the step counted by 1/D₀; ``_moves``
    (memory, 3, n, m): how these changed together, the steps square to each other and of length one.
    """

    def __init__(self, slope: Floats, memory: int = MEMORY) -> None:
        self._weight = 1.0 / np.sqrt(slope)
        self._memory, self._count = memory, 0
        self._last, self._moves = np.empty((3, 0, 0)), np.empty((0, 3, 0, 0))
        self._leapt, self._smallest = np.empty(0, dtype=bool), np.empty(0)

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
        now = np.empty((3, *x.shape), dtype=x.dtype)
        now[0], now[1] = x, v
        np.multiply(self._weight.astype(x.dtype, copy=False)[:, None], step, out=now[2])
        size = np.einsum("nm,nm->m", now[2], now[2])
        if not self._count:
            self._moves = np.zeros((self._memory, *now.shape), dtype=x.dtype)
            self._leapt, self._smallest = np.zeros(x.shape[1], dtype=bool), size
            self._last, self._count = now, 1
            return x, v
        back = self._leapt & (size > WORTH * self._smallest)
        if back.any():
            now[:, :, back] = self._last[:, :, back]
            self._moves[:, :, :, back] = 0.0
        self._leapt, self._smallest = ~back, np.minimum(size, self._smallest)
        self._learn(now - self._last)
        self._last = now
        led = now[:2] - self._mixed(now[2], 2)
        return led[0], led[1]

    def _mixed(self, step: Floats, parts: int) -> Floats:
        """The mixture of moves that turns the step as far as they can, shape (parts, n, m)."""
        shares = np.einsum("dnm,nm->dm", self._moves[:, 2], step)
        mixed: Floats = np.einsum("dm,dknm->knm", shares, self._moves[:, :parts])
        return mixed

    def _learn(self, move: Floats) -> None:
        """Keep what is new of a move in the place of the oldest."""
        whole = np.einsum("nm,nm->m", move[2], move[2])
        move -= self._mixed(move[2], 3)
        length = np.sqrt(np.einsum("nm,nm->m", move[2], move[2]))
        new = length > NEW * np.sqrt(whole)
        move *= np.divide(1.0, length, out=np.zeros_like(length), where=new)
        self._moves[self._count % self._memory] = move
        self._count += 1

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
        if self._count:
            self._last, self._moves = self._last[:, :, columns], self._moves[:, :, :, columns]
            self._leapt, self._smallest = self._leapt[columns], self._smallest[columns]
