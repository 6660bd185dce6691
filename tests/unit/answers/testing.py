"""Small engines made for tests of diagnosis, clamp and proof: nobody built them, every figure is invented."""

from pathlib import Path
from typing import Any

from firedeck.answers.answer import Answer
from firedeck.assess.assess import assess_question
from firedeck.assess.lists import FINDINGS
from firedeck.findings.finding import Findings
from firedeck.job import Job, read_file, read_text

EXAMPLES = Path(__file__).parents[3] / "examples/jobs"
FOUR = """
format = 0
[job]
title = "Invented"
[engine]
arrangement = "inline"
cylinders = ["1", "2", "3", "4"]
{engine}
[[joint]]
name = "head"
{joint}
{rest}
"""
VEE = """
format = 0
[job]
title = "Invented"
[engine]
arrangement = "vee"
cylinders = ["1", "2", "3", "4", "5", "6", "7", "8"]
[[joint]]
name = "odd"
cylinders = ["1", "3", "5", "7"]
[[joint]]
name = "even"
cylinders = ["2", "4", "6", "8"]
{rest}
"""


def four(rest: str = "", engine: str = "", joint: str = "") -> Job:
    """Give an inline four of which nothing is known but what is written here."""
    return read_text(FOUR.format(engine=engine, joint=joint, rest=rest))


def vee(rest: str) -> Job:
    """Give a vee eight."""
    return read_text(VEE.format(rest=rest))


def example(**changes: Any) -> Job:
    """Give the inline four of the examples with values replaced; a path is written with __ for its dots."""
    job = read_file(EXAMPLES / "inline-four.toml")
    return job.changed({path.replace("__", "."): value for path, value in changes.items()})


def ask(job: Job, question: str, joint: str | None = None) -> Answer:
    """Answer one question; where a head is named, that of this head."""
    answers = assess_question(job, question).answers
    (one,) = [answer for answer in answers if joint is None or answer.joint == joint]
    return one


def found(job: Job, joint: str = "") -> Findings:
    """Give the findings of the engine, or of one head."""
    engine = Findings(job, None, FINDINGS)
    return Findings(job, job.joint(joint), FINDINGS, engine) if joint else engine


def notes(answer: Answer) -> str:
    """Give everything an answer says beside its checks."""
    lines = [f"{work.text} {work.figure} {work.caution}" for work in answer.work]
    return " ".join([*(note.text for note in answer.notes), *lines, *answer.cautions, *answer.assumptions])


def wanted(answer: Answer) -> str:
    """Give what is to be measured next."""
    return " ".join(f"{one.missing.measure} {one.missing.tool} {one.missing.how}" for one in answer.next)


def check(answer: Answer, start: str):
    """Give the check whose name starts so."""
    (one,) = [check for check in answer.checks if check.name.startswith(start)]
    return one
