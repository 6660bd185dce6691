"""Every public function of ground and physics says its units and its source, one fixed way."""

import re

import pytest
from architecture.sources import GROUND, PHYSICS, ROOT, files, public_functions, short

FIXED = {"derived", "common-practice", "memory", "generic-ours"}
KEYS = FIXED | set(re.findall(r"^## (\S+)", (ROOT / "docs/sources.md").read_text(encoding="utf-8"), re.M))

CASES = [
    pytest.param(function, id=f"{short(file)}:{function.name}")
    for file in files(*GROUND, *PHYSICS)
    for function in public_functions(file)
]


def section(doc: str, name: str) -> str:
    found = re.search(rf"^ *{name}\n *-+\n(.*?)(?=^ *[A-Z][A-Za-z ]+\n *-+\n|\Z)", doc, re.S | re.M)
    return found.group(1) if found else ""


@pytest.mark.parametrize("function", CASES)
def test_units_and_source_are_written(function):
    import ast

    doc = ast.get_docstring(function) or ""
    assert doc, "no docstring"
    arguments = [arg.arg for arg in (*function.args.args, *function.args.kwonlyargs)]
    parameters = section(doc, "Parameters")
    for name in arguments:
        entry = re.search(rf"^ *{re.escape(name)}(?:, \w+)* : .*\n(?:\s+.*\n?)+", parameters + "\n", re.M)
        assert entry or re.search(rf"\b{re.escape(name)}\b.* : ", parameters), f"{name} is not described"
    if arguments:
        assert "[" in parameters, "no [unit] in Parameters"
    assert "[" in section(doc, "Returns"), "no [unit] in Returns"
    source = section(doc, "Source").split()
    assert source, "no Source"
    key = source[0].strip("[],.;:")
    assert key in KEYS, f"source {key!r} is not in docs/sources.md"


def test_there_is_something_to_look_at():
    assert len(CASES) > 60
