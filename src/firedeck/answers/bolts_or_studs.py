"""bolts-or-studs: which way the change goes; how strong is a matter of the joint's own numbers."""

from firedeck.answers.answer import Answer
from firedeck.answers.counting import clip, count
from firedeck.answers.fastener_figures import add_fastener_figures
from firedeck.answers.making import Draft, both
from firedeck.answers.tighten_checks import judge_after
from firedeck.findings.changed import boost_added, ratio_gained
from firedeck.findings.fasteners import FastenersFound
from firedeck.findings.finding import Findings
from firedeck.findings.joint import JointFound
from firedeck.findings.procedure import Tightening
from firedeck.findings.threads import Threads, unread
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.trace import COMMON_PRACTICE, Check, Missing, Note, Outcome, Step

QUESTION = "bolts-or-studs"
WHY = (
    "A stud goes in by hand and only its nut turns: no twist is left in the shank and the pull comes out more even.",
    "A stud stays in the block: the thread there wears once, not at every strip; an alloy thread gains most.",
    "A waisted stud stretches in its shank and spares the thread; one of full diameter puts the stretch into the thread.",
    "Studs may have to come out before a head can be lifted in a tight place: look first.",
    "This is the direction only: how strong they must be comes from the load of the joint, not from a catalogue.",
)


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Keep what is standard, studs where threads gave or the ratio rose, the maker where boost was added."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    draft.notes.extend(Note(text, COMMON_PRACTICE) for text in WHY)
    fasteners, threads = found.get(FastenersFound), found.get(Threads)
    kinds = {group.kind for group in joint.fasteners if group.kind}
    pulled = threads.in_state("pulled") if isinstance(threads, Threads) else ()
    looked = isinstance(threads, Threads) and not threads.unlooked
    tightening = found.get(Tightening)
    for group in () if isinstance(tightening, Missing) else tightening.groups:
        judge_after(draft, joint, group)
    boost, ratio = boost_added(job), ratio_gained(job, joint)
    more_boost = _raised(draft, "boost", "boost", boost)
    more_ratio = _raised(draft, "compression ratio", "ratio_rise", ratio)
    _count_pulled(draft, pulled, looked)
    add_fastener_figures(draft, joint, found.get(JointFound))
    draft.anyway = (
        "Stronger fasteners on the old torque clamp no harder; a higher torque sinks washers, lifts thread "
    )
    draft.anyway += "mouths and bends the bores: new papers or none."
    if boost is not None and more_boost:
        draft.need(_ask(joint))
        text = both(boost.value, "boost")
        return draft.decided(
            "ask-the-maker", clip(f"{text} of boost added: size is the maker's; direction: studs")
        )
    if pulled or more_ratio:
        draft.need(_size(joint))
        shank = "" if all(group.waisted for group in joint.fasteners) and joint.fasteners else "waisted "
        why = (
            f"thread {', '.join(pulled)} pulled"
            if pulled
            else f"ratio raised by {ratio.value:.2f}"
            if ratio
            else ""
        )
        return draft.decided("studs", clip(f"{shank}studs, {why}; size from the joint".capitalize()))
    if isinstance(fasteners, Missing) or not kinds:
        return draft.open("Bolts or studs are not named yet", _name(joint))
    what = " and ".join(sorted(f"{kind}s" for kind in kinds))
    draft.assumptions.append("no boost and no higher ratio is written down: taken as standard")
    if not looked:
        draft.need(unread(joint))
        return draft.decided("keep", f"Standard engine: keep its {what}, if their threads prove good")
    return draft.decided("keep", f"Standard engine, threads good: keep its {what}")


def _count_pulled(draft: Draft, pulled: tuple[str, ...], looked: bool) -> None:
    """Count the pulled threads; holes nobody has looked into say nothing."""
    name = "threads pulled in the block"
    if pulled:
        count(draft, name, len(pulled), Outcome.FAILS, f"number {', '.join(pulled)}")
    elif looked:
        count(draft, name, 0, Outcome.HOLDS, "none")
    else:
        count(draft, name, 0, Outcome.CANNOT_TELL, "not all looked at yet")


def _raised(draft: Draft, name: str, quantity: str, step: Step | None) -> bool:
    """Tell whether something is higher than standard; not known is not higher."""
    if step is None:
        return False
    higher = meets(step.value, None, 0.0) is Meets.FAILS
    outcome, text = (Outcome.FAILS, "raised") if higher else (Outcome.HOLDS, "not raised")
    check = Check(f"{name} against standard", quantity, step.value, outcome, text=text)
    draft.add_check(check, (step,), COMMON_PRACTICE)
    return higher


def _ask(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.fasteners", "running.boost"),
        "fastener, torque, lubricant and washer the maker of the added parts names",
        "papers of the added parts",
        "All four together: a stud from one and a torque from another is no procedure.",
    )


def _size(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.fasteners", f"joint.{joint.name}.layout.fasteners"),
        "thread, its depth in the block, and which holes are pulled or raised",
        "thread gauge, wire, a clean bolt by hand",
        "The stud is sized by the thread that is left, or by the insert that goes in first.",
    )


def _name(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.fasteners",),
        "what holds the head now: bolts or studs, thread, waisted or not",
        "eye, vernier",
        "A nut on a thread that stands up is a stud; a shank thinner than the thread is waisted.",
    )
