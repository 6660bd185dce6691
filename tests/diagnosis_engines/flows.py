"""Flow through small holes, cranking with a leak, and the fall of a gauge. SI units: Pa, m², m³, s, kg."""

from math import cos, pi, sqrt

AIR = 101325.0
GAS_CONSTANT = 287.0
WARM = 330.0
"""Charge and metal while cranking a warm engine, K."""
HEAT = 1.4
CRITICAL = (2 / (HEAT + 1)) ** (HEAT / (HEAT - 1))
DISCHARGE = 0.7
WATER = 1000.0


def gas_flow(area: float, before: float, after: float, temperature: float) -> float:
    """Mass of air through a hole, kg/s, choked where it must be."""
    if after >= before or area <= 0.0:
        return 0.0
    x = max(after / before, CRITICAL)
    speed = sqrt(
        2 * HEAT / ((HEAT - 1) * GAS_CONSTANT * temperature) * (x ** (2 / HEAT) - x ** ((HEAT + 1) / HEAT))
    )
    return DISCHARGE * area * before * speed


def water_flow(area: float, pressure: float) -> float:
    """Volume of coolant through a hole, m³/s, at a pressure above air."""
    return 0.6 * area * sqrt(2 * max(pressure, 0.0) / WATER)


def cranked(area: float, swept: float, ratio: float, *, speed: float, air: float, exponent: float) -> float:
    """Highest pressure above air in a cylinder turned at ``speed`` rev/s while it leaks through ``area``."""
    clearance = swept / (ratio - 1)
    turned, step, highest = 0.0, pi / 60, air
    volume, mass = swept + clearance, air * (swept + clearance) / (GAS_CONSTANT * WARM)
    pressure = air
    while turned < 1.25 * pi:
        turned += step
        smaller = clearance + swept * (1 + cos(turned)) / 2
        temperature = pressure * volume / (mass * GAS_CONSTANT)
        lost = min(gas_flow(area, pressure, air, temperature) * step / (2 * pi * speed), 0.5 * mass)
        pressure *= (volume / smaller) ** exponent * (1 - lost / mass) ** exponent
        mass, volume = mass - lost, smaller
        highest = max(highest, pressure)
    return highest - air


def held(leak: float, restrictor: float, supply: float, air: float) -> float:
    """Second gauge of a leak-down tester, above air: what comes in through the restrictor goes out."""
    low, high = air, air + supply
    for _ in range(60):
        middle = (low + high) / 2
        if gas_flow(restrictor, air + supply, middle, 293.0) > gas_flow(leak, middle, air, 293.0):
            low = middle
        else:
            high = middle
    return (low + high) / 2 - air


def fallen(area: float, pressure: float, give: float, seconds: float) -> float:
    """Fall of a pumped-up cooling system, Pa; ``give`` is the volume it takes per pressure, m³/Pa."""
    left, steps = pressure, 100
    for _ in range(steps):
        left -= min(water_flow(area, left) * seconds / steps / give, left)
    return pressure - left


def either(*chances: float) -> float:
    """Chance that at least one of several happens."""
    none = 1.0
    for chance in chances:
        none *= 1 - chance
    return 1 - none
