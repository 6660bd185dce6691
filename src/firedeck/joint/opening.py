"""At what peak pressure the lowest place of a ring comes down to a load, and at what pressure the ring opens there."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.chord import STANDARD, Operator, Stop
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.laws import Floats
from firedeck.joint.settling import settle_all
from firedeck.joint.states import Life

COLUMNS = 12
"""Pressures asked side by side in one look."""
LOOKS = 4
"""Looks; each narrows the search by the number of columns."""


@dataclass(frozen=True)
class Quiet:
    """A joint about to fire: what it has been through, load without gas [mm], [N], gas of 1 MPa in one bore."""

    life: Life
    load: Load
    gas: Load
    bore: str


def lowest_at(
    joint: ClampedJoint, operators: Sequence[Operator], quiet: Quiet, pressures: Floats, stop: Stop = STANDARD
) -> Floats:
    """Lowest line load of a ring at several gas pressures in its bore.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    operators : sequence of Operator
        Operators to settle with, the safe one last [mm/N].
    quiet : Quiet
        The joint about to fire [mm], [N].
    pressures : ndarray, shape (m,)
        Gas pressures above ambient [MPa].
    stop : Stop
        When a case counts as settled [N/mm or MPa].

    Returns
    -------
    ndarray, shape (m,)
        Lowest line loads [N/mm].

    Raises
    ------
    DidNotConverge
        If the gas parts the joint.

    Source
    ------
    derived
    """
    load = Load(
        quiet.load.w[:, None] + quiet.gas.w[:, None] * pressures,
        quiet.load.r[:, None] + quiet.gas.r[:, None] * pressures,
    )
    start = np.repeat(quiet.life.w[:, None], len(pressures), axis=1)
    found = settle_all(joint, operators, Case(quiet.life.state, load), start, stop)
    ring = np.flatnonzero(joint.places.of("ring", quiet.bore))
    if not len(ring):
        raise OutOfRange("bore", repr(quiet.bore), f"known: {', '.join(joint.places.names('ring'))}")
    lowest: Floats = (found.forces[ring] / joint.springs.share[ring, None]).min(axis=0)
    return lowest


def pressure_for(
    joint: ClampedJoint, operators: Sequence[Operator], quiet: Quiet, level: float, most: float
) -> float | None:
    """Gas pressure at which the lowest place of a ring comes down to a line load.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    operators : sequence of Operator
        Operators to settle with, the safe one last [mm/N].
    quiet : Quiet
        The joint about to fire [mm], [N].
    level : float
        The line load; nought for the pressure at which the ring opens [N/mm].
    most : float
        Highest pressure looked at [MPa].

    Returns
    -------
    float or None
        The pressure; None if it is not reached, nought if the load is not there even without gas [MPa].

    Raises
    ------
    OutOfRange
        If the highest pressure is not above nought.
    DidNotConverge
        If the gas parts the joint.

    Valid for
    ---------
    A memory that stays as it is: a pressure above the one the joint has run in with would crush no more here.

    Source
    ------
    derived
    """
    if not most > 0.0:
        raise OutOfRange("pressure", f"{most:g} MPa", "more than nought")
    low, high = 0.0, most
    for _ in range(LOOKS):
        pressures = np.linspace(low, high, COLUMNS)
        under = lowest_at(joint, operators, quiet, pressures) <= max(level, 1e-3)
        if not under.any():
            return None
        first = int(under.argmax())
        if first == 0:
            return low
        low, high = float(pressures[first - 1]), float(pressures[first])
    return 0.5 * (low + high)
