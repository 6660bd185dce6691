"""The way a gasket goes on by the layouts of gasket, block face and head face: checks, what is seen through it, erosion."""

from collections.abc import Iterator

from firedeck.answers.answer import Work
from firedeck.answers.counting import count
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.answers.ways_of_laying import Way, wrong_metal
from firedeck.findings.erosion import Erosion
from firedeck.findings.fits import CandidateFit
from firedeck.findings.matching import Match, WayLaid
from firedeck.tables import Picked
from firedeck.trace import COMMON_PRACTICE, DERIVED, Context, Limit, Measure, Note, Outcome, Rank

TURNED = ("turned over", "turned over and end for end")
SAYS = {
    "open": "open",
    "metered": "smaller in the gasket, it meters the flow",
    "covered": "closed by the gasket",
}
CARE = {
    "metered": "Leave it as it is: no drill, no punch",
    "covered": "Never punch it: a closed water hole steers the flow, a closed feed is the wrong way or part",
}


def way_by_layout(draft: Draft, fit: CandidateFit, head: str | None) -> Way:
    """Say which way a gasket goes on by its layout, and add everything that was seen."""
    match = fit.match
    assert isinstance(match, Match)
    good = [way for way in match.good if not wrong_metal(_metal(fit, way), head)]
    _ways(draft, fit, match)
    lone = _lone(draft, fit, match)
    for one in match.erosion:
        _erosion(draft, fit, one)
    if match.kind == "wrong-part":
        return Way("wrong-part", f"none fits{_elsewhere(match)}: {match.why}")
    draft.work.extend(_seen(match.way((good or list(match.good))[0])))
    if lone:
        return Way("wrong-part", "a hole has no partner:", lone)
    if not good:
        metal = _metal(fit, match.good[0])
        count(draft, f"{fit.name}: {metal} to the head", 1, Outcome.FAILS, f"laid {match.good[0]}")
        return Way("wrong-part", f"mirror image: it fits only with {metal} to the head")
    if len(good) < len(match.good):
        count(draft, f"{fit.name}: {_metal(fit, good[0])} to the head", 1, Outcome.HOLDS, f"laid {good[0]}")
    if len(good) == 1 and match.kind != "by-this-passage":
        several = sum(way.fits for way in match.ways) > 1
        says = "the mark or the metal leaves one way" if several else "only one way fits"
        return Way("one-way", f"{says}: {good[0]}", look="geometry")
    if match.kind == "any-way":
        which = f": {', '.join(good)}" if len(good) < len(match.ways) else ""
        return Way("any-way", f"several ways fit and it does not matter{which}")
    return _by_passage(draft, fit, match, good)


def _by_passage(draft: Draft, fit: CandidateFit, match: Match, good: list[str]) -> Way:
    count(
        draft,
        f"{fit.name}: passages that tell the ways apart",
        len(match.deciding),
        Outcome.HOLDS,
        ", ".join(match.deciding),
    )
    for label in match.deciding:
        draft.work.append(Work(f"Look at {label}: {_each_way(match, label)}", DERIVED))
    if len(good) == 1:
        return Way("by-this-passage", f"{good[0]}, told by", match.deciding, look="geometry")
    return Way("by-this-passage", "several ways fit, told apart by", match.deciding, look="geometry")


def _each_way(match: Match, label: str) -> str:
    said = (
        f"{way.way} {passage.seen.value}"
        for way in match.ways
        for passage in way.passages
        if passage.label == label
    )
    return ", ".join(said)


def _metal(fit: CandidateFit, way: str) -> str | None:
    """Return the metal that comes to lie on the head when a gasket is laid one way."""
    return fit.towards_block if way in TURNED else fit.towards_head


def _elsewhere(match: Match) -> str:
    return f", it is for {match.other_bank}" if match.other_bank else ""


