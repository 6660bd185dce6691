"""goes-on: the stop card; what is known to be wrong stops it, what nobody can know is ticked by two people."""

from collections.abc import Iterator
from dataclasses import dataclass

from firedeck.answers import face_flat, fasteners_reuse, threads_hold, tighten_how
from firedeck.answers.answer import Answer, State
from firedeck.answers.conditions import conditions
from firedeck.answers.counting import clip, count, count_of
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft, both
from firedeck.findings.effects import Effects
from firedeck.findings.faces import Faces
from firedeck.findings.finding import Findings
from firedeck.findings.groups import gasket_that_goes_on
from firedeck.findings.threads import Threads
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.trace import Missing, Outcome

QUESTION = "goes-on"
ASKED = {
    "faces": (face_flat, ("cut", "straighten-first", "send-out", "clean")),
    "threads": (threads_hold, ("stop", "insert", "chase", "send-out")),
    "bolts": (fasteners_reuse, ("replace-all", "replace-one")),
    "tightening": (tighten_how, ("stop",)),
}
"""Answers the card looks at, and which of their actions stop it."""


@dataclass(frozen=True)
class Wrong:
    """One thing known to be wrong, or known to be right, in words."""

    name: str
    text: str
    wrong: bool


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Stop at the first thing known to be wrong, else list what two people tick."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    asked = {name: module.answer(job, joint, found) for name, (module, _) in ASKED.items()}
    known = [*_asked(asked), *_looked_at(job, joint), *_light(joint, found), *_dowels(joint, found)]
    wrong = [one for one in known if one.wrong]
    for one in known:
        count(draft, one.name, 1, Outcome.FAILS if one.wrong else Outcome.HOLDS, one.text)
    unknown = [name for name, one in asked.items() if one.state is State.OPEN]
    _say_unknown(draft, asked, unknown)
    draft.need(*_unread_dowels(joint, found))
    right = len(known) - len(wrong)
    outcome = Outcome.FAILS if wrong else Outcome.CANNOT_TELL if unknown else Outcome.HOLDS
    count_of(draft, "known of this card", right, len(known) + len(unknown), outcome, text=_lacking(unknown))
    threads = found.get(Threads)
    draft.work.extend(listed("stop_card", conditions(job, joint, threads), _figures(joint)))
    draft.cautions.append("Anything not ticked stops the job: the head is not lowered to be looked at later")
    draft.anyway = (
        "A head lowered on a wet hole, a wrong gasket or a piston at the top is found out by a split boss, "
    )
    draft.anyway += "a leak at the first start or bent valves."
    if wrong:
        more = f" (and {len(wrong) - 1} more)" if len(wrong) > 1 else ""
        return draft.decided("stop", clip(f"Stop{more}: {_first(wrong[0])}"))
    if unknown:
        return draft.decided(
            "do-as-listed", clip(f"Nothing known wrong; still unknown: {', '.join(unknown)}. Tick all")
        )
    return draft.decided("do-as-listed", "Nothing known to be wrong: tick all, two initials, then tighten")


def _first(wrong: Wrong) -> str:
    """Say what stops it; what is said of faces names the face itself."""
    if wrong.name == "faces" and "face" in wrong.text:
        return f"{wrong.text[:1].lower()}{wrong.text[1:]}"
    return f"{wrong.name}, {wrong.text}"


def _asked(asked: dict[str, Answer]) -> Iterator[Wrong]:
    for name, one in asked.items():
        if one.state in (State.DECIDED, State.CLOSE):
            wrong = one.state is State.DECIDED and one.action in ASKED[name][1]
            yield Wrong(name, one.headline.removeprefix("Stop: "), wrong)


def _say_unknown(draft: Draft, asked: dict[str, Answer], unknown: list[str]) -> None:
    """What is open elsewhere is ticked here only after it has been looked at."""
    for name in unknown:
        draft.next.extend(asked[name].next[:1])


