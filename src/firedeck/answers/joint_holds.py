"""joint-holds: clamp over gas force against the joint as it left the factory. It never says that it holds."""

from dataclasses import replace

from firedeck.answers import damage_near_seal, face_flat, finish_right
from firedeck.answers.answer import Answer, State
from firedeck.answers.conditions import conditions
from firedeck.answers.counting import clip, count
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.findings.clamp import Clamp
from firedeck.findings.finding import Findings
from firedeck.findings.gas import Gas
from firedeck.findings.holding import Holding, Share
from firedeck.findings.threads import Threads
from firedeck.job import Job, Joint
from firedeck.quantity import Kind, show
from firedeck.tables import Picked
from firedeck.tables.work import lines
from firedeck.trace import (
    DERIVED,
    GENERIC,
    Band,
    Check,
    Context,
    Limit,
    Measure,
    Missing,
    Note,
    Outcome,
    Rank,
)

QUESTION = "joint-holds"
NEVER = "The simple sum can say worse, or that it cannot tell; that a joint holds it never says."
GATES = {
    "face-flat": face_flat.answer,
    "finish-right": finish_right.answer,
    "damage-near-seal": damage_near_seal.answer,
}
LOAD = "clamp over gas force, against as it left the factory"


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge the change; gates come before any clamp."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    draft.anyway = (
        "Less clamp over the gas than the factory gave opens at the ring first, at full load. Watch for a hose hard "
        "from cold and soot at the edge. Undoing it costs gasket, bolts and often the faces."
    )
    closed = _gates(draft, job, joint, found)
    _say(draft, job, joint, found)
    holding, clamp = found.get(Holding), found.get(Clamp)
    if isinstance(holding, Missing):
        return draft.open("No procedure known: the clamp of this joint cannot be worked out", holding)
    if isinstance(clamp, Clamp):
        _judge_lost(draft, clamp)
        said = [Note(f"{one.name}: {note.text}", note.source) for one in clamp.groups for note in one.notes]
        draft.notes.extend(dict.fromkeys(said))
    _judge_shares(draft, holding)
    _judge_bores(draft, holding)
    draft.need(*holding.missing)
    draft.assumptions.extend(note.text for note in holding.taken)
    return _ending(draft, job, holding, closed)


def _gates(draft: Draft, job: Job, joint: Joint, found: Findings) -> tuple[str, ...]:
    """No clamp mends a face: what is decided against the faces stands first."""
    closed = []
    for name, give in GATES.items():
        other = give(job, joint, found)
        if other.state in (State.DECIDED, State.CLOSE) and other.action not in ("leave", "cut-removes-it"):
            closed.append(name)
            count(draft, name.replace("-", " "), 0, Outcome.FAILS, other.headline)
        elif other.state is State.OPEN:
            draft.assumptions.append(
                f"{name.replace('-', ' ')} is still open: the sum takes both faces as right"
            )
    if closed:
        draft.cautions.append(
            f"Put right first, no torque mends it: {', '.join(n.replace('-', ' ') for n in closed)}"
        )
    return tuple(closed)


def _say(draft: Draft, job: Job, joint: Joint, found: Findings) -> None:
    running, gas = job.document.running, found.get(Gas)
    words = conditions(job, joint, found.get(Threads))
    boosted = bool(running.boost and running.boost.value > 0.0)
    holding = words | ({"boosted"} if boosted else frozenset())
    draft.notes.extend(Note(f"{line.text}.", line.source) for line in lines("joint_notes", holding))
    draft.notes.append(Note(NEVER, GENERIC))
    if isinstance(gas, Gas) and gas.peak is not None:
        draft.notes.extend(gas.peak.notes)
        low, high = both(gas.peak.band.low, "peak"), both(gas.peak.band.high, "peak")
        if not gas.peak.from_papers:
            text = f"Peak pressure worked out: {both(gas.peak.value, 'peak')}, {low} to {high}."
            draft.notes.append(Note(text, GENERIC))
    if boosted:
        draft.cautions.append(
            "Any answer for boost is without knock: knock adds to the peak what no clamp was reckoned for"
        )


