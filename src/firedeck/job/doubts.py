"""Readings outside their plausible range: asked about, never changed."""

import typing
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from pydantic import BaseModel

from firedeck.job.paths import join_path
from firedeck.job.schema.document import Document
from firedeck.job.schema.fields import In, ListOf
from firedeck.quantity import Quantity, slips
from firedeck.terms import term


@dataclass(frozen=True)
class Doubt:
    """A reading that looks like a slip: where, and what it might have been."""

    path: str
    text: str


def doubts_of(document: Document) -> tuple[Doubt, ...]:
    """Return a doubt for every reading outside the plausible range of its term."""
    doubts = []
    for path, quantity, name in readings_of(document):
        plausible = term(name).plausible
        doubt = slips(quantity, *plausible) if plausible else None
        if doubt:
            doubts.append(Doubt(join_path(path), doubt))
    return tuple(doubts)


Reading = tuple[tuple[str, ...], Quantity, str]


def readings_of(node: object, before: tuple[str, ...] = ()) -> Iterator[Reading]:
    """Go through every quantity of a document: its path, the quantity and the name of its term."""
    if not isinstance(node, BaseModel):
        return
    for field, (key, name) in _fields(type(node)).items():
        yield from _readings(getattr(node, field), (*before, key), name)


def _readings(value: object, path: tuple[str, ...], name: str | None) -> Iterator[Reading]:
    if isinstance(value, Quantity):
        if name:
            yield path, value, name
    elif isinstance(value, BaseModel):
        yield from readings_of(value, path)
    elif isinstance(value, Mapping):
        for key, item in value.items():
            yield from _readings(item, (*path, str(key)), name)
    elif isinstance(value, tuple):
        for item in value:
            label = getattr(item, "name", getattr(item, "label", None))
            yield from _readings(item, (*path, label) if isinstance(label, str) else path, name)


@cache
def _fields(model: type[BaseModel]) -> dict[str, tuple[str, str | None]]:
    hints = typing.get_type_hints(model, include_extras=True)
    return {name: (field.alias or name, _term_in(hints[name])) for name, field in model.model_fields.items()}


def _term_in(hint: object) -> str | None:
    for mark in getattr(hint, "__metadata__", ()):
        if isinstance(mark, In | ListOf):
            return mark.term
    return next((found for part in typing.get_args(hint) if (found := _term_in(part))), None)
