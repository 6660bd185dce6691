"""Leak-down: what each cylinder loses, where the air goes, and what it does to the crank of this engine."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import atan, radians

from firedeck.diagnosis import CrankTorque, LeakDown, leak_down, leak_down_crank_torque
from firedeck.errors import OutOfRange
from firedeck.findings.groups import number
from firedeck.job import Job
from firedeck.quantity import Kind, parse

USUAL_SUPPLY = "100 psi"
"""Air line taken where no supply is written down; the answer says so."""


@dataclass(frozen=True)
class LeakDownRead:
    """Loss by cylinder, and where the air goes; ``one_way`` are cylinders whose air comes through one way only."""

    lost: Mapping[str, LeakDown]
    goes: Mapping[str, str]
    into: Mapping[str, str]
    one_way: tuple[tuple[str, str], ...]
    reference: str | None


@dataclass(frozen=True)
class Whip:
    """Torque of the test air on this crank: 10 degrees off top dead centre, and at its most."""

    at_ten: CrankTorque
    most: CrankTorque
    supply: float
    supply_said: bool


def leak_down_read(job: Job) -> LeakDownRead | None:
    """Read the leak-down test; None when there was none."""
    given = job.document.tests.leak_down
    if not (given.readings or given.air_goes or given.into or given.reference in ("as-bad", "good")):
        return None
    goes = {**dict.fromkeys(given.into, "neighbour"), **given.air_goes}
    return LeakDownRead(_lost(job), goes, given.into, _one_way(given.into, goes), given.reference)


def _lost(job: Job) -> dict[str, LeakDown]:
    given = job.document.tests.leak_down
    if given.supply is None:
        return {}
    found = {}
    for label, reading in zip(job.engine.cylinders, given.readings, strict=False):
        try:
            found[label] = leak_down(
                given.supply.value,
                reading=reading.value,
                restrictor=number(given.restrictor),
                altitude=number(job.document.running.altitude) or 0.0,
            )
        except OutOfRange:
            continue
    return found


def _one_way(into: Mapping[str, str], goes: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """Find air that crosses from one cylinder into another, and not back."""
    return tuple((one, other) for one, other in into.items() if other in goes and into.get(other) != one)


def whip_of(job: Job) -> Whip | None:
    """Work out how hard the air of a leak-down turns this crank; None where sizes are not known."""
    engine, given = job.engine, job.document.tests.leak_down
    if not (engine.bore and engine.stroke and engine.rod):
        return None
    supply = given.supply.value if given.supply else parse(USUAL_SUPPLY, Kind.PRESSURE_GAUGE).value
    sizes = (engine.bore.value, engine.stroke.value, engine.rod.value)
    steepest = atan(sizes[2] / (sizes[1] / 2))
    try:
        at_ten, most = (leak_down_crank_torque(*sizes, supply, angle) for angle in (radians(10.0), steepest))
    except OutOfRange:
        return None
    return Whip(at_ten, most, supply, given.supply is not None)
