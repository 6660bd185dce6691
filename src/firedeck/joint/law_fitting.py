"""A law from somebody's own measured curve: noise is ironed out and shown, a curve that really falls is refused."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.laws import Floats, Law, Per
from firedeck.trace import DERIVED, NO_UNIT, Step

MOST_IRONED = 0.10
"""Largest correction that still counts as noise, as a share of the largest load."""


@dataclass(frozen=True)
class Measured:
    """A pressing curve as measured: closures [mm], loads [N/mm or MPa]; slopes stated beside it.

    ``last_slope`` None: the curve may not be read beyond its last point, so a slope has to be given to use it.
    """

    name: str
    per: Per
    closure: tuple[float, ...]
    load: tuple[float, ...]
    unloading_slope: float
    last_slope: float | None
    source: str
    creep: float = 0.0
    band: float = 0.0


@dataclass(frozen=True)
class Fitted:
    """The law, and by how much each measured load was moved [N/mm or MPa]."""

    law: Law
    moved: tuple[float, ...]
    steps: tuple[Step, ...]


def fitted(measured: Measured) -> Fitted:
    """Make a law that never falls from a measured curve.

    Parameters
    ----------
    measured : Measured
        The curve, closures rising [mm], [N/mm or MPa].

    Returns
    -------
    Fitted
        The nearest rising law in least squares, and what was moved [N/mm or MPa].

    Raises
    ------
    OutOfRange
        If it has no last slope, a closure does not rise, or a load falls by more than noise.

    Valid for
    ---------
    First pressing of a new gasket, slow.

    Source
    ------
    derived

    Examples
    --------
    >>> noisy = Measured("mine", Per.LINE, (0.0, 0.1, 0.2, 0.3), (0.0, 50.0, 48.0, 120.0), 4e3, 1e3, "generic-ours")
    >>> fitted(noisy).law.load
    (0.0, 49.0, 49.0, 120.0)
    """
    if measured.last_slope is None:
        raise OutOfRange(
            f"gasket law {measured.name}", "no last slope", "say how it goes on behind its last point"
        )
    load = np.asarray(measured.load, dtype=np.float64)
    if len(load) < 2 or len(load) != len(measured.closure) or not np.isfinite(load).all():
        raise OutOfRange(
            f"gasket law {measured.name}", f"{len(load)} loads", "a load for each of two or more closures"
        )
    rising = never_falling(load)
    rising[rising < 0.0] = 0.0
    share = Step.work_out(
        "Largest correction of a load, of the largest load",
        "largest_correction / largest_load",
        {
            "largest_correction": (float(np.abs(rising - load).max()), measured.per.value),
            "largest_load": (float(np.abs(load).max()), measured.per.value),
        },
        ("correction", NO_UNIT),
        DERIVED,
    )
    if share.value > MOST_IRONED:
        found = f"loads that fall: a correction of {share.value:.0%} would be needed"
        raise OutOfRange(f"gasket law {measured.name}", found, f"up to {MOST_IRONED:.0%} is taken as noise")
    return Fitted(_law(measured, rising, measured.last_slope), tuple((rising - load).tolist()), (share,))


def _law(measured: Measured, rising: Floats, last_slope: float) -> Law:
    closure, load = list(measured.closure), rising.tolist()
    if load[0] > 0.0:
        closure, load = [min(0.0, closure[0] - load[0] / measured.unloading_slope), *closure], [0.0, *load]
    return Law(
        name=measured.name,
        per=measured.per,
        closure=tuple(closure),
        load=tuple(load),
        unloading_slope=measured.unloading_slope,
        last_slope=last_slope,
        creep=measured.creep,
        band=measured.band,
        source=measured.source,
        note="from a measured curve",
    )


def never_falling(load: Sequence[float] | Floats) -> Floats:
    """Nearest sequence that never falls, in least squares: neighbours that fall are pooled.

    Parameters
    ----------
    load : sequence of float
        Loads in the order of rising closure [N/mm or MPa].

    Returns
    -------
    ndarray, shape (n,)
        Loads that never fall [N/mm or MPa].

    Source
    ------
    derived

    Examples
    --------
    >>> never_falling([1.0, 3.0, 2.0, 4.0]).tolist()
    [1.0, 2.5, 2.5, 4.0]
    """
    pools: list[list[float]] = []
    for value in load:
        pools.append([float(value), 1.0])
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            mean, count = pools.pop()
            below = pools[-1]
            below[0] = (below[0] * below[1] + mean * count) / (below[1] + count)
            below[1] += count
    return np.concatenate([np.full(int(count), mean) for mean, count in pools])
