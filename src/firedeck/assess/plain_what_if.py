"""A job done another way as plain data: what ``--json`` prints and all that the table and the picture are made of."""

from collections.abc import Mapping, Sequence
from typing import Any

from firedeck.answers.answer import Answer
from firedeck.answers.questions import questions
from firedeck.answers.ring_checks import TWICE, share_figures
from firedeck.assess.plain import STATE_WORDS, plain_finding
from firedeck.assess.what_if import JointBeside, RingBeside, Way, WhatIf, announced
from firedeck.findings.joint import PlaceNow
from firedeck.job import Job
from firedeck.job.change import value_at
from firedeck.trace import Band


def plain_ways(job: Job, ways: Sequence[Way]) -> list[dict[str, Any]]:
    """Return every way with its changes, and how soon each is answered: all that is said before it starts."""
    found = []
    for way in ways:
        soon = announced(job, way)
        changes = [
            {"path": path, "as_written": value_at(job.raw, path), "value": value, "answered": soon[path]}
            for path, value in way.changes.items()
        ]
        found.append({"way": way.name, "changes": changes})
    return found


def plain_what_if(found: WhatIf, said: Mapping[str, Any]) -> dict[str, Any]:
    """Return one way, answered; ``said`` is what was said of it before."""
    differ = [one for one in found.answers if one.differs]
    return {
        **said,
        "answers": [
            {
                "question": one.written.question,
                "asks": questions()[one.written.question].asks,
                "joint": one.written.joint,
                "as_written": _answer(one.written),
                "changed": _answer(one.changed),
            }
            for one in differ
        ],
        "answers_the_same": len(found.answers) - len(differ),
        "joints": [_joint(one) for one in found.joints],
    }


def _answer(answer: Answer) -> dict[str, Any]:
    words = questions()[answer.question].actions[answer.action] if answer.action else ""
    return {
        "state": answer.state.value,
        "state_words": STATE_WORDS[answer.state],
        "action": answer.action,
        "action_words": words,
        "choice": answer.choice,
        "headline": answer.headline,
    }


def _joint(one: JointBeside) -> dict[str, Any]:
    if one.studies is None:
        return {"joint": one.joint, "places": [], "says": one.says}
    before, after = one.studies
    return {
        "joint": one.joint,
        "unit": "N/mm",
        "mesh": after.mesh,
        "mesh_says": after.mesh_says,
        "says": after.says,
        "places": [_ring(ring) for ring in one.rings],
        "studies": {"as_written": plain_finding(before), "changed": plain_finding(after)},
    }


def _ring(ring: RingBeside) -> dict[str, Any]:
    changed = ring.changed
    return {
        "bore": changed.bore,
        "side": changed.side,
        "as_built": _short(changed.as_built_lowest),
        "as_written": _short(ring.written.firing_lowest),
        "changed": _short(changed.firing_lowest),
        "change": _short(ring.change),
        "band": _ends(ring.band),
        "share": _share(changed.share),
        "share_band": _ends(changed.share_band, 3),
        "share_says": _share_says(changed),
        "rank": changed.rank.value if changed.rank else None,
    }


def _short(load: float | None) -> float | None:
    return None if load is None else round(load, 2) + 0.0


def _share(share: float | None) -> float | None:
    return None if share is None else round(share, 3)


def _share_says(place: PlaceNow) -> str:
    if place.share is None or place.share_band is None:
        return ""
    if place.share_band.low > TWICE:
        return "more than twice"
    return "about {}{}".format(*share_figures(place.share, place.share_band))


def _ends(band: Band | None, digits: int = 2) -> list[float] | None:
    return None if band is None else [round(band.low, digits) + 0.0, round(band.high, digits) + 0.0]
