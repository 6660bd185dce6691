"""Run every finding and answer of a job, in the order of the work."""

from collections.abc import Iterator

from firedeck.answers import face_flat
from firedeck.answers.answer import Answer
from firedeck.answers.questions import questions
from firedeck.assess.assessment import ENGINE, Assessment
from firedeck.findings import faces
from firedeck.findings.finding import Findings, Listed
from firedeck.job import Job

FINDINGS = (Listed("faces", False, faces.find),)
"""In order: a finding may ask only for those above it."""

ANSWERS = {"face-flat": face_flat.answer}


def assess(job: Job, stage: str | None = None) -> Assessment:
    """Answer every question of a job, or only those of one stage."""
    engine = Findings(job, None, FINDINGS)
    joints = {joint.name: Findings(job, joint, FINDINGS, engine) for joint in job.joints}
    answers = tuple(_answers(job, stage, engine, joints))
    if stage is None:
        for found in (engine, *joints.values()):
            found.all()
    scopes = {ENGINE: engine, **joints}
    return Assessment(job, {name: dict(found.worked_out()) for name, found in scopes.items()}, answers)


def _answers(job: Job, stage: str | None, engine: Findings, joints: dict[str, Findings]) -> Iterator[Answer]:
    for question in questions().values():
        if stage is not None and question.stage != stage or question.id not in ANSWERS:
            continue
        give = ANSWERS[question.id]
        if question.scope == "engine":
            yield give(job, None, engine)
        else:
            for joint in job.joints:
                yield give(job, joint, joints[joint.name])
