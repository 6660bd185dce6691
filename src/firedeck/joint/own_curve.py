"""Somebody's own press test of a ring: pressed once, and let go again where that was read, made a law."""

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.assumed import assumed
from firedeck.joint.law_fitting import Fitted, Measured, fitted, never_falling
from firedeck.joint.laws import Floats, Law, Per
from firedeck.trace import DERIVED

BAND = assumed("own curve")
"""Share by which a load read in a press test may be off."""


def own_law(name: str, per: Per, closure: Floats, load: Floats, like: Law) -> Fitted:
    """Make a law of what was read: rising closures first, then falling ones where the load was taken off again.

    Parameters
    ----------
    name : str
        What it is called [text].
    per : Per
        What the loads are counted on.
    closure, load : ndarray, shape (n,)
        As read, in the order they were read [mm], [N/mm or MPa].
    like : Law
        Law of the same part of that construction: its creep is taken, and its way of springing back where none was read.

    Returns
    -------
    Fitted
        The law and by how much each load on the way in was moved [N/mm or MPa].

    Raises
    ------
    OutOfRange
        If closures go back and forth, or a load falls on the way in by more than noise.

    Valid for
    ---------
    One new piece, pressed slowly, cold. Behind its last point it goes on as steeply as its last piece.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.joint.law_table import law
    >>> read = np.array([0.0, 0.1, 0.2, 0.19]), np.array([0.0, 80.0, 200.0, 100.0])
    >>> found = own_law("mine", Per.LINE, *read, law("wire-ring")).law
    >>> round(found.unloading_slope), round(found.last_slope)
    (10000, 1200)
    """
    where = f"gasket curve {name}"
    top = int(np.argmax(closure))
    if top < 1 or (np.diff(closure[: top + 1]) <= 0.0).any() or (np.diff(closure[top:]) >= 0.0).any():
        raise OutOfRange(where, "closures that go back and forth", "rising, then falling where it was let go")
    rising = never_falling(load[: top + 1])
    slopes = np.diff(rising) / np.diff(closure[: top + 1])
    last = float(slopes[-1]) or float(rising[-1] / (closure[top] - closure[0]))
    if not last > 0.0:
        raise OutOfRange(where, "no load", "loads that rise as it is pressed")
    back = _springs_back(closure[top:], load[top:])
    if back is None:
        back = like.unloading_slope if per is like.per else 0.0
    measured = Measured(
        name=name,
        per=per,
        closure=tuple(closure[: top + 1].tolist()),
        load=tuple(load[: top + 1].tolist()),
        unloading_slope=max(back, float(slopes.max()), last),
        last_slope=last,
        source=DERIVED,
        creep=like.creep,
        band=BAND,
    )
    return fitted(measured)


def _springs_back(closure: Floats, load: Floats) -> float | None:
    """Slope from the full load down to half of it [N/mm² or MPa/mm]; None where letting go was not read."""
    less = np.flatnonzero(load[1:] < load[0])
    if not len(less):
        return None
    half = load[0] / 2.0
    if load.min() <= half:
        order = np.argsort(load)
        at = float(np.interp(half, load[order], closure[order]))
        return float((load[0] - half) / (closure[0] - at))
    low = int(load.argmin())
    return float((load[0] - load[low]) / (closure[0] - closure[low]))
