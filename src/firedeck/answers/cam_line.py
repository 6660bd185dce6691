"""The cam tunnel comes before the face: a head whose tunnel is bent is straightened first, then surfaced."""

from firedeck.answers.answer import Answer
from firedeck.answers.counting import clip
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.answers.yes_or_no import yes_or_no
from firedeck.findings.cut import Cut
from firedeck.job import Job, Joint
from firedeck.trace import COMMON_PRACTICE, Context, Missing, Note, Outcome

IN_HEAD = ("overhead-cam", "twin-cam")


def cam_first(draft: Draft, job: Job, joint: Joint, cut: Cut, flat: Answer) -> Answer | None:
    """Return the answer where straightening comes first, else None with its checks in the draft."""
    if joint.head.cam_tunnel == "binds":
        binds(draft)
        _say_why(draft)
        return draft.decided(
            "straighten-first", "Head: the cam binds in its tunnel, straighten before any cut"
        )
    if cut.bow is None or not cam_may_be_bent(job, joint) or _head_is_in(flat):
        return None
    limit = picked(joint, "long_bow", Context(part="head", material=joint.head.material))
    if limit.winner is None:
        return None
    judged = draft.add(
        judge("head: bow along the cam line", "long_bow", cut.bow.gap, limit, cut.bow.band), (cut.bow.step,)
    )
    if judged.outcome is Outcome.HOLDS:
        return None
    draft.need(turn_the_cam(joint))
    if judged.outcome is Outcome.CANNOT_TELL:
        return None
    _say_why(draft)
    headline = f"Head: bow of {both(cut.bow.gap, 'long_bow')} with the cam in it, straighten before any cut"
    if judged.outcome is Outcome.AT_LIMIT:
        return draft.close("straighten-first", clip(headline))
    return draft.decided("straighten-first", clip(headline))


def cam_may_be_bent(job: Job, joint: Joint) -> bool:
    """Tell whether a cam runs in this head and nobody has turned it by hand yet."""
    in_head = job.engine.valve_gear in IN_HEAD and joint.head.cam_tunnel != "not-in-head"
    return in_head and joint.head.cam_tunnel != "turns-free"


def binds(draft: Draft) -> None:
    """Take in that the cam binds."""
    yes_or_no(draft, "head: cam turns by hand in its tunnel", Outcome.FAILS, "binds")


def turn_the_cam(joint: Joint) -> Missing:
    """Say how the cam tunnel is checked."""
    return Missing(
        paths=(f"joint.{joint.name}.head.cam_tunnel",),
        measure="whether the bare cam turns by hand in its tunnel, caps tightened, no valves pressing",
        tool="hand, and a straightedge through the tunnel",
        how="Followers out, oil the bearings, tighten the caps in steps, turn with two fingers; then lay the edge "
        "through the open tunnel.",
    )


def _say_why(draft: Draft) -> None:
    draft.notes.append(
        Note(
            "A cut flattens the face and leaves the bow in the cam line: the cam then binds or breaks.",
            COMMON_PRACTICE,
        )
    )
    draft.anyway = (
        "The face comes out flat and the cam still runs bent: worn bearings, a seized or broken cam."
    )


def _head_is_in(flat: Answer) -> bool:
    checks = [check for check in flat.checks if check.name.startswith("head")]
    return bool(checks) and all(check.outcome is Outcome.HOLDS for check in checks)
