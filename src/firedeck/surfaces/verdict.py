"""What go/no-go leaves under a straightedge say about a limit, without guessing between leaves."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from firedeck.errors import OutOfRange
from firedeck.quantity import Outcome as Against
from firedeck.quantity import meets
from firedeck.trace import DERIVED, Band, Figure, Outcome, Step

_WHY = "between the leaf that goes and the one that stops"


@dataclass(frozen=True)
class LeafReading:
    """Leaves at one station: the thickest that enters and the thinnest that does not; None for none.

    The gap there is at least ``goes`` and less than ``stops``; lengths in mm.
    """

    at: float
    goes: float | None
    stops: float | None


@dataclass(frozen=True)
class NextLeaf:
    """The leaf that settles more than any other: where to try it and of which leaves it is made up."""

    at: float
    leaves: tuple[float, ...]

    @property
    def thickness(self) -> float:
        """Thickness of the leaves together [mm]."""
        return sum(self.leaves)


@dataclass(frozen=True)
class LineVerdict:
    """The largest gap on a line lies from ``low`` up to ``high`` (None: no leaf stopped); lengths in mm.

    ``band`` is the same where both ends are known. When the readings cannot tell, ``doubtful`` are
    the stations whose gap may be over the limit, and ``next_leaf`` a leaf of the set that settles more.
    """

    low: float
    high: float | None
    band: Band | None
    outcome: Outcome
    limit: float
    doubtful: tuple[float, ...]
    next_leaf: NextLeaf | None
    steps: tuple[Step, ...]


def judge_line(readings: Sequence[LeafReading], limit: float, leaves: Sequence[float] = ()) -> LineVerdict:
    """Judge the largest gap on a line by its leaf readings.

    Every reading holds the gap at its place between two leaves, so the largest gap lies between the
    largest of the lower and the largest of the upper ends. It holds only if even the upper end keeps
    the limit, and fails only if even the lower end is over it.

    Parameters
    ----------
    readings : sequence of LeafReading
        Stations with the leaf that goes and the one that stops [mm].
    limit : float
        Largest gap allowed; a gap exactly as large is allowed [mm].
    leaves : sequence of float
        Thicknesses of the leaves in the set, to name the next one [mm].

    Returns
    -------
    LineVerdict
        Ends of the gap, outcome, the next leaf to try, and the written sums [mm].

    Raises
    ------
    OutOfRange
        If there is no reading, the limit is negative, or a leaf that goes is not thinner than the one
        that stops at the same place.

    Valid for
    ---------
    The gap at the stations that were tried; clean leaves that do not stick.

    Source
    ------
    derived

    Examples
    --------
    >>> at_two_places = [LeafReading(60, 0.05, 0.06), LeafReading(200, 0.08, 0.15)]
    >>> found = judge_line(at_two_places, limit=0.10, leaves=[0.05, 0.06, 0.08, 0.10, 0.15])
    >>> found.outcome.value, found.low, found.high, found.next_leaf
    ('cannot-tell', 0.08, 0.15, NextLeaf(at=200, leaves=(0.1,)))
    """
    if not limit >= 0.0:
        raise OutOfRange("limit", f"{limit:g} mm", "0 mm or more")
    for reading in readings:
        _check(reading)
    if not readings:
        raise OutOfRange("readings", "none", "at least one place with a leaf that goes or stops")
    low = _largest("goes", [0.0 if reading.goes is None else reading.goes for reading in readings])
    stops = [reading.stops for reading in readings if reading.stops is not None]
    high = _largest("stops", stops) if len(stops) == len(readings) else None
    doubt = tuple(reading for reading in readings if not _keeps(reading.stops, limit))
    outcome = _outcome(low.value, None if high is None else high.value, limit)
    return LineVerdict(
        low=low.value,
        high=None if high is None else high.value,
        band=None if high is None else Band(low.value, high.value, 1.0, _WHY),
        outcome=outcome,
        limit=limit,
        doubtful=tuple(reading.at for reading in doubt),
        next_leaf=_next(doubt, limit, leaves) if outcome is Outcome.CANNOT_TELL else None,
        steps=(low,) if high is None else (low, high),
    )


def _check(reading: LeafReading) -> None:
    for leaf in (reading.goes, reading.stops):
        if leaf is not None and not leaf > 0.0:
            found = f"{leaf:g} mm at {reading.at:g} mm"
            raise OutOfRange("leaf", found, "a leaf thicker than nothing, or none")
    if reading.goes is not None and reading.stops is not None and not reading.goes < reading.stops:
        found = f"{reading.goes:g} mm goes and {reading.stops:g} mm stops at {reading.at:g} mm"
        raise OutOfRange("leaf", found, "the leaf that goes is thinner than the one that stops")


def _largest(what: str, values: list[float]) -> Step:
    names = [f"{what}_{number}" for number in range(1, len(values) + 1)]
    inputs: dict[str, Figure] = {name: (value, "mm") for name, value in zip(names, values, strict=True)}
    formula = names[0] if len(names) == 1 else f"max({', '.join(names)})"
    ends = {
        "goes": ("The largest gap is at least the thickest leaf that goes", "gap_at_least"),
        "stops": ("The largest gap is less than the thickest of the leaves that stop", "gap_less_than"),
    }
    says, result = ends[what]
    return Step.work_out(says, formula, inputs, (result, "mm"), DERIVED)


def _outcome(low: float, high: float | None, limit: float) -> Outcome:
    if _keeps(high, limit):
        return Outcome.HOLDS
    return Outcome.CANNOT_TELL if _keeps(low, limit) else Outcome.FAILS


def _keeps(gap: float | None, limit: float) -> bool:
    return gap is not None and meets(gap, high=limit) is not Against.FAILS


def _next(readings: Sequence[LeafReading], limit: float, leaves: Sequence[float]) -> NextLeaf | None:
    """Leaf nearest to the limit, from below if there is one, at the place that may be furthest over it."""
    for together in (1, 2):
        stacks = sorted(combinations(sorted(leaves), together), key=sum)
        found = [choice for reading in readings if (choice := _settling(reading, limit, stacks))]
        if found:
            return min(found, key=lambda choice: (abs(choice.thickness - limit), choice.at))
    return None


def _settling(reading: LeafReading, limit: float, stacks: Sequence[tuple[float, ...]]) -> NextLeaf | None:
    goes = 0.0 if reading.goes is None else reading.goes
    able = [s for s in stacks if sum(s) > goes and (reading.stops is None or sum(s) < reading.stops)]
    under = [stack for stack in able if _keeps(sum(stack), limit)]
    over = [stack for stack in able if stack not in under]
    chosen = under[-1] if under else over[0] if over else None
    return None if chosen is None else NextLeaf(reading.at, chosen)
