"""One firing stroke by small steps of crank angle: compression, burning, expansion of one even gas."""

import math
from dataclasses import dataclass

from firedeck.cylinder.bounds import within
from firedeck.cylinder.gas_heat import COLDEST, HOTTEST, HeatCurve, mixture
from firedeck.cylinder.working_gas import RealAir
from firedeck.errors import DidNotConverge

BURNT_AT_END = 6.907755
"""Exponent at which the burn curve has reached 99.9 per cent: log(1000)."""

ROD_OVER_CRANK = 3.3
"""Rod length over crank radius where neither is asked for."""

REFERENCE = 298.15
"""Temperature at which heating values are stated [K]."""

START, END, STEP = -180.0, 120.0, 1.0


@dataclass(frozen=True)
class Burn:
    """How a charge burns: angles in crank degrees after top dead centre, heat in kJ per kg of charge."""

    phasing: float
    duration: float
    shape: float
    heat: float
    wall_share: float

    @property
    def begins(self) -> float:
        """Crank angle at which burning begins [deg], so that half is burnt at the phasing."""
        half = float((math.log(2.0) / BURNT_AT_END) ** (1.0 / (self.shape + 1.0)))
        return self.phasing - half * self.duration

    def share(self, degrees: float) -> float:
        """Share burnt [1] at a crank angle [deg]."""
        done = (degrees - self.begins) / self.duration
        if done <= 0.0:
            return 0.0
        return 1.0 - math.exp(-BURNT_AT_END * float(done ** (self.shape + 1.0)))


@dataclass(frozen=True)
class FiringCycle:
    """What came out of the steps: pressures, absolute [MPa], angle of the peak [deg], heats [kJ/kg]."""

    peak: float
    peak_angle: float
    compression_end: float
    heat_released: float
    heat_to_walls: float
    work: float
    energy_rise: float


@dataclass(frozen=True)
class _Charge:
    """Fresh gas, burnt gas, and what ties pressure to temperature: p = R T / (spread V)."""

    fresh: HeatCurve
    spent: HeatCurve
    spread: float

    def blend(self, share: float, kelvin: float) -> tuple[float, float, float]:
        """Energy above 298 K, heat capacity and gas constant with this share burnt."""
        rest = 1.0 - share
        return (
            rest * _sensible(self.fresh, kelvin) + share * _sensible(self.spent, kelvin),
            rest * self.fresh.heat_capacity(kelvin) + share * self.spent.heat_capacity(kelvin),
            rest * self.fresh.gas_constant + share * self.spent.gas_constant,
        )


@dataclass(frozen=True)
class _Moment:
    """The gas at one crank angle."""

    volume: float
    share: float
    kelvin: float
    pressure: float
    energy: float


def _sensible(curve: HeatCurve, kelvin: float) -> float:
    return curve.energy(kelvin) - curve.energy(REFERENCE)


def volume_ratio(degrees: float, ratio: float) -> float:
    """Volume over the smallest volume at a crank angle after top dead centre.

    Parameters
    ----------
    degrees : float
        Crank angle after top dead centre [deg].
    ratio : float
        Compression ratio [1].

    Returns
    -------
    float
        Volume over clearance volume [1].

    Source
    ------
    derived

    Examples
    --------
    >>> round(volume_ratio(180.0, 10.0), 6), volume_ratio(0.0, 10.0)
    (10.0, 1.0)
    """
    angle = math.radians(degrees)
    slide = ROD_OVER_CRANK - math.sqrt(ROD_OVER_CRANK**2 - math.sin(angle) ** 2)
    return 1.0 + (ratio - 1.0) * (1.0 - math.cos(angle) + slide) / 2.0


def firing_cycle(ratio: float, pressure: float, kelvin: float, burn: Burn) -> FiringCycle:
    """Follow one charge from bottom dead centre through the burn.

    The gas is even throughout; its heat capacity is that of air and burnt gas by the share burnt.
    Each step balances internal energy, work, heat set free and heat to the walls.

    Parameters
    ----------
    ratio : float
        Compression ratio [1].
    pressure : float
        At bottom dead centre, absolute [MPa].
    kelvin : float
        Temperature there [K].
    burn : Burn
        How it burns [deg, kJ/kg].

    Returns
    -------
    FiringCycle
        Peak and compression end, absolute [MPa], and the energy balance [kJ/kg].

    Raises
    ------
    OutOfRange
        If the gas becomes colder than 200 K or hotter than 6000 K.
    DidNotConverge
        If a step does not settle.

    Valid for
    ---------
    Orders of size: one zone, nothing comes apart in the heat, wall loss as a share of the heat set free.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> found = firing_cycle(10.0, 0.0963, 330.0, Burn(9.0, 55.0, 2.0, 2500.0, 0.13))
    >>> 5.0 < found.peak < 8.0
    True
    """
    fresh = mixture("air")
    charge = _Charge(fresh, mixture("burnt"), fresh.gas_constant * kelvin / (pressure * ratio))
    now = _Moment(ratio, 0.0, kelvin, pressure, _sensible(fresh, kelvin))
    first = highest = now
    angle, peak_angle, work = START, START, 0.0
    while angle < END:
        angle += STEP
        before = now
        now = _advance(charge, before, volume_ratio(angle, ratio), burn.share(angle), burn)
        work += charge.spread * (now.volume - before.volume) * (now.pressure + before.pressure) / 2.0
        if now.pressure > highest.pressure:
            highest, peak_angle = now, angle
    squeezed = RealAir(fresh).squeezed(kelvin, ratio)
    return FiringCycle(
        highest.pressure,
        peak_angle,
        pressure * ratio * squeezed / kelvin,
        burn.heat * now.share,
        burn.heat * now.share * burn.wall_share,
        work,
        now.energy - first.energy,
    )


def _advance(charge: _Charge, now: _Moment, volume: float, share: float, burn: Burn) -> _Moment:
    """Balance one step: energy rises by heat less walls less work, the work at the mean pressure."""
    heat = burn.heat * (share - now.share) * (1.0 - burn.wall_share)
    push = charge.spread * (volume - now.volume)
    kelvin = now.kelvin
    for _ in range(30):
        within("gas temperature", kelvin, COLDEST, HOTTEST, "K")
        energy, capacity, gas = charge.blend(share, kelvin)
        pressure = gas * kelvin / (charge.spread * volume)
        left = now.energy + heat - push * (now.pressure + pressure) / 2.0 - energy
        change = left / (capacity + push * gas / (2.0 * charge.spread * volume))
        if abs(change) < 1e-9 * kelvin:
            return _Moment(volume, share, kelvin, pressure, energy)
        kelvin += change
    raise DidNotConverge("firing cycle step", 30, left)
