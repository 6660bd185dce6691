"""The clamped joint studied: place by place now and against the engine as it left the factory; or why not yet."""

from dataclasses import dataclass, replace
from typing import ClassVar

from firedeck.errors import DidNotConverge, FiredeckError, OutOfRange
from firedeck.findings.clamped_joint import ModelInputs, carried, model_inputs
from firedeck.findings.faces import Faces
from firedeck.findings.finding import Findings, LongWork, When
from firedeck.findings.gas import boost_for
from firedeck.findings.joint_worth import with_worth
from firedeck.job import Job, Joint
from firedeck.joint.assumed import assumed
from firedeck.joint.comparing import Rank
from firedeck.joint.geometry.mesh import PREVIEW, RECIPES, STANDARD, Recipe
from firedeck.joint.studied import About
from firedeck.joint.study import (
    NOT_COMPARED,
    After,
    BeadNow,
    BoltNow,
    Influence,
    JointStudy,
    Matches,
    PeakTaken,
    PlaceNow,
    Slip,
)
from firedeck.runs import Stopped, StudyRequest, kept_study, still_to_condense, study
from firedeck.trace import Missing, Note

__all__ = [
    "NOT_COMPARED",
    "After",
    "BeadNow",
    "BoltNow",
    "Influence",
    "JointFound",
    "JointStudy",
    "Matches",
    "PeakTaken",
    "PlaceNow",
    "Rank",
    "Slip",
    "at_once",
    "factory_of",
    "find",
    "to_condense",
    "worked_out",
]

OPTIMISM = {name: assumed(f"optimism {name}") for name in RECIPES}
"""Share by which bricks of each size bring the lowest firing load out too high, from one joint at four sizes."""
NEW_SHAPE = "new shape, about 20 seconds"


@dataclass(frozen=True)
class JointFound:
    """The study; or why the bricks cannot carry it (``uncarried``), or that the long work was not done (``waiting``)."""

    id: ClassVar[str] = "joint"
    study: JointStudy | None
    uncarried: str = ""
    waiting: str = ""


def find(job: Job, joint: Joint | None, found: Findings) -> JointFound | Missing:
    """Study the joint against the engine as it left the factory, as far as the long work is allowed."""
    assert joint is not None
    work = found.long_work
    faces = None if work.when is When.NEVER else found.get(Faces)
    return worked_out(job, factory_of(job), joint.name, work, faces=faces)


def factory_of(job: Job) -> Job | None:
    """The engine as it left the factory: its list of changes, and the boost before; None where neither is said."""
    before, boost = job.as_built(), job.document.running.boost_before
    if boost is None:
        return before
    return (before or job).changed({"running.boost": boost.text})


def worked_out(
    job: Job,
    before: Job | None,
    name: str,
    long_work: LongWork | None = None,
    *,
    factory: bool = True,
    recipe: Recipe = STANDARD,
    faces: Faces | Missing | None = None,
) -> JointFound | Missing:
    """Study one joint of a job against the same joint of another job.

    ``factory``: the other is the engine as it left the factory, so its faces count as flat; else as they are written.
    ``faces``: those of the joint now, where they have been read before.
    """
    work = long_work or LongWork()
    if work.when is When.NEVER:
        return _never(job)
    try:
        asked = study_request(job, before, name, factory=factory, recipe=recipe, faces=faces)
        if isinstance(asked, Missing):
            return asked
        request, assumed = asked
        if work.when is When.KEPT:
            found = kept_study(request)
            if found is None:
                return JointFound(None, waiting=NEW_SHAPE)
        else:
            found = study(request, told=work.told, stop=work.stop)
    except Stopped:
        raise
    except DidNotConverge as fault:
        return JointFound(None, uncarried=f"did not settle: {fault}")
    except FiredeckError as fault:
        return JointFound(None, uncarried=str(fault).splitlines()[0])
    except OSError as fault:
        why = f"nothing can be kept in {fault.filename} ({(fault.strerror or 'no access').lower()})"
        return JointFound(None, uncarried=f"{why}; name another folder in FIREDECK_CACHE")
    found = replace(
        found,
        assumptions=(*assumed, *found.assumptions),
        matches_anchor_at=_with_boost(job, found.matches_anchor_at),
    )
    return JointFound(with_worth(job.joint(name), found))


