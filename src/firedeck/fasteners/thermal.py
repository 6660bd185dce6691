"""What heat makes of bolt tension when bolt and clamped parts do not grow alike."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.errors import BadQuantity, OutOfRange
from firedeck.fasteners.guards import above_nought, within
from firedeck.quantity import Kind, parse, split_rows
from firedeck.tables.materials import Material, material
from firedeck.trace import Note, Step


@dataclass(frozen=True)
class GripPart:
    """One clamped part along the bolt: its name, length [mm] and expansion [1/K]."""

    name: str
    length: float
    expansion: float
    source: str


@dataclass(frozen=True)
class ThermalTension:
    """Change of bolt tension by heat, positive when it grows [N]."""

    change: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def grip_parts(text: str) -> tuple[GripPart, ...]:
    """Read the clamped parts along a bolt.

    Parameters
    ----------
    text : str
        Material/length of each part, such as "aluminium/90 mm, grey-iron/12 mm" [text].

    Returns
    -------
    tuple of GripPart
        The parts in order [core].

    Raises
    ------
    OutOfRange
        If a part is not a material and a length.
    TableGap
        If the table has no such material.

    Source
    ------
    derived

    Examples
    --------
    >>> [part.length for part in grip_parts("aluminium/90 mm, grey-iron/12 mm")]
    [90.0, 12.0]
    """
    parts = []
    for cells in split_rows(text):
        if len(cells) != 2:
            raise OutOfRange(
                "grip", repr("/".join(cells)), "allowed: material/length, such as aluminium/90 mm"
            )
        metal = material(cells[0])
        try:
            length = parse(cells[1], Kind.LENGTH).value
        except BadQuantity as fault:
            raise OutOfRange("grip", repr(fault.found), fault.allowed) from None
        parts.append(GripPart(metal.name, length, metal.usual_expansion, metal.source))
    return tuple(parts)


def rises_of(parts: int, rise: float | None, rises: Sequence[float] | None) -> tuple[float, ...]:
    """Temperature rise of every clamped part, and last that of the bolt.

    Parameters
    ----------
    parts : int
        How many clamped parts there are [1].
    rise : float or None
        One rise for all of them and the bolt [K].
    rises : sequence of float or None
        One rise per part in order, then that of the bolt [K].

    Returns
    -------
    tuple of float
        Rises, the bolt's last [K].

    Raises
    ------
    OutOfRange
        If neither or both are given, or their count does not fit.

    Source
    ------
    derived

    Examples
    --------
    >>> rises_of(2, 80.0, None)
    (80.0, 80.0, 80.0)
    """
    if (rise is None) == (rises is None):
        raise OutOfRange("rise or rises", "neither" if rise is None else "both", "give one of the two")
    if rises is None:
        assert rise is not None
        return (rise,) * (parts + 1)
    if len(rises) != parts + 1:
        raise OutOfRange(
            "rises", f"{len(rises)} figures", f"{parts + 1}: one per part of the grip, then the bolt"
        )
    return tuple(rises)


def thermal_tension(
    grip: Sequence[GripPart],
    rises: Sequence[float],
    bolt: Material | float,
    bolt_stiffness: float,
    member_stiffness: float,
) -> ThermalTension:
    """Change of bolt tension when bolt and clamped parts warm up.

    Parameters
    ----------
    grip : sequence of GripPart
        Clamped parts along the bolt; the bolt stretches over their whole length [core].
    rises : sequence of float
        Rise of each part, then of the bolt [K].
    bolt : Material or float
        Bolt material, or its expansion per kelvin [1/K].
    bolt_stiffness : float
        Stiffness of the bolt [N/mm].
    member_stiffness : float
        Stiffness of the clamped parts, gasket included where there is one [N/mm].

    Returns
    -------
    ThermalTension
        The change, positive when the tension grows [N].

    Raises
    ------
    OutOfRange
        If a figure cannot be, or the rises do not fit the parts.

    Valid for
    ---------
    Elastic, each part at one temperature; a yielding bolt or a creeping gasket takes part of it away.

    Source
    ------
    derived

    Examples
    --------
    >>> parts = (GripPart("aluminium", 100.0, 22e-6, "derived"),)
    >>> round(thermal_tension(parts, (80.0, 80.0), 12e-6, 200000.0, 800000.0).change)
    12800
    """
    above_nought("bolt_stiffness", bolt_stiffness, "N/mm")
    above_nought("member_stiffness", member_stiffness, "N/mm")
    if not grip or len(rises) != len(grip) + 1:
        raise OutOfRange("rises", f"{len(rises)} figures", f"{len(grip) + 1}: one per part, then the bolt")
    for rise in rises:
        within("rise", rise, -150.0, 600.0, "K")
    growth = _growth(grip, rises[:-1])
    expansion, source = (bolt, "derived") if isinstance(bolt, float) else (bolt.usual_expansion, bolt.source)
    length = Step.work_out(
        "Length of bolt that grows with the parts",
        " + ".join(f"length_{place}" for place in range(1, len(grip) + 1)),
        {f"length_{place}": (part.length, "mm") for place, part in enumerate(grip, start=1)},
        ("length", "mm"),
        "derived",
    )
    bolt_growth = Step.work_out(
        "Growth of the bolt",
        "expansion * length * rise",
        {"expansion": (expansion, "1/K"), "length": length.figure(), "rise": (rises[-1], "K")},
        ("bolt_growth", "mm"),
        source,
    )
    change = Step.work_out(
        "Change of bolt tension",
        "(parts_growth - bolt_growth) / (1 / bolt_stiffness + 1 / member_stiffness)",
        {
            "parts_growth": growth.figure(),
            "bolt_growth": bolt_growth.figure(),
            "bolt_stiffness": (bolt_stiffness, "N/mm"),
            "member_stiffness": (member_stiffness, "N/mm"),
        },
        ("change", "N"),
        "derived",
    )
    notes = tuple(
        Note(
            f"{part.name}: expansion {part.expansion * 1e6:.4g} millionths per K, middle of the table",
            part.source,
        )
        for part in grip
    )
    return ThermalTension(change.value, (growth, length, bolt_growth, change), notes)


def _growth(grip: Sequence[GripPart], rises: Sequence[float]) -> Step:
    inputs: dict[str, tuple[float, str]] = {}
    for place, (part, rise) in enumerate(zip(grip, rises, strict=True), start=1):
        above_nought(f"length of {part.name}", part.length, "mm")
        inputs |= {
            f"expansion_{place}": (part.expansion, "1/K"),
            f"length_{place}": (part.length, "mm"),
            f"rise_{place}": (rise, "K"),
        }
    terms = (f"expansion_{place} * length_{place} * rise_{place}" for place in range(1, len(grip) + 1))
    source = grip[0].source if len({part.source for part in grip}) == 1 else "derived"
    return Step.work_out(
        "Growth of the clamped parts", " + ".join(terms), inputs, ("parts_growth", "mm"), source
    )
