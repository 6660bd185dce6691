"""buy-what: what the whole engine needs, counted per head, nothing sold and no make named."""

from firedeck.answers import fasteners_reuse, gasket_which
from firedeck.answers.answer import Answer, Work
from firedeck.answers.conditions import conditions
from firedeck.answers.counting import clip, count
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft
from firedeck.findings.fasteners import FastenersFound
from firedeck.findings.finding import Findings
from firedeck.findings.groups import gasket_that_goes_on
from firedeck.findings.threads import Threads
from firedeck.job import Job, Joint
from firedeck.trace import Missing, Outcome

QUESTION = "buy-what"
SIDES = "left and right may differ"


def answer(job: Job, _joint: Joint | None, found: Findings) -> Answer:
    """Count gaskets per head and fasteners per set, and list the rest by construction."""
    draft = Draft(QUESTION, None, job.document.engine.cylinders)
    heads = len(job.joints)
    count(draft, "head gaskets, one for each head", heads, Outcome.HOLDS, SIDES if heads > 1 else "one head")
    cracked = [joint.name for joint in job.joints if joint.head.crack_test == "found"]
    work: dict[str, Work] = {}
    for joint in job.joints:
        for line in _of_joint(draft, job, joint, found.of(joint)):
            first = work.get(line.text)
            figures = (first.figure, line.figure) if first else (line.figure,)
            work[line.text] = Work(line.text, line.source, _join(figures), line.caution)
    draft.work.extend(work.values())
    draft.cautions.append("Order by the numbers of this engine; a part that looks alike is not the same part")
    draft.anyway = "A set bought before the casting is judged is money lost; one gasket short stops the job on a Saturday."
    if cracked:
        count(
            draft, "casting judged first", len(cracked), Outcome.FAILS, f"crack found, {', '.join(cracked)}"
        )
        return draft.decided(
            "stop", clip(f"Stop: head {', '.join(cracked)} is cracked, judge it before money is spent")
        )
    new = sum(check.outcome is Outcome.FAILS for check in draft.checks)
    bolts = "new bolts" if new else "bolts as judged"
    plural = "head gaskets, left and right may differ" if heads > 1 else "head gasket"
    return draft.decided("do-as-listed", clip(f"{heads} {plural}; {bolts}; fluids and seals as listed"))


def _of_joint(draft: Draft, job: Job, joint: Joint, found: Findings) -> list[Work]:
    threads = found.get(Threads)
    reuse = fasteners_reuse.answer(job, joint, found)
    holding = {*conditions(job, joint, threads)}
    if reuse.action in ("replace-all", "replace-one"):
        holding.add("bolts-new")
        count(draft, f"{joint.name}: bolts", 1, Outcome.FAILS, reuse.headline)
    elif reuse.action is None:
        draft.assumptions.append(f"{joint.name}: bolts not judged yet, order them once they are")
    if any(group.washer and group.washer.sunk for group in joint.fasteners):
        holding.add("washers-bad")
    if isinstance(threads, Threads) and threads.in_state("pulled"):
        holding.add("holes-pulled")
    return list(listed("buy_work", frozenset(holding), _figures(job, joint, found, threads)))


def _figures(job: Job, joint: Joint, found: Findings, threads: Threads | Missing) -> dict[str, str]:
    fasteners = found.get(FastenersFound)
    groups = () if isinstance(fasteners, Missing) else fasteners.groups
    sets = ", ".join(
        f"{group.count or '?'} of {group.name}: {group.thread or 'thread?'}{_long(joint, group.name)}"
        for group in groups
    )
    pulled = threads.in_state("pulled") if isinstance(threads, Threads) else ()
    return {
        "gaskets": f"1 for {joint.name}",
        "sides": joint.name,
        "chosen": f"{joint.name}: {_gasket(job, joint, found)}",
        "fasteners": f"{joint.name}: {sets or 'count them'}",
        "inserts": f"{joint.name}: {len(pulled)}",
    }


def _gasket(job: Job, joint: Joint, found: Findings) -> str:
    """Name the gasket that goes on, or the one that is right by construction, with its sizes."""
    gasket = gasket_that_goes_on(joint)
    if gasket is None:
        choice = gasket_which.answer(job, joint, found).choice
        gasket = next((one for one in joint.gasket.candidates if one.name == choice), None)
    if gasket is None:
        return f"choose first ({len(joint.gasket.candidates)} in question)"
    sizes = [
        f"{word} {size.text}"
        for word, size in (("ring", gasket.bore), ("thick", gasket.thickness), ("wire", gasket.wire))
        if size
    ]
    return ", ".join([gasket.name, *sizes])


def _long(joint: Joint, name: str) -> str:
    """Say the length of a new fastener, where the papers give it."""
    length = next((group.length_new for group in joint.fasteners if group.name == name), None)
    return f", {length.text} long" if length else ""


def _join(figures: tuple[str, ...]) -> str:
    return "; ".join(dict.fromkeys(one for one in figures if one))
