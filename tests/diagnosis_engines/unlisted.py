"""Engines whose fault is none of those that anybody listed: they look like something and are something else.

Made like the others, leaks and all, so that the same tests can be done on them.
"""

import random

from diagnosis_engines.engine import Engine, one
from diagnosis_engines.faults import EVERY, Fault

STRANGE = {
    "weak-spark-or-injector": EVERY,
    "valve-stem-seals": EVERY,
    "gearbox-oil-cooler": frozenset({"car-petrol", "car-diesel", "truck"}),
    "gauge-that-lies": EVERY,
    "late-ignition-or-fuel": EVERY,
    "blocked-breather": EVERY,
    "loose-plug-or-injector": EVERY,
    "cracked-expansion-bottle": frozenset({"car-petrol", "car-diesel", "truck"}),
}
"""Faults nobody listed, and the engines they can be on."""


def strange_engines(seed: int, each: int = 15) -> list[Engine]:
    """Invent some engines of every strange fault."""
    chance = random.Random(f"strange {seed}")
    return [
        spoilt(one(Fault(name, each, kinds), chance), chance)
        for name, kinds in STRANGE.items()
        for _ in range(each)
    ]


def spoilt(engine: Engine, chance: random.Random) -> Engine:
    """Put the strange fault in; what is not put in here leaves the engine sound."""
    leaks = engine.leaks
    leaks.complaints = COMPLAINTS[engine.fault.name]
    match engine.fault.name:
        case "loose-plug-or-injector":
            leaks.gas[leaks.faulty]["plug"] = chance.lognormvariate(0.7, 0.5)
        case "gearbox-oil-cooler":
            leaks.oil_to_water = True
        case "cracked-expansion-bottle":
            leaks.water["bottle"] = 0.04 * chance.lognormvariate(0.0, 0.9)
    return engine


COMPLAINTS = {
    "weak-spark-or-injector": {"misfire-one": 0.9, "rough-when-cold": 0.5, "pops-in-exhaust": 0.3},
    "valve-stem-seals": {"blue-smoke": 0.9},
    "gearbox-oil-cooler": {"oil-in-coolant": 0.9},
    "gauge-that-lies": {"overheated": 0.95},
    "late-ignition-or-fuel": {"overheated": 0.8, "coolant-lost": 0.2, "pops-in-exhaust": 0.3},
    "blocked-breather": {"breather-blows": 0.7, "oil-at-joint": 0.6, "blue-smoke": 0.4},
    "loose-plug-or-injector": {"misfire-one": 0.6, "puffing-at-joint": 0.3},
    "cracked-expansion-bottle": {"coolant-lost": 0.9, "coolant-seen-outside": 0.4, "overheated": 0.3},
}
"""What their owners tell, besides what is told of any engine."""
