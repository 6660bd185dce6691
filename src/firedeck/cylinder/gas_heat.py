"""Heat capacities of real gases: internal energy and entropy against temperature."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from firedeck.cylinder.bounds import within
from firedeck.errors import DidNotConverge
from firedeck.tables import rows

GAS_CONSTANT = 8.314462618
"""Universal gas constant [J/(mol K)]."""

KNEE = 1000.0
"""Temperature at which the two curves of a gas meet [K]."""

COLDEST, HOTTEST = 200.0, 6000.0


@dataclass(frozen=True)
class HeatCurve:
    """A gas or mixture: gas constant [kJ/(kg K)] and the curve of cp / R below and above 1000 K."""

    gas_constant: float
    low: tuple[float, ...]
    high: tuple[float, ...]

    def heat_capacity(self, kelvin: float) -> float:
        """Heat capacity at constant volume [kJ/(kg K)] at a temperature [K]."""
        curve = self.low if kelvin < KNEE else self.high
        return self.gas_constant * (_value(curve, kelvin) - 1.0)

    def energy(self, kelvin: float) -> float:
        """Internal energy; only its differences mean anything [kJ/kg], at a temperature [K]."""
        if kelvin < KNEE:
            return self.gas_constant * (_integral(self.low, kelvin) - kelvin)
        knee = _integral(self.low, KNEE) - _integral(self.high, KNEE)
        return self.gas_constant * (_integral(self.high, kelvin) + knee - kelvin)

    def volume_entropy(self, kelvin: float) -> float:
        """Integral of cv / T [kJ/(kg K)] at a temperature [K]; only its differences mean anything."""
        if kelvin < KNEE:
            return self.gas_constant * (_log_integral(self.low, kelvin) - math.log(kelvin))
        knee = _log_integral(self.low, KNEE) - _log_integral(self.high, KNEE)
        return self.gas_constant * (_log_integral(self.high, kelvin) + knee - math.log(kelvin))


def _value(curve: tuple[float, ...], kelvin: float) -> float:
    a, b, c, d, e, f, g = curve
    return (a / kelvin + b) / kelvin + c + kelvin * (d + kelvin * (e + kelvin * (f + kelvin * g)))


def _integral(curve: tuple[float, ...], kelvin: float) -> float:
    a, b, c, d, e, f, g = curve
    rest = kelvin * (c + kelvin * (d / 2 + kelvin * (e / 3 + kelvin * (f / 4 + kelvin * g / 5))))
    return -a / kelvin + b * math.log(kelvin) + rest


def _log_integral(curve: tuple[float, ...], kelvin: float) -> float:
    a, b, c, d, e, f, g = curve
    rest = kelvin * (d + kelvin * (e / 2 + kelvin * (f / 3 + kelvin * g / 4)))
    return -a / (2 * kelvin**2) - b / kelvin + c * math.log(kelvin) + rest


@cache
def mixture(name: str) -> HeatCurve:
    """Heat curve of a mixture of the table.

    Parameters
    ----------
    name : str
        Mixture of tables/data/gas_mixtures.csv: air or burnt [text].

    Returns
    -------
    HeatCurve
        Gas constant [kJ/(kg K)] and curves of the mixture [1].

    Valid for
    ---------
    200 K to 6000 K; nothing comes apart in the heat (no dissociation).

    Source
    ------
    [nasa-tp-2002-211556] for the gases.

    Examples
    --------
    >>> round(mixture("air").heat_capacity(300.0), 3)
    0.718
    """
    shares = {row["gas"]: float(row["share"]) for row in rows("gas_mixtures") if row["mixture"] == name}
    whole = sum(shares.values())
    table = {(row["gas"], row["range"]): row for row in rows("gas_heat")}
    mass = sum(share * float(table[gas, "low"]["molar_mass"]) for gas, share in shares.items()) / whole

    def blend(part: str) -> tuple[float, ...]:
        return tuple(
            sum(share * float(table[gas, part][letter]) for gas, share in shares.items()) / whole
            for letter in ("a1", "a2", "a3", "a4", "a5", "a6", "a7")
        )

    return HeatCurve(GAS_CONSTANT / mass, blend("low"), blend("high"))


def temperature_where(
    wanted: float, rises: Callable[[float], float], slope: Callable[[float], float], what: str
) -> float:
    """Find the temperature at which a rising function has a wanted value.

    Parameters
    ----------
    wanted : float
        Value wanted, in the unit of the function [core].
    rises : callable
        Rising function of temperature [K].
    slope : callable
        Its slope [1/K].
    what : str
        What is sought, for the message [text].

    Returns
    -------
    float
        Temperature [K].

    Raises
    ------
    OutOfRange
        If it lies outside 200 K to 6000 K.
    DidNotConverge
        If 60 rounds do not settle it.

    Source
    ------
    derived

    Examples
    --------
    >>> air = mixture("air")
    >>> round(temperature_where(air.energy(700.0), air.energy, air.heat_capacity, "energy"), 6)
    700.0
    """
    low, high = rises(COLDEST), rises(HOTTEST)
    if not low <= wanted <= high:
        within(f"{what} temperature", COLDEST - 1.0 if wanted < low else HOTTEST + 1.0, COLDEST, HOTTEST, "K")
    kelvin = COLDEST + (HOTTEST - COLDEST) * (wanted - low) / (high - low)
    for _ in range(60):
        change = (wanted - rises(kelvin)) / slope(kelvin)
        kelvin = min(max(kelvin + change, COLDEST), HOTTEST)
        if abs(change) < 1e-10 * kelvin:
            return kelvin
    raise DidNotConverge(f"{what} temperature", 60, wanted - rises(kelvin))
