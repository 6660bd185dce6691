"""Pressure under a head, nut or washer, and what the face below can bear."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners.guards import above_nought
from firedeck.tables.materials import Material
from firedeck.trace import NO_UNIT, Note, Step


@dataclass(frozen=True)
class BearingPressure:
    """Pressure on the face [MPa] and its share of the stress at which the face sinks; None if no material.

    ``least_share`` is that share on the hardest grade of the material, where the table holds a range of grades.
    """

    pressure: float
    share_of_yield: float | None
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]
    least_share: float | None = None


def bearing_pressure(
    tension: float, outer_diameter: float, hole_diameter: float, face: Material | None = None
) -> BearingPressure:
    """Pressure of a head, nut or washer on the casting.

    Parameters
    ----------
    tension : float
        Bolt tension [N].
    outer_diameter : float
        Outer diameter of the ring that presses [mm].
    hole_diameter : float
        Diameter of the hole, chamfer included [mm].
    face : Material or None
        What it presses on [MPa].

    Returns
    -------
    BearingPressure
        Pressure and share of the stress at which the face sinks [MPa and 1].

    Raises
    ------
    OutOfRange
        If the ring has no width or a figure is not above nought.
    TableGap
        If the table does not say at which stress the material sinks.

    Valid for
    ---------
    A washer thick enough not to dish; pressure taken as even.

    Source
    ------
    derived

    Examples
    --------
    >>> round(bearing_pressure(40000.0, 20.0, 11.0).pressure)
    183
    """
    above_nought("tension", tension, "N")
    above_nought("hole_diameter", hole_diameter, "mm")
    if not outer_diameter > hole_diameter:
        found = f"{outer_diameter:g} mm over a {hole_diameter:g} mm hole"
        raise OutOfRange("outer_diameter", found, "the ring must be wider than its hole")
    pressure = Step.work_out(
        "Pressure under the ring",
        "tension / (pi / 4 * (outer_diameter**2 - hole_diameter**2))",
        {
            "tension": (tension, "N"),
            "outer_diameter": (outer_diameter, "mm"),
            "hole_diameter": (hole_diameter, "mm"),
        },
        ("pressure", "MPa"),
        "derived",
    )
    if face is None:
        return BearingPressure(pressure.value, None, (pressure,), ())
    if face.bearing_yield is None:
        raise TableGap("materials", f"the stress at which {face.name} sinks", "it for the bare family names")
    share = Step.work_out(
        f"Share of the stress at which {face.name} sinks",
        "pressure / bearing_yield",
        {"pressure": pressure.figure(), "bearing_yield": (face.bearing_yield, "MPa")},
        ("share_of_yield", NO_UNIT),
        face.source,
    )
    note = Note(
        f"{face.says}: sinks from about {face.bearing_yield:g} MPa, the low end of its table", face.source
    )
    if face.yield_stress is None or not face.yield_stress[1] > face.bearing_yield:
        return BearingPressure(pressure.value, share.value, (pressure, share), (note,))
    hardest = Step.work_out(
        f"The same on the hardest grade of {face.name} in the table",
        "pressure / yield_of_hardest",
        {"pressure": pressure.figure(), "yield_of_hardest": (face.yield_stress[1], "MPa")},
        ("least_share", NO_UNIT),
        face.source,
    )
    steps = (pressure, share, hardest)
    return BearingPressure(pressure.value, share.value, steps, (note,), hardest.value)
