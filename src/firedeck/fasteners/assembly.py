"""Tension and torque at which thread tension and torsion together reach a share of yield."""

from dataclasses import dataclass

from firedeck.fasteners.guards import within
from firedeck.fasteners.levers import SOURCE, Bearing, Levers, bearing_of, levers_of
from firedeck.fasteners.threads import Thread
from firedeck.fasteners.waist import weakest_section
from firedeck.trace import NO_UNIT, Note, Step

USUAL_UTILISATION = 0.9


@dataclass(frozen=True)
class AssemblyTension:
    """Tension [N] a bolt may be given at assembly and the torque [N·mm] that gives it."""

    tension: float
    torque: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def assembly_tension(
    thread: Thread,
    yield_stress: tuple[float, str],
    *,
    thread_friction: float,
    head_friction: float,
    utilisation: float = USUAL_UTILISATION,
    bearing: Bearing | None = None,
    waist: float | None = None,
) -> AssemblyTension:
    """Tension at which pull and torsion use a share of yield, and its torque.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    yield_stress : tuple of (float, str)
        Least yield stress and its source, see ``yield_stress_of`` [MPa].
    thread_friction : float
        Friction in the thread [1].
    head_friction : float
        Friction under the head [1].
    utilisation : float
        Share of yield to use, usually 0.9 [1].
    bearing : Bearing or None
        Ring under the head, standard where None [mm].
    waist : float or None
        Thinnest diameter of the shank, None for one no thinner than the thread [mm].

    Returns
    -------
    AssemblyTension
        Tension and torque [N and N·mm].

    Raises
    ------
    OutOfRange
        If the share is not above 0 and at most 1, or a friction is not one of steel threads.

    Valid for
    ---------
    Steel bolts turned at head or nut; the weakest section is the thread or the waist given.

    Source
    ------
    [vdi-2230] assembly tension with the torsion section fully plastic.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> thread = thread_of("M8")
    >>> work = assembly_tension(thread, (640.0, "iso-898-1"), thread_friction=0.12, head_friction=0.12)
    >>> round(work.tension / 1000, 1), round(work.torque / 1000, 1)
    (18.6, 24.6)
    """
    within("utilisation", utilisation, 0.05, 1.0)
    levers = levers_of(thread, thread_friction, head_friction, bearing or bearing_of(thread))
    section = weakest_section(thread, waist)
    weight = _torsion_weight(section, levers)
    tension = Step.work_out(
        "Tension at which pull and torsion reach the share of yield",
        "utilisation * yield_stress * stress_area / sqrt(1 + 3 * torsion_per_pull**2)",
        {
            "utilisation": (utilisation, NO_UNIT),
            "yield_stress": (yield_stress[0], "MPa"),
            "stress_area": section["stress_area"],
            "torsion_per_pull": weight.figure(),
        },
        ("tension", "N"),
        SOURCE,
    )
    torque = Step.work_out(
        "Torque that gives it",
        "tension * (thread_lever + head_lever)",
        {
            "tension": tension.figure(),
            "thread_lever": (levers.thread_lever, "mm"),
            "head_lever": (levers.head_lever, "mm"),
        },
        ("torque", "N·mm"),
        SOURCE,
    )
    note = Note(f"least yield stress {yield_stress[0]:g} MPa", yield_stress[1])
    steps = (*thread.steps[-2:], *levers.steps, weight, tension, torque)
    return AssemblyTension(tension.value, torque.value, steps, (*levers.notes, note))


def _torsion_weight(section: dict[str, tuple[float, str]], levers: Levers) -> Step:
    return Step.work_out(
        "Torsion stress over pull stress",
        "thread_lever * stress_area / (pi * stress_diameter**3 / 12)",
        {"thread_lever": (levers.thread_lever, "mm"), **section},
        ("torsion_per_pull", NO_UNIT),
        SOURCE,
    )
