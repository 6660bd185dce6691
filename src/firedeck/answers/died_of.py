"""died-of: what killed the joint, how sure that is, and what to look after while it is open."""

from firedeck.answers.answer import Answer, Work
from firedeck.answers.counting import clip, count
from firedeck.answers.making import Draft
from firedeck.answers.next_tests import how_to_test
from firedeck.findings.causes import Causes
from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.trace import COMMON_PRACTICE, GENERIC, Check, Missing, Note, Outcome

QUESTION = "died-of"
SHOWN = 3
AGAIN = "With the cause unknown it will likely come back."


def answer(job: Job, _joint: Joint | None, found: Findings) -> Answer:
    """Weigh the signs; a joint put together with the cause unknown will likely come back."""
    draft = Draft(QUESTION, None)
    causes = found.get(Causes)
    draft.anyway = (
        "Closed up on a new gasket alone, the same cause meets it again. Watch the gauge, the level and the hose; "
        "it costs the whole job once more."
    )
    if isinstance(causes, Missing) or causes.root is None:
        draft.notes.append(Note(AGAIN, COMMON_PRACTICE))
        first = ("told", "old-gasket", "faces-measured", "liners-measured", "fasteners-measured")
        return draft.open("Nothing is known of what killed it yet", *(_how(job, name) for name in first))
    _weigh(draft, job, causes)
    return _ending(draft, causes)


def _how(job: Job, name: str) -> Missing:
    """Say how one test is made, at the first head."""
    return how_to_test("root", name, job.joints[0].name)


def _weigh(draft: Draft, job: Job, causes: Causes) -> None:
    root = causes.root
    assert root is not None
    signs = [name.replace("-", " ") for name, there in causes.root_seen.signs.items() if there]
    count(draft, "signs of a cause", len(signs), Outcome.FAILS, ", ".join(signs))
    share = next(
        step
        for step in root.steps
        if "share" in step.result and step.says.startswith(f"{root.leader.cause.label}: share")
    )
    outcome = Outcome.FAILS if root.verdict == "cause-known" else Outcome.CANNOT_TELL
    text = f"{root.leader.cause.label}: {root.leader.words}, {root.leader.odds}"
    check = Check("odds of the likeliest cause", "cause_share", root.leader.share, outcome, text=text)
    draft.add_check(check, (share,), COMMON_PRACTICE)
    if root.family:
        text = f"{root.family.label}: {root.family.words}, {root.family.odds}; why is open"
        name = f"odds that it was {root.family.label}, whatever the reason"
        check = Check(name, "cause_share", root.family.share, Outcome.CANNOT_TELL, text=text)
        draft.add_check(check, (root.family.step,), COMMON_PRACTICE)
    for one in root.causes[:SHOWN]:
        for_ = f"; for it: {', '.join(one.speaks_for)}" if one.speaks_for else ""
        against = f"; against it: {', '.join(one.speaks_against)}" if one.speaks_against else ""
        text = f"{one.cause.label}: {one.words} ({one.odds}), {one.cause.means}{for_}{against}."
        draft.notes.append(Note(text, one.cause.source))
    for blow in root.overturned_by:
        seen = "" if blow.seen else "not "
        draft.notes.append(Note(f"It would be overturned by: {seen}{blow.sign.label}.", GENERIC))
    draft.notes.extend(root.notes)
    draft.work.extend(Work(f"While it is open: {note.text}", note.source) for note in root.while_open)
    draft.need(*(_how(job, one.trial.id) for one in root.next[:SHOWN]))
    draft.assumptions.extend(
        f"{cause.replace('-', ' ')} left out: {why}" for cause, why in causes.root_seen.absent.items()
    )


def _ending(draft: Draft, causes: Causes) -> Answer:
    root = causes.root
    assert root is not None
    leader = root.leader
    if root.verdict == "unknown":
        draft.cautions.append(AGAIN)
        text = f"Cause not known, it will likely come back; first thought: {leader.cause.label}"
        return draft.decided("unknown", clip(text))
    if root.family:
        draft.cautions.append(
            f"Why it {root.family.label} is open: closed up without that it will likely come back."
        )
        why = " or ".join(
            one.cause.label.removeprefix(f"{root.family.label} ") for one in root.family.members
        )
        text = f"{root.family.label.capitalize()} is the likely cause, {root.family.odds}; why is open: {why}"
        return draft.decided(root.verdict, clip(text))
    text = f"{leader.cause.label.capitalize()}: {leader.words}, {leader.odds}"
    if len(root.causes) > 1 and root.causes[1].share > 0.1:
        text += f"; next {root.causes[1].cause.label}"
    return draft.decided(root.verdict, clip(text))
