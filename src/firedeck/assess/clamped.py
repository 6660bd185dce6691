"""The clamped joint of a job, as the terminal and the page may say it: the study as plain data, the joint as arrays."""

from collections.abc import Callable
from typing import Any

from firedeck.assess.plain import plain_finding
from firedeck.findings import layout
from firedeck.findings.clamped_joint import model_inputs
from firedeck.findings.finding import Findings, LongWork, When
from firedeck.findings.joint import BoltNow, JointFound, JointStudy, PlaceNow, factory_of, worked_out
from firedeck.job import Job, Joint
from firedeck.joint.engine import MIDDLE
from firedeck.joint.exporting import Export, exported
from firedeck.joint.geometry.mesh import Recipe
from firedeck.joint.model import lived
from firedeck.runs import bodies
from firedeck.trace import Band, Missing

Told = Callable[[str, float], None]


def clamped(job: Job, joint: Joint, recipe: Recipe, told: Told | None = None) -> JointFound | Missing:
    """Study a joint against the engine as it left the factory, where the document says how that was."""
    return worked_out(job, factory_of(job), joint.name, LongWork(When.NOW, told), recipe=recipe)


def as_arrays(job: Job, joint: Joint, recipe: Recipe, told: Told | None = None) -> Export | Missing:
    """Give out the joint as it is now, with all judged cases, as plain arrays."""
    given = model_inputs(job, joint, recipe)
    if isinstance(given, Missing):
        return given
    castings = given.engine.castings
    wanted = castings.wanted()
    found = dict(zip(wanted, bodies(list(wanted.values()), told=told), strict=True))
    engine = castings.engine(found, given.engine.given)
    whole = lived(engine.flexible[MIDDLE], engine.share, given.inputs)
    service, cases = whole.service, []
    for name in whole.judged.names:
        label, _, heat = name.partition(" firing, ")
        if heat:
            cases.append((name, service.firing(label, heat == "hot")))
        else:
            cases.append((name, service.hot if name == "hot" else service.rest))
    return exported(whole.made.joint, whole.life.state, cases)


def drawn_from(job: Job, joint: Joint, study: JointStudy) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return the hole pattern and the study as the pictures take them."""
    pattern = layout.find(job, joint, Findings(job, joint, ()))
    return plain_finding(pattern), plain_finding(study)


def plain_study(study: JointStudy) -> dict[str, Any]:
    """Return a study as plain data, rounded to what can be told."""
    return {
        "joint": study.joint,
        "mesh": study.mesh,
        "mesh_says": study.mesh_says,
        "rank": study.rank.value if study.rank else None,
        "decides": study.decides.bore,
        "differs": list(study.differs),
        "compared": study.compared,
        "unit": "N/mm",
        "peak_pressure": {
            "value": _short(study.peak.value),
            "band": _band(study.peak.band),
            "knock_allowance": _short(study.peak.knock_allowance),
            "says": study.peak.says,
            "unit": "MPa",
        },
        "bores": [_place(place) for place in study.places],
        "beads": [
            {
                "place": bead.place,
                "cold": _short(bead.cold),
                "hot": _short(bead.hot),
                "firing": _short(bead.firing),
            }
            for bead in study.beads
        ],
        "fasteners": [_bolt(bolt) for bolt in study.bolts],
        "matches_as_built_at": None if study.matches_anchor_at is None else vars(study.matches_anchor_at),
        "later": [
            {
                "what": one.what,
                "bore": one.bore,
                "lowest": _short(one.lowest),
                "least_fastener": round(one.least_bolt),
            }
            for one in (study.retorque, study.overheat, study.cold_soak)
            if one is not None
        ],
        "slip": None
        if study.shear is None
        else {
            "free": _short(study.shear.free),
            "stuck": _short(study.shear.stuck),
            "shear_over_friction": _short(study.shear.carried),
            "believable": study.shear.believable,
        },
        "influences": [
            {"what": one.name, "says": one.says, "band": _band(one.band), "share": round(one.share, 3)}
            for one in study.influences
        ],
        "assumptions": [note.text for note in study.assumptions],
        "says": study.says,
    }


def _place(place: PlaceNow) -> dict[str, Any]:
    found: dict[str, Any] = {
        "bore": place.bore,
        "side": place.side,
        "cold_mean": _short(place.cold_mean),
        "cold_lowest": _short(place.cold_lowest),
        "hot_lowest": _short(place.hot_lowest),
        "firing_lowest": _short(place.firing_lowest),
        "firing_band": _band(place.firing_band),
        "lift_um": round(1000.0 * place.lift, 1) + 0.0,
        "opens_at_mpa": None if place.opens_at is None else _short(place.opens_at),
    }
    if place.as_built_lowest is not None and place.change is not None and place.change_band is not None:
        found["as_built"] = {
            "firing_lowest": _short(place.as_built_lowest),
            "change": _short(place.change),
            "band": _band(place.change_band),
            "share": None if place.share is None else round(place.share, 3),
            "share_band": None
            if place.share_band is None
            else [round(place.share_band.low, 3), round(place.share_band.high, 3)],
            "rank": place.rank.value if place.rank else None,
        }
    return found


def _bolt(bolt: BoltNow) -> dict[str, Any]:
    pulls = {name: round(getattr(bolt, name)) for name in ("tightened", "bedded", "cold", "hot", "firing")}
    return {
        "label": bolt.label,
        **pulls,
        "unit": "N",
        "share_of_yield": round(bolt.share_of_yield, 3),
        "bearing_mpa": round(bolt.bearing, 1),
    }


def _band(band: Band) -> list[float]:
    return [_short(band.low), _short(band.high)]


def _short(load: float) -> float:
    return round(float(load), 2) + 0.0
