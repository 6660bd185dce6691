"""What pydantic found wrong, in the words of the trade: one fault, one line."""

import types
import typing
from collections.abc import Sequence
from typing import Any

from pydantic import BaseModel, ValidationError

from firedeck.errors import JobError, shorten
from firedeck.job.paths import named, nearest
from firedeck.job.schema.document import Document


def faults_of(error: ValidationError, raw: dict[str, Any]) -> list[JobError]:
    """Return every fault of one reading, in the order of the schema."""
    return [_fault(details, raw) for details in error.errors(include_url=False)]


def _fault(details: Any, raw: dict[str, Any]) -> JobError:
    location = _without_branches(details["loc"], raw)
    path = named(location, raw)
    found = _found(details["input"])
    match details["type"]:
        case "missing":
            return JobError(path, "nothing", "needed here")
        case "extra_forbidden":
            known = _known_keys(location[:-1])
            return JobError(path, "a key that is not known", nearest(str(location[-1]), known))
        case "literal_error":
            return JobError(path, found, f"allowed: {details['ctx']['expected']}")
        case "refused":
            return JobError(path, found, details["msg"])
        case "model_type" | "dict_type":
            return JobError(path, found, "a section with keys is needed here")
        case "tuple_type":
            return JobError(path, found, "a list in [ ] is needed here")
        case "too_short":
            return JobError(path, "an empty list", "at least one is needed")
        case "missing_argument" | "too_long":
            return JobError(path, found, "not this many entries")
    return JobError(path, found, details["msg"][:1].lower() + details["msg"][1:])


def _found(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a section"
    if isinstance(value, list):
        return "a list"
    return shorten(repr(value))


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
        elif not last:
            continue
        elif isinstance(key, str) and not isinstance(node, dict):
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
