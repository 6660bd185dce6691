"""Everything firedeck says about a job, as one frozen thing."""

from collections.abc import Mapping
from dataclasses import dataclass

from firedeck.answers.answer import Answer
from firedeck.findings.finding import Finding
from firedeck.job import Job
from firedeck.trace import Missing

ENGINE = ""
"""Key of the findings that belong to the whole engine."""


@dataclass(frozen=True)
class Assessment:
    """A job, what was found for the engine and for each joint, and every answer."""

    job: Job
    findings: Mapping[str, Mapping[str, Finding | Missing]]
    answers: tuple[Answer, ...]
