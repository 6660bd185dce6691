"""One invented engine: its make-up, where and how much it leaks, and who looks after it."""

import math
import random
from collections.abc import Callable
from dataclasses import dataclass, field

from diagnosis_engines.faults import FAULTS, NOT_ON, Fault

Sizes = Callable[[float, float], float]
"""Draws an area by its middle and its spread."""
Areas = dict[str, float]
"""Size of a leak by where it goes, mm²."""


@dataclass
class Leaks:
    """``gas`` of each cylinder by where it goes; ``water`` under pressure by where it goes; the rest is yes or no.

    ``shut_cold``: the way from a bore to the water lets gas out and, cold, no coolant in. ``source``: where in a
    bore its water comes from. ``pair``: the two cylinders that blow into one another, counted from 0.
    ``complaints``: what a fault that leaks nowhere makes its owner tell, each with its chance.
    """

    gas: list[Areas]
    water: Areas = field(default_factory=dict)
    gas_to_water: float = 0.0
    gas_is_burnt: bool = True
    shut_cold: bool = False
    source: str = ""
    faulty: int = 0
    pair: tuple[int, int] | None = None
    oil_to_water: bool = False
    oil_outside: bool = False
    scored: bool = False
    crack: str = ""
    cap_bad: bool = False
    thermostat_bad: bool = False
    intake_air: bool = False
    condensed: bool = False
    complaints: dict[str, float] = field(default_factory=dict)


@dataclass
class Engine:
    """The engine, its fault, its gauges and its people."""

    fault: Fault
    kind: str
    cylinders: int
    swept: float
    ratio: float
    speed: float
    air: float
    exponent: float
    gauge: float
    ears: float
    owner: float
    leaks: Leaks
    seed: str

    @property
    def absent(self) -> tuple[str, ...]:
        """Parts it has not got."""
        return NOT_ON[self.kind]

    @property
    def present(self) -> tuple[str, ...]:
        """Parts that not every engine has, and this one does."""
        some = {part for parts in NOT_ON.values() for part in parts}
        return tuple(sorted(some - set(self.absent)))

    def dice(self, test: str) -> random.Random:
        """Chances of one test on this engine: whenever it is done, it shows the same."""
        return random.Random(f"{self.seed} {test}")

    @property
    def diesel(self) -> bool:
        """Whether it fires by squeezing alone."""
        return self.kind != "car-petrol"


def invented(seed: int, share: float = 1.0) -> list[Engine]:
    """Invent one set of engines; ``share`` of it where a quick look will do."""
    chance = random.Random(seed)
    return [one(fault, chance) for fault in FAULTS for _ in range(math.ceil(fault.count * share))]


def one(fault: Fault, chance: random.Random) -> Engine:
    """Invent one engine with a fault."""
    kind = chance.choice(sorted(fault.kinds))
    cylinders = chance.choice({"truck": [6], "boat": [4, 6], "old-tractor": [3, 4]}.get(kind, [3, 4, 4, 6]))
    petrol = kind == "car-petrol"
    big = {"truck": 1.6e-3, "boat": 0.8e-3, "old-tractor": 0.9e-3}.get(kind, 0.48e-3)
    worn = chance.lognormvariate(0.0, 0.3)
    tight = [
        {"sump": 0.35 * worn * math.sqrt(big / 0.5e-3) * chance.lognormvariate(0.0, 0.3)}
        | {
            "intake": 0.03 * chance.lognormvariate(0.0, 0.5),
            "exhaust": 0.05 * chance.lognormvariate(0.0, 0.5),
        }
        for _ in range(cylinders)
    ]
    leaks = Leaks(tight, faulty=chance.randrange(cylinders))
    leaks.cap_bad = chance.random() < 0.06
    spoil(fault.name, leaks, math.sqrt(big / 0.5e-3), chance)
    return Engine(
        fault=fault,
        kind=kind,
        cylinders=cylinders,
        swept=big * chance.uniform(0.85, 1.15),
        ratio=chance.uniform(9.0, 11.0) if petrol else chance.uniform(16.0, 19.0),
        speed=chance.uniform(150.0, 260.0) / 60,
        air=101325.0 * chance.uniform(0.84, 1.0),
        exponent=chance.uniform(1.22, 1.3),
        gauge=chance.gauss(1.0, 0.02),
        ears=chance.betavariate(9, 1.2),
        owner=chance.betavariate(6, 2),
        leaks=leaks,
        seed=str(chance.getrandbits(60)),
    )


WATER_ONLY = {
    "core-plug": ("plug", 0.05, 1.0),
    "liner-lower-seal": ("sump", 0.05, 0.9),
    "marine-riser": ("riser", 0.1, 0.8),
    "heater": ("cab", 0.04, 0.9),
    "hose-or-pump": ("hose", 0.06, 1.1),
}
"""Faults that are one leak of coolant: where it goes, its middle size and its spread."""


def spoil(name: str, leaks: Leaks, size: float, chance: random.Random) -> None:
    """Put the fault in: areas in mm², larger on larger engines."""

    def area_of(middle: float, spread: float) -> float:
        return size * middle * chance.lognormvariate(0.0, spread)

    if name in WATER_ONLY:
        place, middle, spread = WATER_ONLY[name]
        leaks.water[place] = area_of(middle, spread)
        return
    for family in (in_the_joint, in_the_metal, of_other_parts, without_a_leak):
        family(name, leaks, area_of, chance)


