"""How often each fault is invented, and the engines it can be on: common ones often, the rarest fifteen times."""

from dataclasses import dataclass

EVERY = frozenset({"car-petrol", "car-diesel", "truck", "boat", "old-tractor"})
WITH_HEATER = EVERY - {"boat", "old-tractor"}
WITH_COOLER = frozenset({"car-diesel", "truck"})
WET_LINERS = frozenset({"truck", "boat", "old-tractor"})


@dataclass(frozen=True)
class Fault:
    """A fault: ``count`` engines of it in one full set, ``kinds`` of engine it can be on."""

    name: str
    count: int
    kinds: frozenset[str]
    impostor: bool = False


FAULTS = (
    Fault("gasket-to-water", 150, EVERY),
    Fault("gasket-between-bores", 80, EVERY),
    Fault("gasket-to-outside", 50, EVERY),
    Fault("gasket-to-oil", 30, EVERY),
    Fault("head-crack", 60, EVERY),
    Fault("block-crack", 20, EVERY),
    Fault("valve-intake", 40, EVERY),
    Fault("valve-exhaust", 60, EVERY),
    Fault("rings-bore", 70, EVERY),
    Fault("injector-sleeve", 16, frozenset({"truck", "boat", "old-tractor"}), impostor=True),
    Fault("exhaust-gas-cooler", 24, WITH_COOLER, impostor=True),
    Fault("oil-cooler", 22, EVERY - {"old-tractor"}, impostor=True),
    Fault("air-compressor", 15, frozenset({"truck"}), impostor=True),
    Fault("turbo-water", 15, frozenset({"car-petrol", "car-diesel", "boat"}), impostor=True),
    Fault("core-plug", 24, EVERY, impostor=True),
    Fault("liner-pinhole", 15, WET_LINERS, impostor=True),
    Fault("liner-lower-seal", 16, WET_LINERS, impostor=True),
    Fault("marine-riser", 15, frozenset({"boat"}), impostor=True),
    Fault("heater", 18, WITH_HEATER, impostor=True),
    Fault("intake-joint", 26, EVERY, impostor=True),
    Fault("pressure-cap", 30, EVERY, impostor=True),
    Fault("thermostat", 26, EVERY, impostor=True),
    Fault("hose-or-pump", 60, EVERY, impostor=True),
    Fault("short-trip-mayonnaise", 36, WITH_HEATER, impostor=True),
    Fault("radiator-or-fan", 30, EVERY, impostor=True),
)
"""``radiator-or-fan`` is an engine that boils from a blocked radiator or a slipping belt, and leaks nowhere."""

NOT_ON = {
    "car-petrol": (
        "injector-sleeve",
        "exhaust-gas-cooler",
        "air-compressor",
        "liner-pinhole",
        "liner-lower-seal",
        "marine-riser",
    ),
    "car-diesel": ("injector-sleeve", "air-compressor", "liner-pinhole", "liner-lower-seal", "marine-riser"),
    "truck": ("turbo-water", "marine-riser"),
    "boat": ("exhaust-gas-cooler", "air-compressor", "heater"),
    "old-tractor": (
        "exhaust-gas-cooler",
        "air-compressor",
        "turbo-water",
        "marine-riser",
        "heater",
        "oil-cooler",
    ),
}
"""Parts these engines have not got; whoever tests them sees that."""
