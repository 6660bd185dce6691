"""The quick way: springs of fixed slope, one operator made once, any number of states as columns.

With v = w - w_load and fixed slopes D₀ the joint of straight springs is v = B (D₀ v - ψ) + Q r. Going round,

    v ← B (D₀ v - ψ(w_load + v)) + Q r,

shrinks the error by (I+S)⁻¹ S (I - D/D₀), S = D₀½ A D₀½, so it settles wherever every slope D lies between nought and
2 D₀ (proof: docs/method/joint.md). *Fast* takes D₀ from a state near by and knows nothing of far ones; *safe*
takes 0.55 of the steepest slope each spring can have, and settles from anywhere. Bolts held at a tension have no
slope at all; they are put in exactly, not by going round.

x = D₀ v - ψ stands still for every spring that stays on one straight piece of slope D₀, so a round costs only the
springs that do not. Leaps (leap.py) halve the rounds. Rounds multiply in short numbers; what has settled is made anew from
x in long ones and looked at once more, so that forces balance to rounding.
"""

from dataclasses import dataclass
from itertools import count

import numpy as np
from numpy.typing import DTypeLike

from firedeck.joint.clamped import Case, columns_of, counted_in
from firedeck.joint.columns import tall
from firedeck.joint.laws import Floats
from firedeck.joint.leap import Bools, Leap
from firedeck.joint.operators import Operator, fast_operator, operator, safe_operator
from firedeck.joint.springs import Ints, Springs

__all__ = ["STANDARD", "Operator", "Round", "Stop", "fast_operator", "go_round", "operator", "safe_operator"]

ENOUGH = 0.1
"""Share of the tolerance below which what a spring misses is left for a later round."""
FEW = 0.7
"""Share of all springs up to which only the rows of those that miss are multiplied, where many columns share them."""
FEW_ALONE = 0.08
"""The same for up to ``ALONE`` columns, where taking rows out costs more than multiplying them."""
ALONE = 8
LEAVING = 0.3
"""Share of the columns that have settled at which these are taken out; until then they ride along."""


@dataclass(frozen=True)
class Stop:
    """When to stop: force left over per share [N/mm or MPa], rounds at most, fewer where another way follows.

    ``short``: reckon in numbers of half the length all through; forces then balance to six digits.
    """

    tolerance: float = 1e-3
    rounds: int = 400
    quick: int = 80
    short: bool = False


STANDARD = Stop()
"""Stop at a thousandth of a newton per millimetre."""


@dataclass(frozen=True)
class Round:
    """Columns after going round: w (n, m) [mm], forces (n, m) [N] that balance, what they miss the laws by.

    ``residual`` per share [N/mm or MPa] and ``rounds``, both (m,).
    """

    w: Floats
    forces: Floats
    residual: Floats
    rounds: Ints


def go_round(
    made: Operator,
    springs: Springs,
    case: Case,
    start: Floats,
    stop: Stop = STANDARD,
) -> Round:
    """Go round until every column has settled, or the rounds are up.

    Parameters
    ----------
    made : Operator
        The operator [mm/N].
    springs : Springs
        Springs of the joint [N/mm].
    case : Case
        What they remember and the loads, with or without columns; the same bolts held in every column [mm], [N].
    start : ndarray, shape (n, m)
        Closures to begin at [mm].
    stop : Stop
        When a column is left alone, and when all are [N/mm or MPa].

    Returns
    -------
    Round
        Closures, what is left over, and rounds, column by column [mm].

    Source
    ------
    derived
    """
    columns = start.shape[1]
    found = Round(
        start.copy(), np.zeros_like(start), np.full(columns, np.inf), np.zeros(columns, dtype=np.int64)
    )
    going, on = _Going(made, springs, case, start, stop), np.arange(columns)
    for number in count(1):
        miss = going.miss()
        missed = going.per_share(miss)
        residual = missed.max(axis=0)
        over = number >= stop.rounds or not np.isfinite(residual).all()
        leaving = residual <= stop.tolerance
        if over or leaving.mean() >= LEAVING:
            if going.rough:
                going.make_anew()
                continue
            leaving |= over
            found.w[:, on[leaving]], found.forces[:, on[leaving]] = going.ends(leaving)
            found.residual[on[leaving]], found.rounds[on[leaving]] = residual[leaving], number
            if leaving.all():
                break
            on, miss, missed = on[~leaving], miss[:, ~leaving], missed[:, ~leaving]
            going.keep(~leaving)
        going.step(miss, np.flatnonzero(missed.max(axis=1) > ENOUGH * stop.tolerance))
    return found


