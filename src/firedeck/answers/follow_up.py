"""follow-up: what is due after the first run: re-torque as the papers write it or why not, levels, oil, dates."""

from collections.abc import Iterator

from firedeck.answers.answer import Answer, Work
from firedeck.answers.counting import clip, count
from firedeck.answers.making import Draft
from firedeck.findings.cooling import LIQUID, cooled_by
from firedeck.findings.due import Due, DueJoint
from firedeck.findings.finding import Findings
from firedeck.findings.proof import Proof
from firedeck.job import Job, Joint
from firedeck.tables.work import Words, lines
from firedeck.trace import COMMON_PRACTICE, Check, Missing, Note, Outcome

QUESTION = "follow-up"


def answer(job: Job, _joint: Joint | None, found: Findings) -> Answer:
    """List what is due; papers that clash with the gasket, or a proof that failed, stop it."""
    draft = Draft(QUESTION, None)
    due, proof = found.get(Due), found.get(Proof)
    if isinstance(due, Missing):
        return draft.open("What is due is not known", due)
    words = _words(job, due)
    draft.work.extend(_retorque(due))
    draft.work.extend(
        Work(line.text, line.source, "", line.caution) for line in lines("followup_work", words)
    )
    _judge(draft, due)
    draft.cautions.append(_caution(words))
    draft.notes.append(
        Note("A soft gasket settles in its first heats and takes clamp with it.", COMMON_PRACTICE)
    )
    draft.anyway = (
        "A re-torque left out loses clamp as the gasket settles; one too many tears a seal or takes a stretched bolt "
        "past yield. Watch level and edge; undoing it costs gasket and bolts."
    )
    draft.need(*due.missing)
    return _ending(
        draft, due, proof, "level each morning, hose cold" if LIQUID in words else "lamp along the joint"
    )


def _caution(words: Words) -> str:
    hot = "; never open a hot system" if LIQUID in words else ""
    return f"Never re-tighten hot under pressure unless the papers say hot{hot}"


def _retorque(due: Due) -> Iterator[Work]:
    for joint in due.joints:
        if joint.gasket_says_no:
            continue
        head = f"{joint.name}, " if len(due.joints) > 1 else ""
        for one in joint.again:
            when = f"{one.when}: " if one.when else ""
            yield Work(
                f"{head}{when}group {one.group} {one.text}",
                joint.source or "the papers",
                one.figure,
                "" if "hot" in one.when else "Cold, in the order of the papers",
            )


def _words(job: Job, due: Due) -> Words:
    running, seen = job.document.running, set(job.document.symptoms.seen)
    constructions = {one.construction for joint in job.joints for one in joint.gasket.candidates}
    facts = {
        "antifreeze": running.coolant not in (None, "air", "water"),
        "oil-met-coolant": bool(seen & {"coolant-in-oil", "oil-in-coolant"}),
        "lash-solid": job.engine.lifters == "solid",
        "retorque-written": any(one.again for one in due.joints),
        "no-retorque": any(one.gasket_says_no for one in due.joints),
        "stretched": any(one.stretched for one in due.joints),
        "silent-soft": any(_silent(one) for one in due.joints) and constructions != {"multi-layer-steel"},
    }
    return frozenset({cooled_by(job), *(word for word, holds in facts.items() if holds)})


def _silent(one: DueJoint) -> bool:
    return not (one.again or one.stretched or one.gasket_says_no)


def _judge(draft: Draft, due: Due) -> None:
    steps = due.counted.value
    text = "none written" if not steps else ""
    outcome = Outcome.HOLDS if not due.missing else Outcome.CANNOT_TELL
    check = Check("re-torque steps of the papers", "pieces", steps, outcome, text=text)
    source = next((one.source for one in due.joints if one.source), COMMON_PRACTICE)
    draft.add_check(check, (due.counted,), source)
    draft.source(COMMON_PRACTICE)
    for name in due.clashes:
        text = "the papers write a re-torque, the gasket says none"
        count(draft, f"{name}: papers and gasket agree", 0, Outcome.FAILS, text)


def _ending(draft: Draft, due: Due, proof: Proof | Missing, then: str) -> Answer:
    failed = () if isinstance(proof, Missing) else (*(one.text for one in proof.said("no")), *proof.alarms)
    if failed:
        count(draft, "proof since the work", len(failed), Outcome.FAILS, "; ".join(failed))
        return draft.decided("stop", clip(f"Stop: {failed[0]}; the proof comes before any date"))
    if due.clashes:
        draft.need(_ask(due))
        text = f"{', '.join(due.clashes)}: papers write a re-torque, the gasket forbids it: ask before turning any"
        return draft.decided("stop", clip(text[:1].upper() + text[1:]))
    if stretched := [one.name for one in due.joints if one.torque_again]:
        text = "a torque is written for bolts that were turned into stretch"
        count(draft, "re-torque of stretched bolts", len(stretched), Outcome.FAILS, text)
        draft.need(_read_again(stretched))
        return draft.decided("stop", clip(f"Stop: {text}: read the page again before any is turned"))
    if due.missing:
        return draft.open("What is due is listed; whether it is re-torqued the papers must say")
    steps = [one for joint in due.joints for one in joint.again]
    if steps:
        first = steps[0]
        when = first.when or "after the first run"
        figure = f" to {first.figure}" if first.figure and "to the torque" in first.text else ""
        return draft.decided("do-as-listed", clip(f"Re-torque {when}{figure}; {then}"))
    refusals = {
        "gasket": any(one.gasket_says_no for one in due.joints),
        "stretched bolts": any(one.stretched for one in due.joints),
    }
    if why := ", ".join(name for name, holds in refusals.items() if holds):
        return draft.decided("do-as-listed", clip(f"No re-torque ({why}); {then}, oil"))
    return draft.decided("do-as-listed", clip(f"No re-torque written: ask for this gasket; {then}"))


def _read_again(names: list[str]) -> Missing:
    return Missing(
        tuple(f"joint.{name}.procedure.text" for name in names),
        "the re-torque of the papers: an angle, a torque after loosening, or a torque for another bolt",
        "papers of this engine",
        "Stretched bolts are turned on only by a printed angle; a torque takes them past what they have left.",
    )


def _ask(due: Due) -> Missing:
    return Missing(
        tuple(f"joint.{name}.gasket.candidates" for name in due.clashes),
        "whether this gasket is tightened again",
        "sheet with the gasket, maker of the gasket",
        "The sheet with the part fitted governs that part: the procedure of the manual was written for its own gasket.",
    )
