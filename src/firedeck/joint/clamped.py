"""Head, gasket, block and fasteners, reduced to what the gasket can feel.

    w + A ψ(w) = R q + w_load          Rᵀ ψ(w) = r

w: closure of each gasket point and lengthening of each rod [mm]; ψ: their forces [N]; A: what head and block give
way together [mm/N]; q: rigid motion of the head; w_load: closure that loads and heat would bring with all springs
taken out; r: resultant of the loads on the head in each rigid motion, positive where it lengthens the bolts.
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import cached_property

import numpy as np
from numpy.typing import DTypeLike, NDArray

from firedeck.errors import JobError, OutOfRange
from firedeck.joint.laws import Floats
from firedeck.joint.springs import Ints, Springs, State


@dataclass(frozen=True)
class Places:
    """Where each spring stands: x, y [mm], kind and the name of its place, all of length n.

    ``kind`` is ring, half-bead, body, bolt or tie; ``place`` names the bore of a ring, the passage of a half
    bead, the fastener of a bolt.
    """

    x: Floats
    y: Floats
    kind: tuple[str, ...]
    place: tuple[str, ...]

    def of(self, kind: str, place: str | None = None) -> Floats:
        """Say which springs are of a kind, and of a place if one is named.

        Parameters
        ----------
        kind : str
            ring, half-bead, body, bolt or tie [text].
        place : str or None
            Name of the place; None for all [text].

        Returns
        -------
        ndarray of bool, shape (n,)
            True for those [1].

        Source
        ------
        derived
        """
        kinds, places = self._words
        found: Floats = kinds == kind
        return found if place is None else found & (places == place)

    @cached_property
    def _words(self) -> tuple[NDArray[np.str_], NDArray[np.str_]]:
        return np.array(self.kind), np.array(self.place)

    def names(self, kind: str) -> tuple[str, ...]:
        """Names of the places of a kind, in the order of the points.

        Parameters
        ----------
        kind : str
            ring, half-bead, body, bolt or tie [text].

        Returns
        -------
        tuple of str
            Each name once [text].

        Source
        ------
        derived
        """
        return self._names.get(kind, ())

    @cached_property
    def _names(self) -> dict[str, tuple[str, ...]]:
        found: dict[str, dict[str, None]] = {}
        for kind, place in zip(self.kind, self.place, strict=True):
            found.setdefault(kind, {})[place] = None
        return {kind: tuple(places) for kind, places in found.items()}


@dataclass(frozen=True)
class Load:
    """What a load does: w_load, shape (n,) [mm], and its resultant r, shape (k,) [N and N·mm]."""

    w: Floats
    r: Floats

    def __add__(self, other: "Load") -> "Load":
        return Load(self.w + other.w, self.r + other.r)

    def __mul__(self, factor: float) -> "Load":
        return Load(self.w * factor, self.r * factor)

    __rmul__ = __mul__


@dataclass(frozen=True)
class Case:
    """What is asked of a joint: what its springs remember and how bolts are held, and the loads on it."""

    state: State
    load: Load


@dataclass(frozen=True)
class ClampedJoint:
    """A joint ready to be asked: places, springs, A (n, n) [mm/N], R (n, k) rigid motions of the head."""

    places: Places
    springs: Springs
    A: Floats
    R: Floats

    def __post_init__(self) -> None:
        n = self.springs.count
        if self.A.shape != (n, n) or self.R.shape[0] != n or len(self.places.x) != n:
            found = f"A {self.A.shape}, R {self.R.shape}, {len(self.places.x)} places"
            raise JobError("joint", found, f"{n} springs want A ({n}, {n}) and R ({n}, k)")
        if not (np.isfinite(self.A).all() and np.isfinite(self.R).all()):
            raise OutOfRange("joint", "a compliance that is no number", "plain numbers")
        scale = float(np.abs(self.A).max())
        if float(np.abs(self.A - self.A.T).max()) > 1e-9 * scale or (np.diag(self.A) < 0.0).any():
            raise OutOfRange("joint", "a compliance that is not symmetric", "A = Aᵀ, nothing negative on it")

    @property
    def motions(self) -> int:
        """Number of rigid motions."""
        return int(self.R.shape[1])

    def nothing(self) -> Load:
        """Return the load that is none."""
        return Load(np.zeros(self.springs.count), np.zeros(self.motions))


def side_by_side(loads: Sequence[Load]) -> Load:
    """Put loads side by side, one column each.

    Parameters
    ----------
    loads : sequence of Load
        Loads of one joint [mm], [N].

    Returns
    -------
    Load
        w (n, m) and r (k, m) [mm], [N].

    Source
    ------
    derived
    """
    return Load(np.stack([load.w for load in loads], axis=1), np.stack([load.r for load in loads], axis=1))


def columns_of(case: Case, columns: Ints | NDArray[np.bool_] | int) -> Case:
    """Take some columns of a case; what is common to all stays.

    Parameters
    ----------
    case : Case
        With or without columns [mm], [N].
    columns : ndarray of int or bool, or int
        Which [1].

    Returns
    -------
    Case
        Those columns, or for a single number one state without columns [mm], [N].

    Source
    ------
    derived
    """

    def some(values: Floats) -> Floats:
        return values if values.ndim == 1 else values[:, columns]

    state = State(*(some(getattr(case.state, part.name)) for part in fields(State)))
    return Case(state, Load(some(case.load.w), some(case.load.r)))


def counted_in(case: Case, kind: DTypeLike) -> Case:
    """The same case in numbers of another length.

    Parameters
    ----------
    case : Case
        With or without columns [mm], [N].
    kind : numpy type
        float64, or float32 where a hundredth of a newton per millimetre is plenty [1].

    Returns
    -------
    Case
        The same [mm], [N].

    Source
    ------
    derived
    """

    def short(values: Floats) -> Floats:
        return values.astype(kind, copy=False)

    state = State(*(short(getattr(case.state, part.name)) for part in fields(State)))
    return Case(state, Load(short(case.load.w), short(case.load.r)))
