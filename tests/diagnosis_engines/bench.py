"""What the tests show on an invented engine: gauges that err, ears that miss, things seen that are not there.

A test gives the words of what was looked for, each True (seen) or False (not seen). All chances are invented here.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass
from math import exp, sqrt

from diagnosis_engines.engine import Areas, Engine
from diagnosis_engines.flows import cranked, either, fallen, held, water_flow

Seen = dict[str, bool]
BAR = 1e5
SQUARE = 1e-6
"""mm² in m²."""
PUMPED = 1.0 * BAR
TEN_MINUTES, NIGHT = 600.0, 10 * 3600.0
HEARD_FROM = {"neighbour": 0.4, "intake": 0.5, "exhaust": 0.5, "outside": 0.6, "water": 0.06}
"""Leak at which a good ear is two to one to notice it, mm²."""
OUTSIDE = {
    "joint": ("joint", 0.85),
    "hose": ("hose-pump", 0.92),
    "plug": ("core-plug", 0.75),
    "turbo": ("turbo", 0.6),
    "valley": ("intake-joint", 0.5),
    "outside-head": ("casting", 0.6),
    "outside-block": ("casting", 0.7),
}
"""Drips by where the leak is: what it is called, and how often a person with a lamp finds it."""
MISTAKEN = 0.06
"""So often a drip found is put down to another place: water runs along edges."""


@dataclass(frozen=True)
class Compression:
    """Readings above air, Pa, with oil in where ``oil`` (m³) says so."""

    readings: tuple[float, ...]
    oil: float = 0.0


@dataclass(frozen=True)
class LeakDown:
    """Both gauges of each cylinder, Pa, the hole of the tester, m, and where air was heard."""

    supply: float
    held: tuple[float, ...]
    restrictor: float
    heard: tuple[frozenset[str], ...]


def compression(engine: Engine, oil: float = 0.0) -> Compression:
    """Crank every cylinder with a gauge on it; oil fills room and shuts most of the way past the rings."""
    dice = engine.dice(f"compression {oil}")
    clearance = engine.swept / (engine.ratio - 1) - oil
    ratio = (engine.swept + clearance) / clearance
    read = []
    for areas in engine.leaks.gas:
        area = sum(areas.values()) - (dice.uniform(0.55, 0.75) * areas["sump"] if oil else 0.0)
        true = cranked(
            area * SQUARE, engine.swept, ratio, speed=engine.speed, air=engine.air, exponent=engine.exponent
        )
        read.append(max(true * engine.gauge * dice.gauss(1.0, 0.015), 0.0))
    return Compression(tuple(read), oil)


def shot_of_oil(engine: Engine) -> float:
    """Oil for a wet test, m³."""
    return 2e-6 if engine.diesel and engine.swept < 1e-3 else 5e-6


def leak_down(engine: Engine) -> LeakDown:
    """Air into every cylinder in turn; listen at every place."""
    dice = engine.dice("leak-down")
    supply, restrictor = dice.choice([5.5, 6.9]) * BAR, 1.0e-3
    hole = 0.7854 * restrictor**2
    read = tuple(
        min(held(sum(areas.values()) * SQUARE, hole, supply, engine.air) * dice.gauss(1.0, 0.01), supply)
        for areas in engine.leaks.gas
    )
    usual = sorted(areas["sump"] for areas in engine.leaks.gas)[0]
    heard = tuple(frozenset(_heard(engine, areas, usual, dice)) for areas in engine.leaks.gas)
    return LeakDown(supply, read, restrictor, heard)


def _heard(engine: Engine, areas: Areas, usual: float, dice: random.Random) -> list[str]:
    """Places where air is noticed; some hiss past the rings is always there and means nothing."""
    places = [
        place
        for place, from_area in HEARD_FROM.items()
        if dice.random() < noticed(engine, areas.get(place, 0.0), from_area) or dice.random() < 0.004
    ]
    large = max(areas["sump"] - 0.5 * sqrt(engine.swept / 0.5e-3), areas["sump"] - 2.0 * usual)
    if dice.random() < noticed(engine, large, 0.8) or dice.random() < 0.02:
        places.append("sump")
    return places


def noticed(engine: Engine, size: float, from_size: float) -> float:
    """Chance that a person notices something of a size."""
    return engine.ears * (1 - exp(-((max(size, 0.0) / from_size) ** 1.5)))


def coolant_pressure(engine: Engine) -> Seen:
    """Pump up the cold system, wait ten minutes, look everywhere and into the sump."""
    dice = engine.dice("coolant-pressure")
    water = engine.leaks.water
    give = dice.uniform(60e-6, 250e-6) / BAR
    fall = fallen(sum(water.values()) * SQUARE, PUMPED, give, TEN_MINUTES) * engine.gauge
    drops = fall > 0.07 * BAR or dice.random() < 0.04
    cubic = {
        place: water_flow(area * SQUARE, PUMPED - fall / 2) * TEN_MINUTES * 1e6
        for place, area in water.items()
    }
    dripping = [
        _called(OUTSIDE[place][0], dice)
        for place in OUTSIDE
        if cubic.get(place, 0.0) > 2.0 and dice.random() < OUTSIDE[place][1]
    ]
    sump = cubic.get("sump", 0.0) > 20.0 and dice.random() < 0.85
    return {
        "pressure-drops": drops,
        **{f"drips-at-{name}": name in dripping or dice.random() < 0.008 for name in NAMES},
        "water-in-sump-under-pressure": sump or dice.random() < 0.01,
    }


NAMES = tuple(sorted({name for name, _ in OUTSIDE.values()}))


def _called(name: str, dice: random.Random) -> str:
    return dice.choice(NAMES) if dice.random() < MISTAKEN else name


def gas_in_coolant(engine: Engine) -> Seen:
    """Chemical tester over the neck: a small leak gives too little in a few minutes, fluid gets old."""
    dice = engine.dice("gas-in-coolant")
    gas = engine.leaks.gas_to_water if engine.leaks.gas_is_burnt else 0.0
    found = dice.random() < 0.95 * (1 - exp(-gas / 0.06))
    return {"gas-in-coolant": found or dice.random() < 0.03}


def bores_looked_at(engine: Engine) -> Seen:
    """Leave the system pumped up overnight and look into the bores with a borescope."""
    dice, leaks = engine.dice("bores-looked-at"), engine.leaks
    into_bore = water_flow(leaks.water.get("bore", 0.0) * SQUARE, PUMPED / 2) * NIGHT * 1e6
    wet = into_bore > 3.0 and dice.random() < 0.93
    strays = {"riser": 0.4, "exhaust": 0.15, "intake": 0.5}
    stray = any(place in leaks.water and dice.random() < chance for place, chance in strays.items())
    places = {
        "edge": "from-gasket-edge",
        "roof": "from-head-roof",
        "wall": "on-bore-wall",
        "sleeve": "from-head-roof",
    }
    came_from = ""
    if wet and dice.random() < 0.8:
        came_from = places[leaks.source] if dice.random() < 0.9 else dice.choice(sorted(set(places.values())))
    drinks = 0.65 if "bore" in leaks.water else 0.35 if leaks.source else 0.25 if stray else 0.02
    cracked = {"roof": 0.3, "wall": 0.35}.get(leaks.crack, 0.01)
    return {
        "coolant-in-bore": wet or stray or dice.random() < 0.015,
        "one-piston-washed-clean": dice.random() < drinks,
        "bore-scored": dice.random() < (0.85 if leaks.scored else 0.04),
        "crack-seen": dice.random() < cracked,
        **{f"water-{place}": place == came_from for place in sorted(set(places.values()))},
    }


def outside_looked_over(engine: Engine) -> Seen:
    """Dry it, look along joint, plugs, pump, hoses and radiator."""
    dice, leaks = engine.dice("outside"), engine.leaks
    chances = {"hose": 0.85, "plug": 0.6, "turbo": 0.4, "joint": 0.8}
    left = [
        _called(OUTSIDE[place][0], dice)
        for place, chance in chances.items()
        if dice.random() < chance * trace(leaks.water.get(place, 0.0))
    ]
    soot = 0.6 * noticed(engine, max(areas.get("outside", 0.0) for areas in leaks.gas), 0.6)
    stale = {"hose-pump": 0.05, "core-plug": 0.02, "turbo": 0.01}
    return {
        **{f"trail-at-{name}": name in left or dice.random() < old for name, old in stale.items()},
        "coolant-trail-at-joint": "joint" in left or dice.random() < 0.02,
        "oil-trail-at-joint": dice.random() < (0.85 if leaks.oil_outside else 0.06),
        "soot-at-joint": dice.random() < either(soot, 0.01),
    }


def sump_off(engine: Engine) -> Seen:
    """Look up from below with the system pumped up."""
    dice, leaks = engine.dice("sump-off"), engine.leaks
    name, seen = engine.fault.name, leaks.water.get("sump", 0.0) > 0.002 and engine.ears * 0.95
    foot = seen if name == "liner-lower-seal" else 0.02
    drain = seen if name == "gasket-to-oil" else 0.12 if "valley" in leaks.water else 0.01
    wall = {"wall": 0.8, "edge": 0.45, "roof": 0.35, "sleeve": 0.3}.get(leaks.source, 0.01)
    wall = wall if "bore" in leaks.water or not leaks.source else 0.05
    if name == "block-crack" and seen:
        wall = max(wall, 0.5)
    return {
        "water-at-liner-foot": dice.random() < foot,
        "water-down-oil-drain": dice.random() < drain,
        "water-down-a-bore": dice.random() < wall,
    }


def trace(area: float) -> float:
    """Chance that a coolant leak leaves a trail at all."""
    return 1 - exp(-area / 0.008)


def _yes_or_no(word: str, chance: Callable[[Engine], float]) -> Callable[[Engine], Seen]:
    """A test that shows one thing, with a chance of its own."""
    return lambda engine: {word: engine.dice(word).random() < chance(engine)}


def _cap(engine: Engine) -> Seen:
    dice, leaks = engine.dice("cap"), engine.leaks
    return {
        "cap-fails": dice.random() < (0.93 if leaks.cap_bad else 0.02),
        "thermostat-stays-shut": dice.random() < (0.9 if leaks.thermostat_bad else 0.03),
    }


def _hose(engine: Engine) -> float:
    return 0.03 + 0.9 * (1 - exp(-((engine.leaks.gas_to_water / 0.3) ** 2)))


def _one_cut(engine: Engine) -> float:
    bubbling = engine.leaks.source and engine.leaks.gas_to_water > 0.12
    return 0.8 if bubbling else 0.02


def _idle(engine: Engine) -> float:
    return 0.9 if engine.leaks.intake_air else 0.15 if "valley" in engine.leaks.water else 0.04


def _is(name: str, there: float, otherwise: float) -> Callable[[Engine], float]:
    return lambda engine: there if engine.fault.name == name else otherwise


LOOKED = {
    "outside-looked-over": outside_looked_over,
    "sump-off": sump_off,
    "cold-hose": _yes_or_no("hose-hard-in-first-minute", _hose),
    "coolant-pressure": coolant_pressure,
    "cap-test": _cap,
    "gas-in-coolant": gas_in_coolant,
    "bores-looked-at": bores_looked_at,
    "one-injector-cut": _yes_or_no("bubbles-stop-with-one-cut", _one_cut),
    "injectors-out": _yes_or_no("coolant-at-injector-sleeve", _is("injector-sleeve", 0.88, 0.03)),
    "cooler-bypassed": _yes_or_no("loss-stops-cooler-bypassed", _is("exhaust-gas-cooler", 0.92, 0.04)),
    "compressor-line-off": _yes_or_no("bubbles-stop-compressor-off", _is("air-compressor", 0.94, 0.02)),
    "riser-off": _yes_or_no("riser-wet-or-rusted", _is("marine-riser", 0.9, 0.07)),
    "oil-cooler-tested": _yes_or_no("oil-cooler-leaks", _is("oil-cooler", 0.92, 0.03)),
    "heater-bypassed": _yes_or_no("loss-stops-heater-bypassed", _is("heater", 0.92, 0.04)),
    "radiator-felt": _yes_or_no("radiator-cold-or-belt-slack", _is("radiator-or-fan", 0.85, 0.06)),
    "turbo-looped": _yes_or_no("loss-stops-turbo-looped", _is("turbo-water", 0.92, 0.04)),
    "long-run": _yes_or_no("milk-gone-after-long-run", _is("short-trip-mayonnaise", 0.93, 0.06)),
    "intake-off": _yes_or_no("intake-joint-wet-or-torn", _is("intake-joint", 0.9, 0.05)),
    "intake-sprayed": _yes_or_no("idle-changes-at-intake-joint", _idle),
}
"""Tests that show words, by what a mechanic calls them."""
