"""Readings outside their plausible range, names no table has: asked about, never changed."""

import typing
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from pydantic import BaseModel

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners import Thread, class_by_marks, class_of, thread_of
from firedeck.job.paths import join_path
from firedeck.job.schema.document import Document
from firedeck.job.schema.fields import In, ListOf
from firedeck.job.schema.joint import Fasteners
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
    for joint in document.joint:
        for group in joint.fasteners:
            doubts.extend(_names(join_path(("joint", joint.name, "fasteners", group.name)), group))
    return tuple(doubts)


def _names(path: str, group: Fasteners) -> Iterator[Doubt]:
    """Ask about a thread, a class or marks the tables do not have: nothing is worked out with them."""
    left = "nothing is worked out with it"
    try:
        thread = thread_of(group.thread) if group.thread else None
    except OutOfRange as fault:
        yield Doubt(f"{path}.thread", f"{group.thread} is no thread of the tables ({fault.allowed}): {left}")
        return
    if thread is None:
        return
    read: tuple[tuple[str, str, Callable[[str, Thread], object]], ...] = (
        ("class", group.class_, class_of),
        ("head_marks", group.head_marks, class_by_marks),
    )
    for field, text, reader in read:
        try:
            _ = reader(text, thread) if text else None
        except TableGap as fault:
            yield Doubt(f"{path}.{field}", f"{text} is not of the tables ({fault.has}): {left}")


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
