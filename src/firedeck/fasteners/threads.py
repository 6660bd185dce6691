"""Screw threads: what M10x1.25 or 7/16-14 stands for, and the sizes that follow from it."""

import re
from dataclasses import dataclass
from functools import cache

from firedeck.errors import OutOfRange
from firedeck.quantity import Kind, parse
from firedeck.tables import one, rows
from firedeck.trace import Step

_METRIC = re.compile(r"M ?(\d+(?:[.,]\d+)?)(?: ?[x*] ?(\d+(?:[.,]\d+)?))?", re.IGNORECASE)
_INCH = re.compile(
    r"(?P<size>#\d+|\d+[ -]\d+/\d+|\d+/\d+|\d*\.\d+|\d+)(?: ?in| ?\")? ?- ?(?P<count>\d+(?:\.5)?)"
    r"(?: ?(?P<series>UNC|UNF|UNEF|UNS|UN))?",
    re.IGNORECASE,
)
_BARE_INCH = re.compile(
    r"(?P<size>#\d+|\d+[ -]\d+/\d+|\d+/\d+)(?: ?in| ?\")?(?: ?(?P<series>UNC|UNF))?", re.IGNORECASE
)
_ALLOWED = "allowed: M10, M10x1.25, 7/16-14, 7/16-14 UNC"


@dataclass(frozen=True)
class Thread:
    """A thread of 60° form. Lengths in mm, area in mm².

    ``minor_diameter`` is that of the bolt's root (rounded root for metric threads, flat for inch ones),
    ``internal_minor_diameter`` that of the hole; ``stress_diameter`` is the diameter of the stress area.
    """

    name: str
    metric: bool
    major_diameter: float
    pitch: float
    pitch_diameter: float
    minor_diameter: float
    internal_minor_diameter: float
    stress_diameter: float
    stress_area: float
    steps: tuple[Step, ...]


def thread_of(text: str) -> Thread:
    """Read the name of a thread and work out its sizes.

    Parameters
    ----------
    text : str
        M10x1.25, M10 (coarse), 7/16-14, 7/16-14 UNC, #10-24, 1 1/8-7 [text].

    Returns
    -------
    Thread
        Basic sizes of the thread [core].

    Raises
    ------
    OutOfRange
        If the text is not a thread, or size and pitch cannot belong together.
    TableGap
        If the series named has no such size, or a size has no coarse pitch.

    Valid for
    ---------
    60° threads: ISO metric with a pitch of ISO 261, Unified inch threads.

    Source
    ------
    [iso-724] basic profile; [iso-898-1] stress area; [asme-b1-1] inch threads.

    Examples
    --------
    >>> thread_of("M10x1.25").stress_area.__round__(1)
    61.2
    >>> thread_of("7/16-14 UNC").pitch.__round__(4)
    1.8143
    """
    written = " ".join(text.replace("×", "x").replace("″", '"').replace("–", "-").split())
    if match := _METRIC.fullmatch(written):
        diameter = float(match[1].replace(",", "."))
        pitch = float(match[2].replace(",", ".")) if match[2] else _coarse(diameter)
        return _metric(text, diameter, pitch)
    if match := _INCH.fullmatch(written):
        return _inch(text, match["size"].replace("-", " "), match["count"], match["series"])
    if match := _BARE_INCH.fullmatch(written):
        return _inch_by_series(text, match["size"].replace("-", " "), match["series"])
    raise OutOfRange("thread", repr(text), _ALLOWED)


def _coarse(diameter: float) -> float:
    for row in rows("metric_pitches"):
        if float(row["diameter_mm"]) == diameter:
            return float(row["coarse_mm"])
    raise OutOfRange(
        "thread", repr(f"M{diameter:g}"), f"no coarse pitch is known: write it, M{diameter:g}x1.25"
    )


@cache
def _pitches() -> frozenset[float]:
    table = rows("metric_pitches")
    fine = (cell for row in table for cell in row["fine_mm"].split("|"))
    return frozenset(float(cell) for cell in (*fine, *(row["coarse_mm"] for row in table)))


def _metric(text: str, diameter: float, pitch: float) -> Thread:
    if not 1.6 <= diameter <= 64.0:
        raise OutOfRange("thread", repr(text), "allowed: M1.6 to M64")
    if pitch not in _pitches() or pitch > 0.25 * diameter:
        fitting = ", ".join(f"{one:g}" for one in sorted(_pitches()) if one <= 0.25 * diameter)
        raise OutOfRange("thread", repr(text), f"allowed pitches at this size: {fitting} mm")
    return _sized(f"M{diameter:g}x{pitch:g}", True, diameter, pitch)


def _inch(text: str, size: str, count: str, series: str | None) -> Thread:
    if series and series.upper() in ("UNC", "UNF"):
        row = _series_row(size)
        wanted = row[series.lower()]
        if wanted != count:
            raise OutOfRange("thread", repr(text), f"{size} {series.upper()} has {wanted} threads per inch")
    diameter = _inch_diameter(size)
    pitch = parse(f"{1.0 / float(count)!r} in", Kind.LENGTH).value if float(count) > 0 else 0.0
    if not 0.0 < pitch <= 0.3 * diameter or not 1.0 < diameter <= 102.0:
        raise OutOfRange("thread", repr(text), "allowed: a size up to 4 in with threads that fit it")
    return _sized(f"{size}-{count}", False, diameter, pitch)


def _inch_by_series(text: str, size: str, series: str | None) -> Thread:
    row = _series_row(size)
    if series is None:
        ways = f"write {size}-{row['unc']} (UNC) or {size}-{row['unf']} (UNF)"
        raise OutOfRange("thread", repr(text), f"threads per inch are missing: {ways}")
    return _inch(text, size, row[series.lower()], series)


def _series_row(size: str) -> dict[str, str]:
    return dict(one("inch_threads", f"size {size}", lambda row: row["size"] == size))


def _inch_diameter(size: str) -> float:
    if size.startswith("#"):
        return parse(f"{0.060 + 0.013 * int(size[1:]):.3f} in", Kind.LENGTH).value
    return parse(f"{size} in", Kind.LENGTH).value


def _sized(name: str, metric: bool, diameter: float, pitch: float) -> Thread:
    inputs = {"major_diameter": (diameter, "mm"), "pitch": (pitch, "mm")}
    root, area = ("1.226869", "iso-898-1") if metric else ("1.299038", "asme-b1-1")
    mean = "0.938194" if metric else "0.9743"
    profile = "iso-724" if metric else "asme-b1-1"

    def size(says: str, factor: str, result: str, source: str) -> Step:
        return Step.work_out(says, f"major_diameter - {factor} * pitch", inputs, (result, "mm"), source)

    pitch_diameter = size("Pitch diameter", "0.649519", "pitch_diameter", profile)
    minor = size("Root diameter of the bolt thread", root, "minor_diameter", profile)
    hole = size("Minor diameter of the threaded hole", "1.082532", "internal_minor_diameter", profile)
    stress = size("Diameter of the stress area", mean, "stress_diameter", area)
    section = Step.work_out(
        "Stress area of the thread",
        "pi / 4 * stress_diameter**2",
        dict(stress.result),
        ("stress_area", "mm²"),
        area,
    )
    return Thread(
        name=name,
        metric=metric,
        major_diameter=diameter,
        pitch=pitch,
        pitch_diameter=pitch_diameter.value,
        minor_diameter=minor.value,
        internal_minor_diameter=hole.value,
        stress_diameter=stress.value,
        stress_area=section.value,
        steps=(pitch_diameter, minor, hole, stress, section),
    )
