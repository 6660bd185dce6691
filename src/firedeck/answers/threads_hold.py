"""threads-hold: what stands in the holes, whether the thread carries, and whether a bolt comes to the bottom."""

from collections.abc import Sequence

from firedeck.answers.answer import Answer, Work, Working
from firedeck.answers.counting import clip, count, count_of
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both, worst
from firedeck.findings.finding import Findings
from firedeck.findings.procedure import Tightening
from firedeck.findings.threads import ALL, GroupThreads, HoleFound, Threads
from firedeck.job import Job, Joint
from firedeck.trace import COMMON_PRACTICE, Check, Context, Missing, Note, Outcome, Step

QUESTION = "threads-hold"
LIQUID = "liquid in a blind hole"
BOTTOM = "room below"
CURES = {
    "cracked": ("send-out", "Hole {labels} is cracked: the casting goes to a shop that can judge it"),
    "pulled": ("insert", "Thread of hole {labels} is pulled: fit an insert"),
    "raised": ("chase", "Mouth of hole {labels} stands up: stone it flat, chamfer, chase"),
    "dirty": ("chase", "Thread of hole {labels} is dirty: chase it by hand"),
}
"""What each state of a thread asks for, the gravest first."""


def answer(_job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge holes, engagement, nuts and the room at the bottom; what nobody looked at leaves it open."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    threads = found.get(Threads)
    if isinstance(threads, Missing):
        return draft.open("Nobody has looked into the bolt holes yet", threads)
    _judge_liquid(draft, joint, threads, found.get(Tightening))
    for state in CURES:
        labels = threads.in_state(state)
        if labels:
            count(draft, f"holes {state}", len(labels), Outcome.FAILS, _which(labels))
    for group in threads.groups:
        _judge_group(draft, joint, group)
    _judge_seen(draft, joint, threads)
    _say_how(draft, threads)
    return _ending(draft, threads)


def _judge_liquid(draft: Draft, joint: Joint, threads: Threads, tightening: Tightening | Missing) -> None:
    wet = [hole.label for hole in threads.holes if hole.liquid and hole.hole != "through"]
    if wet:
        count(draft, LIQUID, len(wet), Outcome.FAILS, _which(wet))
        _say_pressure(draft, tightening)
        draft.need(_dry(joint, wet))
        draft.cautions.append(
            "A bolt run down on oil or water in a blind hole splits the boss before the torque comes"
        )


def _say_pressure(draft: Draft, tightening: Tightening | Missing) -> None:
    """Write out what the papers' torque would make of the liquid; it stops the job whatever the figure is."""
    for group in () if isinstance(tightening, Missing) else tightening.groups:
        if group.trapped is None:
            continue
        draft.steps.extend(Working(LIQUID, step) for step in group.trapped.steps)
        pressure = both(group.trapped.pressure, "trapped_pressure")
        text = f"{group.name}: at {group.final} the bolt would press {pressure} into what is shut in below it"
        if group.trapped.hoop_share is not None:
            text += f", {group.trapped.hoop_share:.1f} times what the weakest casting bears round the hole"
        draft.notes.append(Note(f"{text}.", "derived"))


def _judge_stud(draft: Draft, joint: Joint, group: GroupThreads) -> None:
    """A nut wants thread below it and out of it, a cap nut air, and a shank its room in the head."""
    for step in group.stud_rooms[1:]:
        name = f"{group.name}: {step.says.partition(',')[0].lower()}"
        _judge(draft, joint, name, "stud_room", (group.stud_rooms[0], step))
    if group.shank is not None and group.shank_clears is not True:
        _judge(draft, joint, f"{group.name}: shank below the head", "stud_room", (group.shank,))


def _judge_group(draft: Draft, joint: Joint, group: GroupThreads) -> None:
    if group.room is not None:
        name = (
            f"{BOTTOM} number {group.room_label}" if group.room_label != "all" else f"{BOTTOM} {group.name}"
        )
        _judge(draft, joint, name, "hole_room", (group.room,))
    if group.engagement_share is not None and group.engagement is not None:
        steps = (group.engagement, group.engagement_share)
        _judge(draft, joint, f"{group.name}: engagement", "engagement_share", steps)
    if group.strip and group.strip_band:
        limit = picked(joint, "strip_share", _context(joint))
        name = f"{group.name}: bolt yield over thread strip"
        if limit.winner:
            draft.add(judge(name, "strip_share", group.strip[-1].value, limit, group.strip_band), group.strip)
    _judge_nut(draft, joint, group)
    _judge_stud(draft, joint, group)


def _judge_nut(draft: Draft, joint: Joint, group: GroupThreads) -> None:
    """A nut is judged by its own threads; against which it was compared only says how much each carries."""
    if group.nut is not None:
        _judge(draft, joint, f"{group.name}: threads in the nut", "threads_in_nut", (group.nut,))
    if group.load_per_thread is not None:
        outcome = draft.checks[-1].outcome if group.nut is not None else Outcome.CANNOT_TELL
        value = group.load_per_thread.value
        check = Check(
            f"{group.name}: load per thread",
            "load_per_thread",
            value,
            outcome,
            text=f"{value:.2f} of the other",
        )
        draft.add_check(check, (group.load_per_thread,), COMMON_PRACTICE)


def _judge(draft: Draft, joint: Joint, name: str, quantity: str, steps: tuple[Step, ...]) -> None:
    limit = picked(joint, quantity, _context(joint))
    if limit.winner is not None:
        draft.add(judge(name, quantity, steps[-1].value, limit), steps)


def _context(joint: Joint) -> Context:
    return Context(part="fastener", material=joint.block.material)


def _judge_seen(draft: Draft, joint: Joint, threads: Threads) -> None:
    seen = [hole for hole in threads.holes if hole.thread is not None]
    whole = len(threads.holes) + threads.unnamed
    outcome = Outcome.HOLDS if len(seen) == whole else Outcome.CANNOT_TELL
    count_of(draft, "threads looked at", len(seen), whole, outcome)
    if outcome is Outcome.CANNOT_TELL:
        unseen = [hole.label for hole in threads.holes if hole.thread is None]
        draft.need(_look(joint, unseen, threads.unnamed))


def _ending(draft: Draft, threads: Threads) -> Answer:
    draft.anyway = (
        "A thread that gives lets go at full torque, when the gasket is already crushed: insert, new gasket, "
    )
    draft.anyway += "perhaps new bolts. A split boss costs the block."
    failing = {check.name for check in draft.checks if check.outcome is Outcome.FAILS}
    if LIQUID in failing:
        which = next(check.text for check in draft.checks if check.name == LIQUID)
        return draft.decided("stop", clip(f"Stop: {LIQUID}, {which}. Suck it out, blow dry, probe again"))
    bottoms = [
        check for check in draft.checks if check.name.startswith(BOTTOM) and check.outcome is Outcome.FAILS
    ]
    if bottoms:
        left = bottoms[0].value or 0.0
        how = "comes to the bottom" if left <= 0.0 else "comes too near the bottom"
        room = both(left, "hole_room")
        return draft.decided("stop", clip(f"Stop: a bolt {how}, room below it {room}"))
    for state, (action, words) in CURES.items():
        labels = threads.in_state(state)
        if labels:
            said = words.format(labels=", ".join(labels)).replace("hole all", "every hole")
            return draft.decided(action, clip(f"{said[0].upper()}{said[1:]}"))
    bad = worst(draft.checks)
    if bad.outcome is Outcome.FAILS:
        return draft.decided("stop", clip(f"Stop: {bad.name}, {both(bad.value or 0.0, bad.quantity)}"))
    return _not_failing(draft, bad)


def _not_failing(draft: Draft, bad: Check) -> Answer:
    if draft.next:
        return draft.open(clip(f"Not yet: {draft.next[0].missing.measure}"))
    if bad.limit is not None and bad.outcome in (Outcome.AT_LIMIT, Outcome.CANNOT_TELL):
        return draft.close(
            "use", clip(f"Too close to call: {bad.name}, {both(bad.value or 0.0, bad.quantity)}")
        )
    if not any(check.name.startswith(BOTTOM) for check in draft.checks):
        draft.assumptions.append(
            "blind holes taken as dry and deep enough: probed once more on the stop card"
        )
    return draft.decided("use", "Threads looked at, clean and whole: use them")


def _say_how(draft: Draft, threads: Threads) -> None:
    draft.work.extend(
        (
            Work("Chaser by hand, never a cutting tap: a tap takes metal that carries", COMMON_PRACTICE),
            Work(
                "Suck each hole out, then air with a rag over it, then a wire to the bottom", COMMON_PRACTICE
            ),
        )
    )
    wet = [hole.label for hole in threads.holes if hole.wet]
    if wet:
        draft.work.append(
            Work("These open into water or oil: sealer or their own bolt", COMMON_PRACTICE, ", ".join(wet))
        )
    _say_inserts(draft, threads)
    pulled = [hole for hole in threads.holes if hole.thread == "pulled"]
    if any(_may_meet_water(hole) for hole in pulled):
        text = (
            "An insert whose drill may break into water is a shop's work: sealed insert, pressure test after"
        )
        draft.cautions.append(text)
    if any(group.kind == "stud" for group in threads.groups):
        text = "Studs by hand until they stop, never driven: the run-out of the thread wedges and splits the block."
        draft.notes.append(Note(text, COMMON_PRACTICE))
    if any(group.shortened for group in threads.groups):
        text = "A bolt made shorter gives up that much thread: find why it did not go in (depth, sealer, swarf) instead."
        draft.notes.append(Note(text, COMMON_PRACTICE))


def _say_inserts(draft: Draft, threads: Threads) -> None:
    """An insert carries as well as the thread it replaces, but its spiral lets water by; a tap leaves less thread."""
    inserts = [hole.label for hole in threads.holes if hole.thread == "insert" and hole.wet]
    if inserts:
        text = "Insert open to water or oil: sealer between insert and casting, and on the bolt"
        draft.work.append(Work(text, COMMON_PRACTICE, ", ".join(inserts)))
        draft.cautions.append(
            f"Insert in hole {', '.join(inserts)} opens into water or oil: cold pressure test before the first start"
        )
    if threads.checked == "tap":
        draft.cautions.append(
            "A tap was run through: it takes metal that carries, turn a new bolt in by hand and feel for play"
        )


def _which(labels: Sequence[str]) -> str:
    return "all holes" if tuple(labels) == (ALL,) else f"number {', '.join(labels)}"


def _may_meet_water(hole: HoleFound) -> bool:
    return hole.leads is None or hole.wet


def _dry(joint: Joint, labels: list[str]) -> Missing:
    return Missing(
        (f"joint.{joint.name}.layout.fasteners", f"joint.{joint.name}.readings.holes.liquid"),
        f"{'every hole' if labels == [ALL] else 'hole ' + ', '.join(labels)} again, dry, and its depth",
        "syringe, air line with a rag, wire",
        "Suck and blow it dry, goggles on. Set sealer at the bottom is chased out, it counts as depth lost.",
    )


def _look(joint: Joint, labels: list[str], unnamed: int) -> Missing:
    which = (
        "all holes"
        if labels == ["all"]
        else f"{len(labels) + unnamed} {'more ' * bool(unnamed)}holes"
        if len(labels) > 4 or unnamed
        else f"hole {', '.join(labels)}"
    )
    return Missing(
        (f"joint.{joint.name}.readings.holes", f"joint.{joint.name}.layout.fasteners"),
        f"thread and depth of {which}",
        "a clean bolt by hand, torch, wire",
        "Turn a bolt in by hand to full depth: turns times pitch is the engagement. Look for a raised mouth, pulled "
        "turns, liquid or old sealer at the bottom.",
    )
