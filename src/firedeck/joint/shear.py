"""Hot parts grow along the face by different amounts. Whether they slip on the gasket is not known.

Two cases are reckoned: free to slip, and stuck by ties along the face from the cold joint on. They are cases, not a proven
bracket. Where the stuck case asks for more shear than friction can carry it is dropped, and said so.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from firedeck.joint.chord import Operator
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.laws import Floats
from firedeck.joint.settling import settle_all
from firedeck.joint.springs import Ints, State
from firedeck.trace import DERIVED, NO_UNIT, Step


@dataclass(frozen=True)
class Stuck:
    """The stuck case: closures w [mm], forces [N] over points, bolts, ties.

    ``shear`` and ``normal`` [N] of each patch; ``carried``: share of the friction used by the whole face [1];
    ``believable``: friction can carry it.
    """

    w: Floats
    forces: Floats
    shear: Floats
    normal: Floats
    carried: float
    believable: bool
    steps: tuple[Step, ...]


def stuck(
    joint: ClampedJoint,
    operators: Sequence[Operator],
    cold: State,
    loads: tuple[Load, Load],
    friction: tuple[float, Ints],
) -> Stuck:
    """Warm a joint whose faces do not slip.

    Parameters
    ----------
    joint : ClampedJoint
        The joint with ties, those along x first, then those along y [mm/N].
    operators : sequence of Operator
        Operators of this joint, the safe one last [mm/N].
    cold : State
        What points and bolts of the joint without ties remember when cold [mm], [N].
    loads : tuple of Load
        Cold and warm, of the joint with ties [mm], [N].
    friction : tuple of float and ndarray of int, shape (g,)
        Friction of metal on gasket [1], and the patch of each gasket point [1].

    Returns
    -------
    Stuck
        Closures, forces and shear [mm], [N].

    Raises
    ------
    DidNotConverge
        If it does not settle.

    Valid for
    ---------
    Small slip; shear carried patch by patch.

    Source
    ------
    derived
    """
    springs = joint.springs
    bolts = len(cold.shortening)
    ties = np.arange(bolts, len(springs.stiffness))
    fresh = springs.fresh()
    shortening = np.concatenate([cold.shortening, np.zeros(len(ties))])
    state = replace(fresh, permanent_set=cold.permanent_set, shortening=shortening)
    loose = springs.turned_to(state, ties, np.zeros(len(ties)))
    rest = settle_all(joint, operators, Case(loose, loads[0]), loads[0].w[:, None])
    state = springs.let_go(rest.w[:, 0], loose)
    warm = settle_all(joint, operators, Case(state, loads[1]), rest.w)
    forces = warm.forces[:, 0]
    along_x, along_y = np.split(forces[springs.points + bolts :], 2)
    shear: Floats = np.hypot(along_x, along_y)
    normal = np.bincount(friction[1], forces[: springs.points], minlength=len(shear)).astype(np.float64)
    used = Step.work_out(
        "Shear over friction, whole face",
        "shear / (friction * normal)",
        {
            "shear": (float(shear.sum()), "N"),
            "normal": (max(float(normal.sum()), 1e-9), "N"),
            "friction": (friction[0], NO_UNIT),
        },
        ("carried", NO_UNIT),
        DERIVED,
    )
    return Stuck(warm.w[:, 0], forces, shear, normal, used.value, used.value <= 1.0, (used,))
