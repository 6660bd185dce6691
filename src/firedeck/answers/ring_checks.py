"""The rings place by place, each held against the same engine as it left the factory."""

from dataclasses import replace

from firedeck.answers.answer import Working
from firedeck.answers.judging import judge, outcome_of
from firedeck.answers.making import Draft, both
from firedeck.findings.joint import JointStudy, PlaceNow
from firedeck.findings.joint import Rank as Against
from firedeck.tables import Picked
from firedeck.trace import DERIVED, Band, Check, Context, Limit, Measure, Outcome, Rank, Step

FINER = 1.0
"""The model does not tell finer: a change of so much either way counts as none [N/mm]."""
TWICE, NARROW = 2.0, 0.1
OUTCOMES = {
    Against.NO_WORSE: Outcome.HOLDS,
    Against.WORSE: Outcome.FAILS,
    Against.CANNOT_RANK: Outcome.CANNOT_TELL,
}


def judge_rings(draft: Draft, study: JointStudy) -> None:
    """Add a check for every ring; without the factory's figures they are orders of size and nothing judges them."""
    for place in study.places:
        limit, band = _as_built(place), _band(place)
        if limit is None or band is None:
            _show(draft, place)
            continue
        judged = judge(_name(place), "line_load", place.firing_lowest, Picked(limit, (), ""), band)
        check = judged.check
        if place.rank is not None and outcome_of(check.value or 0.0, band, limit) is not OUTCOMES[place.rank]:
            check = replace(check, outcome=OUTCOMES[place.rank])  # an end of the band lies on the limit
        draft.add(replace(judged, check=check), place.steps)
        if place is study.decides:
            left = (step for step in study.steps if step not in place.steps)
            draft.steps.extend(Working(_name(place), step) for step in left)
    if study.compared:
        _judge_match(draft, study)


def share_words(place: PlaceNow, room: int) -> str:
    """Say what is left at a place, as a share of what standard has left there, in at most so many characters."""
    for where in (f"No {place.bore}, {place.side}", f"No {place.bore}"):
        text = _share_at(place, where)
        if len(text) <= room:
            return text
    return text


def share_figures(share: float, band: Band) -> tuple[str, str]:
    """Write a share and its band in per cent; where the band is wide, neither is read to the last one."""
    narrow = band.high - band.low < NARROW
    about, low, high = (
        round(100 * one) if narrow else 5 * round(20 * one) for one in (share, band.low, band.high)
    )
    return f"{about} %", "" if low == high else f", band {low}–{high}"


def load_words(place: PlaceNow) -> str:
    """Say the lowest place of a ring and its load, rounded as an order of size is."""
    return f"about {place.firing_lowest:.0f} N/mm at No {place.bore}, {place.side}"


def _share_at(place: PlaceNow, where: str) -> str:
    if place.share is None or place.share_band is None:
        return f"Standard has nothing left at {where}; now {place.firing_lowest:.0f} N/mm"
    if place.share_band.low > TWICE:
        return f"More than twice what standard has left at {where}"
    share, band = share_figures(place.share, place.share_band)
    return f"About {share} of what standard has left at {where}{band}"


def _name(place: PlaceNow) -> str:
    return f"No {place.bore}, {place.side}: ring at its lowest place, firing"


def _as_built(place: PlaceNow) -> Limit | None:
    if place.as_built_lowest is None:
        return None
    return Limit(
        "line_load",
        place.as_built_lowest - FINER,
        None,
        Measure.COMPUTED,
        Context(),
        Rank.COMMON_PRACTICE,
        DERIVED,
        "as it left the factory, less what the model does not tell",
    )


def _band(place: PlaceNow) -> Band | None:
    """Give the load a change at each end of its band would leave."""
    if place.as_built_lowest is None or place.change_band is None:
        return None
    low, high = (place.as_built_lowest + end for end in (place.change_band.low, place.change_band.high))
    return Band(low, high, place.change_band.share, place.change_band.why)


def _show(draft: Draft, place: PlaceNow) -> None:
    band = place.firing_band
    text = (
        f"{both(place.firing_lowest, 'line_load')}, {band.low:.0f} to {band.high:.0f} N/mm: an order of size"
    )
    check = Check(_name(place), "line_load", place.firing_lowest, Outcome.CANNOT_TELL, band=band, text=text)
    shown = {"firing_lowest": (place.firing_lowest, "N/mm")}
    read = Step.work_out("Read off the model", "firing_lowest", shown, ("lowest", "N/mm"), DERIVED)
    draft.add_check(check, place.steps or (read,), DERIVED)


def _judge_match(draft: Draft, study: JointStudy) -> None:
    """Hold the peak at which the lowest place comes down to the factory's against the peak it runs at."""
    match = study.matches_anchor_at
    if match is None or match.pressure is None or study.rank is None:
        return
    where = "peak it is reckoned to run at"
    limit = Limit(
        "peak", study.peak.value, None, Measure.COMPUTED, Context(), Rank.COMMON_PRACTICE, DERIVED, where
    )
    name = f"No {match.bore}: peak at which it comes down to what the factory's had"
    judged = judge(name, "peak", match.pressure, Picked(limit, (), ""))
    boost = f", about {both(match.boost, 'boost')} of boost" if match.boost is not None else ""
    text = f"about {both(match.pressure, 'peak')}{boost}"
    draft.add(replace(judged, check=replace(judged.check, outcome=OUTCOMES[study.rank], text=text)))
