"""The gas of a textbook cycle: cold air, air with real heat capacities, or a straight-line heat capacity."""

import math
from dataclasses import dataclass
from typing import Protocol

from firedeck.cylinder.gas_heat import HeatCurve, mixture, temperature_where
from firedeck.errors import JobError


class WorkingGas(Protocol):
    """What a cycle asks of its gas; temperatures in K, energies in kJ/kg."""

    @property
    def gas_constant(self) -> float:
        """Gas constant [kJ/(kg K)]."""

    def energy(self, kelvin: float) -> float:
        """Internal energy [kJ/kg]."""

    def squeezed(self, kelvin: float, ratio: float) -> float:
        """Temperature [K] after the volume is divided by a ratio without heat."""

    def of_energy(self, energy: float) -> float:
        """Temperature [K] with this internal energy [kJ/kg]."""

    def of_enthalpy(self, enthalpy: float) -> float:
        """Temperature [K] with this enthalpy [kJ/kg]."""


@dataclass(frozen=True)
class ColdAir:
    """Air with one heat capacity: exponent 1.4, gas constant 0.287 kJ/(kg K)."""

    exponent: float = 1.4
    gas_constant: float = 0.287

    @property
    def heat_capacity(self) -> float:
        """At constant volume [kJ/(kg K)]."""
        return self.gas_constant / (self.exponent - 1.0)

    def energy(self, kelvin: float) -> float:
        """Internal energy [kJ/kg]."""
        return self.heat_capacity * kelvin

    def squeezed(self, kelvin: float, ratio: float) -> float:
        """Temperature [K] after the volume is divided by a ratio without heat."""
        return float(kelvin * ratio ** (self.exponent - 1.0))

    def of_energy(self, energy: float) -> float:
        """Temperature [K] with this internal energy [kJ/kg]."""
        return energy / self.heat_capacity

    def of_enthalpy(self, enthalpy: float) -> float:
        """Temperature [K] with this enthalpy [kJ/kg]."""
        return enthalpy / (self.heat_capacity + self.gas_constant)


@dataclass(frozen=True)
class RealAir:
    """Air whose heat capacity grows with temperature."""

    curve: HeatCurve

    @property
    def gas_constant(self) -> float:
        """Gas constant [kJ/(kg K)]."""
        return self.curve.gas_constant

    def energy(self, kelvin: float) -> float:
        """Internal energy [kJ/kg]."""
        return self.curve.energy(kelvin)

    def squeezed(self, kelvin: float, ratio: float) -> float:
        """Temperature [K] after the volume is divided by a ratio without heat."""
        wanted = self.curve.volume_entropy(kelvin) + self.gas_constant * math.log(ratio)
        return temperature_where(
            wanted, self.curve.volume_entropy, lambda t: self.curve.heat_capacity(t) / t, "compression"
        )

    def of_energy(self, energy: float) -> float:
        """Temperature [K] with this internal energy [kJ/kg]."""
        return temperature_where(energy, self.energy, self.curve.heat_capacity, "heat at constant volume")

    def of_enthalpy(self, enthalpy: float) -> float:
        """Temperature [K] with this enthalpy [kJ/kg]."""
        return temperature_where(
            enthalpy,
            lambda t: self.energy(t) + self.gas_constant * t,
            lambda t: self.curve.heat_capacity(t) + self.gas_constant,
            "heat at constant pressure",
        )


@dataclass(frozen=True)
class LinearHeatAir:
    """Textbook air: heat capacity at constant volume = start + slope T; without heat a polytrope."""

    start: float
    slope: float
    exponent: float
    gas_constant: float = 0.287

    def energy(self, kelvin: float) -> float:
        """Internal energy [kJ/kg]."""
        return self.start * kelvin + self.slope * kelvin**2 / 2.0

    def squeezed(self, kelvin: float, ratio: float) -> float:
        """Temperature [K] after the volume is divided by a ratio along the polytrope."""
        return float(kelvin * ratio ** (self.exponent - 1.0))

    def of_energy(self, energy: float) -> float:
        """Temperature [K] with this internal energy [kJ/kg]."""
        return _root(self.slope / 2.0, self.start, energy)

    def of_enthalpy(self, enthalpy: float) -> float:
        """Temperature [K] with this enthalpy [kJ/kg]."""
        return _root(self.slope / 2.0, self.start + self.gas_constant, enthalpy)


def _root(square: float, straight: float, wanted: float) -> float:
    """Positive root of square T² + straight T = wanted; without division by a square that may be nought."""
    return 2.0 * wanted / (straight + math.sqrt(straight**2 + 4.0 * square * wanted))


def gas_named(name: str) -> WorkingGas:
    """Return a working gas by its name.

    Parameters
    ----------
    name : str
        cold-air or variable (heat capacities that grow with temperature) [text].

    Returns
    -------
    WorkingGas
        The gas [core].

    Raises
    ------
    JobError
        If the name is another word.

    Source
    ------
    [nasa-tp-2002-211556] for the heat capacities.

    Examples
    --------
    >>> round(gas_named("variable").squeezed(290.0, 8.0), 1)
    652.1
    """
    if name == "cold-air":
        return ColdAir()
    if name == "variable":
        return RealAir(mixture("air"))
    raise JobError("gas", repr(name), "allowed: cold-air, variable")
