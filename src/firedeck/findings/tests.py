"""The tests before the head comes off, read together: compression, leak-down, cooling system."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from firedeck.cylinder.cranking import CrankingPressure
from firedeck.diagnosis import Boiling, CompressionSpread, coolant_boiling, oil_gain
from firedeck.diagnosis.compression import compression_spread
from firedeck.diagnosis.thresholds import threshold
from firedeck.errors import OutOfRange, TableGap
from firedeck.findings.air_tests import LeakDownRead, leak_down_read
from firedeck.findings.banks import Run, low_runs
from firedeck.findings.cooling import LIQUID, cooled_by
from firedeck.findings.cranked import at_most, cranking_of, not_said, over_least, spoilt_by
from firedeck.findings.finding import Findings
from firedeck.findings.groups import number
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome, Quantity, meets
from firedeck.trace import DERIVED, NO_UNIT, Missing, Step

Readings = dict[str, float]


@dataclass(frozen=True)
class Compression:
    """Compression by label [MPa], read together, with the low ones side by side in their banks.

    ``taken`` is the list that was read (dry, hot, cold or only); ``lowest_over_highest`` is None with one
    cylinder. ``runs`` are neighbours that are low and alike, the lowest first. ``lacking`` are conditions not said,
    ``spoilt`` those that make every reading low; with either the figures speak only between cylinders.
    ``worked_out`` is what ratio, valve closing and altitude let one expect; ``at_most`` says why it may be less.
    """

    taken: str
    readings: Mapping[str, float]
    spread: CompressionSpread | None
    runs: tuple[Run, ...]
    of_expected: Mapping[str, Step]
    hot_over_cold: Mapping[str, Step]
    lacking: tuple[str, ...]
    spoilt: tuple[str, ...]
    worked_out: CrankingPressure | None
    at_most: str
    over_least: Step | None
    problem: str

    @property
    def absolute(self) -> bool:
        """Tell whether a figure counts by itself, and not only beside its neighbours."""
        return not self.lacking and not self.spoilt

    @property
    def below(self) -> bool:
        """Tell whether even the best is below what was worked out."""
        return self.over_least is not None and meets(self.over_least.value, low=1.0) is Outcome.FAILS

    @property
    def far_below(self) -> bool:
        """Tell whether even the best is far below the least that is to be expected, where that is known."""
        least = threshold("far_below_expected")
        far = self.over_least is not None and meets(self.over_least.value, low=least) is Outcome.FAILS
        return far and not self.at_most

    @property
    def too_low(self) -> bool:
        """Tell whether the readings as a whole are to be doubted or followed up: far below, or a single below."""
        return self.far_below or (self.below and len(self.readings) == 1)

    @property
    def low(self) -> tuple[str, ...]:
        """Labels called low, in the order of the readings."""
        labels = tuple(self.readings)
        return tuple(labels[place - 1] for place in self.spread.suspects) if self.spread else ()

    @property
    def worst(self) -> Run | None:
        """The run of neighbours that is lowest, a pair before a single one."""
        return self.runs[0] if self.runs else None


@dataclass(frozen=True)
class TestsRead:
    """Every test taken; ``boiling`` is where the coolant boils under its cap."""

    __test__ = False
    id: ClassVar[str] = "tests"
    compression: Compression | None
    leak_down: LeakDownRead | None
    pressure_drop: Step | None
    boiling: Boiling | None


def find(job: Job, _joint: Joint | None, _found: Findings) -> TestsRead | Missing:
    """Read all tests of the document together."""
    read = TestsRead(_compression(job), leak_down_read(job), _drop(job), boiling_of(job))
    coolant = job.document.tests.coolant
    if read.compression or read.leak_down or coolant.model_fields_set:
        return read
    return untested(cooled_by(job))


def untested(cooled: str) -> Missing:
    """Say which test comes first; only what has coolant is put under pressure."""
    liquid = cooled == LIQUID
    return Missing(
        paths=("tests.compression.dry", "tests.conditions", *(["tests.coolant"] if liquid else [])),
        measure="dry compression of all cylinders" + (", and pressure on the cold cooling system" * liquid),
        tool="compression gauge" + (" and cooling-system tester" * liquid),
        how="Turn by hand first with the plugs out: liquid in a bore bends rods. Warm, throttle open, all plugs "
        "out, the same number of puffs each; write the figures down in cylinder order.",
    )


def _compression(job: Job) -> Compression | None:
    given = job.document.tests.compression
    labels = job.engine.cylinders
    lists = {"dry": given.dry, "hot": given.hot, "cold": given.cold}
    taken = next((name for name in ("dry", "hot", "cold") if lists[name]), "only")
    readings = (
        _by_label(labels, lists[taken]) if taken != "only" else {k: v.value for k, v in given.only.items()}
    )
    if not readings:
        return None
    spread, problem = _spread(job, readings) if taken != "only" else (None, "")
    expected, worked_out = number(given.expected), cranking_of(job)
    return Compression(
        taken=taken,
        readings=readings,
        spread=spread,
        runs=low_runs(job, readings, spread) if spread else (),
        of_expected={label: _of_expected(label, value, expected) for label, value in readings.items()}
        if expected
        else {},
        hot_over_cold=_hot_over_cold(labels, given.hot, given.cold),
        lacking=not_said(job),
        spoilt=spoilt_by(job),
        worked_out=worked_out,
        at_most=at_most(job),
        over_least=over_least(max(readings.values()), worked_out),
        problem=problem,
    )


def _by_label(labels: Sequence[str], readings: Sequence[Quantity]) -> Readings:
    return {label: one.value for label, one in zip(labels, readings, strict=True)}


def _spread(job: Job, readings: Readings) -> tuple[CompressionSpread | None, str]:
    """Read all cylinders together; what cannot be read is said and not raised."""
    tests = job.document.tests
    wet = tests.compression.wet
    try:
        found = compression_spread(
            tuple(readings.values()),
            limit_rule=tests.compression.rule or None,
            wet=[one.value for one in wet] or None,
            **_oil(job),
        )
    except OutOfRange as fault:
        return None, str(fault)
    return found, ""


def _oil(job: Job) -> dict[str, float]:
    """Give oil, swept volume and ratio where all are known and the oil fits into the cylinder."""
    engine, oil = job.engine, job.document.tests.conditions.oil_volume
    if not (oil and engine.bore and engine.stroke and engine.ratio):
        return {}
    swept = 3.141592653589793 / 4 * engine.bore.value**2 * engine.stroke.value
    try:
        oil_gain(swept, engine.ratio.value, oil.value)
    except OutOfRange:
        return {}
    return {"oil_volume": oil.value, "swept_volume": swept, "ratio": engine.ratio.value}


def _of_expected(label: str, value: float, expected: float) -> Step:
    return Step.work_out(
        f"Cylinder {label}: reading over the figure of the papers",
        "reading / expected",
        {"reading": (value, "MPa"), "expected": (expected, "MPa")},
        ("share_of_expected", NO_UNIT),
        DERIVED,
    )


def _hot_over_cold(
    labels: Sequence[str], hot: Sequence[Quantity], cold: Sequence[Quantity]
) -> dict[str, Step]:
    if not hot or not cold:
        return {}
    return {
        label: Step.work_out(
            f"Cylinder {label}: hot over cold",
            "hot / cold",
            {"hot": (one.value, "MPa"), "cold": (other.value, "MPa")},
            ("hot_over_cold", NO_UNIT),
            DERIVED,
        )
        for label, one, other in zip(labels, hot, cold, strict=True)
        if other.value > 0.0
    }


def _drop(job: Job) -> Step | None:
    coolant = job.document.tests.coolant
    if coolant.drop is None:
        return None
    figures = {"reading": (coolant.drop.value, "MPa")}
    return Step.work_out(
        "Fall of the pressure, as read", "reading", figures, ("pressure_drop", "MPa"), DERIVED
    )


def boiling_of(job: Job) -> Boiling | None:
    """Work out where the coolant boils under its cap; None where coolant or cap is not known."""
    running = job.document.running
    if running.coolant in (None, "air") or running.cap_pressure is None:
        return None
    try:
        return coolant_boiling(running.coolant, running.cap_pressure.value, number(running.altitude) or 0.0)
    except (OutOfRange, TableGap):
        return None
