"""One JSON object on stdout."""

import json
from collections.abc import Mapping
from typing import Any


def print_json(thing: Mapping[str, Any]) -> None:
    """Print one object and nothing else; a number that is none is a fault of ours, never printed."""
    print(json.dumps(thing, ensure_ascii=False, indent=2, allow_nan=False))
