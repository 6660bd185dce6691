"""What turns against a bolt: the ring under its head, and the torque per tension of thread and head."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.fasteners.friction import LEAST, MOST
from firedeck.fasteners.guards import above_nought, within
from firedeck.fasteners.threads import Thread
from firedeck.tables import rows
from firedeck.trace import NO_UNIT, Note, Step

SOURCE = "vdi-2230"


@dataclass(frozen=True)
class Bearing:
    """Ring on which the head (or nut) turns: outer and hole diameter, and their mean [mm]."""

    outer: float
    hole: float
    mean: float
    step: Step
    notes: tuple[Note, ...]


@dataclass(frozen=True)
class Levers:
    """Torque per tension of a bolt: share of the thread and of the head [mm], and how they came about."""

    thread_lever: float
    head_lever: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]

    @property
    def lever(self) -> float:
        """Torque over tension [mm]."""
        return self.thread_lever + self.head_lever


def bearing_of(
    thread: Thread, bearing_diameter: float | None = None, hole_diameter: float | None = None
) -> Bearing:
    """Ring under the head: as given, or that of a standard hexagon head over a medium hole.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    bearing_diameter : float or None
        Outer diameter of the face under head, nut or washer that turns [mm].
    hole_diameter : float or None
        Diameter of the hole or chamfer inside it [mm].

    Returns
    -------
    Bearing
        The ring and its mean diameter [mm].

    Raises
    ------
    OutOfRange
        If the ring has no width.
    TableGap
        If the size has no standard hexagon in the table.

    Valid for
    ---------
    Flat faces; pressure spread evenly.

    Source
    ------
    [iso-4014] smallest bearing diameter and medium hole; [shigley-9] 1.5 d over d for inch sizes.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(bearing_of(thread_of("M10")).mean, 3)
    12.815
    """
    outer, hole, source = _standard_ring(thread)
    notes = []
    if bearing_diameter is None or hole_diameter is None:
        notes.append(
            Note(f"where not given: standard hexagon head, face {outer:g} mm over a {hole:g} mm hole", source)
        )
    outer = outer if bearing_diameter is None else bearing_diameter
    hole = hole if hole_diameter is None else hole_diameter
    above_nought("hole_diameter", hole, "mm")
    if not outer > hole:
        found = f"{outer:g} mm over a {hole:g} mm hole"
        raise OutOfRange("bearing_diameter", found, "the face must be wider than its hole")
    step = Step.work_out(
        "Mean diameter of the face that turns",
        "(bearing_diameter + hole_diameter) / 2",
        {"bearing_diameter": (outer, "mm"), "hole_diameter": (hole, "mm")},
        ("mean_diameter", "mm"),
        source if notes else SOURCE,
    )
    return Bearing(outer, hole, step.value, step, tuple(notes))


def _standard_ring(thread: Thread) -> tuple[float, float, str]:
    d = thread.major_diameter
    if not thread.metric:
        return 1.5 * d, d, "shigley-9"
    table = rows("bearing_diameters")
    for row in table:
        if float(row["diameter_mm"]) == d:
            return float(row["bearing_mm"]), float(row["hole_mm"]), row["source"]
    return 1.5 * d, 1.1 * d, "generic-ours"


def levers_of(thread: Thread, thread_friction: float, head_friction: float, bearing: Bearing) -> Levers:
    """Torque needed per tension, in the thread and under the head.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    thread_friction : float
        Friction in the thread [1].
    head_friction : float
        Friction under the head [1].
    bearing : Bearing
        Ring under the head [mm].

    Returns
    -------
    Levers
        Levers of thread and head [mm].

    Raises
    ------
    OutOfRange
        If a friction is not between 0.02 and 0.6.

    Valid for
    ---------
    60° threads, turned at the head or nut.

    Source
    ------
    [vdi-2230] thread as an inclined plane, friction raised by 1/cos 30° on the flank.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> thread = thread_of("M10")
    >>> round(levers_of(thread, 0.12, 0.12, bearing_of(thread)).lever, 3)
    1.639
    """
    within("thread_friction", thread_friction, LEAST, MOST)
    within("head_friction", head_friction, LEAST, MOST)
    sizes = {"pitch": (thread.pitch, "mm"), "pitch_diameter": (thread.pitch_diameter, "mm")}
    rise = Step.work_out(
        "Rise of the thread", "pitch / (pi * pitch_diameter)", sizes, ("rise", NO_UNIT), SOURCE
    )
    flank = Step.work_out(
        "Friction on the flank of the thread",
        "thread_friction / cos(pi / 6)",
        {"thread_friction": (thread_friction, NO_UNIT)},
        ("flank_friction", NO_UNIT),
        SOURCE,
    )
    in_thread = Step.work_out(
        "Torque per tension in the thread",
        "pitch_diameter / 2 * (rise + flank_friction) / (1 - rise * flank_friction)",
        {"pitch_diameter": sizes["pitch_diameter"], "rise": rise.figure(), "flank_friction": flank.figure()},
        ("thread_lever", "mm"),
        SOURCE,
    )
    under_head = Step.work_out(
        "Torque per tension under the head",
        "head_friction * mean_diameter / 2",
        {"head_friction": (head_friction, NO_UNIT), "mean_diameter": bearing.step.figure()},
        ("head_lever", "mm"),
        SOURCE,
    )
    steps = (bearing.step, rise, flank, in_thread, under_head)
    return Levers(in_thread.value, under_head.value, steps, bearing.notes)


def lever_figures(levers: Levers) -> dict[str, tuple[float, str]]:
    """Both levers as inputs of a step.

    Parameters
    ----------
    levers : Levers
        Torque per tension of thread and head [mm].

    Returns
    -------
    dict of str to (float, str)
        The figures by name [mm].

    Source
    ------
    derived
    """
    return {"thread_lever": (levers.thread_lever, "mm"), "head_lever": (levers.head_lever, "mm")}
