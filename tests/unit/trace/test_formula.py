"""Written sums: plain arithmetic only, and the result is the sum."""

import math

import pytest

from firedeck.trace import FormulaError, Step, evaluate, input_names


@pytest.mark.parametrize(
    ("formula", "values", "expected"),
    [
        ("pi / 4 * bore**2", {"bore": 2.0}, math.pi),
        ("sqrt(a**2 + 3 * b**2)", {"a": 1.0, "b": 1.0}, 2.0),
        ("min(a, b, 3) - max(a, b)", {"a": 1.0, "b": 2.0}, -1.0),
        ("-a + abs(-2)", {"a": 1.0}, 1.0),
        ("exp(log(a)) * cos(0) + atan(0)", {"a": 5.0}, 5.0),
    ],
)
def test_arithmetic(formula, values, expected):
    assert evaluate(formula, values) == pytest.approx(expected)


@pytest.mark.parametrize(
    "formula",
    ["__import__('os')", "a.b", "[1]", "a if a else 1", "f(a)", "a < 1", "'x'", "min(a, key=a)", "b"],
)
def test_nothing_else_is_read(formula):
    with pytest.raises(FormulaError):
        evaluate(formula, {"a": 1.0})


def test_inputs_are_found():
    assert input_names("pi / 4 * sqrt(bore) + min(a, 2)") == {"bore", "a"}


def test_a_step_needs_all_its_inputs():
    with pytest.raises(FormulaError):
        Step.work_out("x", "a + b", {"a": (1.0, "mm")}, ("c", "mm"), "derived")


def test_a_step_is_frozen():
    step = Step.work_out("x", "a", {"a": (1.0, "mm")}, ("c", "mm"), "derived")
    with pytest.raises(TypeError):
        step.inputs["a"] = (2.0, "mm")
    assert step.figure() == (1.0, "mm")
