"""fasteners-reuse: may bolts or studs go back: their faults, the papers' limits, how they are tightened."""

from enum import IntEnum

from firedeck.answers import fasteners_wanted as wanted
from firedeck.answers.answer import Answer
from firedeck.answers.counting import clip, count, count_of
from firedeck.answers.fasteners_told import say_crack_off, say_rust, say_why_broken
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both, worst
from firedeck.findings.fasteners import FastenersFound, GroupFound
from firedeck.findings.finding import Findings
from firedeck.findings.procedure import GroupTightening, Tightening
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.trace import COMMON_PRACTICE, Context, Missing, Note, Outcome

QUESTION = "fasteners-reuse"
STRETCHED = (
    "A stretched bolt can shear while it is turned: stop when the torque no longer rises with the angle"
)


class Fate(IntEnum):
    """What becomes of a group, the weightiest last."""

    REUSE = 0
    CLOSE = 1
    OPEN = 2
    ONE = 3
    ALL = 4


def answer(_job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge every group; the weightiest fate of a group is that of the joint."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    tightening = found.get(Tightening)
    fasteners = found.get(FastenersFound)
    if isinstance(fasteners, Missing):
        return _by_procedure(draft, fasteners, tightening)
    fates = {group.name: _fate(draft, joint, group, tightening) for group in fasteners.groups}
    say_crack_off(draft, fasteners)
    sunk = [group.name for group in joint.fasteners if group.washer and group.washer.sunk]
    if sunk:
        text = f"Washers of group {', '.join(sunk)} sank into the face: these had lost tension, whatever their torque was."
        draft.notes.append(Note(text, COMMON_PRACTICE))
    return _ending(draft, joint, fasteners, fates, tightening)


def _by_procedure(draft: Draft, missing: Missing, tightening: Tightening | Missing) -> Answer:
    """Nothing of the fasteners is written down: the procedure alone may still decide."""
    if isinstance(tightening, Missing):
        return draft.open(
            "Nothing is known of the bolts yet: look at them and at the procedure", missing, tightening
        )
    stretched = [group for group in tightening.groups if group.yields]
    if len(stretched) < len(tightening.groups):
        return draft.open("Tightened by torque alone: may go back once they have been looked at", missing)
    for group in stretched:
        _judge_stretch(draft, group, tightening.source)
    draft.cautions.append(STRETCHED)
    draft.need(missing)
    return draft.decided("replace-all", "Torque and angle into stretch, no limit for reuse known: a new set")


def _fate(draft: Draft, joint: Joint, group: GroupFound, tightening: Tightening | Missing) -> Fate:
    fate = _by_faults(draft, joint, group)
    if fate is not Fate.REUSE:
        say_why_broken(draft, joint, group, tightening)
        return fate
    if group.new:
        count(draft, f"{group.name}: new set", group.count or 0, Outcome.HOLDS, "new, not tightened yet")
        return Fate.REUSE
    if group.reuse == "never":
        count(
            draft, f"{group.name}: papers forbid reuse", 1, Outcome.FAILS, "once only", source=_papers(joint)
        )
        return Fate.ALL
    by_limits = _by_limits(draft, joint, group)
    if by_limits is not None:
        return max(by_limits, _by_looks(draft, joint, group)) if by_limits < Fate.ONE else by_limits
    return _by_tightening(draft, joint, group, tightening)


def _by_faults(draft: Draft, joint: Joint, group: GroupFound) -> Fate:
    faults = group.faults
    named = {
        "broken": faults.broken,
        "necked": faults.necked,
        "corroded": faults.corroded,
        "doubtful": faults.doubtful,
        "missing": faults.lost,
    }
    for word, labels in named.items():
        if labels:
            count(draft, f"{group.name}: {word}", len(labels), Outcome.FAILS, f"number {', '.join(labels)}")
    say_rust(draft, joint, faults.corroded)
    for word, seen in (("threads damaged", faults.damaged), ("mixed set", faults.mixed)):
        if seen:
            count(draft, f"{group.name}: {word}", 1, Outcome.FAILS, word)
    if faults.damaged or faults.mixed or (faults.bad and not group.replace_singly):
        return Fate.ALL
    return Fate.ONE if faults.bad else Fate.REUSE


def _by_limits(draft: Draft, joint: Joint, group: GroupFound) -> Fate | None:
    """Judge by the papers' limits of length, neck and uses; None where they have none for this group."""
    fates = [
        _measured(draft, joint, group, "fastener_length"),
        _measured(draft, joint, group, "neck_diameter"),
        _by_uses(draft, joint, group),
    ]
    known = [fate for fate in fates if fate is not None]
    return max(known) if known else None


def _measured(draft: Draft, joint: Joint, group: GroupFound, quantity: str) -> Fate | None:
    by_length = quantity == "fastener_length"
    word = "length" if by_length else "neck"
    step = group.longest if by_length else group.thinnest
    label = group.longest_label if by_length else group.thinnest_label
    read = group.lengths if by_length else group.necks
    limit = picked(joint, quantity, Context(part="fastener", fastener=group.name))
    if limit.winner is None:
        return None
    missing = wanted.measure(joint, group, word)
    if step is None:
        draft.need(missing)
        return Fate.OPEN
    judged = draft.add(judge(f"{group.name}: {word} of number {label}", quantity, step.value, limit), (step,))
    if judged.outcome is Outcome.FAILS:
        over = _out_of(joint, group, quantity)
        count(
            draft, f"{group.name}: {word} out of limit", len(over), Outcome.FAILS, f"number {', '.join(over)}"
        )
        return Fate.ONE if group.replace_singly else Fate.ALL
    if group.count and len(read) < group.count:
        draft.need(missing)
        return Fate.OPEN
    return Fate.CLOSE if judged.outcome is Outcome.AT_LIMIT else Fate.REUSE


def _by_uses(draft: Draft, joint: Joint, group: GroupFound) -> Fate | None:
    if group.uses_allowed is None:
        return None
    if group.uses is None:
        draft.need(wanted.count_uses(joint, group))
        return Fate.OPEN
    now = group.uses + 1
    outcome = Outcome.HOLDS if now <= group.uses_allowed else Outcome.FAILS
    text = f"this one is {now} of {group.uses_allowed} the papers allow"
    count_of(
        draft,
        f"{group.name}: tightenings",
        now,
        group.uses_allowed,
        outcome,
        text=text,
        source=_papers(joint),
    )
    return Fate.REUSE if outcome is Outcome.HOLDS else Fate.ALL


def _by_tightening(draft: Draft, joint: Joint, group: GroupFound, tightening: Tightening | Missing) -> Fate:
    """Stretched ones are new each time; those tightened by torque go back when they look right."""
    if group.reuse in ("by-length", "by-neck", "by-uses"):
        draft.need(wanted.find_limit(joint, group))
        return Fate.OPEN
    if group.reuse == "allowed":
        count(
            draft,
            f"{group.name}: papers allow reuse",
            1,
            Outcome.HOLDS,
            "threads looked at",
            source=_papers(joint),
        )
        return _by_looks(draft, joint, group)
    if isinstance(tightening, Missing):
        draft.need(tightening)
        return Fate.OPEN
    how = tightening.group(group.name) or (tightening.groups[0] if len(tightening.groups) == 1 else None)
    if how is None:
        draft.need(*tightening.gaps)
        return Fate.OPEN
    if how.yields:
        _judge_stretch(draft, how, tightening.source)
        return Fate.ALL
    count(
        draft,
        f"{how.name}: torque only",
        1,
        Outcome.HOLDS,
        how.final or "no turn past a torque",
    )
    return _by_looks(draft, joint, group)


def _judge_stretch(draft: Draft, how: GroupTightening, source: str) -> None:
    turn = how.turn or "stretch"
    count(
        draft, f"{how.name}: tightened into stretch", 1, Outcome.FAILS, f"{how.final} and {turn}, once only"
    )
    draft.source(source)
    draft.assumptions.append(
        f"{how.name}: torque and {turn} taken as past yield, the papers name no reuse limit"
    )


def _by_looks(draft: Draft, joint: Joint, group: GroupFound) -> Fate:
    if not group.looked_at:
        draft.need(wanted.look(joint, group))
        return Fate.OPEN
    count(
        draft, f"{group.name}: threads clean and even", group.count or 0, Outcome.HOLDS, "none with a fault"
    )
    return Fate.REUSE


def _ending(
    draft: Draft,
    joint: Joint,
    found: FastenersFound,
    fates: dict[str, Fate],
    tightening: Tightening | Missing,
) -> Answer:
    name = max(fates, key=lambda one: fates[one])
    group = next(one for one in found.groups if one.name == name)
    draft.anyway = (
        "A bolt that was stretched or eaten clamps less than its neighbours, or shears in the hole: watch "
    )
    draft.anyway += "for a seep beside it. A broken stub costs a drill, an insert and this gasket."
    which = "" if len(fates) == 1 else f" of group {name}"
    match fates[name]:
        case Fate.ALL:
            if _stretched(group, tightening):
                draft.cautions.append(STRETCHED)
            return draft.decided("replace-all", clip(f"New set{which}: {_worst_words(draft)}"))
        case Fate.ONE:
            out = (*_out_of(joint, group, "fastener_length"), *_out_of(joint, group, "neck_diameter"))
            bad = ", ".join(dict.fromkeys((*group.faults.bad, *out)))
            return draft.decided(
                "replace-one", clip(f"Replace number {bad}{which}, the papers allow single ones")
            )
        case Fate.OPEN:
            return draft.open(clip(f"Not decided{which}: {draft.next[0].missing.measure}"))
        case Fate.CLOSE:
            return draft.close("reuse", clip(f"Exactly at the limit{which}: {_worst_words(draft)}"))
    draft.cautions.append("Each back into its own hole, clean, with the lubricant the torque is written for")
    return draft.decided("reuse", clip(f"They may go back: {_worst_words(draft)}"))


def _stretched(group: GroupFound, tightening: Tightening | Missing) -> bool:
    """Tell whether these were or will be turned into stretch, by the procedure or by what is seen of them."""
    how = None if isinstance(tightening, Missing) else tightening.group(group.name)
    return bool(how and how.yields) or bool(group.faults.necked)


def _out_of(joint: Joint, group: GroupFound, quantity: str) -> tuple[str, ...]:
    """Name those whose length or neck lies outside the papers' limit."""
    winner = picked(joint, quantity, Context(part="fastener", fastener=group.name)).winner
    read = group.lengths if quantity == "fastener_length" else group.necks
    if winner is None:
        return ()
    return tuple(label for label, size in read.items() if meets(size, winner.low, winner.high) is Meets.FAILS)


def _worst_words(draft: Draft) -> str:
    bad = worst(draft.checks)
    name = bad.name.partition(": ")[2] or bad.name
    if bad.limit is not None and bad.value is not None:
        return f"{name}, {both(bad.value, bad.quantity)}"
    return f"{name}, {bad.text}" if bad.text and bad.text != name else name


def _papers(joint: Joint) -> str:
    return (joint.procedure.source if joint.procedure else "") or "the papers"
