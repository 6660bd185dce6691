"""work-accepted: what came back from the shop, held against the order on the bench."""

from firedeck.answers import cut_how_much, face_flat, finish_right
from firedeck.answers.answer import Answer
from firedeck.answers.budget import judge_height
from firedeck.answers.counting import clip
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.answers.yes_or_no import of_word, yes_or_no
from firedeck.findings.cut import Cut, Taken
from firedeck.findings.faces import Faces, unread
from firedeck.findings.finding import Findings
from firedeck.findings.finish import Finish, no_finish
from firedeck.job import Job, Joint
from firedeck.tables import Picked
from firedeck.trace import Context, Limit, Measure, Missing, Outcome, Rank, Step

QUESTION = "work-accepted"
EVEN = "cut is even at the corners"
WORDS = {
    "washed": ("washed, galleries and blind holes blown out", "lamp, wire and white cloth"),
    "plugs_in": ("gallery and core plugs back in, each one", "list made when they came out"),
    "pressure_tested": ("pressure tested after machining, written down", "the shop's sheet"),
}


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge heights, flatness, finish and the list of what has to be back in."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    if not _back(joint):
        if _nothing_went(joint):
            return draft.not_applicable(
                "Nothing went out", "No cut is planned in this job and none is reported."
            )
        return draft.open(
            "Not back yet: measure it on the bench before it goes near the block", *_card(joint)
        )
    cut = found.get(Cut)
    assert isinstance(cut, Cut)
    _judge_cut(draft, joint, cut)
    _judge_faces(draft, job, joint, found)
    _judge_finish(draft, job, joint, found)
    for name, (words, tool) in WORDS.items():
        said = getattr(joint.readings.after, name)
        if (
            yes_or_no(draft, words, of_word(said), {True: "yes", False: "no", None: "not said"}[said])
            is Outcome.CANNOT_TELL
        ):
            draft.need(_look(joint, name, words, tool))
    draft.anyway = (
        "Swarf kills the bearings in minutes, a missing gallery plug pumps the sump empty, a face out of flat leaks on the "
        "first heat. What is bolted down is hard to send back."
    )
    return _ending(draft)


def _back(joint: Joint) -> bool:
    after = joint.readings.after
    said = (after.washed, after.plugs_in, after.pressure_tested, after.cut_head)
    machined = any(face.when == "after-machining" for face in joint.readings.faces)
    return bool(
        joint.cut.done or joint.head.heights_after or machined or any(one is not None for one in said)
    )


def _nothing_went(joint: Joint) -> bool:
    planned = [cut for cut in (joint.cut.head, joint.cut.block) if cut is not None]
    return bool(planned) and not any(cut.value for cut in planned)


def _ending(draft: Draft) -> Answer:
    failed = [check for check in draft.checks if check.outcome is Outcome.FAILS]
    if failed:
        bad = failed[0]
        figure = f", {both(bad.value, bad.quantity)}" if bad.limit and bad.value is not None else ""
        return draft.decided("send-back", clip(f"Send it back: {bad.name}{figure or ', no'}"))
    if draft.next or any(check.outcome is Outcome.CANNOT_TELL for check in draft.checks):
        return draft.open(
            "Not accepted yet: measure the rest on the bench", *([] if draft.next else _card(draft.joint))
        )
    if any(check.outcome is Outcome.AT_LIMIT for check in draft.checks):
        return draft.close("accept", "As ordered, one figure exactly at its limit: write it down")
    return draft.decided("accept", "As ordered: cut, flatness, finish, washed, plugs in, pressure tight")


def _judge_cut(draft: Draft, joint: Joint, cut: Cut) -> None:
    taken = cut.taken
    if taken is None:
        draft.need(_heights(joint))
        return
    if taken.allowed is None:
        draft.need(_order(joint))
    else:
        _judge_amount(draft, taken)
    if taken.evenness is None:
        draft.need(_heights(joint))
    else:
        _judge_corners(draft, joint, taken, taken.evenness)
    judge_height(draft, joint, "head", "height now", cut.height_now)


