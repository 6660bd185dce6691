"""Finer tests: dye and lamp, circuits shut one by one, a warm-up watched, bores looked at hot, oil let out below.

They see the same leaks as the tests of ``bench``, by other flows and other eyes; all chances are invented here.
"""

from math import exp

from diagnosis_engines.engine import Engine
from diagnosis_engines.flows import fallen, water_flow

Seen = dict[str, bool]
BAR = 1e5
SQUARE = 1e-6
RUNNING = 0.8 * BAR
HOUR = 3600.0


def run_out(engine: Engine, place: str, seconds: float, pressure: float = RUNNING) -> float:
    """Coolant that leaves at a place, cm³."""
    return water_flow(engine.leaks.water.get(place, 0.0) * SQUARE, pressure) * seconds * 1e6


DYED = {
    "hose": ("hose-pump", 0.93),
    "plug": ("core-plug", 0.85),
    "turbo": ("turbo", 0.85),
    "joint": ("joint", 0.92),
    "valley": ("intake-joint", 0.6),
    "outside-head": ("casting", 0.75),
    "outside-block": ("casting", 0.8),
    "cab": ("heater", 0.85),
    "sump": ("oil", 0.9),
    "exhaust": ("tailpipe", 0.75),
    "riser": ("tailpipe", 0.5),
}
"""Where the lamp finds what ran out, and how often somebody shines there."""


def dye_and_lamp(engine: Engine) -> Seen:
    """Put dye into the coolant, run it an hour, look in the dark; dye that creeps along an edge shows its start."""
    dice = engine.dice("dye-and-lamp")
    names = sorted({name for name, _ in DYED.values()})
    found: set[str] = set()
    for place, (name, looked) in DYED.items():
        enough = 1 - exp(-run_out(engine, place, HOUR) / 8.0)
        if dice.random() < looked * enough:
            found.add(dice.choice(names) if dice.random() < 0.03 else name)
    return {f"dye-at-{name}": name in found or dice.random() < 0.01 for name in names}


BRANCHES = {
    "heater": ("cab", "heater"),
    "gas-cooler": ("exhaust", "exhaust-gas-cooler"),
    "oil-cooler": ("sump", "oil-cooler"),
    "turbo": ("turbo exhaust", "turbo-water"),
    "riser": ("riser", "marine-riser"),
}
"""Branches that can be shut off: where their leak goes, and the fault that sits in them."""


def circuits_shut(engine: Engine) -> Seen:
    """Shut one branch after the other while the gauge falls: it stops at the branch that leaks."""
    dice, water = engine.dice("circuits-shut"), engine.leaks.water
    give = dice.uniform(60e-6, 250e-6) / BAR
    seen = {}
    for branch, (places, fault) in BRANCHES.items():
        own = sum(water.get(place, 0.0) for place in places.split()) if engine.fault.name == fault else 0.0
        others = sum(water.values()) - own
        falls = fallen((own + others) * SQUARE, BAR, give, 300.0)
        still = fallen(others * SQUARE, BAR, give, 300.0)
        shows = falls > 0.05 * BAR and still < 0.4 * falls
        seen[f"drop-stops-{branch}-shut"] = dice.random() < (0.93 if shows else 0.015)
    return seen


def warm_up_watched(engine: Engine) -> Seen:
    """Watch one warm-up from cold with a thermometer on both hoses and an eye on the neck."""
    dice, leaks = engine.dice("warm-up"), engine.leaks
    gas = 1 - exp(-leaks.gas_to_water / 0.12)
    return {
        "upper-hose-stays-cold": dice.random() < (0.93 if leaks.thermostat_bad else 0.03),
        "core-cold-in-patches": dice.random() < (0.85 if engine.fault.name == "radiator-or-fan" else 0.03),
        "spills-before-its-rating": dice.random() < (0.85 if leaks.cap_bad else 0.05),
        "bubbles-that-never-end": dice.random() < max(0.93 * gas, 0.03),
    }


def bores_hot(engine: Engine) -> Seen:
    """Stop it hot, keep the pressure on, look at once: a way that is shut cold is open now."""
    dice, leaks = engine.dice("bores-hot"), engine.leaks
    ways = {"edge": "gasket-edge", "roof": "head-roof", "wall": "bore-wall", "sleeve": "head-roof"}
    came_from = ""
    area = 0.06 * leaks.gas_to_water if leaks.source else 0.0
    ran = water_flow(area * SQUARE, BAR) * 1800.0 * 1e6
    if leaks.source and dice.random() < 0.8 * (1 - exp(-ran / 2.0)):
        came_from = ways[leaks.source] if dice.random() < 0.9 else dice.choice(sorted(set(ways.values())))
    return {
        f"hot-water-from-{way}": way == came_from or dice.random() < 0.01
        for way in sorted(set(ways.values()))
    }


def oil_let_out(engine: Engine) -> Seen:
    """Let the engine stand overnight, let a cupful out of the sump; a strip tells coolant from condensed water."""
    dice = engine.dice("oil-let-out")
    stands = 1 - exp(-run_out(engine, "sump", 4 * HOUR, 0.3 * BAR) / 30.0)
    past = 0.3 * (1 - exp(-run_out(engine, "bore", 4 * HOUR, 0.3 * BAR) / 60.0))
    strays = max(0.3 * ("riser" in engine.leaks.water), 0.25 * ("valley" in engine.leaks.water))
    return {
        "coolant-in-oil-let-out": dice.random() < max(0.93 * stands, past, strays, 0.015),
        "mist-in-oil-without-coolant": dice.random() < (0.7 if engine.leaks.condensed else 0.06),
    }


LOOKED = {
    "dye-and-lamp": dye_and_lamp,
    "circuits-shut": circuits_shut,
    "warm-up-watched": warm_up_watched,
    "bores-hot": bores_hot,
    "oil-let-out": oil_let_out,
}
"""Finer tests by what a mechanic calls them."""
