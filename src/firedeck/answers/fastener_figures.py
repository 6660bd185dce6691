"""What the study of the joint says of its fasteners: force kept after the first heat, evenness, what scatter does."""

from firedeck.answers.making import Draft
from firedeck.findings.joint import BoltNow, JointFound, JointStudy
from firedeck.job import Joint
from firedeck.trace import DERIVED, GENERIC, Check, Missing, Note, Outcome, Step

NO_LIMIT = "no limit is known for it"
OPEN = (
    "How strong: force kept after the first heat, evenness and what scatter does to the rings come with the study of the "
    "joint, and it is not there"
)


def add_fastener_figures(draft: Draft, joint: Joint, found: JointFound | Missing) -> None:
    """Add the joint's own numbers where the rings were worked out; else say that this stays open."""
    study = found.study if isinstance(found, JointFound) else None
    if study is None or not study.bolts:
        why = found.measure + " not known" if isinstance(found, Missing) else found.uncarried or found.waiting
        draft.notes.append(Note(f"{OPEN}: {why}.", GENERIC))
        return
    _kept(draft, min(study.bolts, key=lambda one: one.cold / one.tightened))
    _even(draft, study)
    draft.notes.extend(Note(text, DERIVED) for text in (*_scatter(study), *_waisted(joint)))


def _kept(draft: Draft, bolt: BoltNow) -> None:
    figures = {"cold": (bolt.cold, "N"), "tightened": (bolt.tightened, "N")}
    says = f"Pull of fastener {bolt.label} after the first heat, cold again, over what the wrench left"
    step = Step.work_out(says, "cold / tightened", figures, ("force_kept", "1"), DERIVED)
    name = f"force kept after the first heat, fastener {bolt.label}, least of all"
    _show(draft, name, "force_kept", step)


def _even(draft: Draft, study: JointStudy) -> None:
    pulls = [bolt.cold for bolt in study.bolts]
    figures = {"least": (min(pulls), "N"), "most": (max(pulls), "N")}
    says = "Least pull over largest, after the first heat, cold again"
    step = Step.work_out(says, "least / most", figures, ("evenness", "1"), DERIVED)
    _show(draft, "evenness of the fasteners after the first heat", "evenness", step)


def _show(draft: Draft, name: str, quantity: str, step: Step) -> None:
    text = f"{100 * step.value:.0f} %: {NO_LIMIT}"
    draft.add_check(Check(name, quantity, step.value, Outcome.CANNOT_TELL, text=text), (step,), DERIVED)


def _scatter(study: JointStudy) -> list[str]:
    """Say what wrench and friction do to the ring that decides."""
    place = study.decides
    return [
        f"What wrench and friction make of the torque moves the ring of No {place.bore} by {one.band.low:+.1f} to "
        f"{one.band.high:+.1f} N/mm, {100 * one.share:.0f} % of all that is not known there."
        for one in study.influences
        if one.name == "tension"
    ]


def _waisted(joint: Joint) -> list[str]:
    """Say how waisted and plain shanks are held against each other on this engine."""
    return [
        f"{'Plain' if group.waisted else 'Waisted'} ones, ring by ring: firedeck what-if FILE --change "
        f"joint.{joint.name}.fasteners.{group.name}.waisted={'false' if group.waisted else 'true'}"
        for group in joint.fasteners
    ]
