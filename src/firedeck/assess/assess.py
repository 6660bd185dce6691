"""Run every finding and answer of a job, in the order of the work."""

from collections.abc import Iterator, Mapping

from firedeck.answers.answer import Answer
from firedeck.answers.questions import Question, questions
from firedeck.assess.assessment import ENGINE, Assessment
from firedeck.assess.lists import ANSWERS, FINDINGS
from firedeck.findings.finding import Findings, LongWork
from firedeck.job import Job


def assess(job: Job, stage: str | None = None, long_work: LongWork | None = None) -> Assessment:
    """Answer every question of a job, or only those of one stage; nothing that takes long unless asked for."""
    asked = [question for question in questions().values() if stage in (None, question.stage)]
    return _assess(job, asked, long_work, complete=stage is None)


def assess_question(job: Job, name: str, long_work: LongWork | None = None) -> Assessment:
    """Answer one question of a job, for every joint."""
    return _assess(job, [questions()[name]], long_work, complete=False)


def _assess(job: Job, asked: list[Question], long_work: LongWork | None, *, complete: bool) -> Assessment:
    engine = Findings(job, None, FINDINGS, long_work=long_work)
    joints = {joint.name: engine.of(joint) for joint in job.joints}
    answers = tuple(answer for question in asked for answer in _answers(job, question, engine, joints))
    scopes = {ENGINE: engine, **joints}
    if complete:
        for found in scopes.values():
            found.all()
    return Assessment(job, {name: dict(found.worked_out()) for name, found in scopes.items()}, answers)


def _answers(
    job: Job, question: Question, engine: Findings, joints: Mapping[str, Findings]
) -> Iterator[Answer]:
    give = ANSWERS[question.id]
    if question.scope == "engine":
        yield give(job, None, engine)
    else:
        for joint in job.joints:
            yield give(job, joint, joints[joint.name])
