"""shop-order: what the machine shop is asked for in writing, with its datum, its most and its finish."""

from collections.abc import Iterator
from dataclasses import dataclass

from firedeck.answers import casting_worth, cut_how_much
from firedeck.answers.answer import Answer, Work
from firedeck.answers.budget import HEIGHT, context_of
from firedeck.answers.counting import clip
from firedeck.answers.finish_right import gaskets_that_may_go_on, which_finish
from firedeck.answers.given import picked
from firedeck.answers.making import Draft, both
from firedeck.answers.yes_or_no import of_word, yes_or_no
from firedeck.findings.cooling import AIR, cooled_by
from firedeck.findings.cut import Cut
from firedeck.findings.damage import Damage
from firedeck.findings.faces import Faces
from firedeck.findings.finding import Findings
from firedeck.findings.finish import feed_wanted
from firedeck.findings.stock import FaceStock
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.tables import Row, rows
from firedeck.trace import Context, Limit, Missing

QUESTION = "shop-order"
COVER_RAIL = "the face the heights are measured from, usually the cover rail"
FIRST = {
    "measure-head": "measure the head face",
    "measure-block": "measure the deck",
    "straighten": "straighten",
    "pressure": "pressure test",
    "cracks": "crack test",
}
"""What comes before the cut, in the words of the headline."""


@dataclass(frozen=True)
class _Test:
    """The test a head passes before metal comes off."""

    field: str
    passes: str
    name: str
    word: str
    occasion: str

    def passed(self, joint: Joint) -> bool:
        return self._reading(joint) == self.passes

    def said(self, joint: Joint) -> str:
        return (self._reading(joint) or "not done").replace("-", " ")

    def _reading(self, joint: Joint) -> str | None:
        reading: str | None = getattr(joint.head, self.field)
        return reading


_PRESSURE = _Test("pressure_test", "tight", "pressure tested", "pressure tight", "pressure")
_CRACKS = _Test("crack_test", "none-found", "tested for cracks", "free of cracks", "cracks")


def _test(job: Job) -> _Test:
    """A head without a water jacket is tested for cracks only."""
    return _CRACKS if cooled_by(job) == AIR else _PRESSURE


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Write the order where there is something to order, and say stop where there is no metal for it."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    cut = found.get(Cut)
    assert isinstance(cut, Cut)
    amount, casting = cut_how_much.answer(job, joint, found), casting_worth.answer(job, joint, found)
    faces = cut_how_much.faces_to_cut(job, joint, found)
    test = _test(job)
    tight = test.passed(joint)
    if amount.state.value == "open" and not faces:
        return draft.open("What has to come off is not known yet: nothing to order", *_next(amount))
    if not faces and amount.action == "leave" and tight:
        return _nothing(draft, joint, found, amount, test)
    scrap = "scrap" in (amount.action, casting.action)
    occasions = set(_occasions(job, joint, found, faces, amount))
    draft.work.extend(_lines(joint, cut, occasions))
    yes_or_no(
        draft, "metal left for the work", of_word(not scrap), "used up" if scrap else "within what is known"
    )
    measured = len(joint.head.heights_before) >= 4
    known = "written down" if measured else "not measured yet"
    yes_or_no(draft, "heights before, at four corners", of_word(measured or None), known)
    tested = test.said(joint).replace("-", " ")
    yes_or_no(draft, f"{test.name} before machining", of_word(tight or None), tested)
    draft.need(*_next(amount))
    _say(draft, joint)
    if amount.action == "leave" and faces:
        draft.assumptions.append(
            "the planned cut is ordered as written: flatness and finish do not ask for it"
        )
    if scrap:
        bad = amount if amount.action == "scrap" else casting
        return draft.decided("stop", clip(f"Do not order: {bad.headline[0].lower()}{bad.headline[1:]}"))
    what = [words for word, words in FIRST.items() if word in occasions]
    what += [f"cut the {face}" for face in faces]
    return draft.decided(
        "do-as-listed",
        clip(f"Order in writing: {', '.join(what or ['measure and report'])}; wash, plugs in, figures back"),
    )


def _nothing(draft: Draft, joint: Joint, found: Findings, amount: Answer, test: _Test) -> Answer:
    """End where nothing has to come off; a face nobody read, or a finish in dispute, is not called in."""
    if any(cut_how_much.finish_disputed(check) for check in amount.checks):
        return draft.open(
            "Nothing to order until the gasket's maker has said which finish", which_finish(joint)
        )
    faces = found.get(Faces)
    if isinstance(faces, Missing) or faces.face("block") is None:
        why = f"Head and its finish are in and it is {test.word}; the block has not been read."
        return draft.not_applicable("Nothing to order for the head", why)
    why = f"Faces and finish are in and the head is {test.word}."
    return draft.not_applicable("Nothing to order: machining is not needed", why)


