"""How a gasket presses back: a curve for the first crush, a steep line for what springs back.

A law gives load from closure, per millimetre of a line (rings, beads) or per square millimetre (body). On the
way in it follows its curve. On the way out, and on the way in again, it follows a straight line of the
unloading slope through the *set*: the closure that stays when the load is gone. So

    load(closure, set) = max(0, min(curve(closure), unloading_slope * (closure - set)))

Both parts never fall, so the load never falls: contact forces are then unique (docs/method/joint.md).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from firedeck.errors import OutOfRange

Floats = NDArray[np.float64]
FAR = 1e3
"""Closure added behind the last knot of a curve, where its last slope is drawn out to [mm]."""


class Per(StrEnum):
    """What a load is counted on: a line or an area."""

    LINE = "N/mm"
    AREA = "MPa"


@dataclass(frozen=True)
class Law:
    """A pressing curve with its unloading.

    ``closure`` [mm] and ``load`` [N/mm or MPa] are the knots, from no load on; ``unloading_slope`` and
    ``last_slope`` [N/mm² or MPa/mm]; ``creep`` is the share of the load lost at a held closure while it beds
    in; ``band`` the share by which a load may be wrong either way.
    """

    name: str
    per: Per
    closure: tuple[float, ...]
    load: tuple[float, ...]
    unloading_slope: float
    last_slope: float
    creep: float
    band: float
    source: str
    note: str = ""

    def __post_init__(self) -> None:
        closure, load = np.asarray(self.closure), np.asarray(self.load)
        if len(closure) != len(load) or len(closure) < 2:
            self._refuse(f"{len(closure)} closures and {len(load)} loads", "two or more pairs are wanted")
        if not (np.isfinite(closure).all() and np.isfinite(load).all()):
            self._refuse("a figure that is no number", "plain numbers are wanted")
        if not (np.diff(closure) > 0.0).all():
            self._refuse("closures that do not rise", "each closure must be more than the one before")
        if load[0] != 0.0 or not (np.diff(load) >= 0.0).all() or load[-1] == 0.0:
            self._refuse("a load that falls, or does not begin at nought", "the load may never fall")
        if not self.last_slope > 0.0:
            self._refuse(f"a last slope of {self.last_slope:g}", "say how it goes on behind its last point")
        if not self.unloading_slope >= self.steepest * (1.0 - 1e-9):
            found = f"unloading slope {self.unloading_slope:g} under the steepest loading {self.steepest:g}"
            self._refuse(found, "a gasket never springs back softer than it was pressed")
        if not (0.0 <= self.creep < 1.0 and 0.0 <= self.band < 1.0):
            self._refuse(f"creep {self.creep:g}, band {self.band:g}", "shares from 0 to 1")

    def _refuse(self, found: str, allowed: str) -> None:
        raise OutOfRange(f"gasket law {self.name}", found, allowed)

    @cached_property
    def knots(self) -> tuple[Floats, Floats]:
        """Closures [mm] and loads [N/mm or MPa] with the last slope drawn out far behind the last point."""
        closure = np.append(self.closure, self.closure[-1] + FAR)
        load = np.append(self.load, self.load[-1] + FAR * self.last_slope)
        return closure, load

    @cached_property
    def slopes(self) -> Floats:
        """Slope left of the first knot (nought), of each piece, and behind the last [N/mm² or MPa/mm]."""
        closure, load = self.knots
        return np.concatenate([[0.0], np.diff(load) / np.diff(closure), [self.last_slope]])

    @property
    def steepest(self) -> float:
        """Steepest loading slope [N/mm² or MPa/mm]."""
        pieces = np.diff(self.load) / np.diff(self.closure)
        return max(float(pieces.max()), self.last_slope)

    @cached_property
    def first_touch(self) -> float:
        """Closure at which the load leaves nought [mm]."""
        return self.closure[int(np.flatnonzero(np.asarray(self.load) > 0.0)[0]) - 1]

    def pressed(self, closure: Floats) -> Floats:
        """Load on the curve of the first crush.

        Parameters
        ----------
        closure : ndarray
            Closure, positive compressed [mm].

        Returns
        -------
        ndarray
            Load, of the same shape [N/mm or MPa].

        Source
        ------
        derived
        """
        result: Floats = np.interp(closure, *self.knots)
        return result

    def set_after(self, closure: Floats) -> Floats:
        """Set that a first crush to a closure leaves behind.

        Parameters
        ----------
        closure : ndarray
            Largest closure reached [mm].

        Returns
        -------
        ndarray
            Closure that stays at no load; never falls with the closure [mm].

        Source
        ------
        derived
        """
        result: Floats = np.maximum(closure - self.pressed(closure) / self.unloading_slope, self.first_touch)
        return result

    def crushed_to(self, permanent_set: Floats) -> Floats:
        """Largest closure that leaves a set: the other way round of :meth:`set_after`.

        Parameters
        ----------
        permanent_set : ndarray
            Closure that stays at no load [mm].

        Returns
        -------
        ndarray
            Closure at which unloading left the curve; with bedding in, where it would have [mm].

        Source
        ------
        derived
        """
        closure, load = self.knots
        touch = int(np.flatnonzero(load > 0.0)[0]) - 1
        left = closure - load / self.unloading_slope
        result: Floats = np.interp(permanent_set, left[touch:], closure[touch:])
        return result

    def held(self, closure: Floats, permanent_set: Floats) -> Floats:
        """Load at a closure, for a gasket that has been crushed before.

        Parameters
        ----------
        closure : ndarray
            Closure now [mm].
        permanent_set : ndarray
            Closure that stays at no load, from :meth:`set_after` [mm].

        Returns
        -------
        ndarray
            Load [N/mm or MPa].

        Source
        ------
        derived

        Examples
        --------
        >>> law = Law("ring", Per.LINE, (0.0, 0.1, 0.2), (0.0, 100.0, 300.0), 4e3, 3e3, 0.0, 0.2, "generic-ours")
        >>> crushed = law.set_after(np.array([0.2]))
        >>> law.held(np.array([0.2, 0.19, 0.1]), crushed).round(6).tolist()
        [300.0, 260.0, 0.0]
        """
        out = self.unloading_slope * (closure - permanent_set)
        result: Floats = np.maximum(np.minimum(self.pressed(closure), out), 0.0)
        return result

    def scaled(self, factor: float, closer: float = 0.0) -> "Law":
        """The same law with all loads times a factor, pressing from a later closure on.

        Parameters
        ----------
        factor : float
            Loads and slopes are multiplied by it [1].
        closer : float
            Way the faces go together before the first load, beside the law's own [mm].

        Returns
        -------
        Law
            The changed law [N/mm or MPa].

        Raises
        ------
        OutOfRange
            If the factor is not above nought.

        Source
        ------
        derived
        """
        if not factor > 0.0:
            self._refuse(f"a factor of {factor:g}", "more than nought is wanted")
        return replace(
            self,
            closure=tuple(closure + closer for closure in self.closure),
            load=tuple(load * factor for load in self.load),
            unloading_slope=self.unloading_slope * factor,
            last_slope=self.last_slope * factor,
        )

    def along(self, width: float) -> "Law":
        """The law of a strip: load per millimetre of line from load per area.

        Parameters
        ----------
        width : float
            Width of the strip that bears [mm].

        Returns
        -------
        Law
            The same per line [N/mm].

        Raises
        ------
        OutOfRange
            If it is a law per line already, or the width is not above nought.

        Source
        ------
        derived
        """
        if self.per is not Per.AREA:
            self._refuse("a law per line", "only a law per area can be laid along a strip")
        return replace(self.scaled(width), per=Per.LINE)


def stacked(name: str, layers: Sequence[Law]) -> Law:
    """One law for layers that lie on each other: the same load through all, closures added.

    Parameters
    ----------
    name : str
        Name of the stack [text].
    layers : sequence of Law
        The layers, all per line or all per area [N/mm or MPa].

    Returns
    -------
    Law
        The stack; creep and band are the largest of its layers [N/mm or MPa].

    Raises
    ------
    OutOfRange
        If there is no layer, they are counted on different things, or a load stands still within a curve.

    Valid for
    ---------
    Layers that do not slide or nest.

    Source
    ------
    derived

    Examples
    --------
    >>> one = Law("bead", Per.LINE, (0.0, 0.1), (0.0, 50.0), 2e3, 1e3, 0.02, 0.2, "generic-ours")
    >>> two = stacked("two beads", (one, one))
    >>> two.closure, two.load, two.unloading_slope
    ((0.0, 0.2), (0.0, 50.0), 1000.0)
    """
    if not layers or len({layer.per for layer in layers}) > 1:
        raise OutOfRange(
            f"stack {name}", "no layers, or lines and areas mixed", "layers of one kind are wanted"
        )
    loads = np.unique(np.concatenate([np.asarray(layer.load) for layer in layers]))
    closure = np.zeros_like(loads)
    for layer in layers:
        x, y = layer.knots
        touch = int(np.flatnonzero(y > 0.0)[0]) - 1
        if not (np.diff(y[touch:]) > 0.0).all():
            raise OutOfRange(f"stack {name}", f"{layer.name} with a load that stands still", "rising loads")
        closure += np.interp(loads, y[touch:], x[touch:])
    return Law(
        name=name,
        per=layers[0].per,
        closure=tuple(closure.tolist()),
        load=tuple(loads.tolist()),
        unloading_slope=1.0 / sum(1.0 / layer.unloading_slope for layer in layers),
        last_slope=1.0 / sum(1.0 / layer.last_slope for layer in layers),
        creep=max(layer.creep for layer in layers),
        band=max(layer.band for layer in layers),
        source=";".join(dict.fromkeys(layer.source for layer in layers)),
        note="layers: " + ", ".join(layer.name for layer in layers),
    )
