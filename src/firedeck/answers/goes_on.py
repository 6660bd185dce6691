"""goes-on: the stop card; what is known to be wrong stops it, what nobody can know is ticked by two people."""

from collections.abc import Iterator

from firedeck.answers import tighten_how
from firedeck.answers.answer import Answer, State
from firedeck.answers.conditions import conditions
from firedeck.answers.counting import clip, count, count_of
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft, both
from firedeck.answers.stop_card import DOWELS, asked_before, first_of, initials, known_of
from firedeck.findings.effects import Effects
from firedeck.findings.finding import Findings
from firedeck.findings.groups import gasket_that_goes_on
from firedeck.findings.threads import Threads
from firedeck.job import Job, Joint
from firedeck.trace import Missing, Outcome

QUESTION = "goes-on"


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Stop at the first thing known to be wrong, else list what two people tick."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    asked = asked_before(job, joint, found)
    tightening = tighten_how.answer(job, joint, found)
    known = known_of(job, joint, found, asked, tightening)
    asked["tightening"] = tightening
    for one in known:
        outcome = Outcome.FAILS if one.wrong else Outcome.CANNOT_TELL if one.near else Outcome.HOLDS
        count(draft, one.name, 1, outcome, one.text)
    unknown = [name for name, one in asked.items() if one.state is State.OPEN]
    _say_unknown(draft, asked, unknown)
    draft.need(*_unread_dowels(joint, found))
    wrong = [one for one in known if one.wrong]
    right = len(known) - len(wrong)
    outcome = Outcome.FAILS if wrong else Outcome.CANNOT_TELL if unknown else Outcome.HOLDS
    count_of(draft, "known of this card", right, len(known) + len(unknown), outcome, text=_lacking(unknown))
    signed = initials(joint)
    outcome = Outcome.HOLDS if len(signed) == 2 else Outcome.CANNOT_TELL
    count_of(draft, "initials on this card", len(signed), 2, outcome, text=" and ".join(signed))
    threads = found.get(Threads)
    draft.work.extend(listed("stop_card", conditions(job, joint, threads), _figures(joint)))
    draft.cautions.append("Anything not ticked stops the job: the head is not lowered to be looked at later")
    draft.anyway = (
        "A head lowered on a wet hole, a wrong gasket or a piston at the top is found out by a split boss, "
    )
    draft.anyway += "a leak at the first start or bent valves."
    if wrong:
        more = f" (and {len(wrong) - 1} more)" if len(wrong) > 1 else ""
        return draft.decided("stop", clip(f"Stop{more}: {first_of(wrong[0])}"))
    if unknown:
        return draft.decided(
            "do-as-listed", clip(f"Nothing known wrong; still unknown: {', '.join(unknown)}. Tick all")
        )
    if len(signed) == 2:
        return draft.decided(
            "do-as-listed", clip(f"Gone through and signed, {' and '.join(signed)}: tighten")
        )
    return draft.decided("do-as-listed", "Nothing known to be wrong: tick all, two initials, then tighten")


def _say_unknown(draft: Draft, asked: dict[str, Answer], unknown: list[str]) -> None:
    """What is open elsewhere is ticked here only after it has been looked at."""
    for name in unknown:
        draft.next.extend(asked[name].next[:1])


def _lacking(unknown: list[str]) -> str:
    return f"not known yet: {', '.join(unknown)}" if unknown else ""


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
