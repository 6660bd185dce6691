"""From what the bodies give way to a joint that can be asked: laws on the points, bolts, ties, faces that are not flat."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from firedeck.errors import JobError, OutOfRange
from firedeck.joint.clamped import ClampedJoint, Load, Places
from firedeck.joint.laws import Floats, Law, Per
from firedeck.joint.springs import Ints, Springs

GASKET = {"ring": Per.LINE, "half-bead": Per.LINE, "body": Per.AREA}
"""What the share of each kind of gasket point is counted in."""
TIE_STIFFNESS = 1e7
"""Stiffness of a tie along the face: stiffer than any metal behind it [N/mm]."""


@dataclass(frozen=True)
class Bolt:
    """A bolt as a straight spring: stiffness of its free length [N/mm] and its yield load [N]."""

    stiffness: float
    yield_load: float

    def __post_init__(self) -> None:
        if not (self.stiffness > 0.0 and self.yield_load > 0.0):
            raise OutOfRange("bolt", f"{self.stiffness:g} N/mm, {self.yield_load:g} N", "both above nought")


@dataclass(frozen=True)
class Bodies:
    """What head and block give way over all points, bolts and ties, and what loads do to them.

    ``share`` of each gasket point [mm or mm²]; ``gas`` per MPa by bore; ``warm`` per K by name.
    """

    places: Places
    share: Floats
    A: Floats
    R: Floats
    gas: Mapping[str, Load]
    warm: Mapping[str, Load]


@dataclass(frozen=True)
class Assembled:
    """A joint with its loads; ``kept``: which springs of the bodies it has, shape (n,)."""

    joint: ClampedJoint
    gas: Mapping[str, Load]
    warm: Mapping[str, Load]
    kept: Ints


def assembled(
    bodies: Bodies, laws: Mapping[str, Law], bolts: Mapping[str, Bolt], ties: bool = False
) -> Assembled:
    """Put a gasket and bolts between two bodies.

    Parameters
    ----------
    bodies : Bodies
        Head and block [mm/N].
    laws : mapping of str to Law
        Law by kind (ring, half-bead, body) or, for one place, by kind and place ("ring 3"); points of a kind
        without a law do not bear and are left out [N/mm or MPa].
    bolts : mapping of str to Bolt
        Bolt by label [N/mm].
    ties : bool
        Keep ties along the face: head, gasket and block stuck to each other [1].

    Returns
    -------
    Assembled
        The joint and its loads [mm/N].

    Raises
    ------
    JobError
        If a bolt is missing, nothing bears, or a law is counted on the wrong thing.

    Source
    ------
    derived
    """
    places = bodies.places
    chosen = [_law_for(laws, kind, place) for kind, place in zip(places.kind, places.place, strict=True)]
    bears = np.array([one is not None for one in chosen])
    rod = np.array([kind == "bolt" or (ties and kind == "tie") for kind in places.kind])
    kept = np.flatnonzero(bears | rod)
    springs = _springs(bodies, [one for one in chosen if one is not None], kept, bolts)
    joint = ClampedJoint(_only(places, kept), springs, bodies.A[np.ix_(kept, kept)], bodies.R[kept])
    gas = {name: Load(load.w[kept], load.r) for name, load in bodies.gas.items()}
    warm = {name: Load(load.w[kept], load.r) for name, load in bodies.warm.items()}
    return Assembled(joint, gas, warm, kept)


def _law_for(laws: Mapping[str, Law], kind: str, place: str) -> Law | None:
    if kind not in GASKET:
        return None
    law = laws.get(f"{kind} {place}", laws.get(kind))
    if law is not None and law.per is not GASKET[kind]:
        raise JobError(
            f"law of the {kind}", f"{law.name} per {law.per.value}", f"per {GASKET[kind].value}: give a width"
        )
    return law


def _only(places: Places, kept: Ints) -> Places:
    return Places(
        places.x[kept],
        places.y[kept],
        tuple(places.kind[place] for place in kept),
        tuple(places.place[place] for place in kept),
    )


def _springs(bodies: Bodies, chosen: list[Law], kept: Ints, bolts: Mapping[str, Bolt]) -> Springs:
    places = bodies.places
    names = [places.place[place] for place in kept if places.kind[place] == "bolt"]
    missing = [name for name in names if name not in bolts]
    if missing or not names or not chosen:
        raise JobError(
            "joint", f"no bolt for {missing}" if missing else "no bolts or no gasket", "both are needed"
        )
    laws = tuple(dict.fromkeys(chosen))
    number = {law: place for place, law in enumerate(laws)}
    ties = len(kept) - len(chosen) - len(names)
    far = np.full(ties, np.inf)
    return Springs(
        laws=laws,
        law_of=np.array([number[law] for law in chosen], dtype=np.int64),
        share=bodies.share[kept[: len(chosen)]],
        stiffness=np.array([bolts[name].stiffness for name in names] + [TIE_STIFFNESS] * ties),
        least=np.concatenate([np.zeros(len(names)), -far]),
        most=np.concatenate([[bolts[name].yield_load for name in names], far]),
    )


def gap_load(joint: ClampedJoint, gap: Floats) -> Load:
    """Load of faces that are not flat, of a liner that stands proud, of a step in the gasket.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm].
    gap : ndarray, shape (g,)
        Gap at each gasket point when the parts just touch; less than nought where they stand closer [mm].

    Returns
    -------
    Load
        Closure missing there [mm].

    Raises
    ------
    JobError
        If there is not one gap for each gasket point.

    Source
    ------
    derived
    """
    points = joint.springs.points
    if gap.shape != (points,) or not np.isfinite(gap).all():
        raise JobError("gap", f"{gap.shape} figures", f"{points}, one for each gasket point")
    none = joint.nothing()
    return Load(np.concatenate([-gap, none.w[points:]]), none.r)


def bolt_growth(joint: ClampedJoint, growth: Mapping[str, float]) -> Load:
    """Load of bolts that grow longer with heat, against which their pull falls.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm].
    growth : mapping of str to float
        Free growth of each bolt over its free length, by label [mm].

    Returns
    -------
    Load
        Lengthening missing at each bolt [mm].

    Raises
    ------
    JobError
        If a bolt is not of the joint.

    Source
    ------
    derived
    """
    none = joint.nothing()
    w = none.w.copy()
    for label, longer in growth.items():
        mine = joint.places.of("bolt", label)
        if not mine.any():
            raise JobError("fasteners", repr(label), f"known: {', '.join(joint.places.names('bolt'))}")
        w[mine] -= longer
    return Load(w, none.r)
