"""finish-right: the roughness of each face against what the gasket wants."""

from firedeck.answers.answer import Answer
from firedeck.answers.given import picked
from firedeck.answers.judging import Judged, disputed, judge
from firedeck.answers.making import Draft, both, worst
from firedeck.findings.finding import Findings
from firedeck.findings.finish import FaceFinish, Finish
from firedeck.job import Job, Joint
from firedeck.job.paths import join_path
from firedeck.job.schema.joint import Candidate
from firedeck.tables import rows
from firedeck.trace import COMMON_PRACTICE, Check, Context, Missing, Note, Outcome

QUESTION = "finish-right"
NO_GASKET = "The finish is read; which gasket goes on decides what it has to be"
BADNESS = (Outcome.HOLDS, Outcome.AT_LIMIT, Outcome.CANNOT_TELL, Outcome.FAILS)
FIGURES = ("surface_finish", "Rz")
NO_FLAWS = "nothing the nail catches on"


def answer(_job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge both faces for every gasket that may go on."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    finish = found.get(Finish)
    if isinstance(finish, Missing):
        return draft.open("The finish has not been judged yet", finish)
    gaskets = gaskets_that_may_go_on(joint)
    if not gaskets:
        draft.need(_name_a_gasket(joint))
    differ = _judge_gaskets(draft, joint, finish, gaskets)
    for face in finish.faces:
        _judge_flaws(draft, face)
        _say_how_read(draft, joint, face)
    draft.need(*finish.missing)
    _say_what_matters(draft, gaskets)
    return _ending(draft, joint, finish, differ)


def gaskets_that_may_go_on(joint: Joint) -> tuple[Candidate, ...]:
    """Return the gasket chosen, or every candidate while none is."""
    chosen = tuple(one for one in joint.gasket.candidates if one.name == joint.gasket.fitted)
    return chosen or joint.gasket.candidates


def _judge_gaskets(draft: Draft, joint: Joint, finish: Finish, gaskets: tuple[Candidate, ...]) -> bool:
    """Judge the faces for the gasket they suit best; say of the others what they would want."""
    tried: dict[str, tuple[Draft, bool]] = {}
    for gasket in gaskets:
        one = Draft(QUESTION, joint)
        judged = [found for face in finish.faces for found in _judge(one, joint, face, gasket)]
        differ = any(found.differ for found in judged)
        draft.need(*(step.missing for step in one.next))
        if one.checks:
            tried[gasket.name] = (one, differ)
    if not tried:
        return False
    best = min(tried, key=lambda name: BADNESS.index(worst(tried[name][0].checks).outcome))
    for name, (other, _) in tried.items():
        bad = worst(other.checks)
        if name != best and bad.outcome is not Outcome.HOLDS:
            figure = both(bad.value or 0.0, "surface_finish")
            asks = bad.limit.text if bad.limit else ""
            says = f"For gasket {name} the {bad.name.split(' for ')[0]} at Ra {figure} is not right: it wants {asks}."
            draft.notes.append(Note(says, bad.limit.source if bad.limit else COMMON_PRACTICE))
    if len(tried) > 1:
        draft.assumptions.append(f"judged for gasket {best}, which these faces suit best")
    chosen, differ = tried[best]
    draft.checks += chosen.checks
    draft.steps += chosen.steps
    draft.source(*chosen.sources)
    return differ


def _judge(draft: Draft, joint: Joint, face: FaceFinish, gasket: Candidate) -> list[Judged]:
    if face.Ra is None or face.reading is None:
        return []
    part, mate = (joint.head, joint.block) if face.face == "head" else (joint.block, joint.head)
    context = Context(
        part=face.face,
        material=part.material,
        mating_material=mate.material,
        construction=gasket.construction,
        part_fitted=gasket.name,
        gasket=gasket.name,
        direction="any",
    )
    limit = picked(joint, "surface_finish", context)
    if limit.winner is None:
        draft.need(_ask_for_finish(joint, gasket))
        return []
    name = f"{face.face} face for gasket {gasket.name}"
    judged = judge(name, "surface_finish", face.Ra, limit, face.band)
    return [
        draft.add(disputed(judged), (face.reading, *face.of_trace)),
        *_by_rz(draft, joint, face, (name, context)),
    ]


def _by_rz(draft: Draft, joint: Joint, face: FaceFinish, about: tuple[str, Context]) -> list[Judged]:
    """Judge Rz as well where a paper limits it."""
    name, context = about
    limit = picked(joint, "Rz", context)
    if face.Rz is None or face.Rz_reading is None or limit.winner is None:
        return []
    return [draft.add(disputed(judge(f"{name}, Rz", "Rz", face.Rz, limit)), (face.Rz_reading,))]


def _say_how_read(draft: Draft, joint: Joint, face: FaceFinish) -> None:
    """Say how sure a figure is: by the nail, by Rz only, or from a trace."""
    if face.trace_fault:
        draft.need(_trace_again(joint, face))
    elif face.cutoff is not None:
        draft.assumptions.append(
            f"{face.face} face: from the trace, cut-off {face.cutoff:g} mm, Gaussian filter"
        )
    elif face.band is not None:
        draft.assumptions.append(f"{face.face} face: Ra from Rz; {face.band.why}")
    elif face.how == "comparator":
        draft.assumptions.append(
            f"{face.face} face: by the nail on a plate, one patch finer or rougher is not told"
        )


def _trace_again(joint: Joint, face: FaceFinish) -> Missing:
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "finish", face.name, "trace")),),
        measure=f"a trace of the {face.face} face that can be judged: {face.trace_fault}",
        tool="roughness tester",
        how="Six cut-offs long across the lay, saved as places and heights with their units in the header.",
    )