def _ways(draft: Draft, fit: CandidateFit, match: Match) -> None:
    """Hold the ways that are right, or all of them where none is, against nought; say the rest in a line."""
    shown = [way for way in match.ways if way.allowed] or list(match.ways)
    for way in shown:
        name = f"{fit.name}: laid {way.way}, room at {way.tightest}"
        if way.step is None or way.clears is None:
            count(draft, f"{fit.name}: laid {way.way}", 1, Outcome.FAILS, way.tightest)
        else:
            draft.add(judge(name, "hole_clearance", way.clears, _clear()), (way.step,))
    if match.kind == "wrong-part" and any(way.fits for way in match.ways):
        count(draft, f"{fit.name}: way of laying", 1, Outcome.FAILS, match.why)
    for way in match.ways:
        if way not in shown:
            draft.notes.append(Note(f"{fit.name}, {way.way}: {_why_not(way)}.", DERIVED))
        elif way.off_most is not None:
            text = f"{fit.name}, {way.way}: holes lie at most {both(way.off_most, 'hole_clearance')} off their bolts."
            draft.notes.append(Note(text, DERIVED))


def _clear() -> Picked:
    limit = Limit(
        "hole_clearance", 0.0, None, Measure.COMPUTED, Context(part="gasket"), Rank.COMMON_PRACTICE, DERIVED
    )
    return Picked(limit, (), "")


def _why_not(way: WayLaid) -> str:
    if not way.fits:
        short = "" if way.clears is None else f" by {both(-way.clears, 'hole_clearance')}"
        return f"does not go on, {way.tightest}{short}"
    closed = [one.label for one in way.passages if one.seen == "covered" and one.leads == "oil"]
    return f"goes on, but closes {', '.join(closed)}" if closed else "goes on, but its mark forbids it"


def _seen(way: WayLaid) -> Iterator[Work]:
    for one in way.passages:
        if one.only_in:
            bare = "left bare by the gasket" if one.bared else "spanned by the gasket"
            care = (
                "It has no support there and blows through"
                if not one.bared
                else "Only the face holds it back"
            )
            yield Work(f"{one.label}: only in the {one.only_in}, {bare}", DERIVED, "", care)
        else:
            leads = f" ({one.leads})" if one.leads else ""
            share = f"{one.share * 100:.0f} % of the passage" if one.seen == "metered" else ""
            yield Work(
                f"{one.label}{leads}: {SAYS[one.seen.value]}", DERIVED, share, CARE.get(one.seen.value, "")
            )


def _lone(draft: Draft, fit: CandidateFit, match: Match) -> tuple[str, ...]:
    """Name the holes that must have a partner and have none; a water hole of the block alone may be meant so."""
    from_block = match.lone("block")
    wrong = [f"{one.label} only in the head" for one in match.lone("head")]
    wrong += [f"{one.label} only in the block" for one in from_block if one.leads in ("oil", "drain", "air")]
    if wrong:
        count(draft, f"{fit.name}: holes without a partner", len(wrong), Outcome.FAILS, ", ".join(wrong))
        draft.cautions.append("A gasket that spans an open hole has no support there and blows through.")
    core = [one.label for one in from_block if one.leads not in ("oil", "drain", "air")]
    if core:
        text = f"{', '.join(core)}: only in the block. Casting holes may be closed by design: compare with the old head."
        draft.notes.append(Note(text, COMMON_PRACTICE))
    return tuple(wrong)


def _erosion(draft: Draft, fit: CandidateFit, one: Erosion) -> None:
    """Hold the metal left inside the bead against nought, and say the land that is left."""
    limit = Limit(
        "bead_room", 0.0, None, Measure.COMPUTED, Context(part="gasket"), Rank.COMMON_PRACTICE, COMMON_PRACTICE,
        "the bead has to stand on sound metal",
    )  # fmt: skip
    name = f"{fit.name}: {one.name}, sound metal inside the bead of {one.passage}"
    judged = draft.add(
        judge(name, "bead_room", one.bead_room.value, Picked(limit, (), "")), (one.reach, one.bead_room)
    )
    if one.land is not None:
        text = f"{one.name}: land of {both(one.land.value, 'land')} left to {one.beside}."
        draft.notes.append(Note(text, DERIVED))
    if judged.outcome is not Outcome.HOLDS:
        draft.cautions.append(
            f"{one.name}: the bead round {one.passage} stands on eaten metal and will weep; build it up or cut it first"
        )