def _lacking(unknown: list[str]) -> str:
    return f"not known yet: {', '.join(unknown)}" if unknown else ""


def _looked_at(job: Job, joint: Joint) -> Iterator[Wrong]:
    gasket = gasket_that_goes_on(joint)
    if gasket is not None and gasket.used:
        yield Wrong("gasket", "torqued down once already: a new one", wrong=True)
    for group in joint.fasteners:
        if group.washer is not None and group.washer.sunk:
            yield Wrong("washers", f"{group.name}: sunk into the face, have it spot-faced first", wrong=True)
    wrench = job.document.tools.wrench
    if wrench is not None and wrench.checked == "never":
        yield Wrong("wrench", "never checked: hold it against another first", wrong=True)
    after = joint.readings.after
    for name, done, text in (
        ("washed", after.washed, "not washed since the shop"),
        ("plugs", after.plugs_in, "core or gallery plugs not back in"),
    ):
        if done is False:
            yield Wrong(name, text, wrong=True)
    if joint.head.crack_test == "found":
        yield Wrong("head", "a crack was found in it", wrong=True)
    if joint.block.liners == "wet" and joint.block.liners_clamped == "not-clamped" and joint.readings.liners:
        yield Wrong("liners", "stands were read without clamps: read them again clamped", wrong=True)


def _light(joint: Joint, found: Findings) -> Iterator[Wrong]:
    """Light under a bare head on a bare block shows both faces at once, and neither for itself."""
    if any(face.light for face in joint.readings.faces) and isinstance(found.get(Faces), Missing):
        yield Wrong("faces", "looked at by light alone: lay the edge on each", wrong=True)


DOWELS = {
    "missing": "is missing: without it the gasket is not held in place",
    "worn-hole": "sits in a worn hole: the head can lie off its place, bush it",
    "loose": "is loose in its hole",
    "burred": "is burred: it holds the head up, dress it",
}
"""What is wrong with a dowel, by its state."""


def _dowels(joint: Joint, found: Findings) -> Iterator[Wrong]:
    for dowel in joint.layout.dowels if joint.layout else ():
        if dowel.state in DOWELS:
            hollow = (
                ", and no bolt goes down without its sleeve"
                if dowel.hollow and dowel.state == "missing"
                else ""
            )
            yield Wrong("dowels", f"number {dowel.label} {DOWELS[dowel.state]}{hollow}", wrong=True)
    effects = found.get(Effects)
    for label, room in () if isinstance(effects, Missing) else effects.dowels:
        text = f"number {label} has {both(room.value, 'dowel_room')} of room"
        yield Wrong("dowels", text, wrong=meets(room.value, 0.0, None) is not Meets.HOLDS)


def _unread_dowels(joint: Joint, found: Findings) -> Iterator[Missing]:
    """Ask for the room over every dowel nobody has measured."""
    effects = found.get(Effects)
    measured = set() if isinstance(effects, Missing) else {label for label, _ in effects.dowels}
    dowels = joint.layout.dowels if joint.layout else ()
    unread = [one.label for one in dowels if one.label not in measured and one.state not in DOWELS]
    if unread:
        yield Missing(
            (f"joint.{joint.name}.layout.dowels",),
            f"dowel {', '.join(unread)}: how far it stands out, and how deep the hole it goes into is",
            "vernier depth rod",
            "Stand-out less gasket must stay short of the hole; a cut of head or block still to come takes room.",
        )


def _figures(joint: Joint) -> dict[str, str]:
    gasket = gasket_that_goes_on(joint)
    section = joint.head.section
    weight = joint.head.weight or (section.mass if section else None)
    groups = [f"{group.name} {len(group.labels) or group.count or ''}".strip() for group in joint.fasteners]
    return {
        "gasket": " ".join(one for one in (gasket.name, gasket.marks) if one) if gasket else "",
        "weight": both(weight.value, "head_mass") if weight else "",
        "bolts": ", ".join(groups),
    }
