"""liners-stand: how high each liner or barrel stands, how evenly, and what a seat cut or shim would leave."""

from firedeck.answers.answer import Answer
from firedeck.answers.counting import clip
from firedeck.answers.given import picked
from firedeck.answers.judging import judge
from firedeck.answers.liners_wanted import ANYWAY, ask_step_rule, clamp_and_read, find_limit, read_all_round
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft, both, worst
from firedeck.findings.finding import Findings
from firedeck.findings.liners import Liners, Plan, what_stands
from firedeck.job import Job, Joint
from firedeck.tables import Picked
from firedeck.trace import COMMON_PRACTICE, Check, Context, Missing, Outcome, Step

QUESTION = "liners-stand"
FIXED = ("dry", "cast-in")
"""Liners nobody shims or recuts in a garage."""


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge stand, step and spread by the book's limits; readings without clamps are never final."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    what = what_stands(job, joint)
    liners = found.get(Liners)
    if isinstance(liners, Missing):
        if what == "none":
            return draft.not_applicable("No liners to read", "the block is bored without liners")
        if what == "cast-in":
            why = "they are cast in and stand with the face; a short edge over each bore shows one that sank"
            return draft.not_applicable("No loose liners to read", why)
        return draft.open(
            "Liners have not been read yet" if what != "unknown" else "Not said whether it has liners", liners
        )
    _judge_all(draft, joint, liners)
    _say_how_read(draft, joint, liners)
    return _ending(draft, joint, liners)


def _judge_all(draft: Draft, joint: Joint, liners: Liners) -> None:
    stand = liners.stand
    for name, step in (("highest stand", stand.highest), ("lowest stand", stand.lowest)):
        _judge(draft, joint, liners, (name, "liner_protrusion", step))
    if len(liners.readings) > 1:
        _judge_step(draft, joint, liners)
    if any(len(each) > 1 for each in liners.readings.values()):
        _judge(draft, joint, liners, ("spread round one", "liner_spread", stand.spread_within))
    if not draft.checks:
        draft.need(find_limit(joint, liners))
    if liners.plan:
        _judge(
            draft, joint, liners, ("lowest protrusion after the work", "liner_protrusion", liners.plan.lowest)
        )
        _judge(
            draft,
            joint,
            liners,
            ("highest protrusion after the work", "liner_protrusion", liners.plan.highest),
        )


def _judge_step(draft: Draft, joint: Joint, liners: Liners) -> None:
    """Judge by the rule of the book; without one by means and by highest readings, as long as they agree."""
    limit = _limit(joint, liners, "liner_step")
    if limit.winner is None:
        return
    name = f"{'barrels' if liners.what == 'barrels' else 'liners'}, step between neighbours"
    judged = [judge(name, "liner_step", step.value, limit) for step in liners.steps]
    if len({one.check.outcome for one in judged}) == 1:
        draft.add(judged[0], (liners.steps[0],))
        return
    means, highest = (both(step.value, "liner_step") for step in liners.steps)
    text = f"{means} by means, {highest} by highest readings"
    unclear = Check(name, "liner_step", liners.steps[0].value, Outcome.CANNOT_TELL, text=text)
    draft.add_check(unclear, liners.steps, COMMON_PRACTICE)
    draft.need(ask_step_rule(joint))


def _judge(draft: Draft, joint: Joint, liners: Liners, one: tuple[str, str, Step]) -> None:
    name, quantity, step = one
    limit = _limit(joint, liners, quantity)
    if limit.winner is not None:
        draft.add(
            judge(
                f"{'barrels' if liners.what == 'barrels' else 'liners'}, {name}", quantity, step.value, limit
            ),
            (step,),
        )


def _limit(joint: Joint, liners: Liners, quantity: str) -> Picked:
    """Pick the papers' limit for the block (and the gasket that goes on), then what is usual for barrels."""
    made_of = {one.name: one.construction for one in joint.gasket.candidates}
    context = Context(part="block", construction=made_of.get(joint.gasket.fitted))
    limit = picked(joint, quantity, context)
    if limit.winner is None and liners.what in _PARTS:
        return picked(joint, quantity, Context(part=_PARTS[liners.what]))
    return limit


_PARTS = {"barrels": "barrel", "dry": "flush-liner", "cast-in": "flush-liner"}
"""What is usual where the papers are silent; wet liners have no usual stand."""


