"""Angle past snug: what turning a bolt makes of its tension, and whether it yields."""

from dataclasses import dataclass
from math import radians

from firedeck.errors import OutOfRange
from firedeck.fasteners.guards import above_nought, within
from firedeck.fasteners.strength import StrengthClass
from firedeck.fasteners.threads import Thread
from firedeck.trace import Note, Step

SOURCE = "derived"


@dataclass(frozen=True)
class AngleTension:
    """Tension [N] after an angle; stretch and the part of it that stays [mm]; whether it yielded.

    ``stretch`` is the whole lengthening of the bolt from slack. ``reached_yield`` is None where no
    class is given, because then nothing is known of yield.
    """

    tension: float
    stretch: float
    plastic_stretch: float
    reached_yield: bool | None
    steps: tuple[Step, ...]
    cautions: tuple[Note, ...] = ()


def angle_tension(
    thread: Thread,
    angle: float,
    bolt_stiffness: float,
    member_stiffness: float,
    *,
    snug_tension: float = 0.0,
    strength: StrengthClass | None = None,
    stress_area: float | None = None,
) -> AngleTension:
    """Tension after turning a bolt by an angle past snug.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    angle : float
        Angle turned past snug [rad].
    bolt_stiffness : float
        Stiffness of the bolt [N/mm].
    member_stiffness : float
        Stiffness of what it clamps, gasket included where there is one [N/mm].
    snug_tension : float
        Tension before the angle [N].
    strength : StrengthClass or None
        Class, for the yield load [MPa].
    stress_area : float or None
        Smallest area of the bolt where it is not the thread, such as a waist [mm²].

    Returns
    -------
    AngleTension
        Tension and stretch [N and mm].

    Raises
    ------
    OutOfRange
        If a figure is not above nought, the angle is more than two turns, or the snug tension is
        already at yield.

    Valid for
    ---------
    Parts in full contact at snug; past yield the tension is held at the yield load (hardening and
    the torsion of tightening left out, which pull in opposite directions).

    Source
    ------
    derived

    Examples
    --------
    >>> from math import pi
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(angle_tension(thread_of("M10"), pi / 2, 200000.0, 800000.0).tension)
    60000
    """
    above_nought("angle", angle, "rad")
    within("angle", angle, 0.0, radians(720.0), "rad")
    above_nought("bolt_stiffness", bolt_stiffness, "N/mm")
    above_nought("member_stiffness", member_stiffness, "N/mm")
    if snug_tension != 0.0:
        above_nought("snug_tension", snug_tension, "N")
    advance = Step.work_out(
        "Way the thread goes in",
        "pitch * angle / (2 * pi)",
        {"pitch": (thread.pitch, "mm"), "angle": (angle, "rad")},
        ("advance", "mm"),
        SOURCE,
    )
    spring = {
        "advance": advance.figure(),
        "snug_tension": (snug_tension, "N"),
        "bolt_stiffness": (bolt_stiffness, "N/mm"),
        "member_stiffness": (member_stiffness, "N/mm"),
    }
    elastic = Step.work_out(
        "Tension if nothing yields",
        "snug_tension + advance * bolt_stiffness * member_stiffness / (bolt_stiffness + member_stiffness)",
        spring,
        ("elastic_tension", "N"),
        SOURCE,
    )
    limit = _yield_load(thread, strength, stress_area, snug_tension)
    if limit is not None and elastic.value >= limit.value:
        return _yielded((advance, elastic, limit), spring)
    tension = Step.work_out("Bolt tension", "elastic_tension", dict(elastic.result), ("tension", "N"), SOURCE)
    stretch = Step.work_out(
        "Stretch of the bolt",
        "tension / bolt_stiffness",
        {"tension": tension.figure(), "bolt_stiffness": spring["bolt_stiffness"]},
        ("stretch", "mm"),
        SOURCE,
    )
    known = (advance, elastic, limit) if limit else (advance, elastic)
    note = Note("no class given: yield is not looked at", "derived")
    return AngleTension(
        tension=tension.value,
        stretch=stretch.value,
        plastic_stretch=0.0,
        reached_yield=None if limit is None else False,
        steps=(*known, tension, stretch),
        cautions=() if limit else (note,),
    )


def _yield_load(
    thread: Thread, strength: StrengthClass | None, stress_area: float | None, snug_tension: float
) -> Step | None:
    if strength is None:
        if stress_area is not None:
            raise OutOfRange("stress_area", f"{stress_area:g} mm² without a class", "give the class as well")
        return None
    area = thread.stress_area if stress_area is None else stress_area
    above_nought("stress_area", area, "mm²")
    step = Step.work_out(
        f"Load at yield, class {strength.name}",
        "stress_area * yield_stress",
        {"stress_area": (area, "mm²"), "yield_stress": (strength.yield_stress, "MPa")},
        ("yield_load", "N"),
        strength.source,
    )
    if snug_tension >= step.value:
        raise OutOfRange(
            "snug_tension", f"{snug_tension:g} N", f"below the load at yield, {step.value:.0f} N"
        )
    return step


def _yielded(known: tuple[Step, Step, Step], spring: dict[str, tuple[float, str]]) -> AngleTension:
    limit = known[2]
    tension = Step.work_out(
        "Bolt tension, held at yield", "yield_load", dict(limit.result), ("tension", "N"), SOURCE
    )
    plastic = Step.work_out(
        "Stretch that stays",
        "advance - (tension - snug_tension) * (1 / bolt_stiffness + 1 / member_stiffness)",
        {**spring, "tension": tension.figure()},
        ("plastic_stretch", "mm"),
        SOURCE,
    )
    stretch = Step.work_out(
        "Stretch of the bolt",
        "tension / bolt_stiffness + plastic_stretch",
        {
            "tension": tension.figure(),
            "bolt_stiffness": spring["bolt_stiffness"],
            "plastic_stretch": plastic.figure(),
        },
        ("stretch", "mm"),
        SOURCE,
    )
    note = Note(
        "held at the least yield load: torsion while turning lowers it by a tenth or so, hardening raises it",
        "derived",
    )
    return AngleTension(
        tension.value, stretch.value, plastic.value, True, (*known, tension, plastic, stretch), (note,)
    )
