"""Sums of the cylinder and coolant tests."""

from collections.abc import Iterable

from firedeck import diagnosis
from firedeck.quantity import Kind
from firedeck.sums.registry import Figure, SumResult, a_sum
from firedeck.trace import Note, Step


def _sources(steps: Iterable[Step]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(step.source for step in steps))


def _texts(notes: Iterable[Note]) -> tuple[str, ...]:
    return tuple(note.text for note in notes)


@a_sum("compression-spread")
def compression_spread(
    *,
    readings: tuple[float, ...],
    limit_rule: str | None = None,
    wet: tuple[float, ...] | None = None,
    oil_volume: float | None = None,
    swept_volume: float | None = None,
    ratio: float | None = None,
) -> SumResult:
    """Compression of all cylinders held against several rules at once, dry and wet."""
    found = diagnosis.compression_spread(
        readings,
        limit_rule=limit_rule,
        wet=wet,
        oil_volume=oil_volume,
        swept_volume=swept_volume,
        ratio=ratio,
    )
    return SumResult(
        results={
            "lowest_over_highest": Figure(found.lowest_over_highest, Kind.RATIO),
            "spread": Figure(found.spread, Kind.PRESSURE_GAUGE),
            "suspects": Figure(list(found.suspects)),
            "pattern": Figure(found.pattern),
            "outcome_by_rule": Figure(found.outcome_by_rule),
        },
        steps=found.steps,
        sources=_sources(found.steps),
        assumptions=_texts(found.assumed),
        cautions=_texts(found.notes),
    )


@a_sum("oil-in-wet-test")
def oil_in_wet_test(
    swept_volume: float, ratio: float, oil_volume: float, exponent: float | None = None
) -> SumResult:
    """What a shot of oil adds to the gauge in a cylinder that does not leak."""
    found = diagnosis.oil_gain(swept_volume, ratio, oil_volume, exponent)
    return SumResult(
        results={"gain_without_leak": Figure(found.gain, Kind.RATIO)},
        steps=found.steps,
        sources=_sources(found.steps),
        cautions=_texts(found.notes),
    )


@a_sum("leak-down")
def leak_down(
    *,
    supply: float,
    restrictor: float | None = None,
    reading: float | None = None,
    leak_hole: float | None = None,
    restrictor_length: float | None = None,
    altitude: float = 0.0,
) -> SumResult:
    """Leak of a cylinder from two gauges and the restrictor between them, or the other way round."""
    found = diagnosis.leak_down(
        supply,
        restrictor=restrictor,
        reading=reading,
        leak_hole=leak_hole,
        restrictor_length=restrictor_length,
        altitude=altitude,
    )
    return SumResult(
        results={
            "leak_percent": Figure(found.share, Kind.SHARE),
            "leak_area": Figure(found.area, Kind.AREA),
            "leak_hole": Figure(found.hole, Kind.LENGTH),
            "reading": Figure(found.reading, Kind.PRESSURE_GAUGE),
        },
        steps=found.steps,
        sources=_sources(found.steps),
        assumptions=_texts(found.notes),
    )


@a_sum("leak-down-crank-torque")
def leak_down_crank_torque(
    bore: float, stroke: float, rod: float, supply: float, crank_angle: float
) -> SumResult:
    """How hard the air of a leak-down test turns the crank of this engine."""
    found = diagnosis.leak_down_crank_torque(bore, stroke, rod, supply, crank_angle)
    return SumResult(
        results={"torque": Figure(found.torque, Kind.TORQUE)},
        steps=found.steps,
        sources=_sources(found.steps),
        assumptions=("Full supply pressure in the cylinder, friction left out: the worst case.",),
        cautions=_texts(found.notes),
    )


@a_sum("coolant-boiling")
def coolant_boiling(coolant: str, cap_pressure: float, altitude: float) -> SumResult:
    """Where the coolant boils under its cap at this height."""
    found = diagnosis.coolant_boiling(coolant, cap_pressure, altitude)
    return SumResult(
        results={"boiling": Figure(found.boiling, Kind.TEMPERATURE)},
        steps=found.steps,
        sources=_sources(found.steps),
        assumptions=_texts(found.notes),
    )
