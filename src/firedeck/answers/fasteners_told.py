"""What used fasteners tell besides whether they may go back: rust, a break, and the torque at which each gave way."""

from firedeck.answers import fasteners_wanted as wanted
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.findings.fasteners import FastenersFound, GroupFound
from firedeck.findings.procedure import Tightening
from firedeck.job import Joint
from firedeck.trace import COMMON_PRACTICE, Context, Missing, Note


def say_rust(draft: Draft, joint: Joint, corroded: tuple[str, ...]) -> None:
    """Rust on a shank says that water stands round it: its hole is wet, or the seal round it leaks."""
    if not corroded:
        return
    drawn = {hole.label: hole.leads for hole in joint.layout.fasteners} if joint.layout else {}
    wet = [label for label in corroded if drawn.get(label) in ("water", "drain")]
    where = f"number {', '.join(wet)} stands in water" if wet else "look whether its hole is open to water"
    text = f"A pit in a shank is where it breaks; {where}: sealer on the new one, and the old thread chased clean."
    draft.notes.append(Note(text, COMMON_PRACTICE))


def say_why_broken(draft: Draft, joint: Joint, group: GroupFound, tightening: Tightening | Missing) -> None:
    """A sound bolt does not break at its torque: say what to look for, and how near to yield that torque is."""
    if not group.faults.broken:
        return
    draft.need(wanted.fracture(joint, group))
    text = "A bolt that snaps well under its proof load had a flaw, a damaged thread, a bend, or stood on the bottom."
    draft.notes.append(Note(text, COMMON_PRACTICE))
    how = None if isinstance(tightening, Missing) else tightening.group(group.name)
    share = how.tension.share if how and how.tension else None
    limit = picked(joint, "yield_share", Context(part="fastener", fastener=group.name))
    if how and how.tension and share and limit.winner:
        name = f"{group.name}: share of yield at {how.final}"
        draft.add(judge(name, "yield_share", share.value, limit), how.tension.steps)


def say_crack_off(draft: Draft, found: FastenersFound) -> None:
    if found.slackest is not None:
        share = both(found.slackest.value, "ratio")
        text = f"Number {found.slackest_label} gave way at {share} of the highest crack-off torque: look at the joint there."
        draft.notes.append(Note(text, COMMON_PRACTICE))
    for one in found.left:
        low, high = both(one.band.low, "tension"), both(one.band.high, "tension")
        text = f"Number {one.label}: its crack-off torque stands for {low} to {high}, {one.band.why}"
        text += ", less if rust or sealer held it."
        draft.notes.append(Note(text, "vdi-2230"))
    if found.loose:
        draft.notes.append(Note(f"Found loose: {', '.join(found.loose)}.", COMMON_PRACTICE))
