"""tighten-how: the papers' steps in order, whether the wrench can do them, and what the torque means."""

from dataclasses import replace

from firedeck.answers import tighten_wanted as wanted
from firedeck.answers.answer import Answer, Working
from firedeck.answers.counting import clip, count
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both, worst
from firedeck.answers.stop_card import initials, lock
from firedeck.answers.tighten_checks import (
    judge_after,
    judge_mixed,
    judge_unknown_class,
    judge_wrench,
    say_scatter,
)
from firedeck.answers.tighten_lines import last_of, work_of
from firedeck.findings.due import no_retorque
from firedeck.findings.fasteners import sections_wanted
from firedeck.findings.finding import Findings
from firedeck.findings.groups import gasket_that_goes_on, waist_unknown
from firedeck.findings.procedure import GroupTightening, Tightening
from firedeck.findings.threads import Threads
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.trace import COMMON_PRACTICE, Band, Check, Context, Missing, Note, Outcome

QUESTION = "tighten-how"
STRETCHED = "Bolts stretch for good here: goggles on, stop when the torque no longer rises with the angle"


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """List the work; it hangs on a complete procedure, a wrench that can do it, and bolts short of yield."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    tightening = found.get(Tightening)
    draft.work.extend(work_of(job, joint, found.get(Threads), tightening))
    draft.locked = lock(job, joint, found)
    if isinstance(tightening, Missing):
        draft.need(tightening, *wanted.also(job, joint))
        return draft.open("No procedure, no tightening: find the one of this engine and gasket")
    _judge_complete(draft, tightening)
    judge_wrench(draft, joint, tightening.wrench)
    unread = [group.name for group in tightening.groups if _judge_group(draft, joint, group)]
    judge_mixed(draft, tightening.groups)
    say_scatter(draft, tightening.groups, tightening.wrench)
    _judge_retorque(draft, joint, tightening)
    _judge_lock(draft, joint)
    if any(group.turn and group.yields for group in tightening.groups):
        draft.cautions.append(STRETCHED)
        text = "The angle sets the stretch: friction matters only up to the torque before it."
        draft.notes.append(Note(text, COMMON_PRACTICE))
    return _ending(draft, job, joint, tightening, unread)


def _judge_lock(draft: Draft, joint: Joint) -> None:
    """The sheet is good once the stop card is: nothing known wrong on it, and two people have signed."""
    outcome = Outcome.CANNOT_TELL if draft.locked else Outcome.HOLDS
    signed = initials(joint)
    count(draft, "stop card", len(signed), outcome, draft.locked or f"signed by {' and '.join(signed)}")


def _judge_complete(draft: Draft, tightening: Tightening) -> None:
    outcome = Outcome.CANNOT_TELL if tightening.gaps else Outcome.HOLDS
    lacking = "; ".join(gap.measure for gap in tightening.gaps)
    check = Check(
        "procedure complete", "pieces", float(len(tightening.gaps)), outcome, text=lacking or "nothing lacks"
    )
    draft.add_check(check, (tightening.complete,), tightening.source or COMMON_PRACTICE)
    draft.need(*tightening.gaps)
    if not tightening.order.from_papers:
        draft.assumptions.append(
            "order from the middle outwards and crosswise: common practice, not the book"
        )


def _judge_group(draft: Draft, joint: Joint, group: GroupTightening) -> bool:
    """Judge one group; tell whether it is a new set whose class must be read before it is tightened."""
    _judge_lubricant(draft, group)
    doubtful = _judge_tension(draft, joint, group)
    _judge_washer(draft, joint, group)
    _say_washer(draft, joint, group)
    judge_after(draft, joint, group)
    if group.turn and group.yields:
        where = f"{group.final} and {group.turn}" if group.final else group.turn
        draft.assumptions.append(
            f"{group.name}: {where} taken as stretched past yield, unless the papers say otherwise"
        )
    return doubtful and any(one.new for one in joint.fasteners if one.name == group.name)


def _judge_lubricant(draft: Draft, group: GroupTightening) -> None:
    if group.lubricants_agree:
        return
    text = f"papers {group.papers_lubricant}, on the threads {group.lubricant}"
    ratio_of_torques = group.same_tension[0].value if group.same_tension else None
    alike = ratio_of_torques is not None and meets(ratio_of_torques, 1.0, 1.0) is not Meets.FAILS
    outcome = Outcome.FAILS if group.torque_only and not alike else Outcome.CANNOT_TELL
    count(
        draft,
        f"{group.name}: lubricant the torque is for",
        int(alike),
        outcome,
        text + ", which turns about alike" * alike,
    )
    if group.same_tension is not None:
        ratio, band = group.same_tension
        draft.steps.append(Working(f"{group.name}: lubricant the torque is for", ratio))
        low, high = both(band.low, "torque"), both(band.high, "torque")
        draft.notes.append(
            Note(
                f"{group.name}: the same tension would want {low} to {high}: a band, no torque to set.",
                "vdi-2230",
            )
        )


def _judge_tension(draft: Draft, joint: Joint, group: GroupTightening) -> bool:
    """Judge the pull by the yield of the class; tell whether the class is not known and would matter."""
    tension = group.tension
    written = next((one for one in joint.fasteners if one.name == group.name), None)
    if written is not None and waist_unknown(written):
        draft.assumptions.append(
            f"{group.name}: share of yield not judged, they are waisted and how thin is not written"
        )
        draft.need(sections_wanted(joint, group.name))
        return False
    if tension is not None and tension.softest is not None:
        return judge_unknown_class(draft, joint, group, tension)
    if tension is None or tension.share is None or tension.share_band is None:
        if group.torque_only:
            draft.assumptions.append(
                f"{group.name}: tension not worked out, thread, class or lubricant is not known"
            )
        return False
    limit = picked(joint, "yield_share", Context(part="fastener", fastener=group.name))
    if limit.winner is None:
        return False
    judged = judge(f"{group.name}: share of yield", "yield_share", tension.share.value, limit)
    draft.add(replace(judged, check=replace(judged.check, band=tension.share_band)), tension.steps)
    low, high = both(tension.band.low, "tension"), both(tension.band.high, "tension")
    draft.notes.append(
        Note(f"{group.name}: {group.final} leaves {low} to {high} in each, {tension.band.why}.", "vdi-2230")
    )
    if judged.outcome is Outcome.FAILS:
        draft.need(wanted.what_does_not_agree(joint, group.name))
    if judged.outcome is Outcome.HOLDS and tension.share_band.high > 1.0:
        draft.cautions.append(
            f"{group.name}: at the slippery end of the lubricant they pass yield, add nothing to the torque"
        )
    return False


def _judge_washer(draft: Draft, joint: Joint, group: GroupTightening) -> None:
    """The metal under the washer may be any grade of its kind in the table: past what it bears is a warning, not a stop."""
    bearing = group.bearing
    limit = picked(joint, "bearing_share", Context(part="fastener", fastener=group.name))
    if bearing is None or bearing.share_of_yield is None or limit.winner is None:
        return
    share, least = bearing.share_of_yield, bearing.least_share
    band = Band(least, share, 1.0, "from the hardest to the softest grade in the table") if least else None
    written = next(one for one in joint.fasteners if one.name == group.name)
    what = "washer" if written.washer else "nut" if group.kind == "stud" else "head"
    judged = judge(f"{group.name}: pressure under the {what}", "bearing_share", share, limit, band)
    if judged.outcome is Outcome.FAILS:
        judged = replace(judged, check=replace(judged.check, outcome=Outcome.CANNOT_TELL))
        draft.cautions.append(
            f"{group.name}: the {what} presses harder than the metal bears, look for a sunk ring"
        )
    elif judged.outcome is Outcome.CANNOT_TELL:
        draft.cautions.append(
            f"{group.name}: the {what} presses harder than the softest grade bears, the hardest bears it: look for a "
            "sunk ring"
        )
    draft.add(judged, bearing.steps)


def _say_washer(draft: Draft, joint: Joint, group: GroupTightening) -> None:
    """A soft washer and one that has sunk before say where tension goes; the stop card stops a sunk one."""
    washer = next((one.washer for one in joint.fasteners if one.name == group.name), None)
    if washer is None:
        return
    if washer.hardened is False:
        draft.cautions.append(
            f"{group.name}: soft washers dish and drag under a torque: hardened ones, the size and side the papers say"
        )
    if washer.sunk:
        draft.cautions.append(
            f"{group.name}: washers have sunk into the face, the tension went with them: spot-face before tightening"
        )


def _judge_retorque(draft: Draft, joint: Joint, tightening: Tightening) -> None:
    """The sheet with the gasket outranks the manual; steel layers and stretched bolts are not turned again to be safe."""
    gasket = gasket_that_goes_on(joint)
    again = [group.name for group in tightening.groups if group.retorque]
    papers = tightening.source or "the papers"
    stretched = [group.name for group in tightening.groups if group.torque_again]
    if gasket is not None and no_retorque(joint) and again:
        text = (
            f"{papers} says yes, the sheet with the gasket no: the sheet outranks it"
            if gasket.retorque == "no"
            else f"{papers} says yes, a steel-layer gasket is not tightened again to be safe: ask for its sheet"
        )
        count(draft, "re-torque after running", len(again), Outcome.CANNOT_TELL, text)
        draft.source(gasket.source)
    elif stretched:
        text = f"{papers} writes a torque for {', '.join(stretched)}, and they were stretched: look at the page again"
        count(draft, "re-torque after running", len(again), Outcome.CANNOT_TELL, text)


def _ending(draft: Draft, job: Job, joint: Joint, tightening: Tightening, unread: list[str]) -> Answer:
    draft.anyway = (
        "One torque for all, another lubricant or a wrench off its scale leaves one bolt slack and the next "
    )
    draft.anyway += "past yield: a seep beside the slack one. Undoing it costs gasket and bolts."
    bad = worst(draft.checks)
    if bad.outcome is Outcome.FAILS:
        said = _past_yield(tightening) if bad.quantity == "yield_share" else _said(bad)
        return draft.decided("stop", clip(f"Stop: {said}"))
    if tightening.gaps:
        draft.need(*wanted.also(job, joint))
        return draft.open(clip(f"Listed as far as known; first find {tightening.gaps[0].measure}"))
    if unread:
        return draft.open(clip(f"New set of unknown class: read the head marks of {', '.join(unread)} first"))
    if bad.outcome is Outcome.AT_LIMIT:
        return draft.close("do-as-listed", clip(f"As listed, but {_said(bad)}, exactly at the limit"))
    return draft.decided("do-as-listed", _headline(joint, tightening))


def _past_yield(tightening: Tightening) -> str:
    """Say which group the papers' torque would stretch, and where to look for the error."""
    groups = [
        (group, group.tension.share.value)
        for group in tightening.groups
        if group.tension is not None and group.tension.share is not None
    ]
    group, share = max(groups, key=lambda one: one[1])
    return f"{group.final} takes {group.name} to {share:.2f} of yield; look at class, lubricant, page"


