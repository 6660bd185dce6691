"""cut-how-much: nothing where faces and finish are in; else the least that cleans, if the budget allows it."""

from collections.abc import Sequence

from firedeck.answers import damage_near_seal, face_flat, finish_right
from firedeck.answers.answer import Answer
from firedeck.answers.budget import budget_left, judge_height, judge_in_all, judge_together
from firedeck.answers.cam_line import cam_first
from firedeck.answers.counting import clip
from firedeck.answers.face_wanted import leaf_that_stops
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.findings.cut import Cut, OtherHead
from firedeck.findings.faces import Faces, unread
from firedeck.findings.finding import Findings
from firedeck.findings.stock import FaceStock
from firedeck.job import Job, Joint
from firedeck.tables import Picked
from firedeck.trace import (
    COMMON_PRACTICE,
    DERIVED,
    Check,
    Context,
    Limit,
    Measure,
    Missing,
    Note,
    Outcome,
    Rank,
    Step,
)

QUESTION = "cut-how-much"


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge flatness, finish and damage first, then what a cut would leave."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    cut = found.get(Cut)
    assert isinstance(cut, Cut)
    flat = face_flat.answer(job, joint, found)
    _take(draft, flat, ("face_flatness",))
    now = judge_height(draft, joint, "head", "height now", cut.height_now)
    if now is Outcome.FAILS and cut.height_now:
        return draft.decided(
            "scrap", f"Head: {both(cut.height_now.value, 'head_height')} is under the least height"
        )
    bent = cam_first(draft, job, joint, cut, flat)
    if bent:
        return bent
    if isinstance(found.get(Faces), Missing) and not draft.checks:
        return draft.open(
            "Neither face has been read: nothing is cut unread", *[one.missing for one in flat.next]
        )
    wanted = _wanted(draft, job, joint, found, flat)
    if wanted:
        return _cut(draft, joint, cut, wanted)
    return _no_cut(draft, joint, cut, flat)


def faces_out(job: Job, joint: Joint, found: Findings) -> dict[str, str]:
    """Return the faces that have to be cut, each with the reason."""
    return _wanted(Draft(QUESTION, joint), job, joint, found, face_flat.answer(job, joint, found))


def faces_to_cut(job: Job, joint: Joint, found: Findings) -> tuple[str, ...]:
    """Return the faces that are out, and those a cut is planned for."""
    wanted = faces_out(job, joint, found)
    planned = {"head": joint.cut.head, "block": joint.cut.block}
    return tuple(face for face, cut in planned.items() if face in wanted or (cut and cut.value))


def faces_in_doubt(amount: Answer) -> tuple[str, ...]:
    """Return the faces whose readings hold the limit: somebody has to measure them better."""
    doubtful = [check for check in amount.checks if check.quantity == "face_flatness" and not _told(check)]
    return tuple(dict.fromkeys(_face(check) for check in doubtful if check.value is not None))


def finish_disputed(check: Check) -> bool:
    """Tell whether a finish is right by one source and wrong by another of the same rank."""
    return check.quantity == "surface_finish" and check.outcome is Outcome.CANNOT_TELL


def _take(draft: Draft, other: Answer, quantities: Sequence[str]) -> None:
    """Take over the checks of another answer that a cut hangs on, with their sums and sources."""
    for check in other.checks:
        if check.quantity in quantities:
            draft.checks.append(check)
            draft.steps.extend(working for working in other.steps if working.check == check.name)
            draft.source(check.limit.source if check.limit else COMMON_PRACTICE)


def _wanted(draft: Draft, job: Job, joint: Joint, found: Findings, flat: Answer) -> dict[str, str]:
    """Return the faces that have to be cut, each with the reason."""
    wanted = {_face(check): "out of flat" for check in flat.checks if check.outcome is Outcome.FAILS}
    damage = damage_near_seal.answer(job, joint, found)
    if damage.action == "cut-removes-it" and not joint.cut.done:
        for check in damage.checks:
            if check.outcome in (Outcome.FAILS, Outcome.AT_LIMIT):
                wanted.setdefault(damage.headline.split(":")[0].lower(), "damage under the ring")
        _take(draft, damage, ("distance_to_ring", "ring_share_left"))
    finish = finish_right.answer(job, joint, found)
    if finish.state.value in ("decided", "close"):
        _take(draft, finish, ("surface_finish", "count", "pieces"))
    if finish.action == "cut":
        for check in finish.checks:
            if check.outcome is Outcome.FAILS:
                wanted.setdefault(_face(check), "finish")
    elif finish.state.value == "open":
        draft.need(*(one.missing for one in finish.next))
        draft.assumptions.append("finish taken as sound until it is read")
    return wanted


