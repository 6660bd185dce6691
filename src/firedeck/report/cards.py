"""The sheets as data: cards.toml, read once."""

import tomllib
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Any


@dataclass(frozen=True)
class Card:
    """One sheet: its words, the stages whose answers it shows, and its bodies from top to bottom."""

    name: str
    title: str
    says: str
    pages: str
    size: float
    stages: tuple[str, ...]
    body: tuple[dict[str, Any], ...] = field(repr=False)
    as_it_is: bool = False


@cache
def cards() -> dict[str, Card]:
    """Return every sheet by name, in the order they are used."""
    text = files(__package__).joinpath("cards.toml").read_text("utf-8")
    return {name: _card(name, table) for name, table in tomllib.loads(text).items()}


def _card(name: str, table: dict[str, Any]) -> Card:
    lists = {"stages": tuple(table["stages"]), "body": tuple(table["body"])}
    return Card(name=name, **{**table, **lists})
