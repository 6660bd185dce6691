"""How pistons and liners stand in one set of cut and gasket: its class, and the stand the block cut leaves."""

from firedeck.answers.given import picked
from firedeck.answers.judging import Judged, judge
from firedeck.answers.liners_wanted import clamp_and_read
from firedeck.answers.making import Draft
from firedeck.findings.combination import Combination, Set
from firedeck.findings.pistons import PistonClass
from firedeck.job import Joint
from firedeck.tables import Picked
from firedeck.trace import Context, Limit, Measure, Missing, Rank, Step

STAND = "piston_protrusion"


def judge_stands(draft: Draft, joint: Joint, combination: Combination, one: Set) -> None:
    """Hold pistons against the class of the set's gasket, and liners against the papers."""
    classes = combination.classes
    own = next((each for each in classes if each.name == one.gasket), None)
    if own and one.pistons:
        _judge_pistons(draft, joint, one, own, classes)
    _judge_liners(draft, joint, one)


def _judge_liners(draft: Draft, joint: Joint, one: Set) -> None:
    """Hold the liners of the set against the papers; read without clamps they are no figure to choose by."""
    for words, quantity, step in one.liners.figures:
        limit = picked(joint, quantity, Context(part="block", construction=one.construction))
        if limit.winner is None:
            continue
        if one.liners.loose:
            draft.need(clamp_and_read(joint))
            return
        draft.add(judge(f"liners, {words}", quantity, step.value, limit), (step,))


def _judge_pistons(
    draft: Draft, joint: Joint, one: Set, own: PistonClass, classes: tuple[PistonClass, ...]
) -> None:
    """Judge by the rule of the book; where none is given, by all, as long as they agree."""
    rules = [joint.block.piston_rule] if joint.block.piston_rule else list(one.pistons)
    judged = [_in_class(one.pistons[rule], own, classes) for rule in rules]
    outcomes = {each.check.outcome for each in judged}
    if len(outcomes) == 1:
        draft.add(judged[0], (one.pistons[rules[0]],))
        return
    draft.need(
        Missing(
            (f"joint.{joint.name}.block.piston_rule",),
            "the rule of the book: does the highest reading, the highest mean of one piston, or the mean of all decide",
            "the engine's manual",
            "Look beside the table of gasket classes; the rules of books choose differently here.",
        )
    )


def _in_class(step: Step, own: PistonClass, classes: tuple[PistonClass, ...]) -> Judged:
    """Hold a stand against a class: the thinnest has no lower end, and a gap below belongs to the thicker one."""
    thinner = [each for each in classes if each.low < own.low]
    low = max((each.high for each in thinner if each.high is not None), default=None)
    limit = Limit(
        quantity=STAND,
        low=min(low, own.low) if low is not None else None,
        high=own.high,
        measure=Measure.INDICATOR_TOTAL,
        applies=Context(part="block"),
        rank=Rank.PART_SHEET,
        source=own.source,
        where=f"class of gasket {own.name}",
    )
    return judge("piston stand in the class of its gasket", STAND, step.value, Picked(limit, (), "class"))
