"""Standard atmosphere: pressure, temperature and density of the air at an altitude."""

from dataclasses import dataclass

from firedeck.cylinder.bounds import within
from firedeck.trace import NO_UNIT, Step

SEA_LEVEL_PRESSURE = 0.101325
SEA_LEVEL_TEMPERATURE = 288.15
ZERO_CELSIUS = 273.15
_SOURCE = "iso-2533"


@dataclass(frozen=True)
class StandardAir:
    """Pressure, absolute [MPa], temperature [°C] and density as a share of sea level [1]."""

    pressure: float
    temperature: float
    density_ratio: float
    steps: tuple[Step, ...]


def standard_atmosphere(altitude: float) -> StandardAir:
    """Air of the standard atmosphere below 11 km.

    Parameters
    ----------
    altitude : float
        Geopotential height above sea level [mm].

    Returns
    -------
    StandardAir
        Absolute pressure [MPa], temperature [°C], density against sea level [1].

    Raises
    ------
    OutOfRange
        If the altitude is below -2 km or above 11 km.

    Valid for
    ---------
    -2 km to 11 km. Weather moves the true pressure by about 3 per cent.

    Source
    ------
    [iso-2533] equations for the lowest layer.

    Examples
    --------
    >>> round(standard_atmosphere(1_500_000.0).pressure * 1e6)
    84556
    """
    within("altitude", altitude / 1e6, -2.0, 11.0, "km")
    kelvin = Step.work_out(
        "Temperature of the standard air",
        "288.15 - 6.5e-6 * altitude",
        {"altitude": (altitude, "mm")},
        ("air_temperature", "K"),
        _SOURCE,
    )
    pressure = Step.work_out(
        "Pressure of the standard air, absolute",
        "0.101325 * (air_temperature / 288.15)**5.25588",
        {"air_temperature": kelvin.figure()},
        ("pressure", "MPa"),
        _SOURCE,
    )
    density = Step.work_out(
        "Density against sea level",
        "pressure / 0.101325 * 288.15 / air_temperature",
        {"pressure": pressure.figure(), "air_temperature": kelvin.figure()},
        ("density_ratio", NO_UNIT),
        _SOURCE,
    )
    return StandardAir(
        pressure.value, kelvin.value - ZERO_CELSIUS, density.value, (kelvin, pressure, density)
    )
