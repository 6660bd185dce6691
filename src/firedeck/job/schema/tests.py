"""[tests] and [symptoms]: what was tried before the head came off, under which conditions."""

from typing import Annotated, Literal

from pydantic import Field

from firedeck.job.schema.fields import In, Labels, ListOf, Part
from firedeck.quantity import Quantity


class Conditions(Part):
    """[tests.conditions]: without them a compression figure speaks only between cylinders."""

    throttle: Literal["open", "closed", "no-throttle"] | None = None
    plugs_out: Literal["all", "one"] | None = None
    engine: Literal["cold", "warm", "hot"] | None = None
    speed: Literal["brisk", "slow"] | None = None
    puffs: str = ""
    oil_volume: Annotated[Quantity, In("oil_volume")] | None = None
    decompressor: Literal["none", "locked-out", "working"] | None = None
    hose_valve: Literal["at-the-plug", "at-the-gauge"] | None = None


class Compression(Part):
    """[tests.compression]: readings in the order of [engine] cylinders; ``only`` where some were read."""

    dry: Annotated[tuple[Quantity, ...], ListOf("compression")] = ()
    wet: Annotated[tuple[Quantity, ...], ListOf("compression")] = ()
    cold: Annotated[tuple[Quantity, ...], ListOf("compression")] = ()
    hot: Annotated[tuple[Quantity, ...], ListOf("compression")] = ()
    only: dict[str, Annotated[Quantity, In("compression")]] = {}
    expected: Annotated[Quantity, In("compression")] | None = None
    rule: str = ""
    source: str = Field(default="", alias="from")


Air = Literal["coolant", "intake", "exhaust", "filler", "neighbour", "outside", "nowhere"]


class LeakDown(Part):
    """[tests.leak_down]: what the second gauge holds, and where the air goes.

    ``into`` says into which neighbour it goes, ``reference`` how a head known to be good read with the same tester.
    """

    supply: Annotated[Quantity, In("supply")] | None = None
    readings: Annotated[tuple[Quantity, ...], ListOf("leak_reading")] = ()
    restrictor: Annotated[Quantity, In("restrictor")] | None = None
    air_goes: dict[str, Air] = {}
    into: dict[str, str] = {}
    reference: Literal["as-bad", "good", "not-done"] | None = None


Answered = Literal["yes", "no", "not-done"]


class Coolant(Part):
    """[tests.coolant]: pressure on the cooling system, and gas in it."""

    pressure: Annotated[Quantity, In("coolant_pressure")] | None = None
    drop: Annotated[Quantity, In("pressure_drop")] | None = None
    time: Annotated[Quantity, In("test_time")] | None = None
    gas_in_coolant: Answered | None = None
    hose_hard_when_cold: Answered | None = None
    outside_leak: Answered | None = None
    liquid_in_bore: str = ""
    cap: Literal["holds", "leaks", "not-done"] | None = None
    chemistry: Literal["sour", "good", "not-done"] | None = None
    stray_voltage: Literal["found", "none", "not-done"] | None = None


Shown = Literal[
    "trail-at-hose-pump",
    "trail-at-core-plug",
    "trail-at-turbo",
    "oil-trail-at-joint",
    "coolant-trail-at-joint",
    "soot-at-joint",
    "hose-hard-in-first-minute",
    "pressure-drops",
    "drips-at-joint",
    "drips-at-hose-pump",
    "drips-at-core-plug",
    "drips-at-turbo",
    "drips-at-intake-joint",
    "drips-at-casting",
    "water-in-sump-under-pressure",
    "cap-fails",
    "thermostat-stays-shut",
    "gas-in-coolant",
    "coolant-in-bore",
    "one-piston-washed-clean",
    "water-from-gasket-edge",
    "water-from-head-roof",
    "water-on-bore-wall",
    "bore-scored",
    "crack-seen",
    "bubbles-stop-with-one-cut",
    "coolant-at-injector-sleeve",
    "loss-stops-cooler-bypassed",
    "bubbles-stop-compressor-off",
    "riser-wet-or-rusted",
    "oil-cooler-leaks",
    "loss-stops-heater-bypassed",
    "idle-changes-at-intake-joint",
    "radiator-cold-or-belt-slack",
    "loss-stops-turbo-looped",
    "milk-gone-after-long-run",
    "water-at-liner-foot",
    "water-down-oil-drain",
    "water-down-a-bore",
    "intake-joint-wet-or-torn",
    "dye-at-hose-pump",
    "dye-at-core-plug",
    "dye-at-turbo",
    "dye-at-joint",
    "dye-at-casting",
    "dye-at-intake-joint",
    "dye-at-heater",
    "dye-at-oil",
    "dye-at-tailpipe",
    "drop-stops-heater-shut",
    "drop-stops-gas-cooler-shut",
    "drop-stops-oil-cooler-shut",
    "drop-stops-turbo-shut",
    "drop-stops-riser-shut",
    "upper-hose-stays-cold",
    "core-cold-in-patches",
    "spills-before-its-rating",
    "bubbles-that-never-end",
    "hot-water-from-gasket-edge",
    "hot-water-from-head-roof",
    "hot-water-from-bore-wall",
    "coolant-in-oil-let-out",
    "mist-in-oil-without-coolant",
    "loss-stops-with-good-cap",
    "smoke-from-intake",
    "smoke-from-exhaust",
    "smoke-from-filler",
    "smoke-from-neighbour",
    "bubbles-from-oil-gallery",
    "powder-wet-at-joint",
    "powder-blown-at-joint",
    "bubbles-with-piston-low-only",
]


class Tests(Part):
    """[tests]; ``shown`` and ``not_shown`` are what any other test was looked at for, and what came of it."""

    conditions: Conditions = Conditions()
    compression: Compression = Compression()
    leak_down: LeakDown = LeakDown()
    coolant: Coolant = Coolant()
    weak: Labels = ()
    bores_seen: tuple[Literal["scored", "clean-piston", "crack", "wet", "pitted", "good"], ...] = ()
    shown: tuple[Shown, ...] = ()
    not_shown: tuple[Shown, ...] = ()
    proof: dict[str, Answered] = {}


Symptom = Literal[
    "overheated",
    "coolant-lost",
    "bubbles-in-radiator",
    "white-smoke",
    "blue-smoke",
    "oil-in-coolant",
    "coolant-in-oil",
    "coolant-in-cylinder",
    "misfire",
    "hard-to-start",
    "outside-seep",
    "oil-seep",
    "noise-at-edge",
    "detonation-heard",
    "power-lost",
    "hose-hard-when-cold",
    "came-back",
    "mayonnaise-in-cap",
    "stood-for-months",
    "seep-at-joint",
    "misfire-neighbours",
    "breather-blows",
    "spits-back",
    "pops-in-exhaust",
    "idle-hunting",
    "cab-wet",
    "short-trips",
    "rough-when-cold",
    "valves-touched",
]


class Symptoms(Part):
    """[symptoms]: what the driver saw and heard."""

    seen: tuple[Symptom, ...] = ()
    liquid: Literal["coolant", "raw-water", "fuel", "oil", "unknown"] | None = None
    where: str = ""
    since: str = ""
    notes: str = ""
