"""What a cut of head or block of a vee engine asks of the intake flanges and end rails."""

import math
from dataclasses import dataclass

from firedeck.cylinder.bounds import within
from firedeck.trace import DERIVED, GENERIC, Note, Step


@dataclass(frozen=True)
class IntakeFaceCut:
    """Cut per flange, cut of the end rails, and how far ports go out of line uncorrected [mm]."""

    flange_cut: float
    end_rail_cut: float
    port_shift: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()


def intake_face_cut(vee_angle: float, flange_lean: float, cut: float) -> IntakeFaceCut:
    """Cuts that bring the intake manifold of a vee engine back in line after a cut of both banks.

    The head slides down its bore axis by the cut. The manifold must follow straight down until the
    ports line up along the flange; what then overlaps comes off the flange, and the drop comes off
    the end rails.

    Parameters
    ----------
    vee_angle : float
        Angle between the banks [rad].
    flange_lean : float
        Lean of the intake flange from square to the deck towards horizontal [rad].
    cut : float
        Metal off head or block, the same on both banks [mm].

    Returns
    -------
    IntakeFaceCut
        Cut per flange [mm], of the end rails [mm], and the offset of the ports along the flange
        if nothing is cut and the manifold is set down on the flanges as they are [mm].

    Raises
    ------
    OutOfRange
        If an angle is outside 0 to 180 degrees, or the flange comes to lie flat (bank half angle
        and lean together 80 degrees or more).

    Valid for
    ---------
    A manifold between two equal banks, both cut alike.

    Source
    ------
    derived

    Examples
    --------
    >>> import math
    >>> found = intake_face_cut(math.radians(90), math.radians(10), 1.0)
    >>> round(found.flange_cut, 4), round(found.end_rail_cut, 4)
    (1.2328, 1.717)
    """
    degrees = 180.0 / math.pi
    within("vee_angle", vee_angle * degrees, 1.0, 175.0, "deg")
    within("flange_lean", flange_lean * degrees, -45.0, 80.0, "deg")
    within("vee_angle / 2 + flange_lean", (vee_angle / 2.0 + flange_lean) * degrees, 0.5, 88.0, "deg")
    within("cut", cut, -50.0, 50.0, "mm")
    inputs = {"cut": (cut, "mm"), "vee_angle": (vee_angle, "rad"), "flange_lean": (flange_lean, "rad")}
    flange = Step.work_out(
        "Cut of each intake flange",
        "cut * sin(vee_angle / 2) / cos(vee_angle / 2 + flange_lean)",
        inputs,
        ("flange_cut", "mm"),
        DERIVED,
    )
    rail = Step.work_out(
        "Drop of the manifold, to come off the end rails",
        "cut * cos(flange_lean) / cos(vee_angle / 2 + flange_lean)",
        inputs,
        ("end_rail_cut", "mm"),
        DERIVED,
    )
    shift = Step.work_out(
        "Ports out of line along the flange if nothing is cut",
        "cut * sin(vee_angle / 2) / sin(vee_angle / 2 + flange_lean)",
        inputs,
        ("port_shift", "mm"),
        DERIVED,
    )
    notes = (
        Note("both banks are cut alike and the manifold gaskets stay as they were", GENERIC),
        Note("port_shift is with the manifold set down on uncut flanges and clear of the end rails", GENERIC),
    )
    return IntakeFaceCut(flange.value, rail.value, shift.value, (flange, rail, shift), notes)


@dataclass(frozen=True)
class AngleMill:
    """Cut at the deep side of a head milled at an angle [mm]."""

    deep_cut: float
    steps: tuple[Step, ...]


def angle_mill(width: float, angle: float) -> AngleMill:
    """Cut at the deep side when the head face is turned by an angle about its other edge.

    Parameters
    ----------
    width : float
        Width of the face across the engine [mm].
    angle : float
        Change of the face angle [rad].

    Returns
    -------
    AngleMill
        Cut at the deep side [mm].

    Raises
    ------
    OutOfRange
        If the angle is outside 0 to 10 degrees or the width outside 1 mm to 2 m.

    Source
    ------
    derived

    Examples
    --------
    >>> import math
    >>> round(angle_mill(6 * 25.4, math.radians(2)).deep_cut / 25.4, 4)
    0.2095
    """
    within("width", width, 1.0, 2000.0, "mm")
    within("angle", angle * 180.0 / math.pi, 0.0, 10.0, "deg")
    step = Step.work_out(
        "Cut at the deep side",
        "width * tan(angle)",
        {"width": (width, "mm"), "angle": (angle, "rad")},
        ("deep_cut", "mm"),
        DERIVED,
    )
    return AngleMill(step.value, (step,))
