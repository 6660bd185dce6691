"""dry-or-coated: the faces by the kind of gasket, the threads by where their hole leads, corners."""

from firedeck.answers.answer import Answer
from firedeck.answers.conditions import conditions
from firedeck.answers.counting import clip, count, count_of
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft
from firedeck.findings.finding import Findings
from firedeck.findings.groups import gasket_that_goes_on
from firedeck.findings.procedure import Tightening
from firedeck.findings.sealant import SealantTime
from firedeck.findings.threads import ALL, Threads
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Candidate
from firedeck.trace import COMMON_PRACTICE, Context, Missing, Note, Outcome

QUESTION = "dry-or-coated"
FILMED = ("soft-copper", "steel-shim", "laminated", "none")
"""Constructions that take a film of something when they bear no coating of their own."""

COATED_OR_BARE = ("steel-shim", "laminated")
"""Constructions sold both ways: what is not stated is asked for."""


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """List what is dry and what is coated; the gasket not known leaves the faces open."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    threads = found.get(Threads)
    gasket = _gasket(joint)
    _judge_holes(draft, joint, threads)
    figures = _figures(gasket, threads, found.get(Tightening))
    draft.work.extend(listed("coat_work", _holding(job, joint, threads, gasket), figures))
    _say_sealer(draft, joint, threads)
    skinned = _judge_skin(draft, joint, found.get(SealantTime))
    if skinned:
        return draft.decided("stop", "Stop: the sealant skins before the head is torqued down, lay it later")
    if gasket is None or (gasket.construction in (None, "unknown") and not gasket.coated):
        count(draft, "kind of gasket known", 0, Outcome.CANNOT_TELL, "not known")
        return draft.open("Dry or not hangs on the gasket: name its kind first", _name_gasket(joint))
    count(draft, "kind of gasket known", 1, Outcome.HOLDS, _kind(gasket))
    draft.source(gasket.source)
    if gasket.construction in COATED_OR_BARE and gasket.coated is None:
        draft.assumptions.append(f"{gasket.name}: taken as bare; a painted or printed one goes on dry")
        draft.need(_name_gasket(joint))
    if gasket.used:
        count(
            draft, "gasket torqued down before", 1, Outcome.FAILS, "crushed beads and print do not come back"
        )
        return draft.decided("stop", "Stop: this gasket has been torqued down once, no coating mends that")
    draft.anyway = "Compound where none belongs lets the gasket slide or squeezes into passages; a dry thread into water "
    draft.anyway += "weeps up the bolt. Undoing either costs the gasket."
    return draft.decided("do-as-listed", _headline(gasket, threads))


def _gasket(joint: Joint) -> Candidate | None:
    """Return the gasket that goes on; several candidates of one kind answer alike."""
    gasket = gasket_that_goes_on(joint)
    candidates = joint.gasket.candidates
    if gasket is None and candidates and not joint.gasket.fitted:
        alike = {
            (one.construction in FILMED and not one.coated, one.construction in FILMED) for one in candidates
        }
        return candidates[0] if alike == {(False, False)} else None
    return gasket


def _holding(job: Job, joint: Joint, threads: Threads | Missing, gasket: Candidate | None) -> frozenset[str]:
    holding = conditions(job, joint, threads)
    if gasket is None:
        return holding
    return holding | {f"gasket-{gasket.construction}", "gasket-coated" if gasket.coated else "gasket-bare"}


def _figures(
    gasket: Candidate | None, threads: Threads | Missing, tightening: Tightening | Missing
) -> dict[str, str]:
    figures = {"gasket": gasket.name if gasket else ""}
    if isinstance(threads, Threads):
        figures["wet"] = ", ".join(threads.leading_to("water", "drain"))
        figures["oil"] = ", ".join(threads.leading_to("oil"))
        figures["blind"] = ", ".join(hole.label for hole in threads.holes if hole.hole == "blind")
    if isinstance(tightening, Tightening):
        said = {group.papers_lubricant or group.lubricant for group in tightening.groups}
        figures["lubricant"] = ", ".join(sorted(one for one in said if one)) or "look in the papers"
    return figures


def _judge_holes(draft: Draft, joint: Joint, threads: Threads | Missing) -> None:
    holes = threads.holes if isinstance(threads, Threads) else ()
    known = [hole for hole in holes if hole.leads is not None]
    outcome = Outcome.HOLDS if holes and len(known) == len(holes) else Outcome.CANNOT_TELL
    count_of(draft, "holes whose end is known", len(known), len(holes), outcome)
    if outcome is Outcome.CANNOT_TELL:
        draft.need(_probe(joint))


def _say_sealer(draft: Draft, joint: Joint, threads: Threads | Missing) -> None:
    """A wet hole wants sealer; the torque was written for something else: say so, change nothing silently."""
    wet = threads.leading_to("water", "drain") if isinstance(threads, Threads) else ()
    lubricants = {group.lubricant for group in joint.fasteners if group.lubricant}
    if wet and lubricants - {"thread-sealer"}:
        which = "Every hole" if wet == (ALL,) else f"Number {', '.join(wet)}"
        text = f"{which} opens into water: sealer there in place of {' or '.join(sorted(lubricants))}; "
        draft.cautions.append(text + "sealer turns about like oil, not like a dry thread")
    draft.notes.append(Note("Clean and dry is enough for a coated or soft-faced gasket.", COMMON_PRACTICE))


def _judge_skin(draft: Draft, joint: Joint, sealant: SealantTime | Missing) -> bool:
    """Hold the time to the last torque against the skin time; untimed dabs are asked for where there are any."""
    if isinstance(sealant, Missing):
        if joint.cover or joint.sealant.skin_time or joint.sealant.time_to_torque:
            draft.need(sealant)
        return False
    limit = picked(joint, "sealant_share", Context(part="head"))
    if limit.winner is None:
        return False
    judged = judge("time to torque over skin time", "sealant_share", sealant.share.value, limit)
    draft.add(judged, (sealant.share,))
    if judged.outcome is Outcome.AT_LIMIT:
        draft.cautions.append(
            "The sealant skins just as the last torque comes: lay it later, or ask a second pair of hands"
        )
    return judged.outcome is Outcome.FAILS


def _kind(gasket: Candidate) -> str:
    coat = {True: "coated", False: "not coated", None: "coating not stated"}[gasket.coated]
    construction = gasket.construction or "kind not named"
    return f"{construction.replace('-', ' ')}, {coat}"


def _headline(gasket: Candidate, threads: Threads | Missing) -> str:
    wet = threads.leading_to("water", "drain") if isinstance(threads, Threads) else ()
    which = "every bolt" if wet == (ALL,) else ", ".join(wet)
    threads_too = f"; sealer on {which}" if wet else "; threads as the torque is written for"
    if gasket.construction == "none":
        return clip(f"No gasket: only the compound the papers name, thin{threads_too}")
    if gasket.construction in FILMED and not gasket.coated:
        return clip(f"Bare {_kind(gasket).split(',')[0]}: thin even film, nothing on the ring{threads_too}")
    return clip(f"Gasket and faces clean and dry, nothing added{threads_too}")


def _name_gasket(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.gasket.candidates", f"joint.{joint.name}.gasket.fitted"),
        "which gasket goes on: its kind, and whether it is coated",
        "eye, the sheet in the wrapper",
        "Layers of steel, soft facing on a core, bare steel or copper: look at the edge. A coating shows as paint or "
        "printed lines; the sheet says dry or not.",
    )


def _probe(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.layout.fasteners",),
        "where each bolt hole leads: nowhere, water, oil",
        "wire, torch, a breath of air",
        "Rust or scale on the old bolt tells water, a clean oily one oil; blow into the hole and listen.",
    )
