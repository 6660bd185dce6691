"""gasket-which: among the gaskets that can be had, ranked by construction with what decides; never a make."""

from collections.abc import Sequence

from firedeck.answers.answer import Answer
from firedeck.answers.counting import clip
from firedeck.answers.gasket_deciding import say_what_could_turn, say_what_decides
from firedeck.answers.gasket_reasons import boost_rise, words_of_joint
from firedeck.answers.gasket_weighing import Asked, Readings, Weighed, of_thickness, weigh
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft, both
from firedeck.findings.finding import Findings
from firedeck.findings.finish import Finish
from firedeck.findings.gas import Gas
from firedeck.findings.liners import Liners
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Candidate
from firedeck.tables.work import lines
from firedeck.trace import COMMON_PRACTICE, DERIVED, Check, Missing, Note, Outcome, Step

QUESTION = "gasket-which"


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Rank the gaskets of the job; boost added to an engine that had less is for the maker of the parts."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    words = words_of_joint(job, joint, found)
    _notes(draft, joint, words)
    rise = boost_rise(job)
    if rise is not None:
        return _ask_the_maker(draft, job, rise, words, found.get(Gas))
    candidates = joint.gasket.candidates
    if not candidates:
        return draft.open("No gasket to choose from yet", _name_some(joint))
    weighed = _all_weighed(draft, job, joint, found, words)
    _ask_unknown(draft, joint, found, words, weighed)
    return _ending(draft, joint, weighed)


def _ask_the_maker(draft: Draft, job: Job, rise: Step, words: frozenset[str], gas: Gas | Missing) -> Answer:
    before = job.document.running.boost_before
    new = before is None or not before.value
    text = "boost on an engine that had none" if new else "more boost than it was built for"
    check = Check("boost added", "boost", rise.value, Outcome.FAILS, text=text)
    draft.add_check(check, (rise,), COMMON_PRACTICE)
    ratio = both(job.engine.ratio.value, "ratio") if job.engine.ratio else ""
    figures = {"boost": f"{both(rise.value, 'boost')} more than before", "ratio": ratio}
    draft.work.extend(listed("gasket_ask", words, figures))
    _say_change(draft, gas)
    draft.cautions.append(
        "No standard gasket answers this: a catalogue figure is for the engine without the boost."
    )
    draft.anyway = (
        "The joint is loaded beyond what it left the factory for; a knock adds to that. Watch the cold hose."
    )
    return draft.decided("ask-the-maker", clip(f"{text.capitalize()}: ask the maker of the parts"))


def _all_weighed(
    draft: Draft, job: Job, joint: Joint, found: Findings, words: frozenset[str]
) -> list[Weighed]:
    """Weigh every gasket; gap and ratio count only where they tell the gaskets apart."""
    asked = Asked(draft, job, joint, found)
    candidates = joint.gasket.candidates
    thin = [list(of_thickness(asked, one, Readings())) for one in candidates]
    tells = not all(thin)
    if not tells:
        text = f"Every gasket {thin[0][0].text} or worse: that is the cut, not the gasket; see the sets."
        draft.notes.append(Note(text, DERIVED))
    weighed = []
    for one in candidates:
        with draft.speaking_of(one.name):
            weighed.append(weigh(asked, one, words, tells))
    return weighed


def _say_change(draft: Draft, gas: Gas | Missing) -> None:
    """Say how the load on the joint changes against standard, with its band, and under which condition."""
    if isinstance(gas, Missing) or gas.peak is None:
        return
    low, high = both(gas.peak.band.low, "peak"), both(gas.peak.band.high, "peak")
    times = f", {gas.share.value:.2f} times standard" if gas.share else ""
    peak = both(gas.peak.value, "peak")
    text = f"Peak pressure {peak}, between {low} and {high}{times}: only without detonation."
    draft.notes.append(Note(text, DERIVED))


def _ending(draft: Draft, joint: Joint, weighed: Sequence[Weighed]) -> Answer:
    draft.anyway = (
        "The wrong construction shows after some heat cycles: it weeps first where the metals slide most."
    )
    able = sorted((one for one in weighed if not one.out), key=lambda one: one.against)
    unknown_kind = [one for one in weighed if one.out and one.out.about == "construction"]
    if not able and unknown_kind:
        return draft.open(
            "The construction of the gasket is not known", _which_construction(joint, unknown_kind[0])
        )
    if not able:
        first = weighed[0]
        why = first.out.text if first.out else ""
        return draft.decided("none-fits", clip(f"None fits; {first.name}: {why}"))
    best = able[0]
    say_what_could_turn(draft, best, [one for one in weighed if one is not best])
    same = [
        one for one in able[1:] if one.against == best.against and not _alike(best.candidate, one.candidate)
    ]
    if same:
        names = ", ".join(one.name for one in same)
        return draft.open(
            clip(f"Nothing tells {best.name} from {names} yet"), _tell_apart(joint, [best, *same])
        )
    say_what_decides(draft, best, [one for one in weighed if one is not best])
    return draft.decided("use", clip(_headline(best, weighed)), best.name)


def _alike(one: Candidate, other: Candidate) -> bool:
    """Tell whether two gaskets are the same thing under two names."""
    return all(
        getattr(one, what) == getattr(other, what)
        for what in ("construction", "thickness", "bore", "wire", "coated")
    )


def _headline(best: Weighed, weighed: Sequence[Weighed]) -> str:
    others = sorted((one for one in weighed if one is not best), key=lambda one: (not one.out, -one.against))
    if not others:
        return f"Use {best.name}: {best.reasons[0].text if best.reasons else 'nothing speaks against it'}"
    other = others[0]
    why = other.out or (other.reasons[0] if other.reasons else None)
    return f"Use {best.name}; {other.name}: {why.text if why else 'as good'}"


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
    names = " or ".join(one.name for one in same)
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
        (f"joint.{joint.name}.gasket.candidates.{one.name}.construction",),
        f"construction of {one.name}: layers of steel, facing on a core, copper, shim or ring",
        "eye, magnet, vernier on the edge",
        "Look at the edge of a bolt hole: layers, facing, or one metal.",
    )
