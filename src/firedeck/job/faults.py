"""What pydantic found wrong, in the words of the trade: one fault, one line."""

import re
import types
import typing
from collections.abc import Sequence
from typing import Any

from pydantic import BaseModel, ValidationError

from firedeck.errors import JobError, shorten
from firedeck.job.paths import named, nearest
from firedeck.job.schema.document import Document

_UNNAMED = re.compile(r'\."item (\d+)"')
_PLACE = re.compile(r"(?P<what>.*) \(at (?:line (?P<line>\d+), column \d+|end of document)\)", re.DOTALL)
_QUOTES = 'one key = value a line; figures and words stand in quotes: bore = "86.0 mm"'
_MEANT = {
    "Cannot": "every key and every section stands there once",
    "Duplicate": "every key stands there once",
    "Illegal character '\\n'": "close the quotes on the same line",
    "Invalid hex": "write / for \\ inside quotes",
    "Unescaped": "write / for \\ inside quotes",
    "Illegal": "a plain text without control characters",
    "Un": "close what was opened: quotes, brackets",
    "Expected ']'": "close what was opened: quotes, brackets",
    "Expected '='": 'write it as key = "value"',
}
_ALLOWED = {
    "missing": "needed here",
    "model_type": "a section with keys is needed here",
    "dict_type": "a section with keys is needed here",
    "tuple_type": "a list in [ ] is needed here",
    "too_short": "at least one is needed",
    "string_type": 'a text in quotes is needed here, such as "1"',
    "bool_type": "allowed: true or false",
    "bool_parsing": "allowed: true or false",
    "int_type": "a whole number without a unit is needed here",
    "int_parsing": "a whole number without a unit is needed here",
    "int_from_float": "a whole number without a unit is needed here",
}


def faults_of(error: ValidationError, raw: dict[str, Any]) -> list[JobError]:
    """Return every fault of one reading, in the order of the schema."""
    return [_fault(details, raw) for details in error.errors(include_url=False)]


def _fault(details: Any, raw: dict[str, Any]) -> JobError:
    location = _without_branches(details["loc"], raw)
    path = _spoken(named(location, raw))
    kind = details["type"]
    if kind == "extra_forbidden":
        return JobError(
            path, "a key that is not known", nearest(str(location[-1]), _known_keys(location[:-1]))
        )
    found = {"missing": "nothing", "too_short": "an empty list"}.get(kind) or _found(details["input"])
    return JobError(path, found, _brackets(details) or _ALLOWED.get(kind) or _said(details))


def _brackets(details: Any) -> str:
    """Name the brackets of a section where single and double ones were mixed up."""
    name, given = str(details["loc"][-1]), details["input"]
    if details["type"] == "tuple_type" and isinstance(given, dict):
        return f"double brackets, once for each: [[{name}]]"
    if details["type"] == "model_type" and isinstance(given, list):
        return f"single brackets, once: [{name}]"
    return ""


def _said(details: Any) -> str:
    """Return what is allowed where it depends on the field."""
    context = details.get("ctx", {})
    if details["type"] == "literal_error":
        return f"allowed: {context['expected']}"
    if details["type"] == "too_long":
        return f"at most {context['max_length']} entries"
    message = str(details["msg"])
    return message if details["type"] == "refused" else message[:1].lower() + message[1:]


def _spoken(path: str) -> str:
    """Write the place of an item that has no name outside the dots: ``joint (item 2).name``."""
    return _UNNAMED.sub(r" (item \1)", path)


def _found(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a section"
    if isinstance(value, list):
        return f"a list of {len(value)}"
    return shorten(repr(value) if isinstance(value, str | int | float) else str(value))


def _without_branches(location: Sequence[str | int], raw: object) -> tuple[str | int, ...]:
    """Drop the marks of type branches that pydantic adds to a location."""
    kept: list[str | int] = []
    node: Any = raw
    for place, key in enumerate(location):
        last = place == len(location) - 1
        if isinstance(key, int) and isinstance(node, list) and key < len(node):
            node = node[key]
        elif isinstance(node, dict) and (key in node or last):
            node = node.get(key)
        elif not last or (isinstance(key, str) and not isinstance(node, dict)):
            continue
        kept.append(key)
    return tuple(kept)


def _known_keys(location: Sequence[str | int]) -> list[str]:
    model: type[BaseModel] | None = Document
    for key in location:
        if isinstance(key, int) or model is None:
            continue
        field = next((f for n, f in model.model_fields.items() if key in (n, f.alias)), None)
        model = _model_in(field.annotation) if field else None
    if model is None:
        return []
    return [field.alias or name for name, field in model.model_fields.items()]


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and not isinstance(annotation, types.GenericAlias):
        return annotation if issubclass(annotation, BaseModel) else None
    return next((found for part in typing.get_args(annotation) if (found := _model_in(part))), None)


def toml_fault(message: str, text: str) -> JobError:
    """Show the line the TOML reader stumbled over, and what is meant there most often."""
    place = _PLACE.fullmatch(message)
    what, number = (place["what"], place["line"]) if place else (message, None)
    lines = text.splitlines()
    at = int(number) if number else len(lines)
    line = lines[at - 1].strip() if 0 < at <= len(lines) else ""
    allowed = next((said for start, said in _MEANT.items() if what.startswith(start)), _QUOTES)
    return JobError(f"document, line {at}", repr(shorten(line)) if line else what, allowed)
