"""A job held against the same job done another way: which answers change, and each ring place by place.

Ways come from changes typed on the terminal, from the document's variants, and from its gaskets.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from firedeck.answers.answer import Answer
from firedeck.assess.assess import assess
from firedeck.assess.assessment import Assessment
from firedeck.errors import JobError
from firedeck.findings.finding import LongWork
from firedeck.findings.joint import JointFound, JointStudy, PlaceNow, factory_of, to_condense, worked_out
from firedeck.job import Job, Joint
from firedeck.job.paths import join_path, nearest
from firedeck.trace import Band, Missing

AT_ONCE, NEW_SHAPE = "at once", "new shape, about 20 seconds"
WITH_THE_OTHERS = "only together with the others"


@dataclass(frozen=True)
class Way:
    """Another way to do the job: its name, and what is replaced, by path."""

    name: str
    changes: Mapping[str, Any]


@dataclass(frozen=True)
class Beside:
    """One answer as the document is written, and as it is with the changes."""

    written: Answer
    changed: Answer

    @property
    def differs(self) -> bool:
        """Whether anything of it that a person acts on changes."""
        return _acted_on(self.written) != _acted_on(self.changed)


@dataclass(frozen=True)
class RingBeside:
    """One ring [N/mm]: as it left the factory, as written, changed; the change from as written with its band."""

    written: PlaceNow
    changed: PlaceNow
    change: float
    band: Band | None


@dataclass(frozen=True)
class JointBeside:
    """The rings of one head; without rings ``says`` why there are none. ``studies``: as written, changed."""

    joint: str
    rings: tuple[RingBeside, ...] = ()
    studies: tuple[JointStudy, JointStudy] | None = None
    says: str = ""


@dataclass(frozen=True)
class WhatIf:
    """One way held against the document as written."""

    way: Way
    answers: tuple[Beside, ...]
    joints: tuple[JointBeside, ...]
    assessment: Assessment


def ways(job: Job, changes: Mapping[str, Any], variants: Sequence[str], candidates: bool) -> tuple[Way, ...]:
    """List the ways asked for: each variant and each gasket with the typed changes on top, else these alone."""
    found = [Way(name, _variant(job, name) | dict(changes)) for name in variants]
    if candidates:
        found += [Way(name, {path: value, **changes}) for name, path, value in _gaskets(job)]
    if not found and changes:
        found = [Way("as typed", dict(changes))]
    if not found:
        allowed = "--change PATH=VALUE, --variant NAME or --candidates"
        raise JobError("what-if", "nothing to change" if not candidates else "no other gasket", allowed)
    return tuple(found)


def _variant(job: Job, name: str) -> dict[str, Any]:
    for one in job.document.variant:
        if one.name == name:
            return dict(one.changes)
    known = [one.name for one in job.document.variant]
    raise JobError(
        "--variant", repr(name), nearest(name, known) if known else "the document has no [[variant]]"
    )


def _gaskets(job: Job) -> Iterator[tuple[str, str, str]]:
    """Go through the gaskets of every head that are not the one that goes on."""
    for joint in job.joints:
        for one in joint.gasket.candidates:
            if one.name != joint.gasket.fitted:
                where = f", {joint.name}" if len(job.joints) > 1 else ""
                yield (
                    f"gasket {one.name}{where}",
                    join_path(("joint", joint.name, "gasket", "fitted")),
                    one.name,
                )


def announced(job: Job, way: Way) -> dict[str, str]:
    """Say of each change of a way whether it is answered at once or is a new shape, beside what is written."""
    ready = {joint.name: to_condense(job, factory_of(job), joint.name) for joint in job.joints}
    return {path: _announced(job, path, value, ready) for path, value in way.changes.items()}


def _announced(job: Job, path: str, value: Any, ready: Mapping[str, frozenset[str]]) -> str:
    try:
        changed = job.what_if({path: value})
    except JobError:
        return WITH_THE_OTHERS
    for joint in _in_both(job, changed):
        lacks = to_condense(changed, factory_of(changed), joint.name)
        if (lacks | to_condense(changed, job, joint.name, factory=False)) - ready[joint.name]:
            return NEW_SHAPE
    return AT_ONCE


def what_if(written: Assessment, way: Way, long_work: LongWork) -> WhatIf:
    """Answer a job done another way and hold it against the answers as written."""
    job = written.job.what_if(way.changes)
    changed = assess(job, long_work=long_work)
    after = {(one.question, one.joint): one for one in changed.answers}
    pairs = ((one, after.get((one.question, one.joint))) for one in written.answers)
    answers = tuple(Beside(one, other) for one, other in pairs if other is not None)
    joints = tuple(_joint(written, changed, joint.name, long_work) for joint in _in_both(written.job, job))
    return WhatIf(way, answers, joints, changed)


def _in_both(job: Job, changed: Job) -> list[Joint]:
    names = {joint.name for joint in changed.joints}
    return [joint for joint in job.joints if joint.name in names]


def _acted_on(answer: Answer) -> tuple[object, ...]:
    return (answer.state, answer.action, answer.choice, answer.headline)


def _joint(written: Assessment, changed: Assessment, name: str, long_work: LongWork) -> JointBeside:
    found = [_study(one.findings[name].get("joint")) for one in (written, changed)]
    lacks = [one for one in found if isinstance(one, str)]
    if lacks:
        return JointBeside(name, says=lacks[0])
    before, after = found
    assert isinstance(before, JointStudy)
    assert isinstance(after, JointStudy)
    paired = _study(worked_out(changed.job, written.job, name, long_work, factory=False))
    bands = {one.bore: one.change_band for one in paired.places} if isinstance(paired, JointStudy) else {}
    then = {one.bore: one for one in before.places}
    rings = tuple(
        RingBeside(then[one.bore], one, one.firing_lowest - then[one.bore].firing_lowest, bands.get(one.bore))
        for one in after.places
        if one.bore in then
    )
    return JointBeside(name, rings, (before, after))


def _study(found: object) -> JointStudy | str:
    """Return the study of a joint, or in words why there is none."""
    if isinstance(found, Missing):
        return f"not yet: measure {found.measure}"
    if isinstance(found, JointFound):
        return found.study or found.uncarried or found.waiting
    return "not asked"