class _Going:
    """Columns on their way: offsets x [N] and closures v [mm] without the loads' own, both (n, m)."""

    def __init__(self, made: Operator, springs: Springs, case: Case, start: Floats, stop: Stop) -> None:
        kind: DTypeLike = np.float32 if stop.short else np.float64
        begin: Floats = start.astype(kind)
        self._made, self._springs, self._stop = made, springs, stop
        self._now = counted_in(case, kind)
        self._slope = tall(made.slope, begin)
        self._per_share = tall(1.0 / springs.scale, begin)
        self._leap = Leap(made.slope)
        self._few = (FEW_ALONE if begin.shape[1] <= ALONE else FEW) * springs.count
        least, most = tall(self._now.state.least, begin), tall(self._now.state.most, begin)
        self._bolts = _Held(made, np.flatnonzero(least[:, 0] == most[:, 0]) + springs.points)
        self._x = self._slope * (begin - self._loads(begin)) - springs.force(begin, self._now.state)
        self._x[self._bolts.held] = -least[self._bolts.held - springs.points]
        self._v = self._closures()
        self.rough = False

    def _loads(self, like: Floats) -> Floats:
        return tall(self._now.load.w, like)

    def _closures(self) -> Floats:
        """Closures that offsets and loads bring, in numbers as long as theirs."""
        made, x = self._made, self._x
        given = made.roughly(x) if self._stop.short else made.B @ x
        return self._bolts.follow(given + made.Q.astype(x.dtype, copy=False) @ tall(self._now.load.r, x))

    def miss(self) -> Floats:
        """By how much the straight springs miss the laws [N]."""
        miss = self._slope * self._v
        miss -= self._springs.force(self._v + self._loads(self._v), self._now.state)
        miss -= self._x
        miss[self._bolts.held] = 0.0
        return miss

    def per_share(self, miss: Floats) -> Floats:
        """The same without sign, per share [N/mm or MPa]."""
        missed = np.abs(miss)
        missed *= self._per_share
        return missed

    def make_anew(self) -> None:
        """Closures from the offsets once more, in long numbers."""
        self._v, self.rough = self._closures(), False

    def step(self, miss: Floats, rows: Ints) -> None:
        """Go round once, by the rows that matter, and leap."""
        if len(rows) > self._few:
            self._v += self._bolts.follow(self._made.roughly(miss))
            self._x += miss
        else:
            self._v += self._bolts.follow(self._made.roughly(miss[rows], rows))
            self._x[rows] += miss[rows]
        self._x, self._v = self._leap.further(self._x, self._v, miss)
        self.rough = not self._stop.short

    def ends(self, columns: Bools) -> tuple[Floats, Floats]:
        """Closures and forces of some columns."""
        v, x = self._v, self._x
        forces = self._slope * v - x
        forces[self._bolts.held] = -x[self._bolts.held]
        return (v + self._loads(v))[:, columns], forces[:, columns]

    def keep(self, columns: Bools) -> None:
        """Go on with some columns."""
        self._x, self._v = self._x[:, columns], self._v[:, columns]
        self._now = columns_of(self._now, columns)
        self._leap.keep(columns)


class _Held:
    """Bolts held at a tension, put into a step of the operator exactly."""

    def __init__(self, made: Operator, held: Ints) -> None:
        self.held = held
        self._pull = made.B[:, held] * made.slope[held]
        self._inverse = np.linalg.inv(np.eye(len(held)) - self._pull[held])

    def follow(self, v: Floats) -> Floats:
        """Closures when the held bolts give no slope, shape (n, m)."""
        if len(self.held):
            v += (self._pull @ (self._inverse @ v[self.held])).astype(v.dtype, copy=False)
        return v
