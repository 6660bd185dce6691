"""A written sum that is not the sum done is impossible: every printed formula gives its printed result."""

import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from architecture.sources import ROOT

from firedeck.assess import assess, plain
from firedeck.job import read_file
from firedeck.trace import evaluate, input_names

JOBS = [
    *sorted((ROOT / "examples/jobs").glob("*.toml")),
    *sorted((ROOT / "tests/published/jobs").glob("*.toml")),
]


def steps_in(node: Any) -> Iterator[dict[str, Any]]:
    """Go through everything that looks like a written sum."""
    if isinstance(node, dict):
        if {"formula", "inputs", "result"} <= node.keys():
            yield node
        for value in node.values():
            yield from steps_in(value)
    elif isinstance(node, list):
        for value in node:
            yield from steps_in(value)


@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.stem)
def test_every_printed_sum_comes_out(file: Path) -> None:
    steps = list(steps_in(plain(assess(read_file(file)))))
    assert steps
    for step in steps:
        given = {name: number for name, (number, _unit) in step["inputs"].items()}
        ((printed, _unit),) = step["result"].values()
        again = evaluate(step["formula"], given)
        scale = max([abs(printed), *(abs(number) * 1e-6 for number in given.values())], default=0.0)
        assert math.isclose(again, printed, rel_tol=1e-5, abs_tol=1e-5 * scale + 1e-12), step
        assert input_names(step["formula"]) <= given.keys()
        assert step["source"]


@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.stem)
def test_every_question_is_answered_once_per_scope(file: Path) -> None:
    whole = plain(assess(read_file(file)))
    asked = [(answer["question"], answer["joint"]) for answer in whole["answers"]]
    assert len(asked) == len(set(asked))
    assert next(iter(whole["answers"][0])) == "question"
    assert {name for name, _ in asked} == {answer["question"] for answer in whole["answers"]}
