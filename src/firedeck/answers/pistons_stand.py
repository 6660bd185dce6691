"""pistons-stand: how far the pistons stand out, and which thickness class that asks for by the book's rule."""

from dataclasses import dataclass

from firedeck.answers.answer import Answer
from firedeck.answers.counting import clip
from firedeck.answers.given import picked
from firedeck.answers.judging import Judged, judge
from firedeck.answers.making import Draft, both
from firedeck.findings.finding import Findings
from firedeck.findings.pistons import PistonClass, Pistons, classes_of
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.tables import Picked
from firedeck.trace import COMMON_PRACTICE, Context, Limit, Measure, Missing, Note, Outcome, Rank

QUESTION = "pistons-stand"
WORDS = {"highest": "highest reading", "highest-mean": "highest mean", "mean-of-all": "mean of all"}
QUANTITY = "piston_protrusion"


@dataclass(frozen=True)
class Place:
    """Where a stand falls among the classes: the class to take, and how it lies in it."""

    of: PistonClass | None
    how: str


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Choose the class by the book's rule; without the rule only where every rule chooses alike."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    limit = picked(joint, QUANTITY, Context(part="block"))
    if not classes_of(joint) and limit.winner is None and job.engine.fuel != "diesel":
        return draft.not_applicable(
            "No gasket here is chosen by piston stand",
            "the papers give no class and no limit; the gap over the piston is judged with the cut",
        )
    pistons = found.get(Pistons)
    if isinstance(pistons, Missing):
        return draft.open("Piston stand has not been read yet", pistons)
    if pistons.unread:
        draft.need(_read_the_others(joint, pistons))
    _say(draft, pistons)
    if limit.winner is not None:
        _judge_ends(draft, pistons, limit)
    if pistons.classes:
        return _choose(draft, joint, pistons)
    return _by_limit(draft, joint)


def _judge_ends(draft: Draft, pistons: Pistons, limit: Picked) -> None:
    step = pistons.by_rule[pistons.rule or "highest"]
    draft.add(
        judge(f"piston stand, {WORDS[pistons.rule or 'highest']}", QUANTITY, step.value, limit), (step,)
    )


def _choose(draft: Draft, joint: Joint, pistons: Pistons) -> Answer:
    rules = [pistons.rule] if pistons.rule else list(pistons.by_rule)
    places = {rule: _place(pistons.by_rule[rule].value, pistons.classes) for rule in rules}
    chosen = {place.of.name if place.of else "" for place in places.values()}
    if len(chosen) > 1:
        says = ", ".join(
            f"{WORDS[rule]} {place.of.name if place.of else 'none'}" for rule, place in places.items()
        )
        draft.assumptions.append(f"class by each rule: {says}")
        return draft.open("Which class depends on the rule of the book", _ask_rule(joint))
    if pistons.rule is None:
        draft.assumptions.append(
            "no rule of the book given: highest, highest mean and mean of all choose alike"
        )
    rule = rules[0]
    place, step = places[rule], pistons.by_rule[rule]
    judged = _judge_class(f"deciding piston stand, {WORDS[rule]}", step.value, place, pistons.classes)
    draft.add(judged, (step,))
    return _ending(draft, joint, place, step.value)


def _place(value: float, classes: tuple[PistonClass, ...]) -> Place:
    """Find the class; on a shared bound the thicker is taken, between two classes too."""
    if meets(value, low=classes[0].low) is Meets.FAILS:
        return Place(classes[0], "below")
    fitting = [one for one in classes if meets(value, one.low, one.high) is not Meets.FAILS]
    if fitting:
        at_bound = len(fitting) > 1 or meets(value, fitting[-1].low, fitting[-1].high) is Meets.AT_LIMIT
        return Place(fitting[-1], "at" if at_bound else "in")
    above = [one for one in classes if meets(value, low=one.low) is Meets.FAILS]
    return Place(above[0], "between") if above else Place(None, "above")


def _judge_class(name: str, value: float, place: Place, classes: tuple[PistonClass, ...]) -> Judged:
    one = place.of or classes[-1]
    limit = Limit(
        quantity=QUANTITY,
        low=one.low,
        high=one.high,
        measure=Measure.INDICATOR_TOTAL,
        applies=Context(part="block"),
        rank=Rank.PART_SHEET,
        source=one.source,
        where=f"class of gasket {one.name}",
    )
    return judge(name, QUANTITY, value, Picked(limit, (), "class of the gasket"))


