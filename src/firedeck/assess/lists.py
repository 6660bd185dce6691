"""Every finding and every answer, in order. A finding may ask only for those above it.

Both are named after their file, and a file is opened only when it is first asked: one stage of a job
costs only what that stage needs.
"""

from collections.abc import Callable
from functools import partial
from importlib import import_module
from typing import Any

from firedeck.answers.answer import Answer
from firedeck.answers.questions import questions
from firedeck.findings.finding import Findings, Listed
from firedeck.job import Job, Joint

Give = Callable[[Job, Joint | None, Findings], Answer]

ENGINE_WIDE = True
PER_JOINT = False


def _first_asked(module: str, function: str, *arguments: Any) -> Any:
    return getattr(import_module(module), function)(*arguments)


def _finding(name: str, engine_wide: bool) -> Listed:
    return Listed(name, engine_wide, partial(_first_asked, f"firedeck.findings.{name}", "find"))


def _answer(question: str) -> Give:
    return partial(_first_asked, f"firedeck.answers.{question.replace('-', '_')}", "answer")


FINDINGS = (
    _finding("faces", PER_JOINT),
    _finding("rings", PER_JOINT),
    _finding("finish", PER_JOINT),
    _finding("damage", PER_JOINT),
    _finding("old_gasket", PER_JOINT),
    _finding("liners", PER_JOINT),
    _finding("pistons", PER_JOINT),
    _finding("layout", PER_JOINT),
    _finding("fits", PER_JOINT),
    _finding("volumes", PER_JOINT),
    _finding("cut", PER_JOINT),
    _finding("effects", PER_JOINT),
    _finding("combination", PER_JOINT),
    _finding("threads", PER_JOINT),
    _finding("fasteners", PER_JOINT),
    _finding("procedure", PER_JOINT),
    _finding("sealant", PER_JOINT),
    _finding("gas", ENGINE_WIDE),
    _finding("tests", ENGINE_WIDE),
    _finding("causes", ENGINE_WIDE),
    _finding("came_back", ENGINE_WIDE),
    _finding("due", ENGINE_WIDE),
    _finding("proof", ENGINE_WIDE),
    _finding("clamp", PER_JOINT),
    _finding("holding", PER_JOINT),
    _finding("joint", PER_JOINT),
)

ANSWERS = {question: _answer(question) for question in questions()}
