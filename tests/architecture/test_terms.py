"""Every name the schema and the sums use is a term, and every term can be read."""

import typing

from pydantic import BaseModel

import firedeck.sums
from firedeck.job.doubts import _fields
from firedeck.job.schema.document import Document
from firedeck.sums.registry import all_sums
from firedeck.terms import PLACES, all_terms


def models(model=Document, seen=None):
    seen = set() if seen is None else seen
    if model in seen:
        return seen
    seen.add(model)
    for hint in typing.get_type_hints(model, include_extras=True).values():
        for part in walk(hint):
            if isinstance(part, type) and issubclass(part, BaseModel):
                models(part, seen)
    return seen


def walk(hint):
    yield hint
    for part in typing.get_args(hint):
        yield from walk(part)


def test_schema_uses_terms():
    used = {name for model in models() for _, name in _fields(model).values() if name}
    assert len(used) > 40
    assert used <= all_terms().keys()


def test_sum_arguments_are_public_terms():
    assert firedeck.sums
    used = {one.meant for found in all_sums().values() for one in found.arguments.values()}
    assert used <= all_terms().keys()
    assert not {name for name in used if not all_terms()[name].public}


def test_terms_are_whole():
    for term in all_terms().values():
        assert term.place in PLACES, term.name
        assert term.help.endswith("."), term.name
        assert term.plausible is None or term.plausible[0] < term.plausible[1], term.name
