"""Limits of size of bolt and hole threads in the usual fit: 6g/6H metric, 2A/2B inch."""

from dataclasses import dataclass
from itertools import pairwise
from math import sqrt

from firedeck.errors import OutOfRange
from firedeck.fasteners.threads import Thread
from firedeck.quantity import Kind, from_unit, in_unit
from firedeck.trace import Step, input_names

_RANGES = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0)


@dataclass(frozen=True)
class ThreadLimits:
    """The four limits that decide how much metal a thread strips [mm]."""

    external_major_minimum: float
    external_pitch_minimum: float
    internal_pitch_maximum: float
    internal_minor_maximum: float
    says: str
    source: str
    steps: tuple[Step, ...] = ()


def usual_limits(thread: Thread) -> ThreadLimits:
    """Limits of size of a thread in the usual fit.

    Parameters
    ----------
    thread : Thread
        The thread [core].

    Returns
    -------
    ThreadLimits
        Least bolt and largest hole [mm].

    Valid for
    ---------
    Normal engagement; metric sizes from the standard's formulas before its rounding (a few µm).

    Source
    ------
    [iso-965-1] for 6g/6H, [asme-b1-1] for 2A/2B.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(usual_limits(thread_of("M8")).internal_minor_maximum, 2)
    6.92
    """
    return _metric(thread) if thread.metric else _inch(thread)


def _metric(thread: Thread) -> ThreadLimits:
    sizes = _sizes(thread)
    middle = {"pitch": sizes["pitch"], "middle_diameter": (_middle_of_range(thread.major_diameter), "mm")}
    source = "iso-965-1"
    gap = _step("Allowance g", "0.015 + 0.011 * pitch", sizes, "allowance", source)
    major = _step(
        "Tolerance of the bolt's outside, 6",
        "0.18 * pitch**(2 / 3) - 0.00315 / sqrt(pitch)",
        sizes,
        "major_tolerance",
        source,
    )
    flank = _step(
        "Tolerance of the bolt's flank, 6",
        "0.09 * pitch**0.4 * middle_diameter**0.1",
        middle,
        "pitch_tolerance",
        source,
    )
    hole_flank = _step(
        "Tolerance of the hole's flank, 6",
        "1.32 * pitch_tolerance",
        dict(flank.result),
        "hole_pitch_tolerance",
        source,
    )
    coarse = thread.pitch >= 1.0
    hole_minor = _step(
        "Tolerance of the hole's minor diameter, 6",
        "0.23 * pitch**0.7" if coarse else "0.433 * pitch - 0.19 * pitch**1.22",
        sizes,
        "minor_tolerance",
        source,
    )
    return _limits(thread, (gap, major, flank, hole_flank, hole_minor), "6g bolt in a 6H hole", source)


def _inch(thread: Thread) -> ThreadLimits:
    sizes = _sizes(thread)
    source = "asme-b1-1"
    flank = _rounded(
        _step(
            "Tolerance of the bolt's flank, 2A",
            "0.0129613 * major_diameter**(1 / 3) + 0.00755976 * major_diameter**0.5"
            " + 0.044093 * pitch**(2 / 3)",
            sizes,
            "pitch_tolerance",
            source,
        )
    )
    rest = (
        _step("Allowance 2A", "0.3 * pitch_tolerance", dict(flank.result), "allowance", source),
        _step(
            "Tolerance of the bolt's outside, 2A",
            "0.176372 * pitch**(2 / 3)",
            sizes,
            "major_tolerance",
            source,
        ),
        _step(
            "Tolerance of the hole's flank, 2B",
            "1.3 * pitch_tolerance",
            dict(flank.result),
            "hole_pitch_tolerance",
            source,
        ),
    )
    hole_minor = _step(
        "Tolerance of the hole's minor diameter, 2B",
        "0.25 * pitch - 0.0157480 * pitch**2",
        sizes,
        "minor_tolerance",
        source,
    )
    steps = (flank, *(_rounded(step) for step in rest), hole_minor)
    return _limits(thread, steps, "2A bolt in a 2B hole", source)


def _middle_of_range(diameter: float) -> float:
    for low, high in pairwise(_RANGES):
        if low < diameter <= high:
            return sqrt(low * high)
    raise OutOfRange("thread", f"{diameter:g} mm", f"allowed: {_RANGES[0]:g} to {_RANGES[-1]:g} mm")


def _sizes(thread: Thread) -> dict[str, tuple[float, str]]:
    return {"major_diameter": (thread.major_diameter, "mm"), "pitch": (thread.pitch, "mm")}


def _step(says: str, formula: str, inputs: dict[str, tuple[float, str]], result: str, source: str) -> Step:
    needed = {name: figure for name, figure in inputs.items() if name in input_names(formula)}
    return Step.work_out(says, formula, needed, (result, "mm"), source)


def _limits(thread: Thread, steps: tuple[Step, ...], says: str, source: str) -> ThreadLimits:
    known = {name: figure for step in steps for name, figure in step.result.items()} | {
        "major_diameter": (thread.major_diameter, "mm"),
        "pitch_diameter": (thread.pitch_diameter, "mm"),
        "internal_minor_diameter": (thread.internal_minor_diameter, "mm"),
    }

    def end(says: str, formula: str, result: str, digits: int) -> Step:
        exact = _step(says, formula, known, result, source)
        return exact if thread.metric else _rounded(exact, digits)

    outside = end(
        "Least outside of the bolt",
        "major_diameter - allowance - major_tolerance",
        "external_major_minimum",
        4,
    )
    bolt_flank = end(
        "Least pitch diameter of the bolt",
        "pitch_diameter - allowance - pitch_tolerance",
        "external_pitch_minimum",
        4,
    )
    hole_flank = end(
        "Largest pitch diameter of the hole",
        "pitch_diameter + hole_pitch_tolerance",
        "internal_pitch_maximum",
        4,
    )
    hole_minor = end(
        "Largest minor diameter of the hole",
        "internal_minor_diameter + minor_tolerance",
        "internal_minor_maximum",
        3,
    )
    return ThreadLimits(
        external_major_minimum=outside.value,
        external_pitch_minimum=bolt_flank.value,
        internal_pitch_maximum=hole_flank.value,
        internal_minor_maximum=hole_minor.value,
        says=says,
        source=source,
        steps=(*steps, outside, bolt_flank, hole_flank, hole_minor),
    )


def _rounded(exact: Step, digits: int = 4) -> Step:
    """The same size in whole last digits of an inch, as the inch standard prints it."""
    printed = from_unit(round(in_unit(exact.value, Kind.LENGTH, "in"), digits), Kind.LENGTH, "in")
    ((result, (value, unit)),) = exact.result.items()
    return Step.work_out(
        f"{exact.says}, rounded as the standard prints it",
        f"{exact.formula} + rounding",
        {**exact.inputs, "rounding": (printed - value, unit)},
        (result, unit),
        exact.source,
    )