def _judge_lost(draft: Draft, clamp: Clamp) -> None:
    if clamp.lost is None:
        return
    share = clamp.lost.share
    outcome = Outcome.FAILS if clamp.lost.band.low > 0.0 else Outcome.CANNOT_TELL
    low, high = (show(end, Kind.SHARE, "mm") for end in (clamp.lost.band.low, clamp.lost.band.high))
    text = f"{low} to {high} by the torque they move on at; stiction makes the loss look smaller than it is"
    check = Check(
        "clamp lost since it was tightened",
        "clamp_lost",
        share.value,
        outcome,
        band=clamp.lost.band,
        text=text,
    )
    draft.add_check(check, (share,), DERIVED)


def _judge_shares(draft: Draft, holding: Holding) -> None:
    for name, quantity, share in (
        ("clamp against as it left the factory", "clamp_share", holding.clamp_share),
        ("gas force against as it left the factory", "gas_share", holding.gas_share),
    ):
        if share is not None:
            outcome = Outcome.CANNOT_TELL if quantity == "gas_share" else _against_one(share)
            check = Check(name, quantity, share.step.value, outcome, band=_wide(share))
            draft.add_check(check, (share.step,), DERIVED)
    if holding.load_share is not None:
        share = holding.load_share
        limit = Limit(
            "load_share", 1.0, None, Measure.COMPUTED, Context(), Rank.COMMON_PRACTICE, DERIVED, "as built"
        )
        judged = judge(LOAD, "load_share", share.step.value, Picked(limit, (), ""), _wide(share))
        draft.add(replace(judged, check=replace(judged.check, band=share.band)), (share.step,))


def _wide(share: Share) -> Band | None:
    """Give the band of a share, none where it is sharp."""
    return None if share.band.low == share.band.high else share.band


def _against_one(share: Share) -> Outcome:
    if share.band.high < 1.0:
        return Outcome.FAILS
    return Outcome.HOLDS if share.band.low >= 1.0 else Outcome.CANNOT_TELL


def _judge_bores(draft: Draft, holding: Holding) -> None:
    """Show the weakest bore; no limit is known for the figure by itself."""
    if holding.now is None:
        return
    bore = holding.now.of(holding.now.weakest)
    text = f"{bore.ratio:.2f}, {bore.band.low:.2f} to {bore.band.high:.2f}: an order of size, no limit is known for it"
    name = f"bore {bore.label}: clamp over gas force, weakest of all"
    check = Check(name, "clamp_ratio", bore.ratio, Outcome.CANNOT_TELL, band=bore.band, text=text)
    places = [i for i, step in enumerate(holding.now.steps) if step.says.endswith(f"bore {bore.label}")]
    steps = holding.now.steps[places[0] : places[-1] + 1] if places else holding.now.steps[:3]
    draft.add_check(check, steps, DERIVED)
    draft.assumptions.extend(note.text for note in holding.now.assumptions)


def _ending(draft: Draft, job: Job, holding: Holding, closed: tuple[str, ...]) -> Answer:
    history = job.document.history
    failed = history.failed_as_standard or history.standard_record == "weak"
    gate = f"{closed[0].replace('-', ' ')} first; " if closed else ""
    load = holding.load_share
    if load is None:
        draft.need(_as_built(draft))
        return draft.open(clip(f"{gate}Nothing to compare with: how it left the factory is not known"))
    by_name = {check.name: check.outcome for check in draft.checks}
    outcome = by_name[LOAD]
    figure = f"{load.step.value:.2f} of as it left the factory"
    if outcome is Outcome.FAILS:
        return draft.decided("worse", clip(f"{gate}clamp over gas force {figure}".capitalize()))
    if failed:
        why = (
            "this engine failed as standard"
            if history.failed_as_standard
            else "the standard joint is known weak"
        )
        return draft.decided(
            "not-below-what-failed", clip(f"{gate}clamp over gas {load.step.value:.2f}, but {why}")
        )
    draft.need(_the_rest(draft))
    if outcome is Outcome.CANNOT_TELL:
        return draft.close(
            "cannot-rank", clip(f"{gate}clamp over gas force {figure}, too near to tell".capitalize())
        )
    text = f"{gate}no less clamp over gas by the simple sum ({load.step.value:.2f}); that proves nothing"
    return draft.open(clip(text[:1].upper() + text[1:]))


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
        how="firedeck cannot work the ring out place by place yet. Read both faces across the bridges, the height of "
        "the head and its deck, the stretch of every fastener, and the boost under full load.",
    )
