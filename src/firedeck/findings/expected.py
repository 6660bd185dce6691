"""What this engine should read once it is together again: compression by the ratio after the work, boiling point."""

from dataclasses import dataclass

from firedeck.cylinder.cranking import CrankingPressure
from firedeck.findings.cranked import at_most, cranking_of
from firedeck.findings.effects import Effects
from firedeck.findings.finding import Findings
from firedeck.findings.tests import TestsRead, boiling_of
from firedeck.job import Job
from firedeck.trace import Band, Step


@dataclass(frozen=True)
class Expected:
    """Cranking compression from the lowest and highest ratio after the work, and where the coolant boils [°C].

    ``after_work`` tells whether the ratio is the one after cut and gasket, or that of the papers;
    ``at_most`` why the compression may be less.
    """

    cranking: tuple[CrankingPressure, ...]
    ratios: tuple[float, ...]
    after_work: bool
    at_most: str
    boiling: float | None

    @property
    def band(self) -> Band | None:
        """Gauge reading to expect, from the lowest ratio to the highest [MPa]."""
        bands = [one.band for one in self.cranking if one.band]
        if not bands:
            return None
        return Band(min(one.low for one in bands), max(one.high for one in bands), why=bands[0].why)

    @property
    def written(self) -> tuple[Step, ...]:
        """Written sums of both ends of the band, what they share once."""
        steps: list[Step] = []
        for step in (*self.cranking[0].low_end, *self.cranking[-1].high_end) if self.cranking else ():
            if step not in steps:
                steps.append(step)
        return tuple(steps)


def expected_after(job: Job, found: Findings) -> Expected:
    """Work out what is to be expected, as far as the papers reach."""
    after = _ratios_after(job, found)
    stated = (job.engine.ratio.value,) if job.engine.ratio else ()
    ratios = after or stated
    read = found.get(TestsRead)
    boiling = read.boiling if isinstance(read, TestsRead) else boiling_of(job)
    return Expected(
        cranking=tuple(one for ratio in ratios if (one := cranking_of(job, ratio)) is not None),
        ratios=ratios,
        after_work=bool(after),
        at_most=at_most(job),
        boiling=boiling.boiling if boiling else None,
    )


def _ratios_after(job: Job, found: Findings) -> tuple[float, ...]:
    """Give the lowest and the highest ratio of all heads, once where they are the same."""
    ratios = []
    for joint in job.joints:
        effects = found.of(joint).get(Effects)
        if isinstance(effects, Effects):
            ratios += [one.after for one in effects.ratios if one.after is not None]
    return tuple(sorted({min(ratios), max(ratios)})) if ratios else ()
