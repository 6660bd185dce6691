"""Tests that change one thing and try again: good cap, smoke, air in the oil gallery, powder, piston high and low.

All chances are invented here.
"""

from math import exp

from diagnosis_engines.bench import noticed, trace
from diagnosis_engines.engine import Engine

Seen = dict[str, bool]


def good_cap(engine: Engine) -> Seen:
    """Fit a good cap and drive: the loss stops, unless something else loses it; some losses stop by themselves."""
    stops = 0.92 if engine.fault.name == "pressure-cap" else 0.06
    return {"loss-stops-with-good-cap": engine.dice("good-cap").random() < stops}


def smoke(engine: Engine) -> Seen:
    """Let smoke into every weak cylinder and look where it comes out: eyes miss less than ears."""
    dice = engine.dice("smoke")
    usual = sorted(areas["sump"] for areas in engine.leaks.gas)[0]
    most = {
        place: max(areas.get(place, 0.0) for areas in engine.leaks.gas)
        for place in ("intake", "exhaust", "sump", "neighbour")
    }
    plume = noticed(engine, most["sump"] - 1.5 * usual, 0.8)
    return {
        "smoke-from-intake": dice.random() < _seen(most["intake"]),
        "smoke-from-exhaust": dice.random() < _seen(most["exhaust"]),
        "smoke-from-filler": dice.random() < max(plume, 0.05),
        "smoke-from-neighbour": dice.random() < _seen(most["neighbour"]),
    }


def _seen(area: float) -> float:
    return max(0.96 * (1 - exp(-((area / 0.9) ** 2))), 0.01)


def oil_gallery(engine: Engine) -> Seen:
    """Put air into the oil gallery, cooler blanked: it bubbles where the engine's own oil crosses in the joint."""
    crosses = engine.leaks.oil_to_water and engine.fault.name == "gasket-to-oil"
    return {"bubbles-from-oil-gallery": engine.dice("oil-gallery").random() < (0.88 if crosses else 0.02)}


def powder(engine: Engine) -> Seen:
    """Wash, powder, run: a weep shows where it starts, gas blows the powder off."""
    dice, leaks = engine.dice("powder"), engine.leaks
    weeps = 0.94 if leaks.oil_outside else 0.92 * trace(leaks.water.get("joint", 0.0))
    gas = noticed(engine, max(areas.get("outside", 0.0) for areas in leaks.gas), 0.5)
    return {
        "powder-wet-at-joint": dice.random() < max(weeps, 0.06),
        "powder-blown-at-joint": dice.random() < max(0.9 * gas, 0.02),
    }


def piston_low(engine: Engine) -> Seen:
    """Air in with the piston high and then low: half way down the rings stand below most holes of the wall."""
    leaks = engine.leaks
    wall = 0.75 * (1 - exp(-leaks.gas_to_water / 0.08)) if leaks.source == "wall" else 0.04
    return {"bubbles-with-piston-low-only": engine.dice("piston-low").random() < wall}


LOOKED = {
    "good-cap-fitted": good_cap,
    "smoke-into-cylinder": smoke,
    "oil-gallery-air": oil_gallery,
    "washed-and-powdered": powder,
    "piston-high-and-low": piston_low,
}
"""These tests by what a mechanic calls them."""
