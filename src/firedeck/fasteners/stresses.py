"""Stresses while a bolt is turned: pull and torsion together, and how near to yield that is."""

from firedeck.fasteners.levers import SOURCE, Levers
from firedeck.fasteners.strength import StrengthClass
from firedeck.fasteners.threads import Thread
from firedeck.fasteners.waist import weakest_section
from firedeck.trace import NO_UNIT, Note, Step


def torsion_steps(
    thread: Thread, tension: tuple[float, str], levers: Levers, waist: float | None = None
) -> tuple[Step, Step]:
    """Torsion that tightening leaves in the weakest section, and what it makes of the stress.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    tension : tuple of (float, str)
        Tension as a figure of a step [N].
    levers : Levers
        Torque per tension [mm].
    waist : float or None
        Thinnest diameter of the shank, None for one no thinner than the thread [mm].

    Returns
    -------
    tuple of (Step, Step)
        Torsion stress and equivalent stress [MPa].

    Source
    ------
    [vdi-2230] torsion section pi d0³ / 12; equivalent stress after von Mises.

    Examples
    --------
    >>> from firedeck.fasteners.levers import bearing_of, levers_of
    >>> from firedeck.fasteners.threads import thread_of
    >>> thread = thread_of("M10")
    >>> levers = levers_of(thread, 0.12, 0.12, bearing_of(thread))
    >>> [round(step.value) for step in torsion_steps(thread, (30000.0, "N"), levers)]
    [157, 585]
    """
    section = weakest_section(thread, waist)
    torsion = Step.work_out(
        "Torsion stress while tightening",
        "tension * thread_lever / (pi * stress_diameter**3 / 12)",
        {
            "tension": tension,
            "thread_lever": (levers.thread_lever, "mm"),
            "stress_diameter": section["stress_diameter"],
        },
        ("torsion_stress", "MPa"),
        SOURCE,
    )
    equivalent = Step.work_out(
        "Pull and torsion together",
        "sqrt((tension / stress_area)**2 + 3 * torsion_stress**2)",
        {"tension": tension, "stress_area": section["stress_area"], "torsion_stress": torsion.figure()},
        ("equivalent_stress", "MPa"),
        SOURCE,
    )
    return torsion, equivalent


def share_of_yield(equivalent: Step, strength: StrengthClass | None) -> tuple[Step, ...]:
    """Share of yield that pull and torsion together use.

    Parameters
    ----------
    equivalent : Step
        The equivalent stress as a step [MPa].
    strength : StrengthClass or None
        Class of the bolt [MPa].

    Returns
    -------
    tuple of Step
        One step with the share, none without a class [1].

    Source
    ------
    derived
    """
    if strength is None:
        return ()
    step = Step.work_out(
        f"Share of yield, class {strength.name}",
        "equivalent_stress / yield_stress",
        {"equivalent_stress": equivalent.figure(), "yield_stress": (strength.yield_stress, "MPa")},
        ("yield_fraction", NO_UNIT),
        strength.source,
    )
    return (step,)


def past_yield(share: tuple[Step, ...]) -> tuple[Note, ...]:
    """Caution where a bolt is past yield.

    Parameters
    ----------
    share : tuple of Step
        Share of yield as ``share_of_yield`` gives it [1].

    Returns
    -------
    tuple of Note
        One caution, none below yield [text].

    Source
    ------
    derived
    """
    if not share or share[0].value <= 1.0:
        return ()
    said = "past yield at this torque: the bolt stretches for good and the tension is less than this sum says"
    return (Note(said, "derived"),)