def _judge_corners(draft: Draft, joint: Joint, taken: Taken, evenness: Step) -> None:
    """Judge whether as much came off everywhere; a cut that took out an old taper leaves the corners alike instead."""
    limit = picked(joint, "cut_evenness", Context(part="head"))
    parallel, uneven = taken.parallel, judge(EVEN, "cut_evenness", evenness.value, limit)
    if parallel is None or uneven.outcome is not Outcome.FAILS or parallel.value >= evenness.value:
        draft.add(uneven, (taken.least, taken.most, evenness))
        return
    judged = judge("corners alike after the cut", "cut_evenness", parallel.value, limit)
    draft.add(judged, (taken.least, taken.most, evenness, parallel))
    if judged.outcome is not Outcome.FAILS:
        more = both(evenness.value, "cut_evenness")
        draft.assumptions.append(
            f"{more} more came off one corner than another: it was out of parallel by that much before the cut"
        )


def _judge_amount(draft: Draft, taken: Taken) -> None:
    assert taken.allowed is not None
    ordered = Limit(
        quantity="cut",
        low=None,
        high=taken.allowed.value,
        measure=Measure.COMPUTED,
        applies=Context(),
        rank=Rank.COMMON_PRACTICE,
        source="order of this job",
    )
    judged = judge("cut no deeper than ordered", "cut", taken.most.value, Picked(ordered, (), ""))
    draft.add(judged, (taken.most, taken.allowed))


def _judge_faces(draft: Draft, job: Job, joint: Joint, found: Findings) -> None:
    """Take over the flatness of the faces that were read after machining; those not read again are asked for."""
    faces = found.get(Faces)
    cut_faces = [
        face for face, cut in (("head", joint.cut.head), ("block", joint.cut.block)) if cut and cut.value
    ]
    read = (
        set()
        if isinstance(faces, Missing)
        else {one.face for one in faces.faces if one.when == "after-machining"}
    )
    for face in cut_faces or ["head"]:
        if face not in read:
            draft.need(unread(joint, face))
    flat = face_flat.answer(job, joint, found)
    for check in flat.checks:
        if check.name.split(" ", maxsplit=1)[0] in read:
            draft.checks.append(check)
            draft.steps.extend(working for working in flat.steps if working.check == check.name)
            draft.source(check.limit.source if check.limit else "")
    if read and not any(check.quantity == "face_flatness" for check in draft.checks):
        draft.need(*(step.missing for step in flat.next))


def _judge_finish(draft: Draft, job: Job, joint: Joint, found: Findings) -> None:
    finish = found.get(Finish)
    after = (
        set()
        if isinstance(finish, Missing)
        else {one.face for one in finish.faces if one.when == "after-machining"}
    )
    if not after:
        draft.need(no_finish(joint, "head"))
        return
    right = finish_right.answer(job, joint, found)
    if any(cut_how_much.finish_disputed(check) for check in right.checks):
        draft.need(finish_right.which_finish(joint))
    for check in right.checks:
        if check.name.split(" ", maxsplit=1)[0] in after:
            draft.checks.append(check)
            draft.steps.extend(working for working in right.steps if working.check == check.name)
            draft.source(check.limit.source if check.limit else "")


def _card(joint: Joint | None) -> tuple[Missing, ...]:
    assert joint is not None
    return (_heights(joint), unread(joint, "head"), no_finish(joint, "head"), *(_each(joint)))


def _each(joint: Joint) -> list[Missing]:
    return [_look(joint, name, words, tool) for name, (words, tool) in WORDS.items()]


def _heights(joint: Joint) -> Missing:
    at = f"joint.{joint.name}.head"
    return Missing(
        paths=(f"{at}.heights_before", f"{at}.heights_after"),
        measure="height of the head at the same four corners, before and after the cut",
        tool="micrometer or vernier",
        how="From the fire face to the face the book names, corners in the order of the card, both times with one tool.",
    )


def _order(joint: Joint) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.cut.head",),
        measure="the cut that was ordered",
        tool="the shop order",
        how="Write down the most that was allowed, with its unit.",
    )


def _look(joint: Joint, name: str, words: str, tool: str) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.readings.after.{name}",),
        measure=words,
        tool=tool,
        how="Look at each one yourself on the bench, tick it off, and get the shop's figure in writing.",
    )
