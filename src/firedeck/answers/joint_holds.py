"""joint-holds: every ring against the joint as it left the factory, where it can be worked out; the simple sum besides.

It never says that a joint holds: no worse, worse, cannot tell, or no better than what failed.
"""

from dataclasses import dataclass

from firedeck.answers import damage_near_seal, face_flat, finish_right
from firedeck.answers.answer import LONGEST_HEADLINE, Answer, State
from firedeck.answers.conditions import conditions
from firedeck.answers.counting import clip, count
from firedeck.answers.gas_said import of_the_gas
from firedeck.answers.making import Draft
from firedeck.answers.ring_checks import judge_rings, load_words, share_words
from firedeck.answers.ring_figures import add_figures, add_next
from firedeck.answers.simple_witness import LOAD, judge_simple_sum, set_aside
from firedeck.findings.clamp import Clamp
from firedeck.findings.finding import Findings
from firedeck.findings.gas import Gas
from firedeck.findings.holding import Holding
from firedeck.findings.joint import JointFound, JointStudy
from firedeck.findings.joint import Rank as Against
from firedeck.findings.threads import Threads
from firedeck.job import Job, Joint
from firedeck.tables.work import lines
from firedeck.trace import GENERIC, Missing, Note, Outcome

QUESTION = "joint-holds"
GATES = {
    "face-flat": face_flat.answer,
    "finish-right": finish_right.answer,
    "damage-near-seal": damage_near_seal.answer,
}


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge the change; gates come before any clamp."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    draft.anyway = (
        "Less clamp over the gas than the factory gave opens at the ring first, at full load. Watch for a hose hard "
        "from cold and soot at the edge. Undoing it costs gasket, bolts and often the faces."
    )
    gates = _gates(draft, job, joint, found)
    _say(draft, job, joint, found)
    holding, clamp, rings = found.get(Holding), found.get(Clamp), found.get(JointFound)
    if isinstance(holding, Missing):
        return draft.open("No procedure known: the clamp of this joint cannot be worked out", holding)
    simple = judge_simple_sum(draft, holding, clamp if isinstance(clamp, Clamp) else None)
    study = rings.study if isinstance(rings, JointFound) else None
    if study is None:
        _without_rings(draft, rings)
        return _by_simple_sum(draft, job, holding, gates)
    judge_rings(draft, study)
    add_figures(draft, study, boosted=_boosted(job))
    if study.rank is None or not study.compared:
        if simple is Outcome.FAILS:
            return _by_simple_sum(draft, job, holding, gates)
        add_next(draft, study)
        draft.need(_as_built(draft))
        return draft.open(
            _headline(gates.first, f"Nothing to compare with; lowest {load_words(study.decides)}")
        )
    _two_witnesses(draft, simple, study.rank)
    return _by_rings(draft, job, study, gates)


@dataclass(frozen=True)
class Gates:
    """What must be right before any clamp counts: what is decided against, and what is not known yet."""

    closed: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def first(self) -> str:
        """Return what stands in front of every headline."""
        return f"{self.closed[0]} first; " if self.closed else ""


def _gates(draft: Draft, job: Job, joint: Joint, found: Findings) -> Gates:
    """No clamp mends a face: what is decided against the faces stands first."""
    closed, unknown = [], []
    for name, give in GATES.items():
        other, said = give(job, joint, found), name.replace("-", " ")
        if other.state in (State.DECIDED, State.CLOSE) and other.action not in ("leave", "cut-removes-it"):
            closed.append(said)
            count(draft, said, 0, Outcome.FAILS, other.headline)
        elif other.state is State.OPEN:
            unknown.append(said)
            draft.assumptions.append(f"{said} is still open: the sum takes both faces as right")
    if closed:
        draft.cautions.append(f"Put right first, no torque mends it: {', '.join(closed)}")
    return Gates(tuple(closed), tuple(unknown))


def _say(draft: Draft, job: Job, joint: Joint, found: Findings) -> None:
    gas = found.get(Gas)
    words = conditions(job, joint, found.get(Threads))
    boosted = _boosted(job)
    holding = words | ({"boosted"} if boosted else frozenset())
    draft.notes.extend(Note(f"{line.text}.", line.source) for line in lines("joint_notes", holding))
    if isinstance(gas, Gas):
        draft.notes.extend(of_the_gas(job, joint, gas))
    if boosted:
        draft.cautions.append(
            "Only without detonation: any answer for boost is without knock, which adds to the peak what no clamp was "
            "reckoned for"
        )


def _boosted(job: Job) -> bool:
    boost = job.document.running.boost
    return bool(boost and boost.value > 0.0)


def _without_rings(draft: Draft, rings: JointFound | Missing) -> None:
    """Say why the rings were not worked out place by place, and what that would take."""
    if isinstance(rings, Missing):
        draft.need(rings)
        draft.notes.append(Note(f"Ring by ring it is not worked out: {rings.measure} not known.", GENERIC))
    elif rings.uncarried:
        draft.notes.append(Note(f"Ring by ring it cannot be worked out: {rings.uncarried}.", GENERIC))
    elif rings.waiting:
        draft.notes.append(Note(f"Ring by ring it is not worked out yet: {rings.waiting}.", GENERIC))


