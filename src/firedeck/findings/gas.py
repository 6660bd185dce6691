"""The gas: what a compression gauge should read, and the peak pressure now and as it left the factory."""

from dataclasses import dataclass
from typing import ClassVar

from firedeck.cylinder.cranking import CrankingPressure
from firedeck.cylinder.gas_force import gas_force
from firedeck.cylinder.peak_pressure import FUELS, Firing, peak_pressure
from firedeck.errors import JobError, OutOfRange
from firedeck.findings.cranked import cranking_of
from firedeck.findings.finding import Findings
from firedeck.findings.groups import gasket_that_goes_on, number
from firedeck.job import Job, Joint
from firedeck.trace import DERIVED, NO_UNIT, Band, Missing, Note, Step


@dataclass(frozen=True)
class Peak:
    """Peak pressure above ambient with its band [MPa]; ``from_papers`` when it was not worked out."""

    value: float
    band: Band
    from_papers: bool
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


@dataclass(frozen=True)
class Gas:
    """Cranking compression to expect, peak pressure now and as built, and their ratio.

    ``share`` is None where the engine as it left the factory is not known; ``same`` when nothing that
    makes the peak has changed.
    """

    id: ClassVar[str] = "gas"
    cranking: CrankingPressure | None
    peak: Peak | None
    as_built: Peak | None
    share: Step | None
    same: bool
    missing: tuple[Missing, ...]


def find(job: Job, _joint: Joint | None, _found: Findings) -> Gas | Missing:
    """Work out what the gas does, as far as the papers reach."""
    now, before = _peak(job), _as_built(job)
    share = _share(now, before) if now and before else None
    gas = Gas(
        cranking=cranking_of(job),
        peak=now,
        as_built=before,
        share=share,
        same=bool(now and before and now.value == before.value),
        missing=() if now else (unknown_peak(),),
    )
    return gas if gas.cranking or gas.peak else _nothing()


def unknown_peak() -> Missing:
    """Say what the peak pressure hangs on."""
    return Missing(
        paths=(
            "engine.ratio",
            "engine.fuel",
            "running.boost",
            "running.boost_before",
            "running.peak_pressure",
        ),
        measure="peak gas pressure: of the papers, or ratio, fuel and boost to work it out",
        tool="papers and boost gauge",
        how="Write the boost now and the boost before the change, read at the manifold under full load; "
        "an engine without boost has 0 bar.",
    )


def _nothing() -> Missing:
    return Missing(
        paths=("engine.ratio", "engine.fuel"),
        measure="compression ratio and fuel",
        tool="papers of this engine",
        how="The ratio stands among the data of the engine; measured volumes give it as well.",
    )


def peak_of(job: Job) -> Peak | None:
    """Peak pressure of a job alone, without what it was before."""
    return _peak(job)


def _as_built(job: Job) -> Peak | None:
    """Return the peak of the engine as it left the factory: its list of changes, or the boost before."""
    before = job.as_built()
    running = job.document.running
    if running.boost_before is not None:
        boost = running.boost_before.value
        return _peak(before or job, boost=boost, papers=False)
    return _peak(before) if before is not None else None


def _peak(job: Job, *, boost: float | None = None, papers: bool = True) -> Peak | None:
    engine, running = job.engine, job.document.running
    if papers and running.peak_pressure is not None:
        return _of_papers(running.peak_pressure.value)
    if boost is None:
        boost = number(running.boost)
    if boost is None and engine.charging == "natural":
        boost = 0.0
    if engine.ratio is None or boost is None or engine.fuel not in FUELS:
        return None
    firing = Firing(
        engine.ratio.value,
        boost,
        number(running.altitude) or 0.0,
        number(running.charge_temperature),
        engine.fuel,
    )
    try:
        found = peak_pressure(firing, firing)
    except (JobError, OutOfRange):
        return None
    return Peak(found.peak, found.band, False, found.steps[:-2], (*found.assumptions, *found.cautions))


MOST_BOOST = 0.4
"""Boost up to which one is looked for that gives a peak pressure [MPa]."""


def boost_for(job: Job, pressure: float) -> float | None:
    """Boost at which the peak comes to a pressure [MPa]; None for a natural engine, peaks of papers, or out of reach."""
    if job.engine.charging in (None, "natural") or job.document.running.peak_pressure is not None:
        return None
    low, high = 0.0, MOST_BOOST
    ends = [_peak(job, boost=boost) for boost in (low, high)]
    if ends[0] is None or ends[1] is None or not ends[0].value <= pressure <= ends[1].value:
        return None
    for _ in range(30):
        middle = (low + high) / 2.0
        found = _peak(job, boost=middle)
        if found is None:
            return None
        low, high = (middle, high) if found.value < pressure else (low, middle)
    return (low + high) / 2.0


def _of_papers(value: float) -> Peak:
    figures = {"reading": (value, "MPa")}
    step = Step.work_out("Peak pressure of the papers", "reading", figures, ("peak", "MPa"), DERIVED)
    return Peak(value, Band(value, value, why="of the papers"), True, (step,), ())


def _share(now: Peak, before: Peak) -> Step:
    return Step.work_out(
        "Peak pressure now over that as it left the factory",
        "peak / peak_as_built",
        {"peak": (now.value, "MPa"), "peak_as_built": (before.value, "MPa")},
        ("peak_share", NO_UNIT),
        DERIVED,
    )


@dataclass(frozen=True)
class Pushed:
    """Force of the gas on the head over one bore [N], the diameter it acts in [mm], and what that is the diameter of."""

    force: float
    across: float
    of: str


def force_on_head(job: Job, joint: Joint, peak: float) -> Pushed | None:
    """Work the force out inside the ring of the gasket that goes on, or inside the bore where no ring is known."""
    new = gasket_that_goes_on(joint)
    ring = number(new.bore) if new else None
    across = ring or number(job.engine.bore)
    if across is None:
        return None
    return Pushed(
        gas_force(peak, across).force, across, "the gasket's bore" if ring else "the bore; the ring is wider"
    )
