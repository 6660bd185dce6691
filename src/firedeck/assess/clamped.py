"""The clamped joint of a job, now and as it left the factory, as the terminal and the page may say it.

Asked for on its own and never by a check: condensing takes seconds.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from firedeck.findings.clamped_joint import ModelInputs, model_inputs
from firedeck.job import Job, Joint
from firedeck.joint.comparing import Change
from firedeck.joint.exporting import Export, exported
from firedeck.joint.geometry.mesh import Recipe
from firedeck.joint.model import Whole, against, lived
from firedeck.runs import flexibility
from firedeck.trace import Missing

NOT_COMPARED = (
    "Nothing here has been compared with a real engine or a pressure film: loads are orders of size, "
    "changes against the same engine as it left the factory are better known."
)
Told = Callable[[str, float], None]


@dataclass(frozen=True)
class ClampedResult:
    """One joint: what was assumed, the joint now, as built and the change place by place, where the document says it."""

    joint: str
    mesh: Recipe
    given: ModelInputs
    now: Whole
    as_built: Whole | None
    changes: tuple[Change, ...]


def clamped(job: Job, joint: Joint, recipe: Recipe, told: Told | None = None) -> ClampedResult | Missing:
    """Work a joint out, and as it left the factory where the document says how that was."""
    given = model_inputs(job, joint, recipe)
    if isinstance(given, Missing):
        return given
    now = _lived(given, told)
    before_job = job.as_built()
    if before_job is None:
        return ClampedResult(joint.name, recipe, given, now, None, ())
    before = model_inputs(before_job, before_job.joint(joint.name), recipe)
    if isinstance(before, Missing):
        return before
    then = _lived(before, told)
    changes = against((now, given.inputs), (then, before.inputs))
    return ClampedResult(joint.name, recipe, given, now, then, changes)


def _lived(given: ModelInputs, told: Told | None) -> Whole:
    flexible = flexibility(given.request, told=told)
    return lived(flexible, given.request.points().share, given.inputs)


def as_arrays(result: ClampedResult) -> Export:
    """Give out the joint now, with all judged cases, as plain arrays."""
    service, cases = result.now.service, []
    for name in result.now.judged.names:
        label, _, heat = name.partition(" firing, ")
        if heat:
            cases.append((name, service.firing(label, heat == "hot")))
        else:
            cases.append((name, service.hot if name == "hot" else service.rest))
    return exported(result.now.made.joint, result.now.life.state, cases)


def plain_clamped(result: ClampedResult) -> dict[str, Any]:
    """Return a result as plain data."""
    changes = {change.place: change for change in result.changes}
    bores = []
    for bore in result.now.bores:
        cold, firing = (result.now.readings["cold"].ring(bore), result.now.firing(bore).ring(bore))
        place: dict[str, Any] = {
            "bore": bore,
            "cold_mean": _short(cold.mean),
            "cold_lowest": _short(cold.lowest),
            "firing_lowest": _short(firing.lowest),
            "side": firing.side,
        }
        if bore in changes:
            place["as_built"] = _plain_change(changes[bore])
        bores.append(place)
    return {
        "joint": result.joint,
        "mesh": result.mesh.name,
        "mesh_says": result.mesh.says,
        "unit": "N/mm",
        "peak_pressure": {"value": _short(result.given.inputs.peak_pressure), "unit": "MPa"},
        "bores": bores,
        "beads": [
            {"place": place, "cold_lowest": _short(load)} for place, load in result.now.readings["cold"].beads
        ],
        "fasteners": _tensions(result.now),
        "assumptions": [note.text for note in result.given.assumptions],
        "says": NOT_COMPARED,
    }


def _plain_change(change: Change) -> dict[str, Any]:
    band = [_short(change.band.low), _short(change.band.high)]
    share = None if change.share is None else round(change.share, 3)
    shares = None
    if change.anchor > 0.0:
        shares = [round(max(0.0, (change.anchor + end) / change.anchor), 3) for end in band]
    return {
        "firing_lowest": _short(change.anchor),
        "change": _short(change.change),
        "band": band,
        "share": share,
        "share_band": shares,
        "rank": change.rank.value,
    }


def _tensions(whole: Whole) -> list[dict[str, Any]]:
    points = whole.made.joint.springs.points
    tightened = whole.tightened.forces[points:]
    cold, hot = (whole.readings[name].bolts for name in ("cold", "hot"))
    return [
        {
            "label": label,
            "tightened": round(float(first)),
            "cold": round(load),
            "hot": round(warm),
            "unit": "N",
        }
        for first, (label, load), (_, warm) in zip(tightened, cold, hot, strict=True)
    ]


def _short(load: float) -> float:
    return round(float(load), 2) + 0.0
