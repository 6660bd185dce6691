"""Gap between valve and piston after a cut or another gasket."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.cylinder.bounds import within
from firedeck.errors import JobError
from firedeck.quantity import Outcome, meets
from firedeck.trace import DERIVED, GENERIC, Note, Step


@dataclass(frozen=True)
class ValveToPiston:
    """Gaps after the change [mm]; outcome against the limits is None where none were given."""

    intake: float
    exhaust: float
    intake_outcome: Outcome | None
    exhaust_outcome: Outcome | None
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def valve_to_piston(
    *,
    intake: float,
    exhaust: float,
    cut: float,
    gasket_change: float,
    limits: Sequence[float] | None = None,
    valve_angle: float = 0.0,
) -> ValveToPiston:
    """Gap between valves and piston after a cut and a change of gasket thickness.

    Parameters
    ----------
    intake, exhaust : float
        Smallest gaps measured before, along the valve's axis [mm].
    cut : float
        Metal off head and block together [mm].
    gasket_change : float
        New compressed thickness less the old, positive thicker [mm].
    limits : sequence of float, optional
        Least gap of intake and exhaust, in this order; one figure serves both [mm].
    valve_angle : float, optional
        Angle between valve and bore axis [rad].

    Returns
    -------
    ValveToPiston
        Gaps after the change, along the valve's axis [mm].

    Raises
    ------
    JobError
        If there are more than two limits or none.
    OutOfRange
        If the angle is 70 degrees or more.

    Valid for
    ---------
    Pockets cut parallel to the valve head; over a flat crown a leaning valve loses cut / cos(angle)
    instead, which is said.

    Source
    ------
    derived

    Examples
    --------
    >>> found = valve_to_piston(intake=2.6, exhaust=3.1, cut=0.5, gasket_change=0.1)
    >>> round(found.intake, 3), round(found.exhaust, 3)
    (2.2, 2.7)
    """
    within("valve_angle", valve_angle * 180.0 / math.pi, -70.0, 70.0, "deg")
    least = _least(limits)
    steps = {
        name: Step.work_out(
            f"{name.capitalize()} valve to piston after the change",
            f"{name} - (cut - gasket_change) * cos(valve_angle)",
            {
                name: (before, "mm"),
                "cut": (cut, "mm"),
                "gasket_change": (gasket_change, "mm"),
                "valve_angle": (valve_angle, "rad"),
            },
            (f"{name}_after", "mm"),
            DERIVED,
        )
        for name, before in (("intake", intake), ("exhaust", exhaust))
    }
    outcomes = {
        name: None if low is None else meets(steps[name].value, low=low) for name, low in least.items()
    }
    return ValveToPiston(
        steps["intake"].value,
        steps["exhaust"].value,
        outcomes["intake"],
        outcomes["exhaust"],
        tuple(steps.values()),
        (Note("cut is head and block together; gaps are along the valve's axis, turned by hand", GENERIC),),
        _cautions(steps, least, outcomes, valve_angle),
    )


def _least(limits: Sequence[float] | None) -> dict[str, float | None]:
    if limits is None:
        return {"intake": None, "exhaust": None}
    if len(limits) not in (1, 2):
        raise JobError("valve-to-piston limits", f"{len(limits)} figures", "give those of intake, exhaust")
    return {"intake": limits[0], "exhaust": limits[-1]}


def _cautions(
    steps: dict[str, Step],
    least: dict[str, float | None],
    outcomes: dict[str, Outcome | None],
    valve_angle: float,
) -> tuple[Note, ...]:
    notes = []
    for name, step in steps.items():
        if step.value <= 0.0:
            notes.append(Note(f"the {name} valve meets the piston: do not turn the engine", DERIVED))
        elif outcomes[name] is Outcome.FAILS:
            notes.append(
                Note(f"{name}: {step.value:.3g} mm is under the limit {least[name]:.3g} mm", DERIVED)
            )
        elif outcomes[name] is Outcome.AT_LIMIT:
            notes.append(Note(f"{name}: exactly at the limit {least[name]:.3g} mm", DERIVED))
    if valve_angle != 0.0:
        notes.append(Note("a leaning valve over a flat crown loses more: cut / cos(angle)", DERIVED))
    return tuple(notes)
