"""``firedeck sum``: one calculation by its name."""

import argparse
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from firedeck.cli.files import text_of
from firedeck.cli.in_full import sums_written_out
from firedeck.cli.options import Options, add_json, nearest
from firedeck.cli.printing import print_json, wrapped
from firedeck.errors import JobError

if TYPE_CHECKING:
    from firedeck.sums.registry import Argument, Figure, Sum, SumResult
    from firedeck.trace import Step

CALL = 'firedeck sum NAME arg="value with its unit" ... [--json]'


def arguments(options: Options) -> None:
    """Say what may be typed after ``sum``."""
    options.add_argument("words", nargs="*", metavar="NAME arg=value", help="the sum and its arguments")
    options.add_argument(
        "-h", "--help", action="store_true", help="alone: all sums; after a name: its arguments"
    )
    add_json(options)


def run(options: argparse.Namespace) -> None:
    """Do a sum, list its arguments, or list all sums."""
    from firedeck.sums import all_sums

    if not options.words:
        print("\n".join(_all(all_sums().values())))
        return
    name, *words = options.words
    if name not in all_sums():
        raise JobError("sum", repr(name), nearest(name, list(all_sums())))
    found = all_sums()[name]
    if options.help:
        print("\n".join(_about(found)))
        return
    result = found.run(**_given(found, words))
    if options.json:
        print_json(as_json(found, result))
    else:
        print("\n".join(_as_text(found, result)))


def _given(found: "Sum", words: Sequence[str]) -> dict[str, str]:
    """Read ``arg=value`` words; ``@file`` becomes the text of that file."""
    names = [argument.shown for argument in found.arguments.values()]
    given: dict[str, str] = {}
    for word in words:
        name, sign, value = word.partition("=")
        if not sign:
            raise JobError(
                f"sum {found.name}", repr(word), f"write it as {names[0]}=value; it has: {', '.join(names)}"
            )
        if name not in names:
            raise JobError(f"{found.name} {name}", "an argument this sum does not have", nearest(name, names))
        if name in given:
            raise JobError(f"{found.name} {name}", "the same argument twice", "once")
        given[name] = _value(f"{found.name} {name}", value)
    return given


def _value(where: str, value: str) -> str:
    if not value.startswith("@"):
        return value
    try:
        return text_of(value[1:])
    except JobError as fault:
        raise JobError(f"{where}: {fault.path}", fault.found, fault.allowed) from None


def as_json(found: "Sum", result: "SumResult") -> dict[str, Any]:
    """Return what ``--json`` prints."""
    return {
        "sum": found.name,
        "results": {name: figure.as_json() for name, figure in result.results.items()},
        "steps": [_step(step) for step in result.steps],
        "sources": list(result.sources),
        "assumptions": list(result.assumptions),
        "cautions": list(result.cautions),
    }


def _step(step: "Step") -> dict[str, Any]:
    return {
        "says": step.says,
        "formula": step.formula,
        "inputs": {name: [float(f"{number:.6g}"), unit] for name, (number, unit) in step.inputs.items()},
        "result": {name: [float(f"{number:.6g}"), unit] for name, (number, unit) in step.result.items()},
        "source": step.source,
    }


def _as_text(found: "Sum", result: "SumResult") -> Iterator[str]:
    from firedeck.trace import spoken

    yield found.says
    for name, figure in result.results.items():
        printed = figure.as_json()
        said = _said(printed["value"], printed["unit"])
        yield from wrapped(f"{name} = {said}{_otherwise(figure, said)}", "  ", "      ")
    steps: Iterable[Mapping[str, Any]] = [
        {**_step(step), "source": spoken(step.source)} for step in result.steps
    ]
    for title, lines in (
        ("The sums", list(sums_written_out(steps))),
        (
            "Taken as given",
            [line for text in result.assumptions for line in wrapped(f"- {text}", "  ", "    ")],
        ),
        ("Mind", [line for text in result.cautions for line in wrapped(f"- {text}", "  ", "    ")]),
        ("Sources", [f"  - {spoken(source)}" for source in result.sources]),
    ):
        if lines:
            yield from ("", title, *lines)


def _otherwise(figure: "Figure", said: str) -> str:
    """Return the figure in the units a mechanic reads it off, where they are others."""
    from firedeck.quantity import is_number, show

    if figure.unit or not isinstance(figure.value, float) or not (figure.kind and is_number(figure.kind)):
        return ""
    shown = dict.fromkeys((show(figure.value, figure.kind, "mm"), show(figure.value, figure.kind, "inch")))
    other = [text for text in shown if text.rpartition(" ")[2] != said.rpartition(" ")[2]]
    return f" ({', '.join(other)})" if other else ""


def _said(value: object, unit: object) -> str:
    """Return a result in words: six digits, lists and objects written out."""
    if isinstance(value, bool) or value is None:
        return {True: "yes", False: "no", None: "not known"}[value]
    if isinstance(value, int | float):
        return f"{value:.6g}" if unit in (None, "1") else f"{value:.6g} {unit}"
    if isinstance(value, Mapping):
        return ", ".join(f"{key}: {_said(one, None)}" for key, one in value.items()) or "none"
    if isinstance(value, list | tuple):
        return "; ".join(_said(one, unit) for one in value) or "none"
    return str(value)


def _all(sums: Iterable["Sum"]) -> Iterator[str]:
    listed = list(sums)
    wide = max((len(one.name) for one in listed), default=0)
    yield CALL
    yield ""
    for one in listed:
        yield from wrapped(f"{one.name:<{wide}}  {one.says}", "  ", " " * (wide + 4))
    yield ""
    yield "Arguments of one: firedeck sum NAME --help   ·   a file of points: points=@face.csv"


def _about(found: "Sum") -> Iterator[str]:
    yield f"firedeck sum {found.name}: {found.says}"
    for title, optional in (("Needed", False), ("May be left out", True)):
        inside = [one for one in found.arguments.values() if one.optional == optional]
        if inside:
            yield from ("", title)
        for argument in inside:
            yield from _about_argument(argument)


def _about_argument(argument: "Argument") -> Iterator[str]:
    from firedeck.terms import term

    about = term(argument.meant)
    yield f"  {argument.shown}=  {about.label}"
    yield from wrapped(about.help, "      ", "      ")
    if about.choices:
        yield from wrapped(f"one of: {', '.join(about.choices)}", "      ", "        ")
    if about.measure:
        yield from wrapped(f"got by: {about.measure}", "      ", "        ")
