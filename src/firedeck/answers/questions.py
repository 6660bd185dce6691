"""The questions and stages, read once from their data files."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType


@dataclass(frozen=True)
class Question:
    """One question: its stage, scope (joint or engine), words, and closed list of actions."""

    id: str
    stage: str
    scope: str
    asks: str
    actions: Mapping[str, str]
    is_work: bool


def _read(name: str) -> dict[str, object]:
    return tomllib.loads(files("firedeck.answers").joinpath(name).read_text(encoding="utf-8"))


@cache
def questions() -> Mapping[str, Question]:
    """Return every question by id, in the order of the work."""
    rows = _read("questions.toml")
    return MappingProxyType({name: _question(name, row) for name, row in rows.items()})


def _question(name: str, row: object) -> Question:
    assert isinstance(row, dict)
    actions = MappingProxyType({str(key): str(words) for key, words in row["actions"].items()})
    return Question(name, row["stage"], row["scope"], row["asks"], actions, bool(row.get("work", False)))


@cache
def stages() -> Mapping[str, str]:
    """Return the stages in the order of the work, with the words people read."""
    return MappingProxyType({name: str(words) for name, words in _read("stages.toml").items()})
