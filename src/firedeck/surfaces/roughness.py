"""Roughness figures of a trace: Ra, Rq, Rt, Rsk, Rku over the whole of it, Rz, Rp, Rv by sections."""

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.cutoff import STANDARD_CUTOFFS, choose_cutoff
from firedeck.surfaces.gaussian import mean_line
from firedeck.surfaces.points import Array
from firedeck.surfaces.profile_width import width_step
from firedeck.trace import DERIVED, Note, Step

_SOURCE = "iso-21920-2"


class Filter(StrEnum):
    """What is taken out of a trace before it is judged."""

    GAUSSIAN = "gaussian"
    NONE = "none"


@dataclass(frozen=True)
class Roughness:
    """Figures of a roughness profile; heights in mm, Rsk and Rku plain, ``cutoff`` None without filter.

    ``RSm`` is the mean width of a crest with its valley [mm]; None where fewer than two are whole.

    ``profile`` (n,) is what was judged: the trace less its mean line, trimmed to the sections.
    """

    Ra: float
    Rq: float
    Rt: float
    Rsk: float
    Rku: float
    Rz: float
    Rp: float
    Rv: float
    Rz1max: float
    RSm: float | None
    cutoff: float | None
    profile: Array
    steps: tuple[Step, ...]
    notes: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def roughness(
    heights: Array, step: float, cutoff: float | None = None, sections: int = 5, kind: str = "gaussian"
) -> Roughness:
    """Roughness figures of a trace at equal steps.

    With the Gaussian filter the middle of the trace, ``sections`` cut-offs long, is judged, and at
    least half a cut-off must lie beyond it at each end. Without a filter only the mean is taken out
    and the whole trace is judged, in equal sections.

    Parameters
    ----------
    heights : ndarray, shape (n,)
        Heights of the trace, positive out of the metal [mm].
    step : float
        Distance between heights [mm].
    cutoff : float, optional
        Cut-off of the filter; chosen from the trace's own Ra if left out [mm].
    sections : int
        Number of sections for Rz, Rp and Rv [count].
    kind : str
        gaussian or none [text].

    Returns
    -------
    Roughness
        The figures and their written sums [mm].

    Raises
    ------
    OutOfRange
        If the trace is too short for the sections or too coarse for the cut-off.

    Valid for
    ---------
    Traces across the lay, straight or of a form the filter takes out.

    Source
    ------
    iso-21920-2 definitions of the parameters; iso-16610-21 the filter

    Examples
    --------
    >>> wave = np.sin(2 * np.pi * np.arange(5000) / 500)
    >>> found = roughness(wave, 0.001, kind="none")
    >>> round(found.Ra, 4), round(found.Rz, 4), round(found.Rku, 4)
    (0.6366, 2.0, 1.5)
    """
    values = np.asarray(heights, dtype=np.float64)
    _check(values, step, sections)
    if kind not in tuple(Filter):
        raise OutOfRange("filter", kind, f"allowed: {', '.join(Filter)}")
    if kind == Filter.NONE:
        note = Note(f"no filter: only the mean is taken out, {sections} equal sections", DERIVED)
        return replace(_figures(values - values.mean(), step, sections, None), notes=(note,))
    if cutoff is not None:
        return _filtered(values, step, cutoff, sections)
    return _by_its_own_cutoff(values, step, sections)


def _check(heights: Array, step: float, sections: int) -> None:
    if not step > 0.0:
        raise OutOfRange("step", f"{step:g} mm", "longer than nothing")
    if sections < 1 or heights.ndim != 1 or len(heights) < 3 * sections:
        allowed = "one section or more, with at least three heights each"
        raise OutOfRange("profile", f"{heights.size} heights for {sections} sections", allowed)
    if not np.isfinite(heights).all():
        raise OutOfRange("profile", "a height that is not a finite number", "finite heights")
    if np.ptp(heights) == 0.0:
        raise OutOfRange("profile", "all heights alike", "a trace with some roughness in it")


def _filtered(heights: Array, step: float, cutoff: float, sections: int) -> Roughness:
    """Take the mean line out and keep the middle, as many cut-offs long as there are sections."""
    if not cutoff > 0.0:
        raise OutOfRange("cut-off", f"{cutoff:g} mm", "longer than nothing")
    length = (len(heights) - 1) * step
    needed = (sections + 1) * cutoff
    if length < needed * (1.0 - 1e-9) - step:
        parts = f"{sections} sections of {cutoff:g} mm and half a cut-off at each end"
        allowed = f"at least {needed:g} mm: {parts}"
        raise OutOfRange("profile", f"{length:g} mm", allowed)
    over = heights - mean_line(heights, step, cutoff)
    kept = min(round(sections * cutoff / step), len(heights))
    first = (len(heights) - kept) // 2
    says = f"judged are the middle {sections * cutoff:g} mm of {length:g} mm, cut-off {cutoff:g} mm"
    judged = _figures(over[first : first + kept], step, sections, cutoff)
    return replace(judged, notes=(Note(says, "iso-21920-3"),))


