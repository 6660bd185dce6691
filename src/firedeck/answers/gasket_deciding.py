"""What decides between gaskets, and what could turn their order round."""

from collections.abc import Sequence

from firedeck.answers.gasket_weighing import Against, Weighed
from firedeck.answers.making import Draft
from firedeck.trace import COMMON_PRACTICE, GENERIC, NO_UNIT, Check, Note, Outcome, Step


def say_what_decides(draft: Draft, best: Weighed, others: Sequence[Weighed]) -> None:
    """Name, for every other gasket, the subject that puts it behind the best."""
    for other in others:
        reasons = decides(best, other)
        if not reasons:
            continue
        inputs = {
            "against_other": (float(other.against), NO_UNIT),
            "against_best": (float(best.against), NO_UNIT),
        }
        step = Step.work_out(
            f"Speaks more against {other.name} than against {best.name}",
            "against_other - against_best",
            inputs,
            ("more", NO_UNIT),
            GENERIC,
        )
        subjects = ", ".join(dict.fromkeys(one.about for one in reasons))
        text = f"{subjects}: {reasons[0].text}"
        name = f"what decides between {best.name} and {other.name}"
        draft.add_check(Check(name, "pieces", step.value, Outcome.HOLDS, text=text), (step,), COMMON_PRACTICE)


def decides(best: Weighed, other: Weighed) -> tuple[Against, ...]:
    """Return what puts a gasket behind the best: what rules it out, else the subjects that weigh most against it."""
    if other.out:
        return (other.out,)
    own = {one.about: one.much for one in best.reasons}
    more = {
        about: sum(one.much for one in other.reasons if one.about == about) - own.get(about, 0)
        for about in dict.fromkeys(one.about for one in other.reasons)
    }
    most = max(more.values(), default=0)
    heaviest = [about for about, much in more.items() if much == most and much > 0]
    return tuple(next(one for one in other.reasons if one.about == about) for about in heaviest)


def say_what_could_turn(draft: Draft, best: Weighed, others: Sequence[Weighed]) -> None:
    """Say so where what is not read yet, or a reading at its limit, could turn the order round."""
    for other in others:
        if not other.out and other.unknown and other.against - other.unknown <= best.against:
            text = (
                f"What is not read yet could turn it round: with good readings {other.name} would stand level with "
                f"{best.name} or before it."
            )
            draft.notes.append(Note(text, GENERIC))
        if other.near:
            text = f"A reading near its limit could turn it round in favour of {other.name}: {', '.join(other.near)}."
            draft.notes.append(Note(text, GENERIC))
    if best.near and others:
        text = f"A reading near its limit could turn it round against {best.name}: {', '.join(best.near)}."
        draft.notes.append(Note(text, GENERIC))
