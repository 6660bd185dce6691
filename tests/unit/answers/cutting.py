"""Jobs for the questions of cut, liners and gasket: an example with a few values replaced, and one question asked."""

from functools import cache
from pathlib import Path

from firedeck.answers.answer import Answer
from firedeck.assess.lists import ANSWERS, FINDINGS
from firedeck.findings.finding import Findings
from firedeck.job import Job, read_file, read_text

EXAMPLES = Path(__file__).parents[3] / "examples" / "jobs"


@cache
def example(name: str) -> Job:
    return read_file(EXAMPLES / f"{name}.toml")


def answered(question: str, job: Job, joint: str = "") -> Answer:
    engine = Findings(job, None, FINDINGS)
    one = job.joint(joint) if joint else job.joints[0]
    return ANSWERS[question](job, one, Findings(job, one, FINDINGS, engine))


def ask(question: str, changes: dict | None = None, *, of: str = "inline-four", joint: str = "") -> Answer:
    return answered(question, example(of).changed(changes or {}), joint)


def small(engine: str, joint: str, rest: str = "") -> Job:
    """Make a short invented job of what a person would say in a few lines."""
    return read_text(
        f'format = 0\n[job]\ntitle = "invented"\n[engine]\narrangement = "inline"\ncylinders = ["1", "2"]\n{engine}\n'
        f'[[joint]]\nname = "head"\n{joint}\n{rest}\n'
    )


def measures(answer: Answer) -> str:
    return "; ".join(one.missing.measure for one in answer.next)


def check(answer: Answer, words: str):
    return next(one for one in answer.checks if words in one.name)
