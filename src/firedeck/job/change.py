"""A change: a path and the value that stands there instead, as typed."""

import copy
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from firedeck.errors import JobError
from firedeck.job.paths import all_paths, find_item, join_path, keys_of, nearest, split_path
from firedeck.job.schema.document import Document

Raw = dict[str, Any]


@dataclass(frozen=True)
class Change:
    """One value replaced: what-if, variants, candidates and before/after are all lists of these."""

    path: str
    value: Any

    @classmethod
    def read(cls, text: str) -> "Change":
        """Read ``PATH=VALUE`` as typed on the terminal; lists, tables, true and false as a document writes them."""
        path, sign, value = text.partition("=")
        if not sign or not path.strip() or not value.strip():
            raise JobError("change", repr(text), "write it as PATH=VALUE, such as joint.head.cut.head=0.2 mm")
        return cls(path.strip(), _typed(value.strip()))


def _typed(value: str) -> Any:
    """Return a text as it is, and what only a document's own way of writing can say as that."""
    if value[0] not in '[{"' and value not in ("true", "false"):
        return value
    try:
        return tomllib.loads(f"value = {value}")["value"]
    except tomllib.TOMLDecodeError:
        how = 'a list or table as a document writes it, such as ["0.1 mm", "0.2 mm"]'
        raise JobError("change", repr(value), how) from None


def value_at(raw: Mapping[str, Any], path: str) -> Any:
    """Return what stands at a path, None where nothing does."""
    node: Any = raw
    for key in split_path(path):
        if isinstance(node, list):
            place = find_item(node, key)
            node = None if place is None else node[place]
        else:
            node = node.get(key) if isinstance(node, dict) else None
    return node


def apply(raw: Mapping[str, Any], changes: Mapping[str, Any]) -> Raw:
    """Return a copy of a document with values replaced; a path that meets nothing is a fault."""
    changed = copy.deepcopy(dict(raw))
    for path, value in changes.items():
        _replace(changed, path, value)
    return changed


def _replace(raw: Raw, path: str, value: Any) -> None:
    *way, last = split_path(path)
    node: Any = raw
    for depth, key in enumerate(way):
        if isinstance(node, list) and (place := find_item(node, key)) is not None:
            node = node[place]
        elif isinstance(node, dict) and key not in node and (depth > 0 or _may_be_left_out(key)):
            node = node.setdefault(key, {})
        elif isinstance(node, dict) and key in node:
            node = node[key]
        else:
            raise _no_such(raw, path, key, node)
    if isinstance(node, list):
        place = find_item(node, last)
        if place is None or not isinstance(value, dict):
            raise _no_such(raw, path, last, node)
        node[place] = value
    elif isinstance(node, dict):
        node[last] = value
    else:
        raise _no_such(raw, path, last, node)


def _may_be_left_out(section: str) -> bool:
    """Whether a document may do without this section, so that a change may begin it."""
    known = Document.model_fields.get(section)
    return known is not None and not known.is_required()


def _no_such(raw: Raw, path: str, key: str, node: object) -> JobError:
    known = [join_path(parts) for parts in all_paths(raw)]
    hint = nearest(path, known)
    here = ", ".join(keys_of(node)[:6])
    return JobError(path, f"nothing at {key!r}", f"{hint}; here: {here}" if here else hint)
