"""gasket-fits: does the gasket belong to these faces, and which way round; without a picture."""

from dataclasses import dataclass, replace

from firedeck.answers.answer import Answer, Work
from firedeck.answers.counting import clip, count
from firedeck.answers.given import picked
from firedeck.answers.judging import Judged, judge
from firedeck.answers.laid_by_layout import way_by_layout
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft, both
from firedeck.answers.ways_of_laying import Way, no_groove, way_of, wrong_side
from firedeck.findings.finding import Findings
from firedeck.findings.fits import CandidateFit, Fits
from firedeck.findings.matching import Match
from firedeck.job import Job, Joint
from firedeck.tables import Picked
from firedeck.trace import COMMON_PRACTICE, Context, Limit, Measure, Missing, Outcome, Rank

QUESTION = "gasket-fits"


@dataclass(frozen=True)
class Verdict:
    """What was found of one gasket: wrong for a reason, too close, or how it goes on."""

    fit: CandidateFit
    wrong: str
    close: bool
    way: Way
    lacking: int

    @property
    def only_way(self) -> bool:
        """The way round is settled before the ring is measured; that it fits is not."""
        ring_only = self.lacking == 1 and self.fit.ring is None
        return ring_only and self.way.action in ("one-way", "by-this-passage")


def answer(_job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge every gasket over the bores, then how the one that belongs here goes on."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    fits = found.get(Fits)
    if isinstance(fits, Missing):
        return draft.open("No gasket is on the bench yet", fits)
    chosen = [one for one in fits.candidates if one.name == joint.gasket.fitted]
    lone = _no_partner(draft, fits)
    verdicts = []
    for one in chosen or fits.candidates:
        with draft.speaking_of(one.name):
            verdicts.append(_verdict(draft, joint, fits, one))
    _passages(draft, fits)
    draft.work.extend(listed("fit_work", _words(joint, fits), {}))
    draft.anyway = (
        "A ring in the gas burns and makes hot spots; a closed passage boils one end or starves the cam. "
        "Never open, trim or punch a gasket. Undoing it costs a gasket."
    )
    if lone:
        return draft.decided("wrong-part", clip(f"Hole without a partner: {lone}"))
    return _ending(draft, joint, fits, verdicts)


def _verdict(draft: Draft, joint: Joint, fits: Fits, fit: CandidateFit) -> Verdict:
    before = len(draft.next)
    judged = [*_ring(draft, joint, fit), *_recess(draft, joint, fit)]
    wrong = next((_said(one) for one in judged if one.outcome is Outcome.FAILS), "")
    by_layout = isinstance(fit.match, Match)
    wrong = wrong or _unfit(draft, fits, fit, by_layout)
    if isinstance(fit.match, Missing):
        draft.need(fit.match)
    close = any(one.outcome is Outcome.AT_LIMIT or one.differ for one in judged)
    lacking = len(draft.next) - before
    way = way_by_layout(draft, fit, fits.head_material) if by_layout else way_of(fit, fits.passages)
    if not wrong and way.action and not by_layout:
        marks = fit.marks or "no mark"
        name = f"{fit.name}: way of laying"
        outcome = Outcome.FAILS if way.action == "wrong-part" else Outcome.HOLDS
        count(draft, name, len(way.passages) or 1, outcome, f"{marks}; {way.why}")
    if way.action == "wrong-part" and not wrong:
        wrong = f"{way.why} {', '.join(way.passages)}".strip()
    return Verdict(fit, wrong, close, way, lacking)


def _ring(draft: Draft, joint: Joint, fit: CandidateFit) -> list[Judged]:
    """Hold the ring against the sheet, else against nought with what is usual beside it."""
    if fit.ring is None:
        draft.need(_measure_ring(joint, fit))
        return []
    context = Context(part="gasket", construction=fit.construction, part_fitted=fit.name, gasket=fit.name)
    limit = picked(joint, "ring_overhang", context)
    if limit.winner is None:
        usual = tuple(replace(margin, high=None) for margin in fit.margins)
        limit = Picked(
            _at_least("ring_overhang", "a ring inside the bore is a fault"), usual, "clear of the bore"
        )
    where = f", cylinder {fit.at_cylinder}" if fit.at_cylinder else ""
    judged = judge(f"{fit.name}: ring overhang{where}", "ring_overhang", fit.ring.overhang, limit)
    for caution in fit.ring.cautions:
        draft.cautions.append(f"{fit.name}: {caution.text}")
    return [draft.add(judged, fit.ring.steps)]


def _recess(draft: Draft, joint: Joint, fit: CandidateFit) -> list[Judged]:
    """A ring has to reach the bottom of a recess and be nipped there."""
    recess = joint.block.recess
    if recess is None or not recess.value:
        return []
    if fit.reach is None:
        draft.need(_measure_ring_stand(joint, fit))
        return []
    limit = picked(joint, "ring_reach", Context(part="gasket", construction=fit.construction))
    if limit.winner is None:
        limit = Picked(_at_least("ring_reach", "the ring has to be nipped"), (), "the ring has to be nipped")
    return [
        draft.add(
            judge(f"{fit.name}: ring into the recess", "ring_reach", fit.reach.value, limit), (fit.reach,)
        )
    ]


def _at_least(quantity: str, where: str) -> Limit:
    return Limit(
        quantity=quantity,
        low=0.0,
        high=None,
        measure=Measure.COMPUTED,
        applies=Context(part="gasket"),
        rank=Rank.COMMON_PRACTICE,
        source=COMMON_PRACTICE,
        where=where,
    )


def _unfit(draft: Draft, fits: Fits, fit: CandidateFit, by_layout: bool) -> str:
    """Hold side and construction of a gasket against head metal and grooved deck."""
    for name, row in (
        ("side to the head", None if by_layout else wrong_side(fit, fits.head_material)),
        ("over a grooved deck", no_groove(fit)),
    ):
        if row is not None:
            count(draft, f"{fit.name}: {name}", 1, Outcome.FAILS, row["reason"], source=row["source"])
            return row["reason"]
    return ""


def _no_partner(draft: Draft, fits: Fits) -> str:
    """Find holes that only one casting has: the gasket spans them unsupported, or they lead nowhere."""
    lone = [one for one in fits.passages if one.only_in in ("head", "block")]
    if not lone:
        return ""
    names = ", ".join(f"{one.label} only in the {one.only_in}" for one in lone)
    count(draft, "holes without a partner", len(lone), Outcome.FAILS, names)
    draft.cautions.append("A gasket that spans an open hole has no support there and blows through.")
    return names


def _passages(draft: Draft, fits: Fits) -> None:
    """Say of each passage what is seen through it; smaller holes meter."""
    for one in fits.passages:
        if one.seen is None:
            continue
        figure = f"{one.share.value * 100:.0f} % of the passage" if one.share else ""
        draft.work.append(
            Work(
                f"{one.label} ({one.leads}): {_SEEN[one.seen]}",
                COMMON_PRACTICE,
                figure,
                _CARE.get(one.seen, ""),
            )
        )


_SEEN = {
    "open": "open",
    "smaller": "smaller in the gasket, it meters the flow",
    "covered": "closed by the gasket",
}
_CARE = {
    "smaller": "Leave it as it is: no drill, no punch",
    "covered": "Never punch it: a closed water hole steers the flow, a closed feed is the wrong way or part",
}


def _ending(draft: Draft, joint: Joint, fits: Fits, verdicts: list[Verdict]) -> Answer:
    right = [one for one in verdicts if not one.wrong]
    for one in verdicts:
        if one.wrong and right:
            draft.cautions.append(f"not {one.fit.name}: {one.wrong}")
        if one.fit.used:
            draft.cautions.append(f"{one.fit.name} has been tightened once: it does not seal a second time")
    if verdicts and not right:
        words = f"{verdicts[0].fit.name} is the wrong part: {verdicts[0].wrong}"
        return draft.decided("wrong-part", clip(words))
    ready = [one for one in right if one.way.action and (not one.lacking or one.only_way)]
    if not ready:
        draft.need(*(_look_through(joint, fits, one.fit) for one in right or ()))
        if not right:
            draft.need(_name_gasket(joint))
        return draft.open(clip(_not_yet(right)))
    best = ready[0]
    if best.way.look:
        draft.work.append(
            Work(
                "Look through every hole on both faces all the same: mark and holes must agree",
                COMMON_PRACTICE,
            )
        )
    action = best.way.action
    assert action is not None
    passages = f": {', '.join(best.way.passages)}" if best.way.passages else ""
    unread = "; ring not measured yet" if best.lacking else ""
    headline = clip(f"{best.fit.name}: {best.way.why}{passages}{unread}")
    if best.close:
        return draft.close(
            action, clip(f"{best.fit.name}: ring barely clears the bore; {best.way.why}"), best.fit.name
        )
    return draft.decided(action, headline, best.fit.name)


def _not_yet(right: list[Verdict]) -> str:
    rings = [one for one in right if one.fit.ring is not None]
    if rings and rings[0].fit.ring is not None:
        overhang = both(rings[0].fit.ring.overhang, "ring_overhang")
        return f"Ring of {rings[0].fit.name} clears by {overhang}; look through the holes next"
    return "Lay the gasket on and look through every hole"


def _said(judged: Judged) -> str:
    return f"{judged.check.name.split(': ')[-1]} {both(judged.check.value or 0.0, judged.check.quantity)}"


def _words(joint: Joint, fits: Fits) -> frozenset[str]:
    words = {"several-candidates"} if len(fits.candidates) > 1 else set()
    words |= {"layout"} if joint.layout and joint.layout.passages else {"no-layout"}
    words |= {"recess"} if joint.block.recess else set()
    return frozenset(words)


def _measure_ring(joint: Joint, fit: CandidateFit) -> Missing:
    return Missing(
        (f"joint.{joint.name}.gasket.candidates.{fit.name}.bore", "engine.bore"),
        f"bore of the ring of gasket {fit.name}, and of the cylinders as bored",
        "vernier and bore gauge",
        "Inside of the ring in two directions; the largest cylinder counts where they differ.",
    )


def _measure_ring_stand(joint: Joint, fit: CandidateFit) -> Missing:
    return Missing(
        (f"joint.{joint.name}.gasket.candidates.{fit.name}.ring_stand_out",),
        f"how far the ring of {fit.name} stands out of its body, against the depth of the recess",
        "micrometer, depth gauge",
        "Micrometer on ring and body; the ring has to fill the recess and be nipped.",
    )


def _look_through(joint: Joint, fits: Fits, fit: CandidateFit) -> Missing:
    labels = [one.label for one in fits.passages if one.seen is None]
    which = ", ".join(labels[:8]) if labels else "every passage, bolt hole and dowel"
    return Missing(
        (
            f"joint.{joint.name}.layout.passages",
            f"joint.{joint.name}.gasket.candidates.{fit.name}.ways_that_fit",
        ),
        f"what is seen through each hole with {fit.name} laid on block and head: {which}",
        "eye and a lamp, or a picture of gasket and both faces",
        "Lay it on the block, then on the head, as marked, turned over and end for end; tick each passage open, smaller or "
        "covered in each way in which bolts and dowels fit.",
    )


def _name_gasket(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.gasket.candidates",),
        "which gasket it is: ring bore, marks and the side they are on, and the ways in which its holes fit",
        "vernier and eye",
        "Lay it on both faces and try it turned over and end for end.",
    )