def _by_its_own_cutoff(heights: Array, step: float, sections: int) -> Roughness:
    """Start at 0.8 mm and go to the cut-off the table gives for the Ra found, if the trace allows it."""
    able = [
        cutoff
        for cutoff in STANDARD_CUTOFFS
        if (sections + 1) * cutoff <= len(heights) * step and step <= cutoff / 8.0
    ]
    if not able:
        allowed = f"at least {(sections + 1) * STANDARD_CUTOFFS[0]:g} mm, or a cut-off of your own"
        raise OutOfRange("profile", f"{(len(heights) - 1) * step:g} mm at {step:g} mm steps", allowed)
    cutoff = min(able, key=lambda one: abs(one - 0.8))
    tried: list[float] = []
    while True:
        found = _filtered(heights, step, cutoff, sections)
        tried.append(cutoff)
        wanted = _wanted(found.Ra)
        if wanted == cutoff:
            return found
        if wanted not in able or wanted in tried:
            asked = "no cut-off" if wanted is None else f"a cut-off of {wanted:g} mm"
            says = f"the table asks for {asked} at this Ra; used is {cutoff:g} mm"
            return replace(found, cautions=(Note(says, "iso-21920-3"),))
        cutoff = wanted


def _wanted(ra: float) -> float | None:
    """Cut-off of the table for a Ra; None for one the table does not reach."""
    try:
        return choose_cutoff(Ra=ra).cutoff
    except OutOfRange:
        return None


def _figures(profile: Array, step: float, sections: int, cutoff: float | None) -> Roughness:
    number = float(len(profile))
    over = {
        "highest": (float(profile.max()), "mm"),
        "lowest": (float(profile.min()), "mm"),
    }
    powers = {power: float((profile**power).sum()) for power in (2, 3, 4)}
    count = {"heights": (number, "1")}
    mean = Step.work_out(
        "Mean distance from the mean line",
        "sum_of_distances / heights",
        {"sum_of_distances": (float(np.abs(profile).sum()), "mm"), **count},
        ("Ra", "mm"),
        _SOURCE,
    )
    square = Step.work_out(
        "Root mean square distance",
        "sqrt(sum_of_squares / heights)",
        {"sum_of_squares": (powers[2], "mm²"), **count},
        ("Rq", "mm"),
        _SOURCE,
    )
    total = Step.work_out("Highest less lowest of all", "highest - lowest", over, ("Rt", "mm"), _SOURCE)
    shape = _shape_steps(powers, square, number)
    by_section = _section_steps(profile, sections)
    width = width_step(profile, step, by_section[2].value)
    return Roughness(
        Ra=mean.value,
        Rq=square.value,
        Rt=total.value,
        Rsk=shape[0].value,
        Rku=shape[1].value,
        Rz=by_section[2].value,
        Rp=by_section[0].value,
        Rv=by_section[1].value,
        Rz1max=by_section[3].value,
        RSm=width.value if width else None,
        cutoff=cutoff,
        profile=profile,
        steps=(mean, square, total, *shape, *by_section, *((width,) if width else ())),
    )


def _shape_steps(powers: dict[int, float], square: Step, number: float) -> tuple[Step, Step]:
    """Skewness and kurtosis; a trace without any roughness has none."""
    skewness = Step.work_out(
        "Skewness: positive when crests stand out, negative when valleys do",
        "sum_of_cubes / heights / Rq**3",
        {"sum_of_cubes": (powers[3], "mm³"), "heights": (number, "1"), "Rq": square.figure()},
        ("Rsk", "1"),
        _SOURCE,
    )
    kurtosis = Step.work_out(
        "Kurtosis: 3 for random heights, less for even waves",
        "sum_of_fourths / heights / Rq**4",
        {"sum_of_fourths": (powers[4], "mm⁴"), "heights": (number, "1"), "Rq": square.figure()},
        ("Rku", "1"),
        _SOURCE,
    )
    return skewness, kurtosis


def _section_steps(profile: Array, sections: int) -> tuple[Step, Step, Step, Step]:
    parts = np.array_split(profile, sections)
    peaks = [float(part.max()) for part in parts]
    valleys = [-float(part.min()) for part in parts]
    peak = _mean_step("Mean of the highest peaks of the sections", "peak", peaks, "Rp")
    valley = _mean_step("Mean of the deepest valleys of the sections", "valley", valleys, "Rv")
    height = Step.work_out(
        "Mean height of the sections",
        "Rp + Rv",
        {"Rp": peak.figure(), "Rv": valley.figure()},
        ("Rz", "mm"),
        _SOURCE,
    )
    each = [high + low for high, low in zip(peaks, valleys, strict=True)]
    worst = int(np.argmax(each))
    largest = Step.work_out(
        f"Largest height of a section, section {worst + 1} of {sections}",
        "peak + valley",
        {"peak": (peaks[worst], "mm"), "valley": (valleys[worst], "mm")},
        ("Rz1max", "mm"),
        _SOURCE,
    )
    return peak, valley, height, largest


def _mean_step(says: str, what: str, values: list[float], result: str) -> Step:
    names = [f"{what}_{number}" for number in range(1, len(values) + 1)]
    inputs = {name: (value, "mm") for name, value in zip(names, values, strict=True)}
    return Step.work_out(says, f"({' + '.join(names)}) / {len(names)}", inputs, (result, "mm"), _SOURCE)


def ten_point_height(heights: Array) -> float:
    """Old ten-point height: mean of the five highest less mean of the five lowest.

    Parameters
    ----------
    heights : ndarray, shape (n,)
        Peaks and valleys of one sampling length [mm].

    Returns
    -------
    float
        The height that older drawings call Rz; not the Rz of today [mm].

    Raises
    ------
    OutOfRange
        If there are fewer than ten heights.

    Source
    ------
    iso-4287 remark on the ten-point height of earlier issues

    Examples
    --------
    >>> ten_point_height(np.array([1.0, 0.0] * 5))
    1.0
    """
    if len(heights) < 10:
        raise OutOfRange("profile", f"{len(heights)} heights", "at least ten peaks and valleys")
    ordered = np.sort(heights)
    return float(ordered[-5:].mean() - ordered[:5].mean())
