"""One engine as the study takes it: what goes between and round the castings, and how far each figure may be off."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from firedeck.joint.assembling import Assembled, Bodies, assembled
from firedeck.joint.assumed import assumed
from firedeck.joint.chord import Operator, safe_operator
from firedeck.joint.geometry.condensed import Flexibility
from firedeck.joint.laws import Floats, Law
from firedeck.joint.model import Inputs
from firedeck.joint.springs import Ints
from firedeck.joint.tightening import Action

MIDDLE, SOFT, STIFF, COARSE, TIED = "middle", "soft", "stiff", "coarse", "tied"
"""Castings of one engine: three insides; the middle on coarse bricks, free and stuck to each other by ties."""


DIP_REACH = assumed("dip reach")
"""Reach of a dip or hump: its bell falls to three fifths there [mm]."""


@dataclass(frozen=True)
class Given:
    """All that is known of one engine but its castings.

    ``inputs`` with a gap at every gasket point; ``peak`` [MPa] least and most; ``knock`` [MPa] set aside for knock;
    ``retorque``: turns of the wrench after running in; ``bearing`` area under each fastener by label [mm²];
    ``faces`` [mm]: by how much the readings of the faces may be off at one place; ``gasket``, ``fasteners``, ``gas`` in
    words, to tell whether two engines share what they are unsure of; ``friction``: doubt of torque over tension [1].
    """

    inputs: Inputs
    peak: tuple[float, float]
    knock: float
    bearing: Mapping[str, float]
    faces: float
    retorque: tuple[Action, ...] = ()
    gasket: str = ""
    fasteners: str = ""
    gas: str = ""
    friction: float = 0.0


@dataclass(frozen=True)
class Engine:
    """One engine with its castings condensed: flexibility by name, share and patch of each gasket point [mm or mm²]."""

    flexible: Mapping[str, Flexibility] = field(repr=False)
    share: Floats = field(repr=False)
    patch: Ints = field(repr=False)
    given: Given


@dataclass(frozen=True)
class Ready:
    """An engine put together with one casting and one set of laws, and the operator that always settles.

    ``fast``: an operator made near where the engine stands, if there is one.
    """

    made: Assembled
    safe: Operator
    inputs: Inputs
    fast: Operator | None = None


def ready(engine: Engine, casting: str = MIDDLE, curve: float = 1.0) -> Ready:
    """Put an engine together.

    Parameters
    ----------
    engine : Engine
        The engine [mm/N].
    casting : str
        Which of its castings [text].
    curve : float
        Factor on the loads of every gasket law, which keeps them rising [1].

    Returns
    -------
    Ready
        To be tightened and run [mm/N].

    Raises
    ------
    JobError
        If a bolt is missing or nothing bears.

    Source
    ------
    derived
    """
    inputs = engine.given.inputs
    flexible = engine.flexible[casting]
    bodies = Bodies(flexible.places, engine.share, flexible.A, flexible.R, flexible.gas, flexible.warm)
    laws = scaled_laws(inputs.laws, curve)
    made = assembled(bodies, laws, inputs.bolts, ties=casting == TIED)
    return Ready(made, safe_operator(made.joint), replace(inputs, laws=laws))


def scaled_laws(laws: Mapping[str, Law], curve: float) -> dict[str, Law]:
    """Laws with all loads times a factor; one law for many places stays one law.

    Parameters
    ----------
    laws : mapping of str to Law
        Laws by kind [N/mm or MPa].
    curve : float
        The factor [1].

    Returns
    -------
    dict of str to Law
        The same, changed [N/mm or MPa].

    Source
    ------
    derived
    """
    return dict(laws) if curve == 1.0 else {kind: law.scaled(curve) for kind, law in laws.items()}


def doubt_of_curve(laws: Mapping[str, Law]) -> float:
    """Share by which the loads of a gasket may be off: of its ring, which decides.

    Parameters
    ----------
    laws : mapping of str to Law
        Laws by kind [N/mm or MPa].

    Returns
    -------
    float
        Half width of the band [1].

    Source
    ------
    generic-ours
    """
    rings = [law.band for kind, law in laws.items() if kind.startswith("ring")]
    return max(rings or [law.band for law in laws.values()])


def dipped(engine: Engine, gap: Floats, at: tuple[float, float], depth: float) -> Floats:
    """Gap with a round dip, or a hump.

    Parameters
    ----------
    engine : Engine
        The engine, for the places of its points [mm].
    gap : ndarray, shape (g,)
        Gap at each gasket point [mm].
    at : tuple of float
        Middle of the dip [mm].
    depth : float
        Depth of it; less than nought for a hump [mm].

    Returns
    -------
    ndarray, shape (g,)
        Gap with it: a bell that falls to three fifths 15 mm off its middle [mm].

    Source
    ------
    generic-ours
    """
    places = engine.flexible[MIDDLE].places
    points = len(gap)
    away = np.hypot(places.x[:points] - at[0], places.y[:points] - at[1])
    found: Floats = gap + depth * np.exp(-0.5 * (away / DIP_REACH) ** 2)
    return found
