"""strip-how: the order of loosening, what to record, drain, lock and lift."""

from firedeck.answers.answer import Answer
from firedeck.answers.conditions import conditions
from firedeck.answers.counting import clip, count
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft, both
from firedeck.findings.cooling import LIQUID, asked, cooled_by, taken
from firedeck.findings.finding import Findings
from firedeck.findings.procedure import Order, order_of
from firedeck.findings.threads import Threads
from firedeck.job import Job, Joint
from firedeck.trace import COMMON_PRACTICE, Missing, Note, Outcome

QUESTION = "strip-how"
REVERSE = "reverse of the order of tightening"


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """List the work; the order turned round, and whether the tests were taken, are its checks."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    order = order_of(joint, found)
    _judge_order(draft, joint, order)
    _judge_tests(draft, job)
    draft.assumptions.extend(taken(job))
    draft.need(*asked(job))
    figures = {
        "order": " · ".join(order.labels[::-1]) or "from the ends to the middle",
        "weight": _weight(joint),
    }
    holding = conditions(job, joint, found.get(Threads))
    draft.work.extend(listed("strip_work", holding, figures))
    stops = _stops(joint)
    for name, _ in stops:
        count(draft, name, 1, Outcome.FAILS, "written down as not done")
    draft.cautions.append("Hot, under pressure or with a piston at the top: wait, let down, turn first")
    if joint.readings.fasteners.broken:
        draft.notes.append(
            Note("Count the broken ones: a stub left in the hole decides the thread.", COMMON_PRACTICE)
        )
    draft.anyway = "Slackened warm or one by one, an alloy head bends for good. What was not written down cannot be read "
    draft.anyway += "again: crack-off torques, marks, the first compression."
    if stops:
        return draft.decided("stop", clip(f"Stop: {stops[0][1]}"))
    return draft.decided("do-as-listed", _headline(job, joint, order))


def _stops(joint: Joint) -> list[tuple[str, str]]:
    """Give what is written down as not done and must be before the first bolt, the most dangerous first."""
    strip = joint.strip
    asked = (
        ("pressure let down", strip.pressure_off, "the cooling or fuel system still stands under pressure"),
        ("cold", strip.cold, "the engine is warm, leave it standing overnight"),
        ("drained", strip.drained, "coolant is still in the block, it runs into bores and bolt holes"),
        ("pistons parked", strip.pistons_parked, "a piston stands at the top, turn the crank first"),
        ("cam drive locked", strip.cam_locked, "cam and crank are not locked at their marks"),
    )
    return [(name, why) for name, done, why in asked if done is False]


def _judge_order(draft: Draft, joint: Joint, order: Order) -> None:
    outcome = Outcome.HOLDS if order.from_papers and not order.left_out else Outcome.CANNOT_TELL
    text = f"{REVERSE}, {order.source}" if order.source else "no order known: from the ends to the middle"
    count(draft, "loosening order", len(order.labels), outcome, text)
    draft.source(order.source if order.from_papers else COMMON_PRACTICE)
    if not order.from_papers:
        if order.labels:
            draft.assumptions.append(f"{REVERSE} worked out from the middle outwards: not the book")
        draft.need(
            Missing(
                (f"joint.{joint.name}.procedure.order",),
                "the order of loosening or tightening in the papers",
                "papers of this engine",
                "Some papers print a loosening order of their own: that one goes first.",
            )
        )


def _judge_tests(draft: Draft, job: Job) -> None:
    tests = job.document.tests
    readings = {
        "compression": bool(tests.compression.dry or tests.compression.hot or tests.compression.cold),
        "leak-down": bool(tests.leak_down.readings or tests.leak_down.air_goes),
    }
    if cooled_by(job) == LIQUID:
        readings["cooling system"] = bool(tests.coolant.pressure or tests.coolant.gas_in_coolant)
    done = [name for name, reading in readings.items() if reading]
    outcome = Outcome.HOLDS if len(done) == len(readings) else Outcome.CANNOT_TELL
    count(draft, "tests taken before the strip", len(done), outcome, ", ".join(done) or "none")
    if outcome is not Outcome.HOLDS:
        lacking = ", ".join(name for name in readings if name not in done)
        draft.cautions.append(f"Not written down yet, and lost once the bolts are slack: {lacking}")


def _weight(joint: Joint) -> str:
    section = joint.head.section
    weight = joint.head.weight or (section.mass if section else None)
    return both(weight.value, "head_mass") if weight else ""


def _headline(job: Job, joint: Joint, order: Order) -> str:
    if joint.readings.fasteners.broken:
        labels = ", ".join(joint.readings.fasteners.broken)
        return clip(f"Cold, in reverse order; broken: {labels}: centre, drill, heat, extractor last")
    first = f", {order.labels[-1]} first, {order.labels[0]} last" if order.labels else ""
    whose = "by the papers" if order.from_papers else "not the book"
    ready = "Cold and drained" if cooled_by(job) == LIQUID else "Cold"
    return clip(f"{ready}; slacken in reverse order{first} ({whose})")
