"""Rules of the house no import contract can see."""

import ast
import re

import pytest
from architecture.sources import FACES, PHYSICS, ROOT, SRC, files, short, tree

from firedeck.answers.questions import questions, stages

IDS = list(questions())
SHEETS = {"shop-order", "follow-up"}
TELLING = [name for name in IDS if name not in stages().keys() | SHEETS]
"""A question that shares its id with a stage or a sheet cannot be told from it in a face."""
LONG_FILES: dict[str, str] = {}
LONG_FUNCTIONS: dict[str, str] = {}
"""Reasons for files over 400 lines and functions over 60."""


@pytest.mark.parametrize("file", files(*FACES), ids=short)
def test_faces_know_no_question_by_name(file):
    text = file.read_text(encoding="utf-8")
    named = [name for name in TELLING if re.search(rf"(?<![\w-]){name}(?![\w-])", text)]
    assert not named


def test_face_data_names_no_question():
    data = [
        file
        for room in FACES
        for end in ("*.toml", "*.typ", "*.css", "*.js")
        for file in (SRC / room).rglob(end)
    ]
    own = [file for file in data if "htmx" not in file.name]
    named = [
        (short(file), name)
        for file in own
        for name in TELLING
        if re.search(rf"(?<![\w-]){name}(?![\w-])", file.read_text(encoding="utf-8"))
    ]
    assert not named


@pytest.mark.parametrize("file", files(*PHYSICS), ids=short)
def test_physics_opens_nothing(file):
    calls = [node for node in ast.walk(tree(file)) if isinstance(node, ast.Call)]
    names = {call.func.id for call in calls if isinstance(call.func, ast.Name)}
    assert not names & {"open", "print", "input", "exec", "eval"}


@pytest.mark.parametrize("file", files(), ids=short)
def test_sizes_are_calm(file):
    lines = file.read_text(encoding="utf-8").count("\n")
    assert lines <= 400 or short(file) in LONG_FILES
    for node in ast.walk(tree(file)):
        if isinstance(node, ast.FunctionDef):
            name = f"{short(file)}:{node.name}"
            doc = ast.get_docstring(node, clean=False) or ""
            length = (node.end_lineno or node.lineno) - node.lineno - doc.count("\n")
            assert length <= 60 or name in LONG_FUNCTIONS, f"{name} has {length} lines"


def test_assess_stays_short():
    file = SRC / "assess" / "assess.py"
    assert file.read_text(encoding="utf-8").count("\n") < 80


def test_one_answer_per_question_in_the_order_of_the_work():
    assert len(IDS) == 29
    built = {file.stem.replace("_", "-") for file in (SRC / "answers").glob("*.py")}
    assert set(IDS) <= built


def test_no_file_names_a_place_of_one_machine():
    tracked = [*ROOT.glob("*.md"), *ROOT.glob("docs/**/*.md"), *files(), *ROOT.glob("tests/**/*.py")]
    pattern = re.compile(r"\.\./sha" + r"red|(?<![\w.])/(?:wo" + r"rk|ro" + r"ot|fa" + r"rm)/")
    assert not [str(file) for file in tracked if pattern.search(file.read_text(encoding="utf-8"))]
