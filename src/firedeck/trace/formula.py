"""The arithmetic a written sum may use, and the one place that evaluates it."""

import ast
import math
from collections.abc import Callable, Mapping
from functools import cache

_FUNCTIONS: dict[str, Callable[..., float]] = {
    "sqrt": math.sqrt,
    "exp": math.exp,
    "log": math.log,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "asin": math.asin,
    "acos": math.acos,
    "atan": math.atan,
    "min": min,
    "max": max,
    "abs": abs,
}
_BINARY: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: lambda a, b: a + b,
    ast.Sub: lambda a, b: a - b,
    ast.Mult: lambda a, b: a * b,
    ast.Div: lambda a, b: a / b,
    ast.Pow: lambda a, b: a**b,
}


class FormulaError(ValueError):
    """A written sum that is not plain arithmetic over its inputs: a fault of ours."""


@cache
def _parsed(formula: str) -> ast.expr:
    return ast.parse(formula, mode="eval").body


def evaluate(formula: str, values: Mapping[str, float]) -> float:
    """Work out a written sum from its inputs.

    Parameters
    ----------
    formula : str
        One arithmetic expression: ``+ - * / ** ( )``, sqrt exp log sin cos tan asin acos atan
        min max abs, pi, numbers and input names [text].
    values : mapping of str to float
        The inputs by name, in core units [core].

    Returns
    -------
    float
        The result in core units [core].

    Raises
    ------
    FormulaError
        If the expression uses anything else or names an input that is not given.

    Source
    ------
    derived

    Examples
    --------
    >>> evaluate("pi / 4 * bore**2", {"bore": 2.0}) == math.pi
    True
    """
    return float(_value(_parsed(formula), values, formula))


def _value(node: ast.expr, values: Mapping[str, float], formula: str) -> float:
    match node:
        case ast.Constant(value=int() | float() as number):
            return float(number)
        case ast.Name(id=name):
            return _named(name, values, formula)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _BINARY:
            return _BINARY[type(op)](_value(left, values, formula), _value(right, values, formula))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return -_value(operand, values, formula)
        case ast.Call(func=ast.Name(id=name), args=args, keywords=[]) if name in _FUNCTIONS:
            return _FUNCTIONS[name](*(_value(arg, values, formula) for arg in args))
    raise FormulaError(f"not plain arithmetic: {ast.unparse(node)} in {formula}")


def _named(name: str, values: Mapping[str, float], formula: str) -> float:
    if name in values:
        return values[name]
    if name == "pi":
        return math.pi
    raise FormulaError(f"{name} is not an input of {formula}")


@cache
def input_names(formula: str) -> frozenset[str]:
    """Return the names a written sum needs as inputs.

    Parameters
    ----------
    formula : str
        One arithmetic expression as :func:`evaluate` takes [text].

    Returns
    -------
    frozenset of str
        The names, without pi and the functions [text].

    Source
    ------
    derived

    Examples
    --------
    >>> sorted(input_names("sqrt(a**2 + 3 * b**2)"))
    ['a', 'b']
    """
    names = {node.id for node in ast.walk(_parsed(formula)) if isinstance(node, ast.Name)}
    return frozenset(names - _FUNCTIONS.keys() - {"pi"})
