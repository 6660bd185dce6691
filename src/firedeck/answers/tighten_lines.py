"""The lines of work of tighten-how: round the papers' own steps, before them, after them, and on a later day."""

from collections.abc import Iterator, Sequence

from firedeck.answers import tighten_wanted as wanted
from firedeck.answers.answer import Work
from firedeck.answers.conditions import conditions
from firedeck.findings.due import no_retorque
from firedeck.findings.groups import gasket_that_goes_on
from firedeck.findings.procedure import GroupTightening, Tightening
from firedeck.findings.procedure_work import WorkLine
from firedeck.findings.threads import Threads
from firedeck.job import Job, Joint
from firedeck.tables.work import Words, lines
from firedeck.trace import Missing


def work_of(
    job: Job, joint: Joint, threads: Threads | Missing, tightening: Tightening | Missing
) -> Iterator[Work]:
    """List the work; what the gasket forbids on a later day is named, and not listed as a step."""
    holding = _holding(job, joint, threads, tightening)
    if isinstance(tightening, Missing):
        yield from _around("before", holding, {})
        return
    source = tightening.source or "the papers"
    now = [line for line in tightening.lines if not line.later]
    later = [line for line in tightening.lines if line.later]
    figures = _figures(tightening, now)
    yield from _around("before", holding, figures)
    yield from _steps(now, source)
    yield from _around("after", holding, figures)
    if "gasket-no-retorque" in holding and "retorque-written" in holding:
        figures["left-out"] = _numbers(later or now)
    else:
        yield from _steps(later, source)
    yield from _around("again", holding, figures)


def _holding(job: Job, joint: Joint, threads: Threads | Missing, tightening: Tightening | Missing) -> Words:
    """Say which lines round the steps are for this joint."""
    words = {*conditions(job, joint, threads), *_of_wrench(job), *_of_retorque(joint)}
    if isinstance(tightening, Missing):
        return frozenset(words)
    groups, wrench = tightening.groups, tightening.wrench
    facts = {
        "order-known": bool(tightening.order.labels),
        "square": wrench.square,
        f"wrench-{wrench.kind}": bool(wrench.kind),
        "adapter": any(torque.setting for torque in wrench.torques) and wrench.lengthened,
        "wrench-unit": bool(wrench.unit) and not wrench.lengthened,
        "wrench-foot-for-metre": wrench.mixes_up,
        "torque-only": all(group.torque_only for group in groups),
        "stretched": any(group.yields for group in groups),
        "retorque-written": any(group.retorque for group in groups),
        "torque-again": any(group.torque_again for group in groups),
    }
    return frozenset(words | {word for word, holds in facts.items() if holds})


def _of_wrench(job: Job) -> set[str]:
    wrench = job.document.tools.wrench
    if wrench is None:
        return {"wrench-none"}
    return {"wrench-ok" if wrench.checked in wanted.CHECKED else "wrench-doubtful"}


def _of_retorque(joint: Joint) -> set[str]:
    """Say what the gasket has to say about tightening again: its sheet, or else its kind, or nothing."""
    gasket = gasket_that_goes_on(joint)
    if no_retorque(joint):
        return {"gasket-no-retorque", "gasket-marked" if gasket and gasket.retorque else "gasket-by-kind"}
    return {"gasket-silent"} if gasket is None or gasket.retorque is None else {"gasket-retorque-yes"}


def _around(key: str, holding: Words, figures: dict[str, str]) -> Iterator[Work]:
    for line in lines("tighten_work", holding):
        if line.key == key:
            yield Work(line.text, line.source, figures.get(line.figure, ""), line.caution)


def _figures(tightening: Tightening, now: list[WorkLine]) -> dict[str, str]:
    torques = tightening.wrench.torques
    last = {group.name: last_of(group, now) for group in tightening.groups if group.final}
    figures = {
        "order": " · ".join(tightening.order.labels),
        "last": "; ".join(f"{name} {figure}" for name, figure in last.items())
        if len(set(last.values())) > 1
        else "".join([*last.values()][:1]),
    }
    if torques:
        figures["largest"] = torques[-1].text
        figures["range"] = f"{torques[0].text} to {torques[-1].text}" if len(torques) > 1 else torques[0].text
        figures["setting"] = "; ".join(f"{one.typed} → {one.setting}" for one in torques if one.setting)
    return figures


def last_of(group: GroupTightening, now: Sequence[WorkLine]) -> str:
    """Give the last torque of these lines; the papers may write a higher one for after the engine has run."""
    mine = [line.figure for line in now if line.torque and line.concerns(group.name)]
    return mine[-1] if mine else group.final


def _steps(lines_to_do: list[WorkLine], source: str) -> Iterator[Work]:
    for line in lines_to_do:
        yield Work(line.text, source, line.figure)


def _numbers(left_out: list[WorkLine]) -> str:
    """Name the papers' steps that are not done, by their numbers."""
    heads = [line.text.partition(",")[0] for line in left_out if line.text.startswith("Step ")]
    return ", ".join(heads).replace(", Step", ",")
