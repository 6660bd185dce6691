"""gasket-which: among the gaskets that can be had, ranked by construction with what decides; never a make."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.answers.answer import Answer
from firedeck.answers.counting import clip
from firedeck.answers.gasket_reasons import boost_rise, reasons_against, words_of_joint
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft, both
from firedeck.answers.ways_of_laying import no_groove, wrong_side
from firedeck.findings.finding import Findings
from firedeck.findings.finish import Finish
from firedeck.findings.fits import CandidateFit, Fits
from firedeck.findings.liners import Liners
from firedeck.findings.pistons import Pistons
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Candidate
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.tables.work import lines
from firedeck.trace import COMMON_PRACTICE, GENERIC, Check, Context, Missing, Note, Outcome, Step

QUESTION = "gasket-which"
QUANTITY = "piston_protrusion"
UNREAD = frozenset({"finish-unknown", "flat-unknown", "liners-unread"})


@dataclass(frozen=True)
class Weighed:
    """One gasket: why it is out, or how much speaks against it, and how much of that is only unknown."""

    candidate: Candidate
    out: str
    against: int
    unknown: int
    reasons: tuple[str, ...]


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Rank the gaskets of the job; boost added to an engine that had less is for the maker of the parts."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    words = words_of_joint(job, joint, found)
    _notes(draft, joint, words)
    rise = boost_rise(job)
    if rise is not None:
        return _ask_the_maker(draft, job, rise, words)
    candidates = joint.gasket.candidates
    if not candidates:
        return draft.open("No gasket to choose from yet", _name_some(joint))
    weighed = [_weigh(draft, joint, found, one, words) for one in candidates]
    _ask_unknown(draft, joint, found, words, weighed)
    return _ending(draft, joint, weighed)


def _ask_the_maker(draft: Draft, job: Job, rise: Step, words: frozenset[str]) -> Answer:
    before = job.document.running.boost_before
    new = before is None or not before.value
    text = "boost on an engine that had none" if new else "more boost than it was built for"
    check = Check("boost added", "boost", rise.value, Outcome.FAILS, text=text)
    draft.add_check(check, (rise,), COMMON_PRACTICE)
    ratio = both(job.engine.ratio.value, "ratio") if job.engine.ratio else ""
    figures = {"boost": f"{both(rise.value, 'boost')} more than before", "ratio": ratio}
    draft.work.extend(listed("gasket_ask", words, figures))
    draft.cautions.append(
        "No standard gasket answers this: a catalogue figure is for the engine without the boost."
    )
    draft.anyway = (
        "The joint is loaded beyond what it left the factory for; a knock adds to that. Watch the cold hose."
    )
    return draft.decided("ask-the-maker", clip(f"{text.capitalize()}: ask the maker of the parts"))


def _weigh(draft: Draft, joint: Joint, found: Findings, one: Candidate, words: frozenset[str]) -> Weighed:
    """Put one gasket out for a reason that cannot be weighed, or count what speaks against it."""
    fits = found.get(Fits)
    fit = fits.of(one.name) if isinstance(fits, Fits) else None
    own = words | _liner_words(draft, joint, found, one) | _finish_words(draft, joint, found, one)
    out = _out(one, fit, own, joint.head.material) or _class(one, found.get(Pistons))
    reasons = reasons_against(one.construction, own)
    inputs = {f"reason_{place}": (float(line.figure), "1") for place, line in enumerate(reasons, start=1)}
    inputs = inputs or {"nothing": (0.0, "1")}
    step = Step.work_out(f"Speaks against {one.name}", " + ".join(inputs), inputs, ("against", "1"), GENERIC)
    said = tuple(line.text for line in reasons)
    outcome = Outcome.FAILS if out else Outcome.HOLDS
    name = f"against {one.name}"
    draft.add_check(
        Check(name, "pieces", step.value, outcome, text=out or "; ".join(said)), (step,), COMMON_PRACTICE
    )
    sure = reasons_against(one.construction, own - UNREAD)
    unknown = round(step.value) - sum(int(line.figure) for line in sure)
    return Weighed(one, out, round(step.value), unknown, said)


def _out(one: Candidate, fit: CandidateFit | None, words: frozenset[str], head: str | None) -> str:
    if one.used:
        return "has been tightened once and stays flat: a new one is wanted"
    if one.construction in (None, "unknown"):
        return "its construction is not known"
    if fit and fit.ring and fit.ring.overhang <= 0.0:
        return f"its ring stands {both(fit.ring.overhang, 'ring_overhang')} into the bore"
    unfit = fit and (wrong_side(fit, head) or no_groove(fit))
    if unfit:
        return unfit["reason"]
    if fit and fit.reach and fit.reach.value <= 0.0:
        return "its ring does not reach into the recess"
    if "liners-out" in words:
        return "the liners do not stand as it needs"
    return ""


def _class(one: Candidate, pistons: Pistons | Missing) -> str:
    """Put out a gasket made for pistons that stand otherwise; below every class the thinnest stays in."""
    if one.piston_from is None or isinstance(pistons, Missing):
        return ""
    stands = [pistons.by_rule[rule].value for rule in ([pistons.rule] if pistons.rule else pistons.by_rule)]
    thinnest = pistons.classes[0].name == one.name
    low = None if thinnest else one.piston_from.value
    high = one.piston_to.value if one.piston_to else None
    if low is None and high is None:
        return ""
    fails = [meets(stand, low, high) is Meets.FAILS for stand in stands]
    return (
        f"is made for pistons that stand from {both(one.piston_from.value, QUANTITY)}" if all(fails) else ""
    )


def _liner_words(draft: Draft, joint: Joint, found: Findings, one: Candidate) -> frozenset[str]:
    """Hold the liners against what this construction needs, where the papers say so."""
    context = Context(part="block", construction=one.construction, part_fitted=one.name, gasket=one.name)
    limit = picked(joint, "liner_protrusion", context)
    winner = limit.winner
    if winner is None or (winner.applies.construction is None and winner.applies.gasket is None):
        return frozenset()
    liners = found.get(Liners)
    if isinstance(liners, Missing):
        draft.need(liners)
        return frozenset()
    failed = False
    for which, step in (("lowest", liners.stand.lowest), ("highest", liners.stand.highest)):
        judged = judge(f"{which} liner for {one.name}", "liner_protrusion", step.value, limit)
        draft.add(judged, (step,))
        failed = failed or judged.outcome is Outcome.FAILS
    return frozenset({"liners-out"} if failed else set())


def _finish_words(draft: Draft, joint: Joint, found: Findings, one: Candidate) -> frozenset[str]:
    """Hold both faces against the finish this gasket wants; where sources of one rank differ it counts for nothing."""
    finish = found.get(Finish)
    if isinstance(finish, Missing):
        return frozenset()
    words = set()
    for face in finish.faces:
        part, mate = (joint.head, joint.block) if face.face == "head" else (joint.block, joint.head)
        context = Context(
            part=face.face,
            material=part.material,
            mating_material=mate.material,
            construction=one.construction,
            part_fitted=one.name,
            gasket=one.name,
            direction="any",
        )
        limit = picked(joint, "surface_finish", context)
        if face.Ra is None or face.reading is None or limit.winner is None:
            continue
        judged = judge(f"{face.face} finish for {one.name}", "surface_finish", face.Ra, limit)
        draft.add(judged, (face.reading,))
        words |= {"finish-out"} if judged.outcome is Outcome.FAILS and not judged.differ else set()
    return frozenset(words)


def _ending(draft: Draft, joint: Joint, weighed: Sequence[Weighed]) -> Answer:
    draft.anyway = (
        "The wrong construction shows after some heat cycles: it weeps first where the metals slide most."
    )
    able = sorted((one for one in weighed if not one.out), key=lambda one: one.against)
    unknown_kind = [
        one for one in weighed if one.candidate.construction in (None, "unknown") and not one.candidate.used
    ]
    if not able and unknown_kind:
        return draft.open(
            "The construction of the gasket is not known", _which_construction(joint, unknown_kind[0])
        )
    if not able:
        return draft.decided("none-fits", clip(f"None fits; {weighed[0].candidate.name}: {weighed[0].out}"))
    best = able[0]
    name = best.candidate.name
    if len(able) > 1 and able[1].against - able[1].unknown < best.against:
        _say_flip(draft, able)
    same = [
        one for one in able[1:] if one.against == best.against and not _alike(best.candidate, one.candidate)
    ]
    if same:
        names = ", ".join(one.candidate.name for one in same)
        return draft.open(clip(f"Nothing tells {name} from {names} yet"), _tell_apart(joint, [best, *same]))
    return draft.decided("use", clip(_headline(best, weighed)), name)


def _alike(one: Candidate, other: Candidate) -> bool:
    """Tell whether two gaskets are the same thing under two names."""
    return all(
        getattr(one, what) == getattr(other, what)
        for what in ("construction", "thickness", "bore", "wire", "coated")
    )


def _headline(best: Weighed, weighed: Sequence[Weighed]) -> str:
    name = best.candidate.name
    others = sorted((one for one in weighed if one is not best), key=lambda one: (not one.out, -one.against))
    if not others:
        return f"Use {name}: {best.reasons[0]}" if best.reasons else f"Use {name}: nothing speaks against it"
    other = others[0]
    why = other.out or (other.reasons[0] if other.reasons else "as good")
    return f"Use {name}; {other.candidate.name}: {why}"


def _say_flip(draft: Draft, able: Sequence[Weighed]) -> None:
    """Say so where what is not known yet could turn the order round."""
    best, other = able[0].candidate.name, able[1].candidate.name
    text = f"What is not read yet could turn it round: with good readings {other} would come before {best}."
    draft.notes.append(Note(text, GENERIC))


def _ask_unknown(
    draft: Draft, joint: Joint, found: Findings, words: frozenset[str], weighed: Sequence[Weighed]
) -> None:
    """Name the readings that would take something off what speaks against a gasket."""
    if not any(one.unknown for one in weighed):
        return
    if "liners-unread" in words:
        liners = found.get(Liners)
        draft.need(*([liners] if isinstance(liners, Missing) else []))
    finish = found.get(Finish)
    draft.need(*([finish] if isinstance(finish, Missing) else finish.missing))
    if "flat-unknown" in words:
        draft.need(
            Missing(
                (f"joint.{joint.name}.readings.faces",),
                "flatness of both faces, head and block",
                "straightedge and feeler leaves",
                "Along, across and on both diagonals; short edge across each bridge.",
            )
        )


def _notes(draft: Draft, joint: Joint, words: frozenset[str]) -> None:
    """Say what there is to know of the constructions in question."""
    own = {f"gasket-{one.construction}" for one in joint.gasket.candidates if one.construction}
    own |= {"gasket-coated" for one in joint.gasket.candidates if one.coated}
    own |= {f"retorque-{one.retorque}" for one in joint.gasket.candidates if one.retorque}
    draft.notes.extend(Note(line.text, line.source) for line in lines("gasket_notes", words | own))


def _tell_apart(joint: Joint, same: Sequence[Weighed]) -> Missing:
    """Say what would tell gaskets of equal standing apart: the groove for wires, else thickness, else their sheets."""
    names = " or ".join(one.candidate.name for one in same)
    if any(one.candidate.wire for one in same):
        return Missing(
            (f"joint.{joint.name}.block.groove_depth", f"joint.{joint.name}.readings.liners"),
            f"depth and width of the groove for the wire, and the stand of every liner: {names}",
            "depth micrometer, indicator on a bridge",
            "Wire less groove depth is what stands proud: ask the maker how much, and no more than liners differ by.",
        )
    if len({one.candidate.thickness.value for one in same if one.candidate.thickness}) > 1:
        return Missing(
            (f"joint.{joint.name}.block.deck_clearance", f"joint.{joint.name}.chamber"),
            f"what the thickness does, to choose {names}: piston stand or depth, chamber volume, valve-to-piston gap",
            "indicator, burette, clay",
            "Thickness is chosen by class, gap over the piston and ratio: see the sets put together.",
        )
    return Missing(
        (f"joint.{joint.name}.gasket.candidates", f"joint.{joint.name}.limits"),
        f"what the sheets ask of finish and flatness, to choose {names}",
        "sheets with the parts",
        "Write the figures as limits with the name of the gasket they are for.",
    )


def _name_some(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.gasket.candidates",),
        "gaskets that can be had: construction, ring bore, compressed thickness, and what their sheet asks of the faces",
        "parts list and the sheets with the parts",
        "Write two or three as candidates; name them as you like, the construction decides.",
    )


def _which_construction(joint: Joint, one: Weighed) -> Missing:
    return Missing(
        (f"joint.{joint.name}.gasket.candidates.{one.candidate.name}.construction",),
        f"construction of {one.candidate.name}: layers of steel, facing on a core, copper, shim or ring",
        "eye, magnet, vernier on the edge",
        "Look at the edge of a bolt hole: layers, facing, or one metal.",
    )
