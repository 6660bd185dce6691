"""What the owner tells. Each symptom has its chance here by what goes on in the engine; all invented."""

from math import exp

from diagnosis_engines.engine import Engine
from diagnosis_engines.flows import either

ASKED = 0.6
"""So often is a thing that was not told asked for and denied; otherwise nobody knows."""


def told(engine: Engine) -> dict[str, bool]:
    """Symptoms told (True) and asked for and denied (False); nobody brings an engine that nothing is wrong with."""
    dice = engine.dice("telling")
    for _ in range(50):
        seen = {}
        for word, chance in going_on(engine).items():
            there = dice.random() < either(chance, engine.leaks.complaints.get(word, 0.0))
            if there and dice.random() < engine.owner:
                seen[word] = True
            elif dice.random() < ASKED:
                seen[word] = False
        if any(there and word not in NO_COMPLAINT for word, there in seen.items()):
            break
    return seen


NO_COMPLAINT = ("short-trips-only",)


def grown(size: float, scale: float) -> float:
    """From nothing to one as a leak grows."""
    return 1 - exp(-size / scale)


def going_on(engine: Engine) -> dict[str, float]:
    """Chance of each symptom in this engine."""
    leaks, water = engine.leaks, engine.leaks.water

    def of(place: str) -> float:
        return grown(water.get(place, 0.0), 0.006)

    gas = leaks.gas_to_water
    burnt = gas if leaks.gas_is_burnt else 0.0
    rings = max(areas["sump"] for areas in leaks.gas)
    intake = max(areas["intake"] for areas in leaks.gas)
    exhaust = max(areas["exhaust"] for areas in leaks.gas)
    outside = max(areas.get("outside", 0.0) for areas in leaks.gas)
    single = 0.0 if leaks.pair else max(sum(areas.values()) for areas in leaks.gas) - 0.8
    blocked = engine.fault.name == "radiator-or-fan"
    lost = grown(sum(water.values()), 0.02)
    shut = 0.45 if leaks.shut_cold else 1.0
    bore = max(of("bore"), 0.45 if leaks.shut_cold and leaks.source else 0.0)
    return {
        "overheated": either(
            0.1,
            0.6 * lost,
            0.6 * grown(burnt, 0.3),
            0.6 * leaks.cap_bad,
            0.85 * leaks.thermostat_bad,
            0.95 * blocked,
        ),
        "coolant-lost": either(
            0.08,
            0.9 * lost,
            0.75 * grown(burnt, 0.2),
            0.3 * grown(gas, 0.4),
            0.55 * leaks.cap_bad,
            0.25 * (leaks.thermostat_bad or blocked),
        ),
        "coolant-seen-outside": either(
            0.04,
            0.85 * of("hose"),
            0.6 * of("plug"),
            0.6 * of("joint"),
            0.45 * of("turbo"),
            0.5 * of("outside-head"),
            0.55 * of("outside-block"),
            0.3 * of("valley"),
            0.3 * leaks.cap_bad,
        ),
        "cab-wet": either(0.015, 0.8 * of("cab")),
        "bubbles-in-radiator": either(0.02, 0.85 * grown(gas, 0.25), 0.08 * leaks.cap_bad),
        "white-smoke-stays": either(
            0.05,
            0.65 * shut * bore,
            0.75 * of("exhaust"),
            0.35 * of("intake"),
            0.15 * of("turbo"),
            0.3 * of("riser"),
        ),
        "rough-when-cold": either(
            0.1,
            0.6 * of("bore"),
            0.35 * grown(intake + exhaust, 5.0),
            0.4 * of("riser"),
            0.3 * of("intake"),
            0.35 * leaks.intake_air,
        ),
        "milk-under-cap-only": either(0.04, 0.93 * leaks.condensed, 0.05 * of("bore")),
        "milk-in-sump": either(
            0.01, 0.8 * of("sump"), 0.2 * of("bore"), 0.3 * of("riser"), 0.25 * of("valley")
        ),
        "oil-in-coolant": either(0.01, 0.85 * leaks.oil_to_water),
        "oil-at-joint": either(0.1, 0.75 * leaks.oil_outside),
        "puffing-at-joint": either(0.015, 0.8 * grown(outside, 0.8)),
        "misfire-two-neighbours": either(0.02, 0.75 * (leaks.pair is not None)),
        "misfire-one": either(
            0.07, 0.75 * grown(max(single, 0.0), 3.0), 0.25 * of("bore"), 0.15 * (leaks.pair is not None)
        ),
        "blue-smoke": either(0.09, 0.7 * grown(max(rings - 0.9, 0.0), 1.2)),
        "breather-blows": either(0.06, 0.8 * grown(max(rings - 0.9, 0.0), 1.2)),
        "spits-back": either(
            0.03, 0.6 * grown(intake, 4.0), 0.25 * (leaks.pair is not None), 0.3 * leaks.intake_air
        ),
        "pops-in-exhaust": either(0.04, 0.55 * grown(exhaust, 4.0)),
        "idle-high-or-hunting": either(0.05, 0.7 * leaks.intake_air),
        "short-trips-only": 0.9 if leaks.condensed else 0.2,
        "water-in-cylinder": either(
            0.01, 0.35 * bore, 0.5 * of("riser"), 0.1 * of("exhaust"), 0.15 * of("intake")
        ),
    }