def _two_witnesses(draft: Draft, simple: Outcome | None, rank: Against) -> None:
    """Say when the simple sum and the rings place by place disagree; the rings decide."""
    against = {Against.NO_WORSE: Outcome.FAILS, Against.WORSE: Outcome.HOLDS}.get(rank)
    if simple is not None and simple is against:
        says = "worse" if simple is Outcome.FAILS else "no less"
        set_aside(draft, f"the simple sum says {says}, ring by ring it is {rank.value}")
        draft.cautions.append(
            f"Two witnesses disagree: the simple sum says {says}, ring by ring it is {rank.value}. The rings know where "
            "the load goes and decide; look at what was taken as given."
        )


def _by_rings(draft: Draft, job: Job, study: JointStudy, gates: Gates) -> Answer:
    """End by the rank of the worst ring; a joint whose faces are not known to be right is never no worse."""
    gate, place = gates.first, study.decides
    room = LONGEST_HEADLINE - len(gate)
    said = _headline(gate, share_words(place, room))
    if study.rank is Against.WORSE:
        return draft.decided("worse", said)
    add_next(draft, study)
    if study.rank is Against.CANNOT_RANK:
        return draft.close("cannot-rank", said)
    if failed := _failed(job):
        return draft.decided(
            "not-below-what-failed", _headline(gate, f"No worse than as built, but {failed}")
        )
    if not study.differs:
        said = _headline(gate, f"As it left the factory; lowest place No {place.bore}, {place.side}")
    if gates.closed or gates.unknown:
        wait = gate or f"{gates.unknown[0]} not known; "
        said = _headline(wait, share_words(place, LONGEST_HEADLINE - len(wait)))
        return draft.open(said, _faces_first(draft, gates))
    return draft.decided("no-worse", said)


def _headline(gate: str, text: str) -> str:
    whole = f"{gate}{text[:1].lower()}{text[1:]}" if gate else text
    return clip(whole[:1].upper() + whole[1:])


def _failed(job: Job) -> str:
    history = job.document.history
    if history.failed_as_standard:
        return "this engine failed as standard"
    return "the standard joint is known weak" if history.standard_record == "weak" else ""


def _by_simple_sum(draft: Draft, job: Job, holding: Holding, gates: Gates) -> Answer:
    """End by the simple sum alone: worse, too near to tell or open, never that it holds."""
    gate, load = gates.first, holding.load_share
    if load is None:
        draft.need(_as_built(draft))
        return draft.open(_headline(gate, "Nothing to compare with: how it left the factory is not known"))
    outcome = next(check.outcome for check in draft.checks if check.name == LOAD)
    figure = f"{load.step.value:.2f} of as it left the factory"
    if outcome is Outcome.FAILS:
        return draft.decided("worse", _headline(gate, f"Clamp over gas force {figure}"))
    if failed := _failed(job):
        return draft.decided(
            "not-below-what-failed", _headline(gate, f"Clamp over gas {load.step.value:.2f}, but {failed}")
        )
    draft.need(_the_rest(draft))
    if outcome is Outcome.CANNOT_TELL:
        return draft.close("cannot-rank", _headline(gate, f"Clamp over gas force {figure}, too near to tell"))
    text = f"No less clamp over gas by the simple sum ({load.step.value:.2f}); that proves nothing"
    return draft.open(_headline(gate, text))


def _as_built(draft: Draft) -> Missing:
    name = draft.joint.name if draft.joint else ""
    return Missing(
        paths=("as_built.changes", f"joint.{name}.procedure.text", "running.boost_before"),
        measure="how it left the factory: torque or angle, fasteners, lubricant, gasket, ratio and boost pressure",
        tool="papers of this engine",
        how="Write under as_built what has been changed since, each with its value as it left the factory; when nothing "
        "was changed, write one of them as it stands now.",
    )


def _the_rest(draft: Draft) -> Missing:
    name = draft.joint.name if draft.joint else ""
    return Missing(
        paths=(f"joint.{name}.readings.faces", f"joint.{name}.head.section", "running.peak_pressure"),
        measure="where round the ring the load goes: faces, stiffness of the head, true tension, peak pressure",
        tool="straightedge and leaves, vernier, micrometer over the fasteners, boost gauge",
        how="Read both faces across the bridges, the height of the head and its deck, the stretch of every fastener, and "
        "the boost under full load; the more of it is known, the nearer the load of each ring.",
    )


def _faces_first(draft: Draft, gates: Gates) -> Missing:
    name = draft.joint.name if draft.joint else ""
    what = ", ".join((*gates.closed, *gates.unknown))
    return Missing(
        paths=(f"joint.{name}.readings.faces", f"joint.{name}.readings.finish"),
        measure=f"both faces as they will be put together: {what}",
        tool="straightedge and leaves, comparator plate",
        how="Put right what fails and read it again; what is sealed is not worse only on faces that are right.",
    )
