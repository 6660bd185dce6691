"""One JSON object on stdout; lines that fit a terminal."""

import json
import textwrap
from collections.abc import Mapping
from typing import Any

WIDE = 96


def print_json(thing: Mapping[str, Any]) -> None:
    """Print one object and nothing else; a number that is none is a fault of ours, never printed."""
    print(json.dumps(thing, ensure_ascii=False, indent=2, allow_nan=False))


def wrapped(text: str, first: str, later: str, wide: int = WIDE) -> list[str]:
    """Break a text into lines that fit the terminal, or a column of it."""
    writer = textwrap.TextWrapper(
        wide, initial_indent=first, subsequent_indent=later, break_long_words=False, break_on_hyphens=False
    )
    return writer.wrap(text) or [first.rstrip()]


def quoted(file: str) -> str:
    """Return a file name as it is typed on a command line."""
    return f'"{file}"' if " " in file else file
