"""The gasket as one spring near a clamp: how stiff it is when pressed on, and how stiff when it springs back."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.laws import Law, Per
from firedeck.trace import NO_UNIT, Step, as_printed

SLOPE_UNITS = {Per.LINE: "N/mm²", Per.AREA: "MPa/mm"}


@dataclass(frozen=True)
class Pressed:
    """One part of a gasket: its law, and how much of it bears [mm of line or mm² of area]."""

    law: Law
    amount: float


@dataclass(frozen=True)
class GasketSpring:
    """A gasket at a clamp: closure [mm], stiffness pressed on and sprung back [N/mm], share lost by creep [share]."""

    closure: float
    pressing: float
    springing: float
    creep: float
    steps: tuple[Step, ...]


def gasket_closure(parts: Mapping[str, Pressed], load: float) -> float:
    """Closure at which the parts of a gasket together bear a load for the first time.

    Parameters
    ----------
    parts : mapping of str to Pressed
        By part: ring, half-bead, body [mm and mm²].
    load : float
        Clamp of all fasteners together [N].

    Returns
    -------
    float
        Closure, even over the whole gasket [mm].

    Raises
    ------
    OutOfRange
        If there is no part, an amount is not above nought, or the load is below nought.

    Valid for
    ---------
    Stiff faces: one closure everywhere.

    Source
    ------
    derived

    Examples
    --------
    >>> law = Law("ring", Per.LINE, (0.0, 0.1, 0.2), (0.0, 100.0, 300.0), 4e3, 3e3, 0.02, 0.2, "generic-ours")
    >>> round(gasket_closure({"ring": Pressed(law, 1000.0)}, 200e3), 6)
    0.15
    """
    if not parts or any(not part.amount > 0.0 for part in parts.values()):
        raise OutOfRange("gasket", "no part that bears", "at least one part with a length or an area")
    if not load >= 0.0:
        raise OutOfRange("clamp", f"{load:g} N", "nought or more")
    knots = np.unique(np.concatenate([part.law.knots[0] for part in parts.values()]))
    loads = sum(part.amount * part.law.pressed(knots) for part in parts.values())
    return float(np.interp(load, loads, knots))


def gasket_spring(parts: Mapping[str, Pressed], load: float) -> GasketSpring:
    """Stiffness of a gasket at a clamp, from the slopes of its pressing laws there.

    Parameters
    ----------
    parts : mapping of str to Pressed
        By part: ring, half-bead, body [mm and mm²].
    load : float
        Clamp of all fasteners together [N].

    Returns
    -------
    GasketSpring
        Closure and stiffness of the whole gasket [mm and N/mm].

    Raises
    ------
    OutOfRange
        If there is no part, an amount is not above nought, or the load is not above nought.

    Valid for
    ---------
    Small changes about the clamp: more load follows the curve of the first crush, less load the straight unloading.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> law = Law("ring", Per.LINE, (0.0, 0.1, 0.2), (0.0, 100.0, 300.0), 4e3, 3e3, 0.02, 0.2, "generic-ours")
    >>> spring = gasket_spring({"ring": Pressed(law, 1000.0)}, 200e3)
    >>> round(spring.pressing), round(spring.springing)
    (2000000, 4000000)
    """
    if not load > 0.0:
        raise OutOfRange("clamp", f"{load:g} N", "more than nought")
    closure = gasket_closure(parts, load)
    bearing = {
        name.replace("-", "_"): part
        for name, part in parts.items()
        if float(part.law.pressed(np.array([closure]))[0]) > 0.0
    }
    pressing = _together("pressed on further", "pressing_stiffness", bearing, closure, back=False)
    springing = _together("springing back", "springing_stiffness", bearing, closure, back=True)
    balance = _balance(bearing, closure, load)
    creep = _creep(bearing, closure)
    return GasketSpring(
        closure, pressing.value, springing.value, creep.value, (balance, pressing, springing, creep)
    )


def _slope(law: Law, closure: float) -> float:
    """Slope of the first crush; on a knot that of the piece before it, the softer for these curves."""
    knots = law.knots[0]
    return float(law.slopes[int(np.searchsorted(knots, closure - 1e-12, side="left"))])


def _together(says: str, result: str, parts: Mapping[str, Pressed], closure: float, *, back: bool) -> Step:
    figures: dict[str, tuple[float, str]] = {}
    for name, part in parts.items():
        unit = "mm" if part.law.per is Per.LINE else "mm²"
        figures[f"{name}_amount"] = (as_printed(part.amount), unit)
        slope = part.law.unloading_slope if back else _slope(part.law, closure)
        figures[f"{name}_slope"] = (as_printed(slope), SLOPE_UNITS[part.law.per])
    formula = " + ".join(f"{name}_amount * {name}_slope" for name in parts)
    names = ", ".join(part.law.name for part in parts.values())
    return Step.work_out(
        f"Stiffness of the whole gasket {says} ({names})", formula, figures, (result, "N/mm"), "generic-ours"
    )


def _loads(parts: Mapping[str, Pressed], closure: float) -> dict[str, tuple[float, str]]:
    return {
        f"{name}_load": (as_printed(part.amount * float(part.law.pressed(np.array([closure]))[0])), "N")
        for name, part in parts.items()
    }


def _balance(parts: Mapping[str, Pressed], closure: float, load: float) -> Step:
    """What is left over between the clamp and the loads of the parts at the closure that was found."""
    loads = _loads(parts, closure)
    return Step.work_out(
        f"Left over at a closure of {closure:.4g} mm, as a share of the clamp",
        f"({' + '.join(loads)}) / clamp - 1",
        {**loads, "clamp": (as_printed(load), "N")},
        ("residual", NO_UNIT),
        "run:gasket-closure",
    )


def _creep(parts: Mapping[str, Pressed], closure: float) -> Step:
    loads = _loads(parts, closure)
    creeps = {f"{name}_creep": (part.law.creep, NO_UNIT) for name, part in parts.items()}
    top = " + ".join(f"{name}_load * {name}_creep" for name in parts)
    return Step.work_out(
        "Share of its load the gasket loses while it beds in, held at one closure",
        f"({top}) / ({' + '.join(loads)})",
        {**loads, **creeps},
        ("creep_share", NO_UNIT),
        "generic-ours",
    )
