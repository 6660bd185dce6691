"""How the engine was cranked for its readings, and what ratio, valve closing and altitude let one expect."""

from collections.abc import Mapping
from types import MappingProxyType

from firedeck.cylinder.cranking import CrankingPressure, cranking_pressure
from firedeck.errors import JobError, OutOfRange
from firedeck.findings.groups import number
from firedeck.job import Job
from firedeck.trace import DERIVED, NO_UNIT, Step

SPOILS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "throttle": {"closed": "throttle closed"},
        "plugs_out": {"one": "only one plug out at a time"},
        "engine": {"cold": "engine cold"},
        "speed": {"slow": "cranked slowly"},
        "puffs": {},
        "hose_valve": {"at-the-gauge": "the hose beyond the plug counts as chamber"},
        "decompressor": {"working": "decompressor working"},
    }
)
"""Every condition an absolute figure hangs on, and which answer to it makes the figure read low."""


def not_said(job: Job) -> tuple[str, ...]:
    """Name the conditions nobody wrote down; a decompressor is asked for only where one is usual."""
    conditions, engine = job.document.tests.conditions, job.engine
    may_have_one = engine.arrangement == "single" or engine.duty == "small"
    asked = (name for name in SPOILS if name != "decompressor" or may_have_one)
    return tuple(name.replace("_", " ") for name in asked if not getattr(conditions, name))


def spoilt_by(job: Job) -> tuple[str, ...]:
    """Say which conditions make the readings low, so that they speak only between cylinders."""
    conditions = job.document.tests.conditions
    said = ((words, getattr(conditions, name)) for name, words in SPOILS.items())
    return tuple(words[answer] for words, answer in said if answer in words)


def is_timed(job: Job) -> bool:
    """Tell whether the ratio that works is known: a valve that closes late takes a share of it."""
    engine = job.engine
    return all((engine.valve_closing, engine.rod, engine.stroke))


def at_most(job: Job) -> str:
    """Say why the figure worked out is only the most it can be, or nothing."""
    if not is_timed(job):
        return "when the intake valve closes is not known"
    return "a pre-chamber cools the charge" if job.engine.pre_chamber else ""


def cranking_of(job: Job, ratio: float | None = None) -> CrankingPressure | None:
    """Return what a gauge should read at a ratio, that of the papers where none is given; None where it is not known."""
    engine = job.engine
    if ratio is None and engine.ratio is None:
        return None
    timed = is_timed(job)
    try:
        return cranking_pressure(
            ratio=ratio if ratio is not None else number(engine.ratio) or 0.0,
            altitude=number(job.document.running.altitude),
            valve_closing=number(engine.valve_closing) if timed else None,
            rod=number(engine.rod) if timed else None,
            stroke=number(engine.stroke) if timed else None,
        )
    except (JobError, OutOfRange):
        return None


def over_least(reading: float, expected: CrankingPressure | None) -> Step | None:
    """Return the best reading over the low end of what is to be expected."""
    if expected is None or expected.band is None:
        return None
    return Step.work_out(
        "Best reading over the least that is to be expected",
        "reading / least",
        {"reading": (reading, "MPa"), "least": (expected.band.low, "MPa")},
        ("share_of_expected", NO_UNIT),
        DERIVED,
    )