def _face(check: Check) -> str:
    return check.name.split(" ", maxsplit=1)[0].rstrip(":,")


def _cut(draft: Draft, joint: Joint, cut: Cut, wanted: dict[str, str]) -> Answer:
    draft.anyway = (
        "Cutting more than cleans it costs ratio, timing and the next repair; cutting less leaves the low place where it "
        "leaks first. Metal cannot be put back."
    )
    draft.cautions.append("Both faces are read again after the cut: a new face may be out as well.")
    budgets: list[Outcome] = []
    for face in wanted:
        stock = cut.face(face)
        if stock is None:
            draft.need(unread(joint, face))
        else:
            budgets += budget_left(draft, joint, stock)
            draft.need(*(leaf_that_stops(joint, face, line) for line in stock.open_lines))
            _hold_plan(draft, joint, cut, stock)
    if cut.planned.stated:
        budgets += [outcome for outcome in (judge_together(draft, joint, cut),) if outcome]
    _say_how(draft, cut, wanted)
    face = next(iter(wanted))
    if Outcome.FAILS in budgets:
        return draft.decided(
            "scrap", f"{face.capitalize()}: the cut that cleans it goes below what is allowed"
        )
    headline = _headline(cut, wanted)
    if Outcome.AT_LIMIT in budgets:
        return draft.close("cut", headline)
    return draft.decided("cut", headline)


def _headline(cut: Cut, wanted: dict[str, str]) -> str:
    parts = []
    for face, why in wanted.items():
        stock = cut.face(face)
        amount = (
            f"{'at least ' if stock.open_lines else ''}{both(stock.with_pass.value, 'cut')} cleans it"
            if stock
            else f"{why}, only until it is clean"
        )
        parts.append(f"{face}: {amount}")
    text = "; ".join(parts)
    return clip(text[0].upper() + text[1:])


def _hold_plan(draft: Draft, joint: Joint, cut: Cut, stock: FaceStock) -> None:
    """Hold the planned cut against the least that cleans."""
    planned = joint.cut.head if stock.face == "head" else joint.cut.block
    if planned is None or joint.cut.done:
        return
    least = Limit("cut", stock.least.value, None, Measure.COMPUTED, Context(), Rank.COMMON_PRACTICE, DERIVED)
    name = f"planned cut cleans the {stock.face}"
    judged = draft.add(judge(name, "cut", planned.value, Picked(least, (), "")), stock.steps)
    if judged.outcome is Outcome.FAILS:
        draft.notes.append(
            Note(f"The planned {planned.text} off the {stock.face} does not clean it: see the sum.", DERIVED)
        )
    if stock.face == "head":
        judge_height(draft, joint, "head", "height after the planned cut", cut.height_planned)


def _say_how(draft: Draft, cut: Cut, wanted: dict[str, str]) -> None:
    if not cut.datum:
        draft.assumptions.append(
            "cut parallel to the face the heights are measured from, usually the cover rail"
        )
    for face in wanted:
        stock = cut.face(face)
        if stock is None:
            continue
        if face == "head" and stock.spread is None:
            draft.assumptions.append("head taken as even in height: four corners would tell")
        if stock.tilt_drag is not None and stock.spread is not None and stock.spread.value:
            draft.notes.append(Note(_price_of_tilt(stock, stock.spread, stock.tilt_drag), DERIVED))
    if "head" in wanted:
        _say_of_other_heads(draft, cut)
    draft.notes.append(Note("One last light pass gives the finish; it is in the figure.", COMMON_PRACTICE))


def _say_of_other_heads(draft: Draft, cut: Cut) -> None:
    """Say that heads which carry one manifold are cut alike, and by how much they differ as things are planned."""
    for other in cut.other_heads:
        says = f"Head {other.name} is cut alike: one head lower pulls the manifold crooked."
        draft.notes.append(Note(says, COMMON_PRACTICE))
        if says_how_much(other):
            draft.notes.append(Note(f"As planned this head stands {says_how_much(other)}.", DERIVED))


