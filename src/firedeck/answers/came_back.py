"""came-back: why it leaked again; the record says whether to take it off, re-torque by the book, or test first."""

from collections.abc import Iterator

from firedeck.answers.answer import Answer, Work
from firedeck.answers.counting import clip, count
from firedeck.answers.making import Draft
from firedeck.answers.next_tests import how_to_test
from firedeck.findings.came_back import Comeback
from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.tables.work import Words, lines
from firedeck.trace import COMMON_PRACTICE, Missing, Outcome

QUESTION = "came-back"


def answer(job: Job, _joint: Joint | None, found: Findings) -> Answer:
    """Sort the comeback: inside the joint, a weep at the edge, oil at the edge."""
    draft = Draft(QUESTION, None)
    back = found.get(Comeback)
    if isinstance(back, Missing):
        return draft.not_applicable("It has not leaked again", "nothing in the job says that it came back")
    _count(draft, back)
    draft.work.extend(
        _work(back.words, "weep" if back.kind == "weep" else "oil" if back.kind == "oil" else "look")
    )
    draft.anyway = (
        "Another gasket on what was never measured goes the same way, usually sooner. Watch the same place; "
        "each round costs gasket, bolts and metal of the head."
    )
    draft.need(*_wanted(job, back))
    return _ending(draft, back)


def _count(draft: Draft, back: Comeback) -> None:
    outcome = Outcome.FAILS if back.failures > 1 else Outcome.CANNOT_TELL
    if back.kind in ("inside", "unknown"):
        count(draft, "failures so far", back.failures, outcome, "the same place" if back.same_place else "")
    measured = Outcome.HOLDS if back.deck_measured else Outcome.FAILS
    words = {True: "yes", False: "no", None: "not said"}[back.deck_measured]
    if back.kind == "inside":
        count(draft, "block face measured before", int(bool(back.deck_measured)), measured, words)
    if back.kind == "weep":
        outcome = Outcome.HOLDS if back.may_retorque else Outcome.FAILS
        count(
            draft,
            "re-torque allowed",
            int(back.may_retorque),
            outcome,
            back.refusal or "torque only, cold, papers",
        )
    if back.signs:
        count(draft, "signs of the comeback", len(back.signs), Outcome.FAILS, ", ".join(back.signs))


def _work(words: Words, key: str) -> Iterator[Work]:
    for line in lines("comeback_rules", words):
        if line.key == key:
            yield Work(line.text, line.source, "", line.caution)


def _wanted(job: Job, back: Comeback) -> Iterator[Missing]:
    name = job.joints[0].name
    if back.kind == "oil":
        yield Missing(
            ("symptoms.notes",),
            "crankcase pressure with the breather as it is, and where the oil starts",
            "water column in a clear hose at the dipstick, powder",
            "Warm, at working speed; a few centimetres of water are much. Clean the breather and read again.",
        )
        return
    if back.kind == "weep":
        yield Missing(
            (f"joint.{name}.readings.fasteners.moves_on", f"joint.{name}.procedure.text"),
            "torque at which each fastener just moves on, cold, and whether stud or edge weeps",
            "torque wrench with a dial, chalk",
            "Tightening direction, one at a time in the order of the papers; write each figure down.",
        )
    if not back.deck_measured:
        yield Missing(
            (f"joint.{name}.readings.faces",),
            "flatness of the block deck as well as the head, across every bridge and round every bolt hole for raised metal",
            "straightedge, short edge and leaves",
            "Bare and clean; the block held as it is in use where it carries the machine. Head and block on the same "
            "lines, added place by place.",
        )
    if back.liners:
        yield how_to_test("root", "liners-measured", name)
    yield how_to_test("root", "old-gasket", name)


def _ending(draft: Draft, back: Comeback) -> Answer:
    if back.kind == "oil":
        return draft.decided(
            "test-next", "Oil at the edge again: crankcase pressure and breather before the joint"
        )
    if back.kind == "weep" and back.may_retorque:
        draft.cautions.append("Cold, one fastener at a time, never under pressure; if it goes on, strip")
        text = "Weeps at the edge: re-torque cold as the book says; little to lose, strip if it goes on"
        return draft.decided("retorque-as-the-book", clip(text))
    if back.kind == "weep":
        return draft.decided("test-next", clip(f"Weeps at the edge; no re-torque: {back.refusal}"))
    if back.kind == "unknown":
        tests = (how_to_test("leak", one) for one in ("coolant-pressure", "leak-down", "gas-in-coolant"))
        draft.need(*tests)
        draft.source(COMMON_PRACTICE)
        return draft.decided(
            "test-next", "It came back, and no test says how yet: test before it is taken off"
        )
    times = f"{back.failures} times" if back.failures > 1 else "again"
    where = ", the same place" if back.same_place else ""
    what = "liners and block deck" if back.liners else "block deck"
    known = (
        f"{what} never measured: strip and measure"
        if not back.deck_measured
        else "strip, read both faces again"
    )
    return draft.decided("strip", clip(f"Failed {times}{where}; {known}"))