def _said(bad: Check) -> str:
    if bad.limit is None or bad.value is None:
        return f"{bad.name}: {bad.text}"
    value = both(bad.value, bad.quantity)
    if bad.quantity == "torque":
        side = "below" if bad.limit.low is not None and bad.value < bad.limit.low else "above"
        return (
            f"{value} is {side} the scale of the wrench"
            if bad.outcome is Outcome.FAILS
            else f"{bad.name} {value}"
        )
    return f"{bad.name} {value}"


def _headline(joint: Joint, tightening: Tightening) -> str:
    """Count the steps listed and name the torque they end at; what the gasket forbids is not among them."""
    refused = no_retorque(joint) and any(group.retorque for group in tightening.groups)
    listed = [line for line in tightening.lines if not (refused and line.later)]
    finals = [last_of(group, listed) if refused else group.final for group in tightening.groups]
    turns = [f" +{group.turn}" if group.turn else "" for group in tightening.groups]
    each = [f"{final}{turn}" for final, turn in zip(finals, turns, strict=True)]
    steps = sum(line.text.startswith("Step ") for line in listed)
    if len(set(each)) == 1:
        return clip(f"{steps} step{'s' * (steps != 1)}, in order, to {each[0]}")
    named = zip(tightening.groups, each, strict=True)
    return clip(
        "In order: "
        + "; ".join(f"{group.name} {text.split(' (')[0] if len(each) > 2 else text}" for group, text in named)
    )
