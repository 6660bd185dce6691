"""What a face may still lose: least height, most off in all, and most off both together."""

from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft
from firedeck.findings.cut import Cut
from firedeck.findings.stock import FaceStock
from firedeck.job import Joint
from firedeck.trace import Context, Missing, Outcome, Step

HEIGHT = {"head": "head_height", "block": "deck_height"}


def judge_height(draft: Draft, joint: Joint, face: str, name: str, height: Step | None) -> Outcome | None:
    """Hold a height against the least of the papers; None where either is not known."""
    limit = picked(joint, HEIGHT[face], context_of(joint, face))
    if height is None or limit.winner is None:
        return None
    return draft.add(judge(f"{face}: {name}", HEIGHT[face], height.value, limit), (height,)).outcome


def judge_in_all(draft: Draft, joint: Joint, face: str, off: Step) -> Outcome | None:
    """Hold what is off in all against the most of the papers; None where they name none."""
    limit = picked(joint, "cut", context_of(joint, face))
    if limit.winner is None:
        return None
    return draft.add(judge(f"{face}: off in all since new", "cut", off.value, limit), (off,)).outcome


def judge_together(draft: Draft, joint: Joint, cut: Cut) -> Outcome | None:
    """Hold what is off head and block together against the papers; None where they name no sum."""
    limit = picked(joint, "cut_together", Context(material=joint.head.material))
    if limit.winner is None:
        return None
    name = "off head and block together"
    parts = (cut.planned.head_in_all, cut.planned.block_in_all, cut.together)
    return draft.add(judge(name, "cut_together", cut.together.value, limit), parts).outcome


def budget_left(draft: Draft, joint: Joint, stock: FaceStock) -> list[Outcome]:
    """Judge everything that may use the budget of a face up; what is not known is asked for."""
    found = [
        judge_height(draft, joint, stock.face, "height once clean", stock.height_bare),
        judge_in_all(draft, joint, stock.face, stock.in_all),
    ]
    if all(outcome is None for outcome in found):
        draft.need(budget_of(joint, stock.face))
    return [outcome for outcome in found if outcome is not None]


def budget_of(joint: Joint, face: str) -> Missing:
    """Say how the budget of a face is found."""
    part = f"joint.{joint.name}.{face}"
    measured = "heights_before" if face == "head" else "height_before"
    return Missing(
        paths=(f"{part}.{measured}", f"joint.{joint.name}.limits"),
        measure=f"height of the {face} at four corners, and the least height (or most that may come off) of this engine",
        tool="micrometer or vernier, and the manual",
        how="From the face to the surface the book names, usually the cover rail; note page and figure. Look for marks "
        "of an earlier cut as well.",
    )


def context_of(joint: Joint, face: str) -> Context:
    """Return what a limit of this face has to speak of."""
    part = joint.head if face == "head" else joint.block
    return Context(part=face, material=part.material)
