"""Everything a stranger needs to solve the joint on his own: plain arrays and names, nothing hidden.

w + A ψ(w) = R q + w_load and Rᵀψ = r. A gasket point presses with share * max(0, min(curve(w), curve(m) + slope * (w - m))),
m the largest closure so far; a bolt pulls with min(max(stiffness * (w + shortening), 0), yield).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.joint.clamped import Case, ClampedJoint, Load, side_by_side
from firedeck.joint.laws import Floats
from firedeck.joint.newton import settle
from firedeck.joint.springs import State

Point = tuple[int, str, str, float, float, float, str]
"""index, kind, place, x [mm], y [mm], share [mm or mm²; 1 for a bolt], law ("bolt LABEL" for a bolt)."""


@dataclass(frozen=True)
class Export:
    """A joint and its cases as plain arrays.

    ``laws``: by name closure [mm], load, unloading_slope, last_slope; by bolt stiffness [N/mm], yield [N],
    shortening [mm]. ``largest_closure`` (n,) [mm], nought for bolts; ``w_load`` (cases, n) [mm], ``r`` (cases, k) [N];
    ``w`` (cases, n) [mm], ``psi`` (cases, n) [N], ``q`` (cases, k) as the judge found them.
    """

    points: tuple[Point, ...]
    A: Floats
    R: Floats
    laws: dict[str, dict[str, float | tuple[float, ...]]]
    largest_closure: Floats
    names: tuple[str, ...]
    w_load: Floats
    r: Floats
    w: Floats
    psi: Floats
    q: Floats


def exported(joint: ClampedJoint, state: State, cases: Sequence[tuple[str, Load]]) -> Export:
    """Settle some cases by the judge and give everything out.

    Parameters
    ----------
    joint : ClampedJoint
        The joint, without ties [mm/N].
    state : State
        What it remembers, no wrench on it [mm], [N].
    cases : sequence of (str, Load)
        Names and loads [mm], [N].

    Returns
    -------
    Export
        Arrays and names [mm], [N].

    Raises
    ------
    DidNotConverge
        If a case does not settle.

    Source
    ------
    derived
    """
    found = [settle(joint, Case(state, load)) for _, load in cases]
    loads = side_by_side([load for _, load in cases])
    return Export(
        points=_points(joint),
        A=joint.A,
        R=joint.R,
        laws=_laws(joint, state),
        largest_closure=_largest(joint, state),
        names=tuple(name for name, _ in cases),
        w_load=loads.w.T,
        r=loads.r.T,
        w=np.stack([one.w for one in found]),
        psi=np.stack([one.forces for one in found]),
        q=np.stack([one.q for one in found]),
    )


def _points(joint: ClampedJoint) -> tuple[Point, ...]:
    places, springs = joint.places, joint.springs
    law = [springs.laws[number].name for number in springs.law_of] + [
        f"bolt {label}" for label in places.place[springs.points :]
    ]
    share = [*springs.share.tolist(), *(1.0 for _ in springs.stiffness)]
    rows = zip(places.kind, places.place, places.x.tolist(), places.y.tolist(), share, law, strict=True)
    return tuple((number, *row) for number, row in enumerate(rows))


def _laws(joint: ClampedJoint, state: State) -> dict[str, dict[str, float | tuple[float, ...]]]:
    springs = joint.springs
    laws: dict[str, dict[str, float | tuple[float, ...]]] = {
        law.name: {
            "closure": law.closure,
            "load": law.load,
            "unloading_slope": law.unloading_slope,
            "last_slope": law.last_slope,
        }
        for law in springs.laws
    }
    figures = zip(springs.stiffness, springs.most, state.shortening, strict=True)
    for label, (stiffness, most, shortening) in zip(
        joint.places.place[springs.points :], figures, strict=True
    ):
        laws[f"bolt {label}"] = {
            "stiffness": float(stiffness),
            "yield": float(most),
            "shortening": float(shortening),
        }
    return laws


def _largest(joint: ClampedJoint, state: State) -> Floats:
    springs = joint.springs
    largest = np.zeros(springs.count)
    for law, run in springs.runs:
        largest[run] = law.crushed_to(state.permanent_set[run])
    return largest
