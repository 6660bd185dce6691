"""combination: complete sets of cut and gasket side by side, and the one that stays nearest to standard."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from firedeck.answers import cut_how_much, gasket_which
from firedeck.answers.answer import Answer, State, Working
from firedeck.answers.counting import clip
from firedeck.answers.cut_checks import judge_effects, words_of
from firedeck.answers.making import Draft, both, worst
from firedeck.answers.set_lines import Judgement, line_of
from firedeck.answers.stands_in_set import judge_stands
from firedeck.findings.combination import Combination, Set
from firedeck.findings.cut import Cut
from firedeck.findings.effects import nothing_changes
from firedeck.findings.faces import unread
from firedeck.findings.finding import Findings
from firedeck.findings.stock import FaceStock
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.trace import DERIVED, Check, Missing, Note, Outcome

QUESTION = "combination"


MOST = 3
"""Sets shown: more than three nobody compares."""


@dataclass(frozen=True)
class Least:
    """Why a face has to be cut, and what cleaning it takes (None: not measured)."""

    why: str
    stock: FaceStock | None


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge every set; of those that hold choose the one nearest to standard."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    combination = found.get(Combination)
    if isinstance(combination, Missing):
        return draft.open("No set can be put together yet", combination)
    needed = _needed(draft, job, joint, found)
    able = _that_clean(draft, combination.sets, needed)
    if not able:
        return draft.open("No set cleans the face yet", *_how_deep(joint, needed))
    gasket = _gasket_wanted(draft, job, joint, found)
    every = [_judge(job, joint, one, combination) for one in able]
    judged = sorted(every, key=lambda one: _rank(one, gasket))[:MOST]
    for one in judged:
        _take_over(draft, one)
        draft.work.append(line_of(one, every))
    if left := [one.of.name for one in every if one not in judged]:
        draft.assumptions.append(f"three sets are shown, the best of all; not shown: {', '.join(left)}")
    draft.assumptions.append(
        "of sets that hold, the one nearest to the ratio and head height of standard is chosen"
    )
    draft.anyway = "Every set takes metal or room the next repair would need; what is cut stays cut."
    return _ending(draft, judged, gasket)


def _gasket_wanted(draft: Draft, job: Job, joint: Joint, found: Findings) -> str:
    """Return the gasket chosen by construction; a set with it goes before one that is nearer to standard."""
    if joint.gasket.fitted:
        return joint.gasket.fitted
    which = gasket_which.answer(job, joint, found)
    if which.choice and len(joint.gasket.candidates) > 1:
        draft.assumptions.append(f"a set with gasket {which.choice} goes first: see which gasket")
    return which.choice


def _needed(draft: Draft, job: Job, joint: Joint, found: Findings) -> dict[str, Least]:
    """Return the faces that have to be cut, each with the least that cleans it."""
    if joint.cut.done:
        return {}
    asked = cut_how_much.answer(job, joint, found)
    if asked.state is State.OPEN:
        draft.assumptions.append(
            "a face that has not been read is taken as sound: see how much has to come off"
        )
    cut = found.get(Cut)
    assert isinstance(cut, Cut)
    wanted = cut_how_much.faces_out(job, joint, found)
    return {face: Least(why, cut.face(face)) for face, why in wanted.items()}


def _that_clean(draft: Draft, sets: Sequence[Set], needed: Mapping[str, Least]) -> list[Set]:
    """Leave out every set that does not clean a face that has to be cut, and every cut no face asks for."""
    able = []
    for one in sets:
        short = [face for face, least in needed.items() if _too_little(one.cut_of(face), least)]
        if short:
            least = needed[short[0]]
            asks = both(least.stock.least.value, "cut") if least.stock else "only a cut"
            draft.notes.append(
                Note(f"Left out: {one.name}: {short[0]} {least.why}, {asks} cleans it.", DERIVED)
            )
        elif not one.cleans - set(needed):
            able.append(one)
    return able


def _too_little(cut: float, least: Least) -> bool:
    if least.stock is None:
        return not cut
    return meets(cut, low=least.stock.least.value) is Meets.FAILS


def _how_deep(joint: Joint, needed: Mapping[str, Least]) -> list[Missing]:
    """Ask for the readings that say how much cleans a face, or for the gaskets to go with it."""
    return [unread(joint, face) for face, least in needed.items() if least.stock is None] or [
        Missing(
            (f"joint.{joint.name}.cut",),
            "a cut that cleans the face, or another head",
            "see how much has to come off",
            "Plan at least what cleans the face, then put the sets together again.",
        )
    ]


def _judge(job: Job, joint: Joint, one: Set, combination: Combination) -> Judgement:
    """Judge one set by itself."""
    own = Draft(QUESTION, joint)
    if nothing_changes(one.effects):
        same = Check("head where it was", "cut", one.effects.drop.value, Outcome.HOLDS)
        own.add_check(same, (one.effects.drop,), DERIVED)
    else:
        judge_effects(own, job, joint, one.effects)
    judge_stands(own, joint, combination, one)
    checks = tuple(replace(check, name=f"{one.name}: {check.name}", of=one.name) for check in own.checks)
    bad = worst(checks) if checks else None
    outcome = bad.outcome if bad else Outcome.CANNOT_TELL
    if own.next and outcome is not Outcome.FAILS:
        outcome = Outcome.CANNOT_TELL
    return Judgement(one, checks, outcome, bad, _away(one), own)


def _take_over(draft: Draft, judged: Judgement) -> None:
    """Put the checks, sums and wants of a set that is shown into the answer."""
    own, name = judged.draft, judged.of.name
    draft.checks.extend(judged.checks)
    draft.steps.extend(Working(f"{name}: {working.check}", working.step) for working in own.steps)
    draft.source(*own.sources)
    known = {item.missing.measure for item in draft.next}
    draft.need(*(item.missing for item in own.next if item.missing.measure not in known))


_ORDER = (Outcome.HOLDS, Outcome.AT_LIMIT, Outcome.CANNOT_TELL, Outcome.FAILS)


def _rank(one: Judgement, gasket: str) -> tuple[int, bool, float]:
    """Order sets: what holds before what does not, the gasket chosen by construction, the one nearest to standard."""
    return _ORDER.index(one.outcome), one.of.gasket != gasket, one.away


def _away(one: Set) -> float:
    """Say how far a set is from standard: by its ratio where that is known, else by how far the head comes down."""
    ratios = [ratio for ratio in one.effects.ratios if ratio.after is not None]
    return max((abs((r.after or 0.0) - r.before) for r in ratios), default=abs(one.effects.drop.value))


def _ending(draft: Draft, judged: Sequence[Judgement], gasket: str) -> Answer:
    holding = [one for one in judged if one.outcome is Outcome.HOLDS]
    open_ones = any(one.outcome is Outcome.CANNOT_TELL for one in judged)
    if holding and not (open_ones and all(nothing_changes(one.of.effects) for one in holding)):
        best = min(holding, key=lambda one: (one.of.gasket != gasket, one.away))
        return draft.decided("choose", _headline(best, "every figure in"), best.of.name)
    if open_ones:
        sets = "The one set is not complete" if len(judged) == 1 else f"{len(judged)} sets, none complete"
        return draft.open(clip(f"{sets}: {draft.next[0].missing.measure.split(':')[0]}"))
    at_limit = [one for one in judged if one.outcome is Outcome.AT_LIMIT]
    if at_limit:
        best = min(at_limit, key=lambda one: (one.of.gasket != gasket, one.away))
        return draft.close("choose", _headline(best, "at a limit"), best.of.name)
    least = min(judged, key=lambda one: sum(check.outcome is Outcome.FAILS for check in one.checks))
    words = words_of(least.worst) if least.worst else least.of.name
    return draft.decided("none-works", clip(f"None works; nearest {words}"))


def _headline(best: Judgement, how: str) -> str:
    return clip(f"Choose {best.of.name}: {how}")
