"""The examples in the docstrings."""

import doctest
import importlib
from pathlib import Path

import pytest

SRC = Path(__file__).parents[2] / "src"
WITH_EXAMPLES = sorted(
    ".".join(file.relative_to(SRC).with_suffix("").parts).removesuffix(".__init__")
    for file in SRC.rglob("*.py")
    if ">>> " in file.read_text(encoding="utf-8")
)


def test_there_are_examples_in_docstrings():
    assert len(WITH_EXAMPLES) > 50


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_the_examples_of_a_module_print_what_they_say(name):
    done = doctest.testmod(importlib.import_module(name))
    assert done.attempted > 0
    assert done.failed == 0