def _ending(draft: Draft, joint: Joint, place: Place, value: float) -> Answer:
    stand = both(value, QUANTITY)
    if any(check.outcome is Outcome.FAILS for check in draft.checks[:-1]) or place.of is None:
        draft.cautions.append("Do not turn the engine with the head on: the piston may reach it.")
        return draft.decided("send-out", clip(f"Stand {stand}: above every class, find out why"))
    name = place.of.name
    if pistons_unread(draft):
        return draft.open(clip(f"Stand {stand} so far: class {name}; read every piston"))
    match place.how:
        case "below":
            draft.cautions.append(
                "Below the thinnest class the ratio is lower than it was: cold starts suffer."
            )
            return draft.decided(
                "leave", clip(f"Stand {stand}, below every class: thinnest gasket, {name}"), name
            )
        case "between":
            return draft.open(clip(f"Stand {stand} lies between two classes: read again"), _read_again(joint))
    fitted = {joint.gasket.fitted} | _same_as_old(joint, place.of)
    action = "leave" if name in fitted else "change-class"
    headline = clip(f"Stand {stand}: class {name}")
    if place.how == "at":
        draft.need(_read_again(joint))
        return draft.close(action, clip(f"Stand {stand}, on the bound of a class: {name}"), name)
    return draft.decided(action, headline, name)


def pistons_unread(draft: Draft) -> bool:
    """Tell whether some piston has not been read."""
    return any("other pistons" in one.missing.measure for one in draft.next)


def _same_as_old(joint: Joint, one: PistonClass) -> set[str]:
    old = joint.gasket.old
    same = (
        old and old.thickness and one.thickness and meets(old.thickness.value, one.thickness, one.thickness)
    )
    return {one.name} if same is Meets.AT_LIMIT else set()


def _by_limit(draft: Draft, joint: Joint) -> Answer:
    if not draft.checks:
        return draft.open("The stand is read; the classes of the book are wanted", _ask_classes(joint))
    check = draft.checks[0]
    words = f"{check.name.capitalize()} {both(check.value or 0.0, QUANTITY)}"
    match check.outcome:
        case Outcome.FAILS if (
            check.limit and check.limit.low is not None and (check.value or 0.0) < check.limit.low
        ):
            return draft.decided("leave", clip(f"{words}: below the least of the book, thinnest gasket"))
        case Outcome.FAILS:
            return draft.decided("send-out", clip(f"{words}: over the most of the book"))
        case Outcome.AT_LIMIT:
            return draft.close("leave", clip(f"{words}: exactly at the limit"))
    return draft.decided("leave", clip(f"{words}: in"))


def _say(draft: Draft, pistons: Pistons) -> None:
    if pistons.from_deck:
        draft.assumptions.append("stand taken from the depth below the deck, with its sign turned")
    if len(pistons.readings) > 1:
        step = both(pistons.neighbours.value, QUANTITY)
        draft.assumptions.append(f"largest step between neighbours {step}")
    draft.notes.append(
        Note("Books differ: highest reading, highest mean or mean of all may decide.", COMMON_PRACTICE)
    )
    draft.anyway = (
        "A class too thin lets the piston touch, one too thick costs ratio and cold starts. "
        "Turn twice by hand; undoing it costs a gasket."
    )


def _ask_rule(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.block.piston_rule",),
        "the rule of the book: does the highest reading, the highest mean of one piston, or the mean of all decide",
        "the engine's manual",
        "Look beside the table of gasket classes; write highest, highest-mean or mean-of-all. There is no default.",
    )


def _ask_classes(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.gasket.candidates", f"joint.{joint.name}.limits"),
        "classes of piston protrusion in the book: from, to, and thickness of the gasket (notches or holes)",
        "the engine's manual or the parts list",
        "Write each gasket as a candidate with piston_from, piston_to and its compressed thickness.",
    )


def _read_again(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.readings.pistons",),
        "piston protrusion of the deciding piston once more, both places",
        "indicator on a bridge",
        "Set nought on the deck beside that bore; the reading lies on a bound, so a hundredth decides.",
    )


def _read_the_others(joint: Joint, pistons: Pistons) -> Missing:
    return Missing(
        (f"joint.{joint.name}.readings.pistons",),
        f"protrusion of the other pistons: {', '.join(pistons.unread)}",
        "indicator on a bridge",
        "Every piston is read; one that stands higher than the rest changes the class.",
    )
