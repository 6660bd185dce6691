"""Sums of gas: air at an altitude, cranking compression, textbook cycles, firing pressure, force."""

from firedeck.cylinder.air import standard_atmosphere
from firedeck.cylinder.cranking import altitude_compression, cranking_exponent, cranking_pressure
from firedeck.cylinder.gas_force import gas_force
from firedeck.cylinder.ideal_cycle import CycleState, ideal_cycle
from firedeck.cylinder.peak_pressure import Firing, peak_pressure
from firedeck.cylinder.working_gas import gas_named
from firedeck.quantity import Kind
from firedeck.sums.registry import Figure, SumResult, a_sum
from firedeck.sums.written import written


@a_sum("standard-atmosphere")
def standard_atmosphere_sum(altitude: float) -> SumResult:
    """Pressure, temperature and density of the standard air at an altitude."""
    found = standard_atmosphere(altitude)
    results = {
        "pressure": Figure(found.pressure, Kind.PRESSURE_ABSOLUTE),
        "temperature": Figure(found.temperature, Kind.TEMPERATURE),
        "density_ratio": Figure(found.density_ratio, Kind.RATIO),
    }
    return written(found, results)


@a_sum("cranking-pressure")
def cranking_pressure_sum(
    *,
    ratio: float,
    exponent: float | None = None,
    altitude: float | None = None,
    barometer: float | None = None,
    valve_closing: float | None = None,
    rod: float | None = None,
    stroke: float | None = None,
) -> SumResult:
    """What a compression gauge should read from ratio, valve closing and altitude."""
    found = cranking_pressure(
        ratio=ratio,
        exponent=exponent,
        altitude=altitude,
        barometer=barometer,
        valve_closing=valve_closing,
        rod=rod,
        stroke=stroke,
    )
    results = {
        "gauge": Figure(found.gauge, Kind.PRESSURE_GAUGE),
        "absolute": Figure(found.absolute, Kind.PRESSURE_ABSOLUTE),
    }
    return written(found, results)


@a_sum("cranking-exponent")
def cranking_exponent_sum(ratio: float, gauge: float) -> SumResult:
    """Exponent of compression behind a gauge reading."""
    found = cranking_exponent(ratio, gauge)
    return written(found, {"exponent": Figure(found.exponent, Kind.RATIO)})


@a_sum("altitude-compression")
def altitude_compression_sum(gauge: float, altitude: float, from_altitude: float = 0.0) -> SumResult:
    """Compression reading carried from one altitude to another."""
    found = altitude_compression(gauge, altitude, from_altitude)
    return written(found, {"gauge": Figure(found.gauge, Kind.PRESSURE_GAUGE)})


@a_sum("ideal-cycle")
def ideal_cycle_sum(
    *,
    kind: str,
    ratio: float,
    pressure: float,
    temperature: float,
    heat: float | None = None,
    lower_heating_value: float | None = None,
    air_fuel_ratio: float | None = None,
    temperature_limit: float | None = None,
    cutoff_ratio: float | None = None,
    pressure_ratio: float | None = None,
    gas: str = "cold-air",
) -> SumResult:
    """Textbook cycle: corners, peak pressure, efficiency and mean effective pressure."""
    found = ideal_cycle(
        kind=kind,
        ratio=ratio,
        pressure=pressure,
        temperature=temperature,
        heat=heat,
        lower_heating_value=lower_heating_value,
        air_fuel_ratio=air_fuel_ratio,
        temperature_limit=temperature_limit,
        cutoff_ratio=cutoff_ratio,
        pressure_ratio=pressure_ratio,
        gas=gas_named(gas),
    )
    results = {
        "states": Figure([_corner(state) for state in found.states]),
        "peak_pressure": Figure(found.peak_pressure, Kind.PRESSURE_ABSOLUTE),
        "efficiency": Figure(found.efficiency, Kind.RATIO),
        "mean_effective_pressure": Figure(found.mean_effective_pressure, Kind.PRESSURE_ABSOLUTE),
    }
    return written(found, results)


def _corner(state: CycleState) -> dict[str, float]:
    return {
        "corner": state.corner,
        "pressure_MPa": state.pressure,
        "temperature_K": state.kelvin,
        "temperature_C": state.celsius,
        "volume_ratio": state.volume_ratio,
    }


@a_sum("peak-pressure")
def peak_pressure_sum(
    *,
    ratio: float,
    boost: float,
    altitude: float = 0.0,
    charge_temperature: float | None = None,
    fuel: str = "petrol",
    phasing: float | None = None,
) -> SumResult:
    """Peak firing pressure above ambient with its band, and against the engine without boost."""
    found = peak_pressure(Firing(ratio, boost, altitude, charge_temperature, fuel, phasing))
    results = {
        "peak": Figure(found.peak, Kind.PRESSURE_GAUGE),
        "peak_low": Figure(found.band.low, Kind.PRESSURE_GAUGE),
        "peak_high": Figure(found.band.high, Kind.PRESSURE_GAUGE),
        "against_stock": Figure(found.against_stock, Kind.RATIO),
    }
    return written(found, results)


@a_sum("gas-force")
def gas_force_sum(peak: float, seal_diameter: float) -> SumResult:
    """Force with which the gas tries to part head and block."""
    found = gas_force(peak, seal_diameter)
    return written(found, {"force": Figure(found.force, Kind.FORCE)})