def _with_boost(job: Job, match: Matches | None) -> Matches | None:
    """Say the boost beside the pressure, where the engine is charged and the pressure was worked out."""
    if match is None or match.pressure is None:
        return match
    return replace(match, boost=boost_for(job, match.pressure))


def _never(job: Job) -> JointFound:
    try:
        carried(job)
    except OutOfRange as fault:
        return JointFound(None, uncarried=str(fault))
    return JointFound(None, waiting=NEW_SHAPE)


def at_once(
    job: Job, before: Job | None, name: str, *, factory: bool = True, recipe: Recipe = STANDARD
) -> bool:
    """Tell whether everything that has to be condensed for a study lies ready: then it takes seconds at most."""
    return not to_condense(job, before, name, factory=factory, recipe=recipe)


def to_condense(
    job: Job, before: Job | None, name: str, *, factory: bool = True, recipe: Recipe = STANDARD
) -> frozenset[str]:
    """Return what has to be condensed for a study and does not lie ready, by its keys."""
    try:
        asked = study_request(job, before, name, factory=factory, recipe=recipe)
    except FiredeckError:
        return frozenset()
    return frozenset() if isinstance(asked, Missing) else still_to_condense(asked[0])


def study_request(
    job: Job,
    before: Job | None,
    name: str,
    *,
    factory: bool = True,
    recipe: Recipe = STANDARD,
    faces: Faces | Missing | None = None,
) -> tuple[StudyRequest, tuple[Note, ...]] | Missing:
    """Say what is to be studied, and what was assumed for it; or the first thing that is missing."""
    now = model_inputs(job, job.joint(name), recipe, faces=faces)
    if isinstance(now, Missing):
        return now
    then: ModelInputs | None = None
    if before is not None:
        other = model_inputs(before, before.joint(name), recipe, factory=factory, like=now)
        if isinstance(other, Missing):
            return other
        then = other
    about = About(
        joint=name,
        plan=now.plan,
        mesh=recipe.name,
        mesh_says=recipe.says,
        optimism=OPTIMISM.get(recipe.name, OPTIMISM[PREVIEW.name]),
        exhaust=now.exhaust,
        differs=() if then is None else differences(now, then),
        cuts_differ=then is not None and _cuts(now) != _cuts(then),
    )
    request = StudyRequest(about, now.engine, None if then is None else then.engine)
    only_then = (
        () if then is None else tuple(note for note in then.assumptions if note not in now.assumptions)
    )
    factorys = tuple(Note(f"as built: {note.text}", note.source) for note in only_then)
    return request, (*now.assumptions, *factorys)


def differences(now: ModelInputs, then: ModelInputs) -> tuple[str, ...]:
    """Say what of the model differs between two engines."""
    one, other = now.engine, then.engine
    pairs = {
        "hole pattern or ring": (now.plan, then.plan),
        "castings": (one.castings.request.head, other.castings.request.head),
        "head cut": (one.castings.cut_head, other.castings.cut_head),
        "block cut": (one.castings.cut_block, other.castings.cut_block),
        "gasket": (one.given.gasket, other.given.gasket),
        "fasteners or lubricant": (one.given.fasteners, other.given.fasteners),
        "tightening": (one.given.inputs.actions, other.given.inputs.actions),
        "peak pressure": (one.given.inputs.peak_pressure, other.given.inputs.peak_pressure),
        "faces and liners": (_gaps(now), _gaps(then)),
    }
    return tuple(what for what, (here, there) in pairs.items() if here != there)


def _cuts(this: ModelInputs) -> tuple[float, float]:
    return this.engine.castings.cut_head, this.engine.castings.cut_block


def _gaps(this: ModelInputs) -> tuple[float, ...]:
    gap = this.inputs.gap
    return () if gap is None or not gap.any() else tuple(gap.round(6).tolist())
