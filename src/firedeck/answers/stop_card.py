"""What the stop card rests on: what is known to be right or wrong before the head goes on, and who has signed."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from firedeck.answers import face_flat, fasteners_reuse, threads_hold
from firedeck.answers.answer import Answer, State
from firedeck.answers.given import picked
from firedeck.answers.making import both
from firedeck.findings.effects import Effects
from firedeck.findings.faces import Faces
from firedeck.findings.finding import Findings
from firedeck.findings.groups import gasket_that_goes_on
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.trace import Context, Missing

ASKED = {
    "faces": (face_flat, ("cut", "straighten-first", "send-out", "clean")),
    "threads": (threads_hold, ("stop", "insert", "chase", "send-out")),
    "bolts": (fasteners_reuse, ("replace-all", "replace-one")),
}
"""Answers the card looks at besides the tightening, and which of their actions stop it."""


@dataclass(frozen=True)
class Known:
    """One thing known to be right, wrong, or near its limit, in words."""

    name: str
    text: str
    wrong: bool
    near: bool = False


def asked_before(job: Job, joint: Joint, found: Findings) -> dict[str, Answer]:
    """Ask for faces, threads and bolts; what is open there is unknown here."""
    return {name: module.answer(job, joint, found) for name, (module, _) in ASKED.items()}


def known_of(
    job: Job, joint: Joint, found: Findings, asked: Mapping[str, Answer], tightening: Answer | None = None
) -> list[Known]:
    """List all that is known of the card, the answers first; without the tightening where it is the one that asks."""
    judged = [known_by(name, one, ASKED[name][1]) for name, one in asked.items()]
    judged += [known_by("tightening", tightening, ("stop",))] if tightening else []
    known = [one for one in judged if one is not None]
    return [*known, *_looked_at(job, joint), *_light(joint, found), *_dowels(joint, found)]


def known_by(name: str, answer: Answer, stopping: tuple[str, ...]) -> Known | None:
    """Say what an answer that is no longer open means for the card."""
    if answer.state not in (State.DECIDED, State.CLOSE):
        return None
    wrong = answer.state is State.DECIDED and answer.action in stopping
    return Known(name, answer.headline.removeprefix("Stop: "), wrong)


def first_of(wrong: Known) -> str:
    """Say what stops it; what is said of faces names the face itself."""
    if wrong.name == "faces" and "face" in wrong.text:
        return f"{wrong.text[:1].lower()}{wrong.text[1:]}"
    return f"{wrong.name}, {wrong.text}"


def initials(joint: Joint) -> tuple[str, ...]:
    """Return the initials on the card."""
    card = joint.stop_card
    return tuple(one.strip() for one in (card.read_by, card.looked_by) if one.strip())


def lock(job: Job, joint: Joint, found: Findings) -> str:
    """Say why tightening may not begin: something on the card is wrong, or two people have not signed it; else nothing."""
    wrong = [one for one in known_of(job, joint, found, asked_before(job, joint, found)) if one.wrong]
    if wrong:
        return f"the stop card stops it: {first_of(wrong[0])}"
    signed = initials(joint)
    if len(signed) < 2:
        return f"the stop card carries {'one initial, it takes two' if signed else 'no initials yet, it takes two'}"
    return ""


def _looked_at(job: Job, joint: Joint) -> Iterator[Known]:
    gasket = gasket_that_goes_on(joint)
    if gasket is not None and gasket.used:
        yield Known("gasket", "torqued down once already: a new one", wrong=True)
    for group in joint.fasteners:
        if group.washer is not None and group.washer.sunk:
            yield Known("washers", f"{group.name}: sunk into the face, have it spot-faced first", wrong=True)
    wrench = job.document.tools.wrench
    if wrench is not None and wrench.checked == "never":
        yield Known("wrench", "never checked: hold it against another first", wrong=True)
    after = joint.readings.after
    for name, done, text in (
        ("washed", after.washed, "not washed since the shop"),
        ("plugs", after.plugs_in, "core or gallery plugs not back in"),
    ):
        if done is False:
            yield Known(name, text, wrong=True)
    if joint.head.crack_test == "found":
        yield Known("head", "a crack was found in it", wrong=True)
    if joint.block.liners == "wet" and joint.block.liners_clamped == "not-clamped" and joint.readings.liners:
        yield Known("liners", "stands were read without clamps: read them again clamped", wrong=True)


def _light(joint: Joint, found: Findings) -> Iterator[Known]:
    """Light under a bare head on a bare block shows both faces at once, and neither for itself."""
    if any(face.light for face in joint.readings.faces) and isinstance(found.get(Faces), Missing):
        yield Known("faces", "looked at by light alone: lay the edge on each", wrong=True)


DOWELS = {
    "missing": "is missing: without it the gasket is not held in place",
    "worn-hole": "sits in a worn hole: the head can lie off its place, bush it",
    "loose": "is loose in its hole",
    "burred": "is burred: it holds the head up, dress it",
}
"""What is wrong with a dowel, by its state."""


def _dowels(joint: Joint, found: Findings) -> Iterator[Known]:
    for dowel in joint.layout.dowels if joint.layout else ():
        if dowel.state in DOWELS:
            hollow = (
                ", and no bolt goes down without its sleeve"
                if dowel.hollow and dowel.state == "missing"
                else ""
            )
            yield Known("dowels", f"number {dowel.label} {DOWELS[dowel.state]}{hollow}", wrong=True)
    effects, limit = found.get(Effects), picked(joint, "dowel_room", Context(part="engine")).winner
    least = limit.low if limit else None
    for label, room in () if isinstance(effects, Missing) else effects.dowels:
        inside = meets(room.value, 0.0, None) is Meets.HOLDS
        near = inside and least is not None and meets(room.value, least, None) is Meets.FAILS
        text = f"number {label} has {'only ' * near}{both(room.value, 'dowel_room')} of room"
        yield Known("dowels", text, wrong=not inside, near=near)