def says_how_much(other: OtherHead) -> str:
    """Say by how much this head stands higher or lower than another; blank where they are alike or not known."""
    if other.higher is None or other.alike:
        return ""
    how = "higher" if other.higher.value > 0 else "lower"
    return f"{both(abs(other.higher.value), 'cut')} {how} than head {other.name}"


def _price_of_tilt(stock: FaceStock, spread: Step, drag: Step) -> str:
    """Say what cutting along the face would save and cost."""
    parts = [f"ports and cam line of one end come down {both(drag.value, 'cut')} more"]
    if stock.tilt_price is not None:
        parts.insert(0, f"the end chambers differ by up to {both(stock.tilt_price.value, 'chamber_volume')}")
    return f"Cut along the face instead: {both(spread.value, 'cut')} less, but {' and '.join(parts)}."


def _no_cut(draft: Draft, joint: Joint, cut: Cut, flat: Answer) -> Answer:
    draft.need(*(one.missing for one in flat.next))
    not_read = {_face(check) for check in flat.checks if check.value is None and not _told(check)}
    read = {_face(check) for check in flat.checks} - not_read
    unclear = [check for check in flat.checks if check.value is not None and not _told(check)]
    if unclear and all(check.text and check.band is None for check in unclear):
        return draft.open(_half_known(unclear[0]), *_faces(draft))
    if unclear:
        return draft.close(
            "send-out", f"{_face(unclear[0]).capitalize()}: the readings hold the limit, have it measured"
        )
    if "head" in not_read:
        judge_in_all(draft, joint, "head", cut.planned.head_in_all)
        return draft.open("The head has been read one way only: nothing is cut half read", *_faces(draft))
    if "head" not in read:
        return _open(draft, cut)
    judge_in_all(draft, joint, "head", cut.planned.head_in_all)
    draft.notes.append(Note("Face and finish within the book: machining is not needed.", COMMON_PRACTICE))
    for part, planned in (("head", joint.cut.head), ("block", joint.cut.block)):
        if planned and planned.value and not joint.cut.done:
            says = f"The planned {planned.text} off the {part} is not needed for flatness or finish: what else is it for?"
            draft.notes.append(Note(says, COMMON_PRACTICE))
    draft.anyway = "A skim by habit uses up height, ratio and timing the next repair will want."
    if any(check.outcome is Outcome.AT_LIMIT for check in flat.checks):
        return draft.close("leave", "Exactly at the limit: still allowed, nothing has to come off")
    if any(finish_disputed(check) for check in draft.checks):
        return draft.close(
            "leave", "Flat; sources disagree on its finish: ask the gasket's maker before a cut"
        )
    if "block" in read:
        return draft.decided("leave", "Both faces are within their limits: machining is not needed")
    draft.assumptions.append("decided for the head alone: what the block needs is not known until it is read")
    return draft.decided("leave", "Nothing off the head: it is within its limit; block not read yet")


def _half_known(check: Check) -> str:
    """Say what a gap lacks that was read from one side only, or in a direction nobody wrote down."""
    lacks = "no leaf stopped" if check.text.startswith(face_flat.AT_LEAST) else check.text
    return clip(f"{_face(check).capitalize()}: {lacks}; nothing is cut until that is known")


def _told(check: Check) -> bool:
    return check.outcome is not Outcome.CANNOT_TELL


def _open(draft: Draft, cut: Cut) -> Answer:
    head = cut.face("head")
    if head is not None:
        text = (
            f"{both(head.with_pass.value, 'cut')} would clean the head; whether it must, the book limit says"
        )
        return draft.open(text, *([] if draft.next else [_limit(draft)]))
    return draft.open("The head has not been read: nothing is cut unread", *_faces(draft))


def _faces(draft: Draft) -> list[Missing]:
    assert draft.joint is not None
    return [] if draft.next else [unread(draft.joint, "head")]


def _limit(draft: Draft) -> Missing:
    assert draft.joint is not None
    return Missing(
        paths=(f"joint.{draft.joint.name}.limits",),
        measure="flatness limit of the head: no book limit known",
        tool="the engine's manual",
        how="Look under cylinder head, inspection; note page and direction.",
    )
