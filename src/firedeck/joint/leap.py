"""Fewer rounds: a few steps show where they lead, and a leap goes there. A leap that does not help is taken back.

A round leads from x to x + a(x). From the last rounds the leap goes to that mixture of their ends, or beyond them, at which
a would be smallest were it straight (Anderson's way). The size of a, counted by 1/D₀, never grows in a plain round of the
safe operator; a leap that does not bring it clearly below the smallest so far is given up for the plain step it was
made from, and what was learnt before is forgotten. So rounds with leaps settle wherever plain rounds do
(docs/method/joint.md).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firedeck.joint.laws import Floats

Bools = NDArray[np.bool_]
WORTH = 0.99
"""A leap is kept when the size of the next step falls to this share of the smallest so far."""
MEMORY = 5
"""Steps a leap is made from; beyond five the safe operator needs hardly fewer rounds."""


@dataclass(frozen=True)
class _Plain:
    """Ends of the last plain step and the step itself, (n, m); whether a leap followed, smallest size so far, (m,)."""

    x: Floats
    v: Floats
    step: Floats
    leapt: Bools
    smallest: Floats


class Leap:
    """Leaps of some columns, each with its own memory of a few steps."""

    def __init__(self, slope: Floats, memory: int = MEMORY) -> None:
        self._weight = 1.0 / np.sqrt(slope)
        self._memory = memory
        self._last: _Plain | None = None
        self._turns: list[tuple[Floats, Floats, Floats]] = []

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
        counted = self._weight.astype(step.dtype, copy=False)[:, None] * step
        size = np.einsum("nm,nm->m", counted, counted)
        last = self._last
        if last is None:
            self._last = _Plain(x.copy(), v.copy(), counted, np.zeros(len(size), dtype=bool), size)
            return x, v
        back = last.leapt & (size > WORTH * last.smallest)
        if back.any():
            x, v, counted = (
                np.where(back, old, new) for old, new in ((last.x, x), (last.v, v), (last.step, counted))
            )
            for turn in (part for turns in self._turns for part in turns):
                turn[:, back] = 0.0
        self._last = _Plain(x.copy(), v.copy(), counted, ~back, np.minimum(size, last.smallest))
        self._turns = [*self._turns, (x - last.x, v - last.v, counted - last.step)][-self._memory :]
        shares = _shares([turn for _, _, turn in self._turns], counted)
        for (dx, dv, _), share in zip(self._turns, shares, strict=True):
            x, v = x - share * dx, v - share * dv
        return x, v

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
        if self._last is not None and not columns.all():
            last = self._last
            self._last = _Plain(
                last.x[:, columns],
                last.v[:, columns],
                last.step[:, columns],
                last.leapt[columns],
                last.smallest[columns],
            )
            self._turns = [(dx[:, columns], dv[:, columns], turn[:, columns]) for dx, dv, turn in self._turns]


def _shares(turns: list[Floats], step: Floats) -> Floats:
    """Shares of the turns of the step that together come nearest to it, shape (turns, m)."""
    count = len(turns)
    alike = np.empty((step.shape[1], count, count))
    towards = np.empty((step.shape[1], count))
    for place, turn in enumerate(turns):
        towards[:, place] = np.einsum("nm,nm->m", turn, step)
        for other in range(place + 1):
            alike[:, place, other] = alike[:, other, place] = np.einsum("nm,nm->m", turn, turns[other])
    length = np.sqrt(np.maximum(np.einsum("mdd->md", alike), 1e-300))
    ridge = float(np.finfo(step.dtype).eps) ** (
        2 / 3
    )  # so that two turns that are nearly alike can be told apart
    alike = alike / (length[:, :, None] * length[:, None, :]) + ridge * np.eye(count)
    shares = np.linalg.solve(alike, (towards / length)[:, :, None])[:, :, 0] / length
    found: Floats = shares.T.astype(step.dtype)
    return found
