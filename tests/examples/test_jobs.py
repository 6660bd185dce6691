"""Every example, through the command line, stage by stage and as a whole."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from firedeck.answers.questions import questions, stages
from firedeck.cli import main

ROOT = Path(__file__).parents[2]
JOBS = sorted((ROOT / "examples" / "jobs").glob("*.toml"))
UNITS = ("as-typed", "mm", "inch")


@pytest.fixture
def checked(capsys):
    """Check a file and return what was printed."""

    def check(file, *more):
        code = main(["check", *map(str, (file, *more))])
        said = capsys.readouterr()
        assert (code, said.err) == (0, "")
        return said.out

    return check


def wanted(joints, stage=None):
    """Return the questions of a stage with the joint each is asked for, in the order of the work."""
    return [
        (question.id, joint)
        for question in questions().values()
        if stage in (None, question.stage)
        for joint in ([None] if question.scope == "engine" else joints)
    ]


def test_there_are_examples():
    assert len(JOBS) >= 4


@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.stem)
def test_an_example_says_that_it_is_invented(file, checked):
    assert "nvented" in file.read_text(encoding="utf-8").splitlines()[0]
    assert "nvented" in json.loads(checked(file, "--stage", "measure", "--json"))["job"]["notes"]


@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.stem)
def test_the_stages_together_are_the_whole(file, checked):
    whole = json.loads(checked(file, "--json"))
    asked = [(answer["question"], answer["joint"]) for answer in whole["answers"]]
    assert asked == wanted(whole["joints"])
    of_stages = [
        answer
        for stage in stages()
        for answer in json.loads(checked(file, "--stage", stage, "--json"))["answers"]
    ]
    assert sorted(of_stages, key=by_question) == sorted(whole["answers"], key=by_question)


def by_question(answer):
    return answer["question"], answer["joint"] or ""


@pytest.mark.parametrize("stage", stages())
@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.stem)
def test_a_stage_answers_its_questions_and_no_others(file, stage, checked):
    said = json.loads(checked(file, "--stage", stage, "--json"))
    assert [(answer["question"], answer["joint"]) for answer in said["answers"]] == wanted(
        said["joints"], stage
    )


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.stem)
def test_in_words_every_headline_is_there(file, units, checked):
    said = " ".join(checked(file, "--units", units).split())
    answers = json.loads(checked(file, "--json"))["answers"]
    told = [answer["headline"] for answer in answers if answer["state"] != "not-applicable"]
    assert [headline for headline in told if " ".join(headline.split()) not in said] == []


def test_the_same_job_gives_the_same_words_in_every_process():
    """Nothing may hang on the order in which Python happens to hold a set."""
    said = set()
    for seed in ("1", "2", "3"):
        command = [sys.executable, "-m", "firedeck", "check", *map(str, JOBS), "--json"]
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        done = subprocess.run(command, env=environment, capture_output=True, encoding="utf-8", check=True)
        said.add(done.stdout)
    assert len(said) == 1


def test_several_files_are_one_object(checked):
    said = json.loads(checked(JOBS[0], JOBS[1], "--stage", "measure", "--json"))
    assert list(said) == ["jobs"]
    assert [job["job"]["title"] for job in said["jobs"]] == [
        json.loads(checked(file, "--stage", "measure", "--json"))["job"]["title"] for file in JOBS[:2]
    ]