def _ending(draft: Draft, joint: Joint, liners: Liners) -> Answer:
    if not draft.checks:
        return draft.open(_headline(liners, "limits of the book wanted"))
    if liners.clamped == "not-clamped" and liners.needs_clamps:
        return draft.open(_headline(liners, "read without clamps: not final"), clamp_and_read(joint))
    draft.work.extend(listed("liner_work", _words(liners), _figures(draft)))
    if liners.plan and any("after the work" in check.name for check in draft.checks):
        return _with_plan(draft, liners.plan)
    bad = worst(draft.checks)
    sure = liners.clamped is not None or not liners.needs_clamps
    match bad.outcome:
        case Outcome.FAILS if not sure and not _too_low(bad):
            return draft.open(_of(bad, "out, but not said how clamped"), clamp_and_read(joint))
        case Outcome.FAILS:
            return draft.decided(_action(liners, bad), _of(bad, _out_words(liners, bad)))
        case Outcome.AT_LIMIT:
            return draft.close("leave", _of(bad, "exactly at the limit"))
        case Outcome.CANNOT_TELL:
            return draft.open(
                clip("Step between neighbours: the book's rule decides, means or highest readings")
            )
    if not sure:
        return draft.open(_of(bad, "holds, but not said how clamped"), clamp_and_read(joint))
    if liners.few:
        return draft.open(_of(bad, "holds, but too few readings round it"), read_all_round(joint, liners))
    return draft.decided("leave", _of(bad, "all in"))


def _with_plan(draft: Draft, plan: Plan) -> Answer:
    """Hold what the planned work leaves against the same limits."""
    after = worst([check for check in draft.checks if "after the work" in check.name])
    if after.outcome is Outcome.FAILS:
        return draft.decided("send-out", _of(after, "the plan leaves it out of its limit"))
    if after.outcome is Outcome.AT_LIMIT:
        return draft.close(plan.action, _of(after, "the plan leaves it at the limit"))
    return draft.decided(plan.action, _of(after, "the plan brings it in"))


def _action(liners: Liners, bad: Check) -> str:
    """Say what is done about the check that is out: raise what is low, cut the seat of what is high or tilted."""
    if liners.what in FIXED:
        return "send-out"
    if bad.quantity == "liner_spread" or (bad.quantity == "liner_protrusion" and not _too_low(bad)):
        return "cut-seat"
    return "shim"


def _out_words(liners: Liners, bad: Check) -> str:
    """Say what it means for a liner that is cut with the block: the metal beside it sank, or it sank itself."""
    if liners.what not in FIXED or bad.quantity != "liner_protrusion":
        return "out of its limit"
    if _too_low(bad):
        return "it has sunk below the deck"
    return "the alloy beside it has sunk" if liners.what == "cast-in" else "it stands proud of the deck"


def _too_low(check: Check) -> bool:
    limit = check.limit
    low = limit.low if limit else None
    return low is not None and check.value is not None and check.value < low


def _of(check: Check, how: str) -> str:
    return clip(f"{check.name.capitalize()} {both(check.value or 0.0, check.quantity)}: {how}")


def _headline(liners: Liners, how: str) -> str:
    low, high = (both(end.value, "liner_protrusion") for end in (liners.stand.lowest, liners.stand.highest))
    return clip(f"Stand {low} to {high}: {how}")


def _words(liners: Liners) -> frozenset[str]:
    words = {f"liners-{liners.what}", f"clamped-{liners.clamped or 'unknown'}"}
    return frozenset(words | ({f"plan-{liners.plan.action}"} if liners.plan else set()))


def _figures(draft: Draft) -> dict[str, str]:
    """Give what has to be gained or lost, from the rooms of the checks."""
    figures = {}
    for check in draft.checks:
        if check.outcome is Outcome.FAILS and check.margin is not None and "after" not in check.name:
            figures[check.quantity] = f"{both(-check.margin, check.quantity)} out: {check.name}"
    return figures


def _say_how_read(draft: Draft, joint: Joint, liners: Liners) -> None:
    if liners.clamped:
        draft.assumptions.append(f"clamped when read: {liners.clamped.replace('-', ' ')}")
    if liners.rule:
        draft.assumptions.append(f"rule of the book: {liners.rule}")
    if liners.few:
        names = ", ".join(liners.few)
        draft.assumptions.append(f"fewer than three readings round {names}: a tilted seat does not show")
        draft.need(read_all_round(joint, liners))
    if liners.needs_clamps:
        draft.cautions.append(
            "Hold wet liners down before the crank is turned: they walk out of their seats."
        )
    draft.anyway = ANYWAY.get(liners.what, ANYWAY["wet"])
