"""casting-worth: the tests a casting passes before money is spent on its face."""

from firedeck.answers import face_flat
from firedeck.answers.answer import Answer
from firedeck.answers.budget import judge_height
from firedeck.answers.cam_line import IN_HEAD, binds, turn_the_cam
from firedeck.answers.counting import clip
from firedeck.answers.cracks import crack_rule, pressure_test, water
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft, both
from firedeck.answers.yes_or_no import yes_or_no
from firedeck.findings.cooling import AIR, cooled_by, taken
from firedeck.findings.cut import Cut
from firedeck.findings.damage import Damage
from firedeck.findings.faces import unread
from firedeck.findings.finding import Findings
from firedeck.findings.valve_gear import PORTED, sealed_by
from firedeck.job import Job, Joint
from firedeck.trace import COMMON_PRACTICE, Context, Missing, Note, Outcome, Step

QUESTION = "casting-worth"
DOUBTFUL = {"core_plugs": "core plugs", "valves": "valves, guides and seats"}


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Go through the tests in the order that saves money: what scraps it first."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    damage, air = found.get(Damage), cooled_by(job) == AIR
    draft.assumptions.extend(taken(job))
    draft.work.extend(listed("casting_work", _words(job, joint), {}))
    if _nothing_known(joint) and isinstance(damage, Missing):
        wanted = (_cracks(joint),) if air else (pressure_test(joint), _cracks(joint))
        return draft.open("Nothing is known of this casting yet", *wanted)
    draft.anyway = (
        "Machining money goes into a head that leaks, cracks on or binds its cam on the first heat."
    )
    scrapped = _scrapped(draft, joint, found, damage)
    tests = _tests(draft, job, joint, damage)
    if scrapped:
        return draft.decided("scrap", scrapped)
    if tests:
        return draft.decided("test-first", tests)
    if joint.head.cam_tunnel == "binds":
        return _bent(draft, job, joint, found)
    for name, words in _doubtful(job).items():
        if getattr(joint.head, name) != "good":
            draft.need(_look_at(joint, name, words))
    if joint.head.crack_test != "none-found":
        draft.need(_cracks(joint))
    _leave_the_line(draft, job, joint, found)
    sound = "Free of cracks" if air else "Pressure tight"
    return draft.decided("go-on", f"{sound} and nothing against it: worth going on with")


def _words(job: Job, joint: Joint) -> frozenset[str]:
    """Say what the list of tests depends on: a head bought used, alloy, a cam in the head, a cut."""
    head, cut = joint.head, joint.cut
    said = {
        "used": head.origin == "used",
        "alloy": head.material == "aluminium",
        "cam-in-head": job.engine.valve_gear in IN_HEAD,
        cooled_by(job): True,
        sealed_by(job): True,
        "cut": any(one is not None and one.value > 0.0 for one in (cut.head, cut.block)),
    }
    return frozenset(word for word, holds in said.items() if holds)


def _doubtful(job: Job) -> dict[str, str]:
    """Return the parts of a head that are looked at, as far as this one has them."""
    lacks = {"core_plugs": cooled_by(job) == AIR, "valves": sealed_by(job) == PORTED}
    return {name: words for name, words in DOUBTFUL.items() if not lacks[name]}


def _nothing_known(joint: Joint) -> bool:
    head = joint.head
    known = (head.pressure_test, head.crack_test, head.hardness, head.cam_tunnel, head.overheated)
    return all(one is None for one in known)


def _scrapped(draft: Draft, joint: Joint, found: Findings, damage: Damage | Missing) -> str:
    """Return why it is scrap, or nothing; judges height and hardness on the way."""
    cut = found.get(Cut)
    if (
        isinstance(cut, Cut)
        and judge_height(draft, joint, "head", "height now", cut.height_now) is Outcome.FAILS
    ):
        return "Head is under its least height: no metal left"
    hardness = _hardness(draft, joint)
    if hardness is Outcome.FAILS and joint.head.hardness:
        return f"Head is soft: {both(joint.head.hardness.value, 'hardness')}, under the least of the papers"
    if not isinstance(damage, Missing):
        for crack in damage.cracks():
            rule = crack_rule(joint, damage, crack) if crack.face == "head" else None
            if rule and (rule["action"] == "scrap" or water(joint, crack) == "yes"):
                draft.notes.append(
                    Note("Only a crack specialist's written offer changes that.", COMMON_PRACTICE)
                )
                yes_or_no(draft, "head: cracks that condemn it", Outcome.FAILS, "cracked")
                return "Head is cracked to water: not worth machining as it is"
    return ""


def _hardness(draft: Draft, joint: Joint) -> Outcome | None:
    limit = picked(joint, "hardness", Context(part="head", material=joint.head.material))
    if joint.head.hardness is None or limit.winner is None:
        return None
    reading = Step.work_out(
        "Hardness of the head, as read",
        "reading",
        {"reading": (joint.head.hardness.value, "HB")},
        ("hardness", "HB"),
        COMMON_PRACTICE,
    )
    return draft.add(judge("head: hardness", "hardness", reading.value, limit), (reading,)).outcome


