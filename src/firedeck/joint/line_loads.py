"""What is read off a joint at rest, place by place: line loads round rings, beads at passages, bolts, lift."""

from dataclasses import dataclass
from math import atan2, degrees

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.clamped import ClampedJoint
from firedeck.joint.laws import Floats


@dataclass(frozen=True)
class Ring:
    """Line load round one bore: angles [rad] from the x axis to the y axis, loads [N/mm], the lowest of them.

    ``lowest_angle`` [rad] says where; ``mean`` over the length of the ring [N/mm].
    """

    bore: str
    angle: Floats
    load: Floats
    lowest: float
    lowest_angle: float
    mean: float

    @property
    def side(self) -> str:
        """Where the lowest place is, of eight directions seen on the deck from above."""
        return direction(self.lowest_angle)


@dataclass(frozen=True)
class Reading:
    """Everything read off one case.

    ``rings`` by bore; ``beads``: lowest line load [N/mm] by passage; ``body``: mean pressure of the body [MPa]
    or None where there is none; ``bolts``: tension [N] by label.
    """

    rings: tuple[Ring, ...]
    beads: tuple[tuple[str, float], ...]
    body: float | None
    bolts: tuple[tuple[str, float], ...]

    def ring(self, bore: str) -> Ring:
        """Return the ring of a bore."""
        for ring in self.rings:
            if ring.bore == bore:
                return ring
        raise OutOfRange("bore", repr(bore), f"known: {', '.join(ring.bore for ring in self.rings)}")


_SIDES = (
    "rear",
    "rear and +y",
    "+y",
    "front and +y",
    "front",
    "front and -y",
    "-y",
    "rear and -y",
)


def direction(angle: float) -> str:
    """Name the direction of an angle on the deck: x runs from front to rear.

    Parameters
    ----------
    angle : float
        From the x axis to the y axis [rad].

    Returns
    -------
    str
        One of eight [text].

    Source
    ------
    derived

    Examples
    --------
    >>> direction(0.0), direction(3.14159 / 2), direction(-2.4)
    ('rear', '+y', 'front and -y')
    """
    return _SIDES[round(degrees(angle) / 45.0) % 8]


def read_off(joint: ClampedJoint, forces: Floats) -> Reading:
    """Read a joint at rest place by place.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [1].
    forces : ndarray, shape (n,)
        Forces of all springs [N].

    Returns
    -------
    Reading
        Rings, beads, body, bolts [N/mm], [MPa], [N].

    Source
    ------
    derived
    """
    places, points = joint.places, joint.springs.points
    loads = np.zeros(len(forces))
    loads[:points] = forces[:points] / joint.springs.share
    rings = tuple(_ring(joint, name, loads) for name in places.names("ring"))
    beads = tuple(
        (name, float(loads[places.of("half-bead", name)].min())) for name in places.names("half-bead")
    )
    body = places.of("body")[:points]
    share = joint.springs.share[body]
    mean = float(forces[:points][body].sum() / share.sum()) if body.any() else None
    bolts = tuple((name, float(forces[places.of("bolt", name)].sum())) for name in places.names("bolt"))
    return Reading(rings, beads, mean, bolts)


def _ring(joint: ClampedJoint, bore: str, loads: Floats) -> Ring:
    mine = np.flatnonzero(joint.places.of("ring", bore))
    x, y, load = joint.places.x[mine], joint.places.y[mine], loads[mine]
    share = joint.springs.share[mine]
    angle = np.arctan2(y - y.mean(), x - x.mean())
    lowest = int(load.argmin())
    return Ring(
        bore=bore,
        angle=angle,
        load=load,
        lowest=float(load[lowest]),
        lowest_angle=atan2(float(y[lowest] - y.mean()), float(x[lowest] - x.mean())),
        mean=float(load @ share / share.sum()),
    )


def lift_between(joint: ClampedJoint, quiet: Floats, firing: Floats, bore: str) -> Floats:
    """How far the head lifts off the ring of a bore between rest and firing.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [1].
    quiet, firing : ndarray, shape (n,)
        Closures in the two cases [mm].
    bore : str
        Label of the bore [text].

    Returns
    -------
    ndarray, shape (points of the ring,)
        Lift, positive when it opens, in the order of the ring's points [mm].

    Source
    ------
    derived
    """
    mine = joint.places.of("ring", bore)
    lift: Floats = quiet[mine] - firing[mine]
    return lift
