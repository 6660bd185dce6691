"""The study of one clamped joint: two engines with their castings condensed, to everything that is said of them.

tightened, run in, judged (the long way, both)  →  change
the short way, one thing at a time, both alike  →  parts of the band  →  rank
pressures, later life, fasteners, beads         →  the rest
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from firedeck.joint.assumed import assumed
from firedeck.joint.engine import MIDDLE, Engine, Ready
from firedeck.joint.geometry.plan import JointPlan
from firedeck.joint.later_life import cold_soaked, overheated, tightened_again
from firedeck.joint.model import Whole, lived
from firedeck.joint.run_in import as_left
from firedeck.joint.side import side_of
from firedeck.joint.slipping import FRICTION, Held, held_fast
from firedeck.joint.study import Influence, JointStudy, Matches, PeakTaken, PlaceNow
from firedeck.joint.study_band import Part, weight_of
from firedeck.joint.study_parts import DRAWS, both_of, parts_of
from firedeck.joint.study_places import RUN, Doubt, beads_now, bolts_now, opening_pressure, place_now
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Band, Note, Step

CHANGE_OF_BRICKS, CUT_BY_BRICKS = assumed("bricks"), assumed("bricks of a cut")
"""A change may be off by this share of itself for the size of the bricks; more where metal came off a face, whose effect
is condensed on coarse bricks (found up to 23 % small on one inline four)."""


@dataclass(frozen=True)
class About:
    """What the study is of: joint, plan with the side of the exhaust (1, -1, 0), mesh, draws.

    ``optimism``: share of the lowest firing load by which bricks of this size are known to come out too high [1];
    ``cuts_differ``: metal came off a face since.
    """

    joint: str
    plan: JointPlan
    mesh: str
    mesh_says: str
    optimism: float
    exhaust: int = 0
    joints: int = DRAWS
    differs: tuple[str, ...] = ()
    cuts_differ: bool = False


Heard = Callable[[float], None]
"""Told the share of a study that is done; may raise to end it there."""

LIVED, PARTS = 0.45, 0.75
"""Share of a study that is done when the engines have lived, and when the parts of the band are known, about."""


def studied(
    about: About, now: Engine, as_built: Engine | None, heard: Heard = lambda _share: None
) -> JointStudy:
    """Study a joint, and against the engine as it left the factory where that is known.

    Parameters
    ----------
    about : About
        What it is of [text].
    now : Engine
        The engine as it is to run [core].
    as_built : Engine or None
        As it left the factory; the same object where nothing of the model differs [core].
    heard : callable
        Told the share that is done from stage to stage; what it raises ends the study [share].

    Returns
    -------
    JointStudy
        Place by place [N/mm], [N], [MPa].

    Raises
    ------
    OutOfRange
        If a torque asks for more than a bolt bears.
    DidNotConverge
        If a state does not settle, or the joint ratchets.

    Valid for
    ---------
    See docs/method/joint.md: never compared with a real engine.

    Source
    ------
    derived
    """
    engines = (now,) if as_built is None else (now, as_built)
    known: dict[int, _Lived] = {}
    for place, engine in enumerate(engines, 1):
        if id(engine) not in known:
            known[id(engine)] = _lived(engine)
        heard(LIVED * place / len(engines))
    lives = [known[id(engine)] for engine in engines]
    wholes, held = [one.whole for one in lives], [one.held for one in lives]
    parts = parts_of(both_of([one.short for one in lives], [one.made for one in lives]), held, about.joints)
    heard(PARTS)
    peak = now.given.inputs.peak_pressure
    places = []
    for number, bore in enumerate(wholes[0].bores, 1):
        places.append(_place(about, wholes, bore, peak, parts))
        heard(PARTS + (1.0 - PARTS) * number / (len(wholes[0].bores) + 1))
    study = JointStudy(
        joint=about.joint,
        mesh=about.mesh,
        mesh_says=about.mesh_says,
        places=tuple(places),
        beads=beads_now(wholes[0]),
        bolts=bolts_now(wholes[0], now.given.bearing),
        peak=_peak(now, as_built),
        compared=as_built is not None,
        differs=about.differs,
    )
    decides = study.decides
    return replace(
        study,
        rank=decides.rank,
        matches_anchor_at=_matches(wholes[0], decides, peak),
        retorque=tightened_again(wholes[0], now.given.retorque) if now.given.retorque else None,
        overheat=overheated(wholes[0], now.given.inputs),
        cold_soak=cold_soaked(wholes[0], now.given.inputs),
        shear=held[0].slip if held[0] is not None else None,
        steps=(*decides.steps, *_steps(study, wholes[0], now, held[0])),
        influences=_influences(parts, decides.bore, as_built is not None),
        assumptions=_assumed(held, parts),
    )


@dataclass(frozen=True)
class _Lived:
    """An engine with its life behind it the long way, and what the short way begins with."""

    whole: Whole
    short: Engine
    made: Ready
    held: Held | None


def _lived(engine: Engine) -> _Lived:
    given = engine.given
    whole = lived(engine.flexible[MIDDLE], engine.share, given.inputs)
    pulls = whole.tightened.forces[whole.made.joint.springs.points :]
    inputs = replace(given.inputs, actions=as_left(given.inputs.actions, pulls))
    short = replace(engine, given=replace(given, inputs=inputs))
    made = Ready(whole.made, whole.operators[-1], inputs, whole.operators[0])
    return _Lived(whole, short, made, held_fast(short))


def _place(about: About, wholes: Sequence[Whole], bore: str, peak: float, parts: Sequence[Part]) -> PlaceNow:
    lowest = [min(one.firing(bore, warm).ring(bore).lowest for warm in (True, False)) for one in wholes]
    anchor = wholes[1] if len(wholes) > 1 and bore in wholes[1].bores else None
    share = CUT_BY_BRICKS if about.cuts_differ else CHANGE_OF_BRICKS
    off = share * abs(lowest[0] - lowest[-1])
    doubt = Doubt(tuple(parts), (-about.optimism * lowest[0], 0.0), (-off, off))
    place = place_now(wholes[0], bore, peak, doubt, anchor)
    return replace(place, side=side_of(about.plan, bore, place.lowest_angle, about.exhaust))


def _peak(now: Engine, as_built: Engine | None) -> PeakTaken:
    given = now.given
    low, high = given.peak
    then = as_built.given.inputs.peak_pressure if as_built is not None else None
    says = f"{given.gas}; knock is not in the band, {given.knock:.2g} MPa more are set aside for it"
    return PeakTaken(given.inputs.peak_pressure, Band(low, high, why=given.gas), given.knock, says, then)


def _matches(this: Whole, decides: PlaceNow, peak: float) -> Matches | None:
    if decides.as_built_lowest is None or decides.as_built_lowest <= 0.0:
        return None
    return Matches(decides.bore, opening_pressure(this, decides.bore, decides.as_built_lowest, peak))


def _influences(parts: Sequence[Part], bore: str, compared: bool) -> tuple[Influence, ...]:
    moved = [part.change(bore) if compared else part.load(bore) for part in parts]
    weights = weight_of(moved).tolist()
    found = [
        Influence(part.name, part.says, Band(low, high, why="taken alone"), weight)
        for part, (low, high), weight in zip(parts, moved, weights, strict=True)
    ]
    return tuple(sorted(found, key=lambda one: -one.share))


def _steps(study: JointStudy, this: Whole, now: Engine, held: Held | None) -> tuple[Step, ...]:
    """What is left over of both equations, and sums about fasteners and shear."""
    mean = study.decides.cold_mean
    law = Step.work_out(
        "Most by which any spring misses its law, of the mean load of the ring",
        "missed / mean",
        {"missed": (this.judged.residual, "N/mm"), "mean": (mean, "N/mm")},
        ("left_over", NO_UNIT),
        RUN,
    )
    bolt = max(study.bolts, key=lambda one: one.bearing)
    most = max(bolt.tightened, bolt.bedded, bolt.cold, bolt.hot, bolt.firing)
    under = Step.work_out(
        f"Pressure under the head of fastener {bolt.label}, the highest",
        "pull / area",
        {"pull": (most, "N"), "area": (now.given.bearing[bolt.label], "mm²")},
        ("bearing_pressure", "MPa"),
        DERIVED,
    )
    room = _room(study)
    shear = held.steps if held is not None else ()
    return (*this.life.steps, *this.judged.steps, law, under, *room, *shear)


def _room(study: JointStudy) -> tuple[Step, ...]:
    first = min((one for one in study.places if one.opens_at is not None), key=_opens, default=None)
    if first is None or first.opens_at is None:
        return ()
    figures: Mapping[str, tuple[float, str]] = {
        "opens_at": (first.opens_at, "MPa"),
        "peak": (study.peak.value, "MPa"),
        "knock": (study.peak.knock_allowance, "MPa"),
    }
    says = (
        f"Room above peak pressure and what is set aside for knock, until the ring of No {first.bore} opens"
    )
    return (Step.work_out(says, "opens_at - peak - knock", figures, ("room", "MPa"), RUN),)


def _opens(place: PlaceNow) -> float:
    assert place.opens_at is not None
    return place.opens_at


def _assumed(held: Sequence[Held | None], parts: Sequence[Part]) -> tuple[Note, ...]:
    texts = [
        "soft and stiff castings and cuts are condensed on coarse bricks; only their difference is used",
        "parts of the band are taken one at a time, as independent, and added as roots of squares",
    ]
    if held[0] is not None and not held[0].slip.believable:
        texts.append(
            f"hot faces slip: friction of {FRICTION:g} could not hold them, the stuck case is left out of the band"
        )
    if not any(part.name == "slip" for part in parts) and held[0] is None:
        texts.append("hot faces are taken as slipping on the gasket")
    return tuple(Note(text, GENERIC) for text in texts)
