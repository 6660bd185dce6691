"""Frozen results as plain data and back again, so that they can be kept as text and checked, never as code."""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

import numpy as np


def as_plain(value: Any) -> Any:
    """Give a result as dicts, lists, texts and numbers."""
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: as_plain(getattr(value, one.name)) for one in fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Mapping):
        return {str(name): as_plain(one) for name, one in value.items()}
    if isinstance(value, list | tuple):
        return [as_plain(one) for one in value]
    if isinstance(value, np.ndarray):
        return value.tolist()
    if isinstance(value, np.floating | np.integer):
        return value.item()
    return value


def from_plain(kind: Any, plain: Any) -> Any:
    """Make a result of its type again; TypeError, ValueError or KeyError where the data is not of that type."""
    origin, parts = get_origin(kind), get_args(kind)
    if origin in (Union, UnionType):
        return _one_of(parts, plain)
    if origin is tuple:
        return _tuple(parts, plain)
    if origin is not None and issubclass(origin, Mapping):
        return {name: from_plain(parts[1], one) for name, one in plain.items()}
    if is_dataclass(kind) and isinstance(kind, type):
        hints = _hints(kind)
        if plain.keys() != hints.keys():
            raise ValueError(f"{kind.__name__} has other fields")
        return kind(**{name: from_plain(hint, plain[name]) for name, hint in hints.items()})
    if isinstance(kind, type) and issubclass(kind, Enum):
        return kind(plain)
    if kind is float and isinstance(plain, int | float):
        return float(plain)
    if not isinstance(plain, kind):
        raise TypeError(f"{plain!r} is not {kind}")
    return plain


def _one_of(kinds: tuple[Any, ...], plain: Any) -> Any:
    """An optional value: None, or the one other kind."""
    if plain is None and type(None) in kinds:
        return None
    (kind,) = [one for one in kinds if one is not type(None)]
    return from_plain(kind, plain)


def _tuple(parts: tuple[Any, ...], plain: Any) -> Any:
    if not isinstance(plain, list):
        raise TypeError(f"{plain!r} is not a list")
    if len(parts) == 2 and parts[1] is Ellipsis:
        return tuple(from_plain(parts[0], one) for one in plain)
    return tuple(from_plain(kind, one) for kind, one in zip(parts, plain, strict=True))


@cache
def _hints(kind: type) -> dict[str, Any]:
    hints = get_type_hints(kind)
    return {one.name: hints[one.name] for one in fields(kind)}
