"""How hard the air of a leak-down test turns the crank."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.trace import Note, Step


@dataclass(frozen=True)
class CrankTorque:
    """Torque [N·mm] with which the air turns the crank, its written sum and the caution."""

    torque: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def leak_down_crank_torque(
    bore: float, stroke: float, rod: float, supply: float, crank_angle: float
) -> CrankTorque:
    """Torque on the crank from the test air, friction left out.

    Parameters
    ----------
    bore : float
        Cylinder bore [mm].
    stroke : float
        Stroke [mm].
    rod : float
        Connecting rod between centres [mm].
    supply : float
        Air pressure in the cylinder above ambient, at worst the full supply [MPa].
    crank_angle : float
        Crank angle after top dead centre, negative before it [rad].

    Returns
    -------
    CrankTorque
        Torque, positive when it turns the crank onwards [N·mm].

    Raises
    ------
    OutOfRange
        If a size is not positive or the rod is not longer than the crank throw.

    Valid for
    ---------
    Pin in line with the crank centre, one cylinder under air, no friction.

    Source
    ------
    [derived] piston force along the rod times the lever at the crank.

    Examples
    --------
    >>> round(leak_down_crank_torque(86.0, 86.0, 143.0, 0.689476, 0.1745329).torque)
    38773
    """
    for name, size in (("bore", bore), ("stroke", stroke), ("supply", supply)):
        if size <= 0.0:
            raise OutOfRange(name, f"{size:.6g}", "must be above zero")
    if rod <= stroke / 2:
        raise OutOfRange("rod", f"{rod:.6g} mm", f"must be longer than half the stroke, {stroke / 2:.6g} mm")
    force = Step.work_out(
        "Push of the air on the piston",
        "pi / 4 * bore**2 * supply",
        {"bore": (bore, "mm"), "supply": (supply, "MPa")},
        ("force", "N"),
        "derived",
    )
    lean = Step.work_out(
        "Lean of the rod",
        "asin(stroke / 2 * sin(crank_angle) / rod)",
        {"stroke": (stroke, "mm"), "crank_angle": (crank_angle, "rad"), "rod": (rod, "mm")},
        ("lean", "rad"),
        "derived",
    )
    torque = Step.work_out(
        "Torque on the crank",
        "force * stroke / 2 * sin(crank_angle + lean) / cos(lean)",
        {
            "force": force.figure(),
            "stroke": (stroke, "mm"),
            "crank_angle": (crank_angle, "rad"),
            "lean": lean.figure(),
        },
        ("torque", "N·mm"),
        "derived",
    )
    return CrankTorque(torque.value, (force, lean, torque), (_caution(),))


def _caution() -> Note:
    return Note(
        "Air can whip the crank round: bring the piston to top dead centre, lock the crank, leave no bar or "
        "socket on it, hands clear of belts and fan, bring the pressure up slowly.",
        "common-practice",
    )
