"""The joint now against the joint as it left the factory, by the simple sum: clamp over gas force."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot
from typing import ClassVar

from firedeck.errors import JobError, OutOfRange
from firedeck.findings.clamp import Clamp, GroupClamp, clamp_of
from firedeck.findings.finding import Findings
from firedeck.findings.gas import Gas, Peak, unknown_peak
from firedeck.findings.groups import gasket_that_goes_on
from firedeck.findings.layout import Layout
from firedeck.job import Job, Joint
from firedeck.joint.simple_sum import Bore, Fastener, Scatter, SimpleSum, clamp_against_gas
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Band, Missing, Note, Step

GAS_DOUBT = 0.1
"""Doubt of a change of peak pressure that was worked out, as a share; our own assumption."""


@dataclass(frozen=True)
class Share:
    """A figure of now over that of the factory, with its band."""

    step: Step
    band: Band


@dataclass(frozen=True)
class Holding:
    """The simple sum: bore by bore where the pattern is known, and the change against as built."""

    id: ClassVar[str] = "holding"
    now: SimpleSum | None
    clamp_share: Share | None
    gas_share: Share | None
    load_share: Share | None
    stated: bool
    taken: tuple[Note, ...]
    missing: tuple[Missing, ...]


def find(job: Job, joint: Joint | None, found: Findings) -> Holding | Missing:
    """Compare the joint with the joint as it left the factory."""
    assert joint is not None
    clamp, gas = found.get(Clamp), found.get(Gas)
    if isinstance(clamp, Missing):
        return clamp
    before_job = job.as_built()
    before_joint = before_job.joint(joint.name) if before_job else joint
    before = clamp_of(before_job or job, before_joint)
    taken = []
    clamp_share = _clamp_share(clamp, before)
    if clamp.lost is not None and (clamp_share is None or before_job is None):
        clamp_share = _left(clamp)
    gas_share = _gas_share(gas, _seal(job, joint), _seal(before_job or job, before_joint))
    if gas_share is None and not _gas_changed(job, before_job):
        taken.append(Note("peak pressure and sealing diameter taken as they were", GENERIC))
    unsaid = [group for group in clamp.groups if not (group.thread and group.lubricant)]
    if clamp_share and before_job and unsaid and clamp.lost is None:
        taken.append(Note("thread and lubricant taken as they left the factory: not said", GENERIC))
    told = before_job is not None or clamp.lost is not None or job.document.running.boost_before is not None
    load = None
    if told and clamp_share and (gas_share or not _gas_changed(job, before_job)):
        load = _load_share(clamp_share, gas_share)
    missing = (*clamp.missing, *(gas.missing if isinstance(gas, Gas) else (unknown_peak(),)))
    layout, peak = found.get(Layout), gas.peak if isinstance(gas, Gas) else None
    return Holding(
        now=_simple(layout, clamp, peak, _seal(job, joint)),
        clamp_share=clamp_share if told else None,
        gas_share=gas_share if told else None,
        load_share=load,
        stated=told,
        taken=tuple(taken),
        missing=missing,
    )


def _seal(job: Job, joint: Joint) -> float | None:
    """Return the diameter at which the gasket seals: its own bore, else that of the cylinder."""
    gasket = gasket_that_goes_on(joint)
    if gasket is not None and gasket.bore is not None:
        return gasket.bore.value
    old = joint.gasket.old
    if old is not None and old.bore is not None and gasket is None:
        return old.bore.value
    return job.engine.bore.value if job.engine.bore else None


def _gas_changed(job: Job, before: Job | None) -> bool:
    running = job.document.running
    if running.boost_before is not None and running.boost != running.boost_before:
        return True
    if before is None:
        return False
    then = before.document.running
    now = (running.boost, running.peak_pressure, job.engine.ratio, job.engine.fuel, job.engine.bore)
    return now != (
        then.boost,
        then.peak_pressure,
        before.engine.ratio,
        before.engine.fuel,
        before.engine.bore,
    )


def _clamp_share(now: Clamp, before: Clamp | Missing) -> Share | None:
    """Compare by torque where thread and lubricant are the same, since friction then cancels; else by tension."""
    if isinstance(before, Missing):
        return None
    if len(now.groups) == len(before.groups) == 1:
        by_torque = _by_torque(now.groups[0], before.groups[0])
        if by_torque is not None:
            return by_torque
    if [_identity(group) for group in now.groups] == [_identity(group) for group in before.groups]:
        step = _ratio("Clamp: nothing about the fasteners has changed", 1.0, 1.0, NO_UNIT, "clamp_share")
        return Share(step, Band(1.0, 1.0, why="the same fasteners and procedure"))
    pull, then = now.whole, before.whole
    if pull is None or then is None:
        return None
    step = _ratio(
        "Pull of all fasteners now over that as it left the factory", pull[0], then[0], "N", "clamp_share"
    )
    doubt = min(hypot(pull[1], then[1]), 0.9)
    band = Band(step.value * (1 - doubt), step.value * (1 + doubt), why="friction and scatter of both")
    return Share(step, band)


def _identity(group: GroupClamp) -> tuple[object, ...]:
    torque = (group.torque.low, group.torque.high) if group.torque else None
    return (group.name, group.count, group.thread, group.lubricant, torque, group.turned, group.tension)


def _by_torque(now: GroupClamp, before: GroupClamp) -> Share | None:
    same = (now.thread, now.lubricant, now.count) == (before.thread, before.lubricant, before.count)
    if not same or now.torque is None or before.torque is None:
        return None
    step = _ratio(
        "Torque now over torque as it left the factory: same thread and lubricant, so the pull goes with it",
        (now.torque.low + now.torque.high) / 2,
        (before.torque.low + before.torque.high) / 2,
        "N·mm",
        "clamp_share",
    )
    low, high = now.torque.low / before.torque.high, now.torque.high / before.torque.low
    return Share(step, Band(low, high, why="range of the torques"))


def _left(clamp: Clamp) -> Share:
    lost = clamp.lost
    assert lost is not None
    step = Step.work_out(
        "Share of the clamp that is left",
        "1 - clamp_lost",
        {"clamp_lost": lost.share.figure()},
        ("clamp_share", NO_UNIT),
        DERIVED,
    )
    return Share(step, Band(1 - lost.band.high, 1 - lost.band.low, why=lost.band.why))


def _ratio(says: str, now: float, before: float, unit: str, result: str) -> Step:
    figures = {"now": (now, unit), "as_built": (before, unit)}
    return Step.work_out(says, "now / as_built", figures, (result, NO_UNIT), DERIVED)


def _gas_share(gas: Gas | Missing, seal: float | None, before: float | None) -> Share | None:
    """Change of the gas force: peak pressure, and the sealing diameter twice over."""
    if isinstance(gas, Missing) or gas.share is None or seal is None or before is None:
        return None
    step = Step.work_out(
        "Gas force now over that as it left the factory",
        "peak_share * (seal_diameter / seal_as_built)**2",
        {"peak_share": gas.share.figure(), "seal_diameter": (seal, "mm"), "seal_as_built": (before, "mm")},
        ("gas_share", NO_UNIT),
        DERIVED,
    )
    sure = gas.same or bool(gas.peak and gas.peak.from_papers)
    doubt = 0.0 if sure else GAS_DOUBT
    return Share(
        step, Band(step.value * (1 - doubt), step.value * (1 + doubt), why="doubt of the change of peak")
    )


def _load_share(clamp: Share, gas: Share | None) -> Share:
    """Clamp over gas force now, over the same as it left the factory."""
    figures = {"clamp_share": clamp.step.figure()}
    if gas is not None:
        figures["gas_share"] = gas.step.figure()
    formula = "clamp_share / gas_share" if gas else "clamp_share"
    says = "Clamp over gas force, against as it left the factory"
    step = Step.work_out(says, formula, figures, ("load_share", NO_UNIT), DERIVED)
    low, high = (gas.band.low, gas.band.high) if gas else (1.0, 1.0)
    why = "; ".join(share.band.why for share in (clamp, gas) if share)
    return Share(step, Band(clamp.band.low / high, clamp.band.high / low, why=why))


def _simple(
    layout: Layout | Missing, clamp: Clamp, peak: Peak | None, seal: float | None
) -> SimpleSum | None:
    """Run the sum bore by bore; None where pattern, tension, peak or seal is not known."""
    if isinstance(layout, Missing) or peak is None or seal is None:
        return None
    tensions = {
        label: group.tension for group in clamp.groups for label in group.labels if group.tension is not None
    }
    fasteners = [
        Fastener(one.label, one.x, one.y, tensions[one.label])
        for one in layout.fasteners
        if one.label in tensions
    ]
    if not layout.bores or not fasteners or len(fasteners) < len(layout.fasteners):
        return None
    bores = [Bore(one.label, one.x, one.y, seal) for one in layout.bores]
    doubt = max(_half(clamp.groups), default=0.0)
    try:
        return clamp_against_gas(bores, fasteners, peak.value, Scatter(common=min(doubt, 0.9)))
    except (JobError, OutOfRange):
        return None


def _half(groups: Sequence[GroupClamp]) -> list[float]:
    return [(one.band.high - one.band.low) / 2 / one.tension for one in groups if one.band and one.tension]