def _next(other: Answer) -> tuple[Missing, ...]:
    return tuple(step.missing for step in other.next)


def _say(draft: Draft, joint: Joint) -> None:
    draft.anyway = (
        "A word at the counter is no order: what comes back cannot be held against anything, and a face cut too deep is "
        "scrap at your cost."
    )
    if not joint.cut.datum:
        draft.assumptions.append(f"datum: {COVER_RAIL}")


def _occasions(
    job: Job, joint: Joint, found: Findings, faces: tuple[str, ...], amount: Answer
) -> Iterator[str]:
    """Name what this order has lines for."""
    yield "always"
    yield from (f"cut-{face}" for face in faces)
    if amount.action == "straighten-first":
        yield "straighten"
    if amount.action == "send-out":
        yield from (f"measure-{face}" for face in cut_how_much.faces_in_doubt(amount))
    test = _test(job)
    if not test.passed(joint):
        yield test.occasion
    if job.engine.arrangement == "vee" and "head" in faces:
        yield "vee"
    if joint.block.liners == "wet" and "block" in faces:
        yield "wet-liners"
    damage = found.get(Damage)
    if isinstance(damage, Damage) and damage.cracks():
        yield "weld"


def _lines(joint: Joint, cut: Cut, occasions: set[str]) -> Iterator[Work]:
    for row in rows("shop_order"):
        if row["when"] in occasions:
            yield Work(row["text"], row["source"], _figure(joint, cut, row), row["caution"])


def _figure(joint: Joint, cut: Cut, row: Row) -> str:
    """Put the figure of this job into a line that has one."""
    match row["key"]:
        case "head-cut" | "block-cut":
            return _most(joint, cut, row["key"].removesuffix("-cut"))
        case "datum-head":
            return joint.cut.datum or COVER_RAIL
        case "least-height":
            winner = picked(joint, HEIGHT["head"], context_of(joint, "head")).winner
            return _low(winner) if winner else "the book's least height: look it up before ordering"
        case "finish":
            return "; ".join(_finish(joint)) or "as the sheet with the gasket asks"
        case "vee":
            told = [words for words in map(cut_how_much.says_how_much, cut.other_heads) if words]
            return f"as planned this one stands {', '.join(told)}" if told else ""
        case "heights-before":
            return ", ".join(height.text for height in joint.head.heights_before)
    return ""


def _most(joint: Joint, cut: Cut, face: str) -> str:
    """Name the greatest cut: what is planned if it cleans, else what cleans, with the last pass if there is metal for it."""
    planned = joint.cut.head if face == "head" else joint.cut.block
    stock = cut.face(face)
    if stock is None:
        return (
            planned.text if planned and planned.value else "to be agreed on the telephone once it is set up"
        )
    if planned and planned.value and meets(planned.value, low=stock.least.value) is not Meets.FAILS:
        return planned.text
    if stock.open_lines:
        return f"{both(stock.with_pass.value, 'cut')} at least, more to be agreed on the telephone"
    return both((stock.with_pass if _metal_for_a_pass(joint, stock) else stock.least).value, "cut")


def _metal_for_a_pass(joint: Joint, stock: FaceStock) -> bool:
    winner = picked(joint, HEIGHT[stock.face], context_of(joint, stock.face)).winner
    if winner is None or stock.height_after is None:
        return True
    return meets(stock.height_after.value, winner.low, winner.high) is not Meets.FAILS


def _low(limit: Limit) -> str:
    return both(limit.low, limit.quantity) if limit.low is not None else limit.text


def _finish(joint: Joint) -> Iterator[str]:
    """Say the finish each gasket that may go on wants."""
    for gasket in gaskets_that_may_go_on(joint):
        context = Context(
            construction=gasket.construction, part_fitted=gasket.name, gasket=gasket.name, direction="any"
        )
        winner = picked(joint, "surface_finish", context).winner
        if winner is not None:
            ends = [("at least", winner.low), ("at most", winner.high)]
            parts = [f"{words} {both(end, 'surface_finish')}" for words, end in ends if end is not None]
            feed = feed_wanted(winner.high) if winner.high is not None else None
            turn = (
                f" (one tip of 0.8 mm radius: feed about {both(feed.value, 'feed')} a turn)" if feed else ""
            )
            yield f"gasket {gasket.name}: Ra {' and '.join(parts)}{turn}"
