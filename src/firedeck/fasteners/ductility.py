"""How much of the stretch a bolt has in it a turn past yield takes."""

from dataclasses import dataclass

from firedeck.errors import TableGap
from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.strength import StrengthClass
from firedeck.tables import rows
from firedeck.trace import NO_UNIT, Note, Step


@dataclass(frozen=True)
class DuctilityUsed:
    """Share of the stretch to fracture that is used up, and what is left of it [1]."""

    used: float
    left: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def ductility_used(
    plastic_stretch: float, stretching_length: float, strength: StrengthClass
) -> DuctilityUsed:
    """Share of its ductility a bolt gives away in one tightening past yield.

    Parameters
    ----------
    plastic_stretch : float
        Stretch that stays [mm].
    stretching_length : float
        Length of the thinnest section, where the stretch gathers [mm].
    strength : StrengthClass
        Its class [MPa].

    Returns
    -------
    DuctilityUsed
        Share used and left [1].

    Raises
    ------
    TableGap
        If the table knows no elongation of the class.
    OutOfRange
        If a length cannot be.

    Valid for
    ---------
    Stretch spread evenly over that length; it necks at about half the elongation at fracture.

    Source
    ------
    [iso-898-1] and [sae-j429] least elongation after fracture, from memory.

    Examples
    --------
    >>> from firedeck.fasteners.strength import class_of
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(ductility_used(0.45, 100.0, class_of("10.9", thread_of("M10"))).used, 3)
    0.05
    """
    if plastic_stretch != 0.0:
        above_nought("plastic_stretch", plastic_stretch, "mm")
    above_nought("stretching_length", stretching_length, "mm")
    found = [row for row in rows("elongation") if row["class"] == strength.name]
    if not found:
        names = ", ".join(row["class"] for row in rows("elongation"))
        raise TableGap("elongation", f"class {strength.name}", names)
    used = Step.work_out(
        f"Share of its ductility used, class {strength.name}",
        "plastic_stretch / (stretching_length * elongation)",
        {
            "plastic_stretch": (plastic_stretch, "mm"),
            "stretching_length": (stretching_length, "mm"),
            "elongation": (float(found[0]["elongation"]), NO_UNIT),
        },
        ("ductility_share", NO_UNIT),
        found[0]["source"],
    )
    left = Step.work_out(
        "Share left", "1 - ductility_share", dict(used.result), ("ductility_left", NO_UNIT), "derived"
    )
    note = Note("least elongation from memory; a bolt necks at about half of it", "memory")
    return DuctilityUsed(used.value, left.value, (used, left), (note,))
