"""What a sum is: one typed function, whose arguments are terms, that calls one physics function.

``@a_sum`` makes a public sum of it. Called from Python, terminal or page it takes texts with units
(or bare numbers for pure ratios); the function inside gets plain core numbers:

    float               a quantity; its kind is that of the term with the argument's name
    str                 a name such as a thread, a class or a method
    tuple[float, ...]   a list, one unit at the end may serve all
    Columns             the text of a CSV file with units in its header
    Rows                rows of cells, each cell of the kind given in ``rows``
"""

import inspect
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import wraps
from types import MappingProxyType
from typing import get_type_hints

from firedeck.errors import BadQuantity, JobError, OutOfRange
from firedeck.quantity import Columns, Kind, in_unit, json_unit, parse, parse_list, parse_rows, read_columns
from firedeck.terms import term
from firedeck.trace import Step

Rows = tuple[tuple[float, ...], ...]
Value = float | str | bool | None | Sequence[object] | Mapping[str, object]


@dataclass(frozen=True)
class Figure:
    """One result: a core number with its kind, or a text, truth, list or object without one.

    ``unit`` is set only where a result is a quotient (mm/cc, mm/kN) or a share in per cent; the
    value is then already in that unit.
    """

    value: Value
    kind: Kind | None = None
    unit: str | None = None

    def as_json(self) -> dict[str, object]:
        """Value and unit as ``--json`` prints them."""
        if self.unit is not None:
            return {"value": self.value, "unit": self.unit}
        if self.kind is None or not isinstance(self.value, float | int) or isinstance(self.value, bool):
            return {"value": self.value, "unit": None}
        unit = json_unit(self.kind)
        value = in_unit(float(self.value), self.kind, unit) if unit else self.value
        return {"value": value, "unit": unit}


@dataclass(frozen=True)
class SumResult:
    """What a sum gives: figures by name, the written steps, and what to keep in mind."""

    results: Mapping[str, Figure]
    steps: tuple[Step, ...] = ()
    sources: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Sum:
    """A public sum: its name, what it answers, its arguments and the function that does it."""

    name: str
    says: str
    arguments: Mapping[str, "Argument"]
    run: Callable[..., SumResult] = field(repr=False)


@dataclass(frozen=True)
class Argument:
    """One argument of a sum: its term, the Python type it arrives as, and whether it may be left out.

    ``meant`` is the term that explains it: the one of its name, unless the name means something else
    in another sum (sections of a bolt, sections of a trace).
    """

    name: str
    type: object
    optional: bool
    rows: tuple[Kind, ...] = ()
    meant: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "meant", self.meant or self.name)

    @property
    def shown(self) -> str:
        """The name without the underscore that keeps Python keywords apart."""
        return self.name.rstrip("_")


_SUMS: dict[str, Sum] = {}


def a_sum(
    name: str,
    rows: Mapping[str, tuple[Kind, ...]] | None = None,
    meant: Mapping[str, str] | None = None,
) -> Callable[..., Callable[..., SumResult]]:
    """Register a function as the public sum ``name``.

    ``rows`` gives the kinds of the cells of Rows arguments, ``meant`` the term of an argument whose
    name is the term of something else.
    """

    def register(function: Callable[..., SumResult]) -> Callable[..., SumResult]:
        arguments = _arguments(function, rows or {}, meant or {})

        @wraps(function)
        def run(**given: object) -> SumResult:
            return function(**_read(name, arguments, given))

        says = (inspect.getdoc(function) or name).splitlines()[0]
        _SUMS[name] = Sum(name, says, arguments, run)
        return run

    return register


def _arguments(
    function: Callable[..., SumResult], rows: Mapping[str, tuple[Kind, ...]], meant: Mapping[str, str]
) -> Mapping[str, Argument]:
    hints = get_type_hints(function)
    found = {}
    for parameter in inspect.signature(function).parameters.values():
        hint = hints[parameter.name]
        kinds = [part for part in getattr(hint, "__args__", ()) if part is not type(None)]
        optional = parameter.default is not inspect.Parameter.empty
        core = kinds[0] if optional and type(None) in getattr(hint, "__args__", ()) else hint
        name = parameter.name
        found[name] = Argument(name, core, optional, rows.get(name, ()), meant.get(name, ""))
    return MappingProxyType(found)


def _read(name: str, arguments: Mapping[str, Argument], given: Mapping[str, object]) -> dict[str, object]:
    by_shown = {argument.shown: argument for argument in arguments.values()} | dict(arguments)
    unknown = [key for key in given if key not in by_shown]
    if unknown:
        allowed = ", ".join(argument.shown for argument in arguments.values())
        raise JobError(f"{name} {unknown[0]}", "an argument this sum does not have", f"it has: {allowed}")
    values = {by_shown[key].name: _value(name, by_shown[key], value) for key, value in given.items()}
    for argument in arguments.values():
        if not argument.optional and argument.name not in values:
            raise JobError(f"{name} {argument.shown}", "nothing", f"needed: {term(argument.meant).help}")
    return {key: value for key, value in values.items() if value is not None}


def _value(name: str, argument: Argument, given: object) -> object:
    if given is None:
        return None
    try:
        return _typed(argument, given)
    except (BadQuantity, OutOfRange) as fault:
        raise JobError(f"{name} {argument.shown}", repr(fault.found), fault.allowed) from fault


def _typed(argument: Argument, given: object) -> object:
    if argument.type is str:
        return _choice(argument, str(given).strip())
    if argument.type is Columns:
        return given if isinstance(given, Columns) else read_columns(str(given))
    if argument.type == Rows:
        cells = parse_rows(str(given), argument.rows)
        return tuple(tuple(cell.value for cell in row) for row in cells)
    kind = term(argument.meant).kind
    if argument.type is float:
        return parse(str(given), kind).value
    return tuple(quantity.value for quantity in parse_list(str(given), kind))


def _choice(argument: Argument, text: str) -> str:
    choices = {choice.replace(" ", ""): choice for choice in term(argument.meant).choices}
    if choices and text.replace(" ", "") not in choices:
        raise BadQuantity(text, f"allowed: {', '.join(choices.values())}")
    return choices.get(text.replace(" ", ""), text)


def all_sums() -> Mapping[str, Sum]:
    """Return every public sum by name."""
    return MappingProxyType(dict(sorted(_SUMS.items())))


def find_sum(name: str) -> Sum:
    """Return one public sum, or say which exist."""
    if name not in _SUMS:
        raise JobError("sum", repr(name), f"allowed: {', '.join(sorted(_SUMS))}")
    return _SUMS[name]


__all__ = [
    "Argument",
    "Columns",
    "Figure",
    "Rows",
    "Sum",
    "SumResult",
    "a_sum",
    "all_sums",
    "find_sum",
]
