"""Liquid or sealer shut in below a bolt in a blind hole: the pressure the bolt makes of it."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.threads import Thread
from firedeck.tables.materials import Material
from firedeck.trace import NO_UNIT, Note, Step

SOURCE = "derived"


@dataclass(frozen=True)
class TrappedLiquid:
    """Pressure below the bolt and pull round the hole [MPa]; its share of what the casting bears [1].

    ``hoop_stress`` is None without the size of the boss, ``hoop_share`` also where the table knows no
    strength of the metal.
    """

    pressure: float
    hoop_stress: float | None
    hoop_share: float | None
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def trapped_liquid(
    thread: Thread, tension: float, boss_diameter: float | None = None, casting: Material | None = None
) -> TrappedLiquid:
    """Pressure a bolt makes in liquid that cannot get out of a blind hole.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    tension : float
        Pull the torque would give a bolt that is free to go in [N].
    boss_diameter : float or None
        Outside of the metal round the hole [mm].
    casting : Material or None
        What the block is made of [core].

    Returns
    -------
    TrappedLiquid
        Pressure and pull round the hole [MPa].

    Raises
    ------
    OutOfRange
        If the boss is not wider than the thread.

    Valid for
    ---------
    No liquid gets past the thread and the bolt pushes with its whole pull: the most there can be. It
    stops the job whatever the figure is.

    Source
    ------
    derived: push over the section of the thread; a thick pipe under pressure inside.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(trapped_liquid(thread_of("M12"), 40000.0).pressure)
    354
    """
    above_nought("tension", tension, "N")
    pressure = Step.work_out(
        "Pressure of liquid shut in below the bolt",
        "tension / (pi / 4 * major_diameter**2)",
        {"tension": (tension, "N"), "major_diameter": (thread.major_diameter, "mm")},
        ("pressure", "MPa"),
        SOURCE,
    )
    note = Note("none gets past the thread: the most there can be", SOURCE)
    if boss_diameter is None:
        return TrappedLiquid(pressure.value, None, None, (pressure,), (note,))
    if not boss_diameter > thread.major_diameter:
        allowed = f"wider than the thread, {thread.major_diameter:g} mm"
        raise OutOfRange("boss_diameter", f"{boss_diameter:g} mm", allowed)
    hoop = Step.work_out(
        "Pull round the hole at its wall",
        "pressure * (boss_diameter**2 + major_diameter**2) / (boss_diameter**2 - major_diameter**2)",
        {
            **pressure.result,
            "boss_diameter": (boss_diameter, "mm"),
            "major_diameter": (thread.major_diameter, "mm"),
        },
        ("hoop_stress", "MPa"),
        SOURCE,
    )
    if casting is None or casting.tensile is None:
        return TrappedLiquid(pressure.value, hoop.value, None, (pressure, hoop), (note,))
    share = Step.work_out(
        f"Over what the weakest {casting.says} bears",
        "hoop_stress / tensile_stress",
        {**hoop.result, "tensile_stress": (casting.tensile[0], "MPa")},
        ("hoop_share", NO_UNIT),
        casting.source,
    )
    return TrappedLiquid(pressure.value, hoop.value, share.value, (pressure, hoop, share), (note,))
