"""Metal that strips when a thread is pulled out, and how deep it must engage not to."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.thread_limits import ThreadLimits, usual_limits
from firedeck.fasteners.threads import Thread
from firedeck.trace import NO_UNIT, Note, Step, input_names

SOURCE = "fed-std-h28"
_BOLT_TOOTH = "pitch / 2 + 0.57735 * (external_pitch_minimum - internal_minor_maximum)"
_HOLE_TOOTH = "pitch / 2 + 0.57735 * (external_major_minimum - internal_pitch_maximum)"


@dataclass(frozen=True)
class ThreadStrip:
    """Areas that shear [mm²], loads at which they do [N] and the engagement that breaks the bolt first [mm].

    A load is None where its shear strength is not given.
    """

    external_area: float
    internal_area: float
    bolt_strip_load: float | None
    hole_strip_load: float | None
    engagement_for_full_strength: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def limits_with(
    thread: Thread,
    external_major_minimum: float | None = None,
    external_pitch_minimum: float | None = None,
    internal_pitch_maximum: float | None = None,
    internal_minor_maximum: float | None = None,
) -> ThreadLimits:
    """Usual limits of size, with those that were measured or typed put in their place.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    external_major_minimum : float or None
        Least outside diameter of the bolt thread [mm].
    external_pitch_minimum : float or None
        Least pitch diameter of the bolt thread [mm].
    internal_pitch_maximum : float or None
        Largest pitch diameter of the hole [mm].
    internal_minor_maximum : float or None
        Largest minor diameter of the hole [mm].

    Returns
    -------
    ThreadLimits
        The four limits [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> limits_with(thread_of("M10"), internal_minor_maximum=8.9).internal_minor_maximum
    8.9
    """
    typed = {
        "external_major_minimum": external_major_minimum,
        "external_pitch_minimum": external_pitch_minimum,
        "internal_pitch_maximum": internal_pitch_maximum,
        "internal_minor_maximum": internal_minor_maximum,
    }
    given = {name: value for name, value in typed.items() if value is not None}
    usual = usual_limits(thread)
    if not given:
        return usual
    kept = tuple(step for step in usual.steps if not given.keys() & step.result.keys())
    said = f"{usual.says} where not given" if len(given) < len(typed) else "limits of size as given"
    return ThreadLimits(
        external_major_minimum=given.get("external_major_minimum", usual.external_major_minimum),
        external_pitch_minimum=given.get("external_pitch_minimum", usual.external_pitch_minimum),
        internal_pitch_maximum=given.get("internal_pitch_maximum", usual.internal_pitch_maximum),
        internal_minor_maximum=given.get("internal_minor_maximum", usual.internal_minor_maximum),
        says=said,
        source=usual.source,
        steps=kept if len(given) < len(typed) else (),
    )


def thread_strip(
    thread: Thread,
    engagement: float,
    bolt_shear_strength: float | None = None,
    hole_shear_strength: float | None = None,
    limits: ThreadLimits | None = None,
) -> ThreadStrip:
    """Areas and loads at which bolt thread and hole thread strip.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    engagement : float
        Length of full thread in full thread [mm].
    bolt_shear_strength : float or None
        Shear strength of the bolt [MPa].
    hole_shear_strength : float or None
        Shear strength of the metal round the hole [MPa].
    limits : ThreadLimits or None
        Limits of size, the usual fit where None [mm].

    Returns
    -------
    ThreadStrip
        Areas, loads, and engagement for full strength [core].

    Raises
    ------
    OutOfRange
        If a figure is not above nought, or bolt and hole do not touch.

    Valid for
    ---------
    Load shared evenly by the threads engaged: beyond about one and a half to two diameters the last
    threads carry little. Raised first threads and chamfers are not engagement.

    Source
    ------
    [fed-std-h28] section 2B.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(thread_strip(thread_of("M10"), 15.0, hole_shear_strength=180.0).hole_strip_load, -3)
    58000.0
    """
    above_nought("engagement", engagement, "mm")
    limits = limits or usual_limits(thread)
    figures = _figures(thread, engagement, limits)
    external = _area(
        "Bolt thread that shears",
        f"internal_minor_maximum * ({_BOLT_TOOTH})",
        figures,
        "external_area",
    )
    internal = _area(
        "Hole thread that shears",
        f"external_major_minimum * ({_HOLE_TOOTH})",
        figures,
        "internal_area",
    )
    strengths = {"bolt": bolt_shear_strength, "hole": hole_shear_strength}
    areas = {"bolt": external, "hole": internal}
    loads = {
        side: _load(side, areas[side], strength)
        for side, strength in strengths.items()
        if strength is not None
    }
    depth, notes = _full_strength(thread, figures, external, internal, strengths)
    return ThreadStrip(
        external_area=external.value,
        internal_area=internal.value,
        bolt_strip_load=loads["bolt"].value if "bolt" in loads else None,
        hole_strip_load=loads["hole"].value if "hole" in loads else None,
        engagement_for_full_strength=depth[-1].value,
        steps=(*limits.steps, external, internal, *loads.values(), *depth),
        notes=(Note(limits.says, limits.source), *notes),
    )


def _figures(thread: Thread, engagement: float, limits: ThreadLimits) -> dict[str, tuple[float, str]]:
    if not limits.internal_minor_maximum < limits.external_major_minimum:
        found = f"hole {limits.internal_minor_maximum:g} mm, bolt {limits.external_major_minimum:g} mm"
        raise OutOfRange("limits of size", found, "the hole must be smaller than the outside of the bolt")
    sizes = {
        "external_major_minimum": limits.external_major_minimum,
        "external_pitch_minimum": limits.external_pitch_minimum,
        "internal_pitch_maximum": limits.internal_pitch_maximum,
        "internal_minor_maximum": limits.internal_minor_maximum,
    }
    # to a tenth of a µm, so that the written sum comes out again from the sizes it prints
    printed = {name: (round(size, 4), "mm") for name, size in sizes.items()}
    return {"pitch": (thread.pitch, "mm"), "engagement": (engagement, "mm"), **printed}


def _area(says: str, tooth: str, figures: dict[str, tuple[float, str]], result: str) -> Step:
    formula = f"pi * engagement / pitch * {tooth}"
    step = Step.work_out(says, formula, _needed(formula, figures), (result, "mm²"), SOURCE)
    if step.value <= 0.0:
        raise OutOfRange(
            "limits of size", f"no tooth left for the {says.lower()}", "check the four diameters"
        )
    return step


def _needed(formula: str, figures: dict[str, tuple[float, str]]) -> dict[str, tuple[float, str]]:
    return {name: figure for name, figure in figures.items() if name in input_names(formula)}


def _load(side: str, area: Step, strength: float) -> Step:
    above_nought(f"{side}_shear_strength", strength, "MPa")
    ((name, figure),) = area.result.items()
    return Step.work_out(
        f"Load at which the {side} thread strips",
        f"{name} * {side}_shear_strength",
        {name: figure, f"{side}_shear_strength": (strength, "MPa")},
        (f"{side}_strip_load", "N"),
        SOURCE,
    )


def _full_strength(
    thread: Thread,
    figures: dict[str, tuple[float, str]],
    external: Step,
    internal: Step,
    strengths: dict[str, float | None],
) -> tuple[tuple[Step, ...], tuple[Note, ...]]:
    formula = f"2 * stress_area * pitch / (pi * internal_minor_maximum * ({_BOLT_TOOTH}))"
    equal = Step.work_out(
        "Engagement at which the bolt breaks first, hole as strong as the bolt",
        formula,
        _needed(formula, {**figures, "stress_area": (thread.stress_area, "mm²")}),
        ("equal_strength_engagement", "mm"),
        SOURCE,
    )
    if strengths["bolt"] is None or strengths["hole"] is None:
        depth = Step.work_out(
            "Engagement for full strength",
            "equal_strength_engagement",
            dict(equal.result),
            ("engagement_for_full_strength", "mm"),
            SOURCE,
        )
        note = Note("both shear strengths are not known: hole taken as strong as the bolt", SOURCE)
        return (equal, depth), (note,)
    weaker = Step.work_out(
        "How much weaker the hole thread is than the bolt thread",
        "external_area * bolt_shear_strength / (internal_area * hole_shear_strength)",
        {
            **external.result,
            **internal.result,
            "bolt_shear_strength": (strengths["bolt"], "MPa"),
            "hole_shear_strength": (strengths["hole"], "MPa"),
        },
        ("weakness", NO_UNIT),
        SOURCE,
    )
    depth = Step.work_out(
        "Engagement for full strength",
        "equal_strength_engagement * max(1, weakness)",
        {**equal.result, "weakness": weaker.figure()},
        ("engagement_for_full_strength", "mm"),
        SOURCE,
    )
    return (equal, weaker, depth), ()
