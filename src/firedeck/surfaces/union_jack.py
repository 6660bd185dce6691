"""A plate measured with a stepped foot and angle readings along eight lines, the union jack.

The two diagonals are levelled so that both have nought in the middle and equal ends; the four sides
are hung on those corners; the two centre lines are hung on the middles of the sides and show by their
own middle how well everything closes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.flatness import Flatness, flatness
from firedeck.surfaces.lines import Place
from firedeck.surfaces.points import Array, one_per_place
from firedeck.surfaces.straightness import heights_from_angles
from firedeck.trace import Figure, Step

Where = tuple[int, int]

_SOURCE = "moody-1955"
_CORNERS: dict[Where, str] = {(-1, 1): "NW", (1, 1): "NE", (-1, -1): "SW", (1, -1): "SE"}
_MID_SIDES: dict[Where, str] = {(0, 1): "N", (0, -1): "S", (-1, 0): "W", (1, 0): "E"}
_DIAGONALS = ("NW-SE", "NE-SW")
_SIDES = ("NW-NE", "SW-SE", "NW-SW", "NE-SE")
_CENTRE_LINES = ("W-E", "N-S")
_LINES: dict[frozenset[Where], str] = {
    frozenset({(-1, 1), (1, -1)}): "NW-SE",
    frozenset({(1, 1), (-1, -1)}): "NE-SW",
    frozenset({(-1, 1), (1, 1)}): "NW-NE",
    frozenset({(-1, -1), (1, -1)}): "SW-SE",
    frozenset({(-1, 1), (-1, -1)}): "NW-SW",
    frozenset({(1, 1), (1, -1)}): "NE-SE",
    frozenset({(-1, 0), (1, 0)}): "W-E",
    frozenset({(0, 1), (0, -1)}): "N-S",
}


@dataclass(frozen=True)
class FootStep:
    """One step of the foot: its line, from where to where [mm], and the angle read, rising positive [rad]."""

    line: str
    start: Place
    end: Place
    angle: float


@dataclass(frozen=True)
class StationHeight:
    """Height at one end of a step, nought in the middle of the diagonals; mm."""

    line: str
    x: float
    y: float
    height: float


@dataclass(frozen=True)
class UnionJack:
    """Heights of the plate, nought in the middle of the diagonals; lengths in mm.

    ``corners`` (NW, NE, SW, SE), ``mid_sides`` (N, S, W, E), ``closures``: height of the middle by
    each centre line. ``flatness`` counts every place once.
    """

    corners: dict[str, float]
    mid_sides: dict[str, float]
    closures: dict[str, float]
    heights: tuple[StationHeight, ...]
    flatness: Flatness
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class _Line:
    """One line as stepped: places (n + 1, 2), angles (n,), heights (n + 1,) with nought at its start."""

    label: str
    places: Array
    angles: Array
    rises: Array
    start: Where
    end: Where

    @property
    def middle_place(self) -> Where:
        """Where its middle lies: on a side or in the centre."""
        return (self.start[0] + self.end[0]) // 2, (self.start[1] + self.end[1]) // 2


def union_jack(readings: Sequence[FootStep], foot: float) -> UnionJack:
    """Work out the heights of a plate from angles along eight lines.

    Parameters
    ----------
    readings : sequence of FootStep
        Steps of the two diagonals, four sides and two centre lines, each in the order stepped [mm, rad].
    foot : float
        Length of the foot, which is the length of every step [mm].

    Returns
    -------
    UnionJack
        Heights, corners, middles of the sides, closures and flatness [mm].

    Raises
    ------
    OutOfRange
        If a line is missing or doubled, breaks off, has an odd number of steps, or a step is not as
        long as the foot.

    Valid for
    ---------
    Small angles, counted positive where the far end of the foot is higher.

    Source
    ------
    moody-1955 levelling of the eight lines

    Examples
    --------
    >>> union_jack([FootStep("north", (0, 0), (1, 0), 0.0)], foot=100.0)
    Traceback (most recent call last):
    ...
    firedeck.errors.OutOfRange: line north: found a step of 1 mm; steps as long as the foot, 100 mm
    """
    lines = _lines(readings, foot)
    corners: dict[Where, float] = {}
    steps: list[Step] = []
    for name in _DIAGONALS:
        line = lines[name]
        worked = _rises(name, line, foot)
        corner = _corner_step(name, *worked)
        corners |= {line.start: corner.value, line.end: corner.value}
        steps += [*worked, corner]
    sides = {}
    for name in _SIDES:
        worked = _rises(name, lines[name], foot)
        middle = _middle_step(name, lines[name], corners, *worked)
        sides[lines[name].middle_place] = middle.value
        steps += [*worked, middle]
    closures = {}
    for name in _CENTRE_LINES:
        worked = _rises(name, lines[name], foot)
        middle = _middle_step(name, lines[name], sides, *worked)
        closures[name] = middle.value
        steps += [*worked, middle]
    heights = tuple(station for line in lines.values() for station in _stations(line, corners | sides))
    found = flatness(one_per_place(np.array([(station.x, station.y, station.height) for station in heights])))
    return UnionJack(
        corners={name: corners[place] for place, name in _CORNERS.items()},
        mid_sides={name: sides[place] for place, name in _MID_SIDES.items()},
        closures=closures,
        heights=heights,
        flatness=found,
        steps=(*steps, *found.steps),
    )


def _lines(readings: Sequence[FootStep], foot: float) -> dict[str, _Line]:
    """Sort the steps into the eight lines of the jack, by where their ends lie."""
    places = np.array([place for step in readings for place in (step.start, step.end)], dtype=np.float64)
    if not len(places):
        raise OutOfRange("readings", "no steps", "the steps of eight lines")
    low, high = places.min(axis=0), places.max(axis=0)
    found: dict[str, _Line] = {}
    for label, steps in _by_label(readings).items():
        _check(label, steps, foot)
        line = _line(label, steps, foot, (low + high) / 2, (high - low) / 2)
        name = _LINES.get(frozenset({line.start, line.end}))
        if name is None or name in found:
            allowed = "two diagonals, four sides and two centre lines, each once"
            raise OutOfRange(f"line {label}", f"ends at {steps[0].start} and {steps[-1].end} mm", allowed)
        found[name] = line
    missing = [name for name in _LINES.values() if name not in found]
    if missing:
        raise OutOfRange("readings", f"no line {missing[0]}", f"all of {', '.join(_LINES.values())}")
    return {name: found[name] for name in _LINES.values()}


def _by_label(readings: Sequence[FootStep]) -> dict[str, list[FootStep]]:
    lines: dict[str, list[FootStep]] = {}
    for step in readings:
        lines.setdefault(step.line, []).append(step)
    return lines


def _check(label: str, steps: list[FootStep], foot: float) -> None:
    for step in steps:
        length = float(np.hypot(step.end[0] - step.start[0], step.end[1] - step.start[1]))
        if abs(length - foot) > 0.01 * foot:
            allowed = f"steps as long as the foot, {foot:g} mm"
            raise OutOfRange(f"line {label}", f"a step of {length:g} mm", allowed)
    for one, following in pairwise(steps):
        if np.hypot(following.start[0] - one.end[0], following.start[1] - one.end[1]) > 0.01 * foot:
            allowed = "every step begins where the last ended"
            raise OutOfRange(f"line {label}", f"a break at {one.end} mm", allowed)
    if len(steps) % 2:
        allowed = "an even number, so that a step ends in the middle"
        raise OutOfRange(f"line {label}", f"{len(steps)} steps", allowed)


def _line(label: str, steps: list[FootStep], foot: float, centre: Array, half: Array) -> _Line:
    places = np.array([steps[0].start, *(step.end for step in steps)], dtype=np.float64)
    angles = np.array([step.angle for step in steps])
    ends = [tuple(int(side) for side in np.round((place - centre) / half)) for place in places[[0, -1]]]
    (a, b), (c, d) = ends
    return _Line(label, places, angles, heights_from_angles(angles, foot), (a, b), (c, d))


def _rises(name: str, line: _Line, foot: float) -> tuple[Step, Step]:
    """Rise from the start of a line to its middle and to its end."""
    names = [f"angle_{number}" for number in range(1, len(line.angles) + 1)]
    half = len(names) // 2
    angles: dict[str, Figure] = {
        each: (float(angle), "rad") for each, angle in zip(names, line.angles, strict=True)
    }

    def rise(words: str, count: int, result: str) -> Step:
        added = " + ".join(f"tan({angle})" for angle in names[:count])
        inputs = {"foot": (foot, "mm"), **{angle: angles[angle] for angle in names[:count]}}
        says = f"{name}: rise from its start to {words}"
        return Step.work_out(says, f"foot * ({added})", inputs, (result, "mm"), _SOURCE)

    return rise("its middle", half, "rise_to_middle"), rise("its end", len(names), "rise_to_end")


def _corner_step(name: str, to_middle: Step, to_end: Step) -> Step:
    return Step.work_out(
        f"{name}: both corners, with nought in the middle and equal ends",
        "rise_to_end / 2 - rise_to_middle",
        {"rise_to_end": to_end.figure(), "rise_to_middle": to_middle.figure()},
        ("corner", "mm"),
        _SOURCE,
    )


def _middle_step(name: str, line: _Line, known: dict[Where, float], to_middle: Step, to_end: Step) -> Step:
    return Step.work_out(
        f"{name}: height of its middle, with its ends on heights already known",
        "(start + end - rise_to_end) / 2 + rise_to_middle",
        {
            "start": (known[line.start], "mm"),
            "end": (known[line.end], "mm"),
            "rise_to_end": to_end.figure(),
            "rise_to_middle": to_middle.figure(),
        },
        ("middle", "mm"),
        _SOURCE,
    )


def _stations(line: _Line, known: dict[Where, float]) -> list[StationHeight]:
    share = np.linspace(0.0, 1.0, len(line.rises))
    start, end = known[line.start], known[line.end]
    heights = line.rises + start + share * (end - start - line.rises[-1])
    return [
        StationHeight(line.label, float(x), float(y), float(height))
        for (x, y), height in zip(line.places, heights, strict=True)
    ]
