"""All that presses and pulls between head and block, as one function of the closures: ψ(w).

First come the gasket points, each with a law and its share of line or area; then the *rods*: bolts, and, where the
parts are taken as stuck to each other, ties along the face. A rod is a straight spring, ψ = clip(stiffness *
(w + shortening), least, most): a bolt pulls from nought to its yield load, a tie both ways without end, and a
bolt being turned to a tension has ``least`` and ``most`` both at that tension.

Every function takes one joint state (shape (n,)) or many side by side (shape (n, m)).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from firedeck.errors import JobError, OutOfRange
from firedeck.joint.columns import tall
from firedeck.joint.laws import Floats, Law

Ints = NDArray[np.int64]


@dataclass(frozen=True)
class State:
    """What steel and gasket remember, and how the bolts are held.

    ``permanent_set`` [mm] of each gasket point; ``shortening`` [mm] of each rod: how much further than just
    touching it has been drawn; ``least`` and ``most`` [N]: bounds of its pull. Shapes (g,) and (b,), or with
    a second axis for states side by side.
    """

    permanent_set: Floats
    shortening: Floats
    least: Floats
    most: Floats


@dataclass(frozen=True)
class Springs:
    """Gasket points by law and share, and rods by stiffness and bounds.

    ``law_of`` index of the law of each gasket point; ``share`` its length or area [mm or mm²];
    ``stiffness`` of each rod [N/mm]; ``least`` and ``most`` pull [N] of each when nobody turns it.
    """

    laws: tuple[Law, ...]
    law_of: Ints
    share: Floats
    stiffness: Floats
    least: Floats
    most: Floats

    def __post_init__(self) -> None:
        if len(self.law_of) != len(self.share) or not len(self.share):
            raise JobError(
                "gasket points", f"{len(self.law_of)} laws and {len(self.share)} shares", "one each"
            )
        if not set(self.law_of.tolist()) <= set(range(len(self.laws))):
            raise JobError("gasket points", "a law that is not given", f"0 to {len(self.laws) - 1}")
        if not (self.share > 0.0).all():
            raise OutOfRange("share of a gasket point", f"{self.share.min():g}", "more than nought is wanted")
        if not len(self.stiffness):
            raise JobError("fasteners", "none", "a joint needs fasteners")
        if not (self.stiffness > 0.0).all() or not (self.least <= self.most).all():
            raise OutOfRange("rod", "a stiffness not above nought, or bounds upside down", "plain springs")

    @property
    def points(self) -> int:
        """Number of gasket points."""
        return len(self.share)

    @property
    def count(self) -> int:
        """Number of unknown closures: gasket points and rods."""
        return len(self.share) + len(self.stiffness)

    @cached_property
    def runs(self) -> tuple[tuple[Law, slice], ...]:
        """Stretches of neighbouring points with one law."""
        cuts = np.flatnonzero(np.diff(self.law_of)) + 1
        edges = [0, *cuts.tolist(), self.points]
        return tuple(
            (self.laws[int(self.law_of[start])], slice(start, end)) for start, end in pairwise(edges)
        )

    @cached_property
    def unloading(self) -> Floats:
        """Unloading slope of each point times its share, shape (g,) [N/mm]."""
        return np.array([law.unloading_slope for law in self.laws])[self.law_of] * self.share

    @cached_property
    def steepest(self) -> Floats:
        """Largest slope any path of each spring can have, shape (n,) [N/mm]."""
        return np.concatenate([self.unloading, self.stiffness])

    @cached_property
    def scale(self) -> Floats:
        """What a left-over force is counted on: shares, and thousandths of a rod's stiffness, shape (n,)."""
        return np.concatenate([self.share, self.stiffness * 1e-3])

    def fresh(self) -> State:
        """A new gasket and slack bolts.

        Returns
        -------
        State
            Set at the first touch, no shortening [mm].

        Source
        ------
        derived
        """
        touch = np.array([law.first_touch for law in self.laws])[self.law_of]
        return State(touch, np.zeros(len(self.stiffness)), self.least, self.most)

    def force(self, w: Floats, state: State) -> Floats:
        """Force of every spring: gasket pushes the parts apart, bolts pull them together.

        Parameters
        ----------
        w : ndarray, shape (n,) or (n, m)
            Closures of the points, lengthening of the rods [mm].
        state : State
            What they remember [mm], [N].

        Returns
        -------
        ndarray, shape of w
            Forces [N].

        Source
        ------
        derived
        """
        forces = np.empty_like(w)
        gasket, rods = forces[: self.points], forces[self.points :]
        self._pressed(w, gasket)
        out = w[: self.points] - tall(state.permanent_set, w)
        out *= tall(self.unloading, w)
        np.minimum(gasket, out, out=gasket)
        np.maximum(gasket, 0.0, out=gasket)
        least, most = self._bounds(w, state)
        np.minimum(np.maximum(self._drawn(w, state), least), most, out=rods)
        return forces

    def slope(self, w: Floats, state: State) -> Floats:
        """Slope of every spring where it stands.

        Parameters
        ----------
        w : ndarray, shape (n,) or (n, m)
            Closures [mm].
        state : State
            What they remember [mm], [N].

        Returns
        -------
        ndarray, shape of w
            Slopes, none below nought [N/mm].

        Source
        ------
        derived
        """
        pressed = self._pressed(w, np.empty_like(w[: self.points]))
        unloading = np.broadcast_to(tall(self.unloading, w), pressed.shape)
        out = unloading * (w[: self.points] - tall(state.permanent_set, w))
        loading = np.empty_like(pressed)
        for law, run in self.runs:
            piece = np.searchsorted(law.knots[0], w[run], side="right")
            loading[run] = law.slopes[piece] * tall(self.share[run], w)
        gasket = np.where(out < pressed, unloading, loading) * ((out > 0.0) & (pressed > 0.0))
        drawn, (least, most) = self._drawn(w, state), self._bounds(w, state)
        free = (drawn > least) & (drawn < most)
        return np.concatenate([gasket, np.broadcast_to(tall(self.stiffness, w), drawn.shape) * free])

    def remembered(self, w: Floats, state: State) -> State:
        """What stays after standing at these closures: gasket crushed, bolts drawn past yield.

        Parameters
        ----------
        w : ndarray, shape (n,) or (n, m)
            Closures [mm].
        state : State
            Before [mm], [N].

        Returns
        -------
        State
            After; a set never becomes less [mm].

        Source
        ------
        derived
        """
        crushed = np.empty_like(w[: self.points])
        for law, run in self.runs:
            crushed[run] = law.set_after(w[run])
        least, most = self._bounds(w, state)
        over = np.where(least < most, np.maximum(self._drawn(w, state) - most, 0.0), 0.0)
        return replace(
            state,
            permanent_set=np.maximum(tall(state.permanent_set, w), crushed),
            shortening=tall(state.shortening, w) - over / tall(self.stiffness, w),
        )

    def bedded_in(self, w: Floats, state: State, settling: Floats, part: float = 1.0) -> State:
        """What stays after bedding in: the creep of each law, and settling under heads and in threads.

        Parameters
        ----------
        w : ndarray, shape (n,) or (n, m)
            Closures before [mm].
        state : State
            Before [mm], [N].
        settling : ndarray, shape (b,)
            How much each rod loses by settling [mm].
        part : float
            Part of the whole bedding-in that happens now [share].

        Returns
        -------
        State
            After; at held closures each point keeps 1 - creep of its load [mm].

        Source
        ------
        derived
        """
        creep = np.array([law.creep for law in self.laws])[self.law_of] / self.unloading
        lost = self.force(w, state)[: self.points] * tall(creep * part, w)
        return replace(
            state,
            permanent_set=tall(state.permanent_set, w) + lost,
            shortening=tall(state.shortening, w) - tall(settling * part, w),
        )

    def turned_to(self, state: State, rods: Sequence[int] | Ints, tension: float | Floats) -> State:
        """Hold some bolts at a tension, as a wrench does while it turns.

        Parameters
        ----------
        state : State
            Before [N].
        rods : sequence of int
            Which rods [1].
        tension : float or ndarray, shape (len(rods),) or (len(rods), m)
            The tension they are turned to [N].

        Returns
        -------
        State
            The same with those rods held [N].

        Source
        ------
        derived
        """
        tension = np.asarray(tension, dtype=np.float64)
        wide = tension.ndim == 2 and state.least.ndim == 1
        least, most = (
            np.repeat(bound[:, None], tension.shape[1], axis=1) if wide else bound.copy()
            for bound in (state.least, state.most)
        )
        least[rods] = tension
        most[rods] = tension
        return replace(state, least=least, most=most)

    def let_go(self, w: Floats, state: State) -> State:
        """Take the wrench off: held rods keep the length they have now.

        Parameters
        ----------
        w : ndarray, shape (n,) or (n, m)
            Closures with the wrench on [mm].
        state : State
            With rods held [N].

        Returns
        -------
        State
            With the shortening that gives each held rod the tension it was held at [mm].

        Source
        ------
        derived
        """
        least, most = self._bounds(w, state)
        held = least == most
        locked = least / tall(self.stiffness, w) - w[self.points :]
        return replace(
            state,
            shortening=np.where(held, locked, tall(state.shortening, w)),
            least=self.least,
            most=self.most,
        )

    def _pressed(self, w: Floats, pressed: Floats) -> Floats:
        """Put the loads of the first crush into ``pressed``."""
        for law, run in self.runs:
            pressed[run] = law.pressed(w[run])
        pressed *= tall(self.share, w)
        return pressed

    def _drawn(self, w: Floats, state: State) -> Floats:
        drawn: Floats = tall(self.stiffness, w) * (w[self.points :] + tall(state.shortening, w))
        return drawn

    def _bounds(self, w: Floats, state: State) -> tuple[Floats, Floats]:
        return tall(state.least, w), tall(state.most, w)