def _judge_flaws(draft: Draft, face: FaceFinish) -> None:
    for row in rows("finish_flaws"):
        if row["flaw"] in face.flaws:
            draft.notes.append(Note(f"{row['says']}.", row["source"]))
    if face.looked_at:
        outcome = Outcome.FAILS if face.flaws else Outcome.HOLDS
        name = f"{face.face} face: {NO_FLAWS}"
        text = ", ".join(face.flaws) or "none felt"
        draft.add_check(
            Check(name, "count", float(len(face.flaws)), outcome, text=text),
            (face.flaw_count,),
            COMMON_PRACTICE,
        )


def _ending(draft: Draft, joint: Joint, finish: Finish, differ: bool) -> Answer:
    measured = [check for check in draft.checks if check.quantity in FIGURES]
    if not draft.checks or (not measured and all(check.outcome is Outcome.HOLDS for check in draft.checks)):
        unread = tuple(_read_it(joint, face) for face in finish.faces if face.Ra is None)
        known = "The finish is read, no book limit for it is known" if joint.gasket.candidates else NO_GASKET
        return draft.open(
            "Eye and nail are not enough: the finish needs a figure" if unread else known, *unread
        )
    bad = worst(draft.checks)
    draft.anyway = (
        "Too rough leaks along the lay, too smooth lets a soft face creep; undoing it is the whole job again."
    )
    where = bad.name.split(" for ")[0].capitalize()
    if bad.quantity == "count" and bad.outcome is Outcome.FAILS:
        return draft.decided("cut", f"{where.split(':')[0]}: {bad.text} felt by the nail, have it refinished")
    figure = f"{where}: {'Rz' if bad.quantity == 'Rz' else 'Ra'} {both(bad.value or 0.0, bad.quantity)}"
    if differ:
        draft.need(which_finish(joint))
    if bad.outcome is Outcome.FAILS:
        too = (
            "too smooth"
            if bad.limit and bad.limit.low is not None and (bad.value or 0.0) < bad.limit.low
            else "too rough"
        )
        return draft.decided("cut", f"{figure}, {too} for {_gasket(bad)}")
    if bad.outcome is Outcome.AT_LIMIT:
        return draft.close("leave", f"{figure}, exactly at the limit for {_gasket(bad)}")
    if differ:
        return draft.close("leave", f"{figure}: sources disagree, ask the gasket's maker")
    if bad.outcome is Outcome.CANNOT_TELL:
        return draft.close("leave", f"{figure} from its Rz: that holds the limit, read Ra itself")
    if finish.missing:
        return draft.open(f"{where} is in, the other face has not been judged")
    return draft.decided("leave", f"Both faces are in: {figure[0].lower()}{figure[1:]}")


def _gasket(check: Check) -> str:
    return check.name.rsplit("gasket ", maxsplit=1)[-1]


def _say_what_matters(draft: Draft, gaskets: tuple[Candidate, ...]) -> None:
    if any(gasket.construction == "multi-layer-steel" for gasket in gaskets):
        text = "A steel-layer gasket is sensitive to roughness and flatness: know both figures before it goes on."
        draft.notes.append(Note(text, COMMON_PRACTICE))
    draft.notes.append(
        Note("The figure on the gasket maker's sheet wins over every general one.", COMMON_PRACTICE)
    )


def which_finish(joint: Joint) -> Missing:
    """Ask for the figure of the gasket's maker where sources of one rank disagree."""
    return Missing(
        paths=(f"joint.{joint.name}.limits",),
        measure="finish the gasket's maker asks for: sources of one rank disagree",
        tool="the sheet in the wrapper, or its maker",
        how="Note Ra with its unit, µm or µin, and whether a lowest figure is given as well.",
    )


def _name_a_gasket(joint: Joint) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.gasket.candidates",),
        measure="construction of the gasket that goes on, and the finish its sheet asks for",
        tool="the gasket and the sheet in its wrapper",
        how="Steel layers, composite, graphite on a core, copper: look at the cut edge of a hole.",
    )


def _ask_for_finish(joint: Joint, gasket: Candidate) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.limits",),
        measure=f"finish the sheet of gasket {gasket.name} asks for: no book limit known for it",
        tool="the sheet in the wrapper, or its maker",
        how="Note Ra with its unit, µm or µin, and whether a lowest figure is given as well.",
    )


def _read_it(joint: Joint, face: FaceFinish) -> Missing:
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "finish", face.name, "Ra")),),
        measure=f"Ra of the {face.face} face, with its unit",
        tool="comparator plate, or the shop's roughness tester",
        how="Drag the nail across the lay on face and plate, find the patch that feels the same.",
    )
