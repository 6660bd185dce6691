"""Force with which the gas tries to part head and block."""

from dataclasses import dataclass

from firedeck.cylinder.bounds import not_negative, positive
from firedeck.trace import DERIVED, GENERIC, Note, Step


@dataclass(frozen=True)
class GasForce:
    """Lifting force of one cylinder [N], with the written sum."""

    force: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()


def gas_force(peak: float, seal_diameter: float) -> GasForce:
    """Axial force of the gas on the head of one cylinder.

    Parameters
    ----------
    peak : float
        Peak gas pressure above ambient [MPa].
    seal_diameter : float
        Diameter at which the gasket seals [mm].

    Returns
    -------
    GasForce
        Force, positive when it opens the joint [N].

    Raises
    ------
    OutOfRange
        If the pressure is negative or the diameter not above nought.

    Valid for
    ---------
    Round seals; pressure even over the area.

    Source
    ------
    derived

    Examples
    --------
    >>> round(gas_force(peak=8.0, seal_diameter=90.0).force)
    50894
    """
    not_negative("peak", peak, "MPa")
    positive("seal_diameter", seal_diameter, "mm")
    step = Step.work_out(
        "Gas force inside the seal",
        "pi / 4 * seal_diameter**2 * peak",
        {"seal_diameter": (seal_diameter, "mm"), "peak": (peak, "MPa")},
        ("force", "N"),
        DERIVED,
    )
    return GasForce(
        step.value, (step,), (Note("peak is above ambient; the pressure is even over the area", GENERIC),)
    )