def _tests(draft: Draft, job: Job, joint: Joint, damage: Damage | Missing) -> str:
    """Return which tests come first, worst first, or nothing when all are done."""
    head = joint.head
    first = _cracks_first(draft, joint) if cooled_by(job) == AIR else _pressure_first(draft, joint)
    if _may_be_soft(joint, damage) and not any(check.quantity == "hardness" for check in draft.checks):
        draft.need(_read_hardness(joint))
        yes_or_no(
            draft, "head: hardness against its least", Outcome.CANNOT_TELL, "not read, or no least known"
        )
        first.append("hardness")
    if head.crack_test == "found" and not first:
        first.append("cracks found, have them judged")
        draft.need(_cracks(joint))
    if job.engine.valve_gear in IN_HEAD and head.cam_tunnel in (None, "not-checked"):
        draft.need(turn_the_cam(joint))
        first.append("cam turned by hand")
    return clip(f"Test before machining: {', '.join(first)}") if first else ""


def _pressure_first(draft: Draft, joint: Joint) -> list[str]:
    """Judge the pressure test of the water jacket; return what is to be done about it."""
    name = "head: tight under the pressure test"
    match joint.head.pressure_test:
        case "tight":
            yes_or_no(draft, name, Outcome.HOLDS, "tight")
            return []
        case "leaks":
            yes_or_no(draft, name, Outcome.FAILS, "leaks")
            draft.need(_where_it_leaks(joint))
            return ["it leaks under test, find where"]
        case _:
            yes_or_no(draft, name, Outcome.CANNOT_TELL, "not done")
            draft.need(pressure_test(joint))
            return ["pressure test"]


def _cracks_first(draft: Draft, joint: Joint) -> list[str]:
    """Judge the crack test of a head without a water jacket; return what is to be done about it."""
    name = "head: free of cracks"
    match joint.head.crack_test:
        case "none-found":
            yes_or_no(draft, name, Outcome.HOLDS, "none found")
            return []
        case "found":
            yes_or_no(draft, name, Outcome.FAILS, "found")
            return []
        case _:
            yes_or_no(draft, name, Outcome.CANNOT_TELL, "not done")
            draft.need(_cracks(joint))
            return ["crack test with dye"]


def _may_be_soft(joint: Joint, damage: Damage | Missing) -> bool:
    """Tell whether an alloy head has been hot enough to lose its temper."""
    printed = not isinstance(damage, Missing) and any(
        mark.kind == "imprint" and mark.face == "head" for mark in damage.marks
    )
    return joint.head.material == "aluminium" and (bool(joint.head.overheated) or printed)


def _bent(draft: Draft, job: Job, joint: Joint, found: Findings) -> Answer:
    """Straighten where face and tunnel are bent together, line-bore where only the tunnel is out."""
    binds(draft)
    if joint.head.material in ("grey-iron", "ductile-iron", "compacted-iron"):
        draft.cautions.append("Iron is not pulled straight: it cracks, at once or on the first heat.")
        return draft.decided("line-bore", "Head of iron: the cam binds, line-bore the tunnel")
    head = [check for check in face_flat.answer(job, joint, found).checks if check.name.startswith("head")]
    if not head:
        draft.need(unread(joint, "head"))
        return draft.decided("test-first", "Head: the cam binds; read its face, bowed or flat decides how")
    if all(check.outcome in (Outcome.HOLDS, Outcome.AT_LIMIT) for check in head):
        draft.cautions.append(
            "The face is in while the tunnel is out: it was milled bowed before. Pulled straight it would bow the face."
        )
        return draft.decided("line-bore", "Head: the cam binds and the face is in, line-bore the tunnel")
    return draft.decided("straighten", "Head: the cam binds in its tunnel, straighten before any other work")


def _leave_the_line(draft: Draft, job: Job, joint: Joint, found: Findings) -> None:
    """A tunnel that is straight under a bowed face is left alone: milling keeps it, pulling would bend it."""
    if job.engine.valve_gear not in IN_HEAD or joint.head.cam_tunnel != "turns-free":
        return
    flat = face_flat.answer(job, joint, found)
    if any(check.name.startswith("head") and check.outcome is Outcome.FAILS for check in flat.checks):
        draft.cautions.append(
            "The cam turns free while the face is out: leave the tunnel alone. Milling keeps it straight, pulling the "
            "face flat would bend it."
        )


def _cracks(joint: Joint) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.head.crack_test",),
        measure="cracks: across the bridges, to plug or injector holes, between chambers",
        tool="dye on alloy, magnetic powder on iron",
        how="Clean to bright metal first; mark both ends of whatever shows.",
    )


def _read_hardness(joint: Joint) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.head.hardness", f"joint.{joint.name}.limits"),
        measure="hardness of the head on a machined pad and near the hottest place, and the least the maker allows",
        tool="portable hardness tester, at the shop",
        how="Three readings at each place on clean flats. An alloy head that was overheated or took a print of the liners "
        "may have lost its temper: it then sinks under the ring again.",
    )


def _where_it_leaks(joint: Joint) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.readings.damage",),
        measure="where the pressure test bubbles: core plug, guide, injector sleeve, seat, or the metal itself",
        tool="the test rig again, with soap and a lamp",
        how="A plug or sleeve is changed and tested again; a crack is marked at both ends and judged by itself.",
    )


def _look_at(joint: Joint, name: str, words: str) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.head.{name}",),
        measure=f"{words}: good or doubtful",
        tool="eye, lamp and a light hammer",
        how="Rust stains, thin spots and looseness count against them; change them while the head is off.",
    )