def in_the_joint(name: str, leaks: Leaks, area_of: Sizes, chance: random.Random) -> None:
    """Burn the gasket through, or wash it out."""
    there = leaks.gas[leaks.faulty]

    def likely(share: float) -> bool:
        return chance.random() < share

    match name:
        case "gasket-between-bores":
            first = chance.randrange(len(leaks.gas) - 1)
            leaks.pair = (first, first + 1)
            if likely(0.15):
                into_water(leaks, first, area_of(0.3, 0.6), likely(0.5), "edge")
            area = area_of(4.0, 0.6)
            leaks.gas[first]["neighbour"] = leaks.gas[first + 1]["neighbour"] = area
        case "gasket-to-water":
            into_water(leaks, leaks.faulty, area_of(0.5, 0.9), likely(0.3), "edge")
        case "gasket-to-outside":
            what = chance.choice(["gas", "gas", "coolant", "oil"])
            if what == "gas":
                there["outside"] = area_of(1.2, 0.7)
            if what == "coolant" or likely(0.2):
                leaks.water["joint"] = area_of(0.02, 1.0)
            leaks.oil_outside = what == "oil" or likely(0.1)
        case "gasket-to-oil":
            way = chance.choice(["oil-to-water", "water-to-oil", "both"])
            leaks.oil_to_water = way != "water-to-oil"
            if way != "oil-to-water":
                leaks.water["sump"] = area_of(0.02, 1.0)
            if likely(0.12):
                there["sump"] += area_of(0.8, 0.4)


def in_the_metal(name: str, leaks: Leaks, area_of: Sizes, chance: random.Random) -> None:
    """Crack a casting, burn a valve, wear the rings, eat through a sleeve or a liner."""
    there, faulty = leaks.gas[leaks.faulty], leaks.faulty
    match name:
        case "head-crack":
            if chance.random() < 0.85:
                into_water(leaks, faulty, area_of(0.4, 0.9), chance.random() < 0.35, "roof")
            else:
                leaks.water[chance.choice(["exhaust", "outside-head"])] = area_of(0.02, 1.0)
            leaks.crack = "roof"
        case "block-crack":
            if chance.random() < 0.75:
                into_water(leaks, faulty, area_of(0.4, 0.9), chance.random() < 0.2, "wall")
            if chance.random() < 0.5 or not leaks.gas_to_water:
                leaks.water[chance.choice(["sump", "sump", "outside-block"])] = area_of(0.03, 1.0)
            leaks.crack = "wall"
        case "valve-intake" | "valve-exhaust":
            there[name.removeprefix("valve-")] += area_of(5.0, 0.7)
        case "rings-bore":
            wear(leaks, area_of, chance.random() < 0.45, chance)
        case "injector-sleeve":
            into_water(leaks, faulty, area_of(0.4, 0.8), chance.random() < 0.35, "sleeve")
        case "liner-pinhole":
            into_water(leaks, faulty, area_of(0.25, 0.8), False, "wall")
            there["water"] *= 0.4


def into_water(leaks: Leaks, cylinder: int, area: float, shut_cold: bool, source: str) -> None:
    """Open a way from a bore to the water; cold, and the other way, far less of it is open."""
    leaks.gas[cylinder]["water"] = area
    leaks.gas_to_water, leaks.shut_cold, leaks.source = area, shut_cold, source
    if not shut_cold:
        leaks.water["bore"] = 0.06 * area


def wear(leaks: Leaks, area_of: Sizes, all_of_them: bool, chance: random.Random) -> None:
    """Wear the rings of all cylinders, or break those of one or two."""
    hurt = (
        range(len(leaks.gas))
        if all_of_them
        else chance.sample(range(len(leaks.gas)), chance.choice([1, 1, 2]))
    )
    for cylinder in hurt:
        leaks.gas[cylinder]["sump"] += area_of(1.5 if all_of_them else 3.5, 0.5)
    leaks.scored = chance.random() < 0.5


def of_other_parts(name: str, leaks: Leaks, area_of: Sizes, chance: random.Random) -> None:
    """Put in a leak that only looks like the joint."""
    match name:
        case "exhaust-gas-cooler":
            leaks.water["exhaust"] = area_of(0.04, 1.0)
            leaks.gas_to_water = area_of(0.02, 1.0) if chance.random() < 0.4 else 0.0
        case "oil-cooler":
            leaks.oil_to_water = chance.random() < 0.85
            if not leaks.oil_to_water or chance.random() < 0.35:
                leaks.water["sump"] = area_of(0.02, 0.8)
        case "air-compressor":
            leaks.gas_to_water, leaks.gas_is_burnt = area_of(0.5, 0.6), False
        case "turbo-water":
            leaks.water[chance.choice(["turbo", "turbo", "exhaust"])] = area_of(0.03, 1.0)
        case "intake-joint":
            leaks.intake_air = chance.random() < 0.8
            if not leaks.intake_air or chance.random() < 0.25:
                leaks.water[chance.choice(["intake", "valley"])] = area_of(0.03, 0.9)


def without_a_leak(name: str, leaks: Leaks, _area_of: Sizes, _chance: random.Random) -> None:
    """Put in a fault that leaks nothing; a blocked radiator needs no more than its name."""
    match name:
        case "pressure-cap":
            leaks.cap_bad = True
        case "thermostat":
            leaks.thermostat_bad = True
        case "short-trip-mayonnaise":
            leaks.condensed = True
