"""Document paths: dotted keys from the root, items of a list by their name or label, never by position."""

import difflib
import re
from collections.abc import Iterator, Mapping, Sequence

from firedeck.errors import JobError

Parts = tuple[str, ...]
_PLAIN = re.compile(r"[^.\"\s]+")
_QUOTED = re.compile(r'"([^"]*)"')


def split_path(text: str) -> Parts:
    """Split a path into its keys; a key with a dot or blank stands in double quotes."""
    parts: list[str] = []
    place = 0
    while place < len(text):
        quoted = _QUOTED.match(text, place)
        found = quoted or _PLAIN.match(text, place)
        if found is None:
            raise JobError(
                text, "a path that cannot be read", 'write it like joint.left.cut.head or a."b c".d'
            )
        parts.append(quoted.group(1) if quoted else found.group(0))
        place = found.end()
        if place < len(text) and text[place] != ".":
            raise JobError(text, f"{text[place]!r} after {parts[-1]!r}", "keys are parted by dots")
        place += 1
    if not parts or text.endswith("."):
        raise JobError(text or "(empty)", "an unfinished path", "write it like joint.left.cut.head")
    return tuple(parts)


def join_path(parts: Sequence[str]) -> str:
    """Write keys as a path, quoted where they need it."""
    return ".".join(part if _PLAIN.fullmatch(part) else f'"{part}"' for part in parts)


def item_name(item: object) -> str | None:
    """Return the name or label that names an item of a list."""
    if not isinstance(item, Mapping):
        return None
    name = item.get("name", item.get("label"))
    return name if isinstance(name, str) else None


def find_item(items: Sequence[object], name: str) -> int | None:
    """Return the place of the named item in a list, or None."""
    return next((place for place, item in enumerate(items) if item_name(item) == name), None)


def keys_of(node: object) -> list[str]:
    """Return the keys a path may go on with from here."""
    if isinstance(node, Mapping):
        return [str(key) for key in node]
    if isinstance(node, list):
        return [name for item in node if (name := item_name(item)) is not None]
    return []


def nearest(found: str, known: Sequence[str]) -> str:
    """Say which known word is nearest, or list the first few."""
    close = difflib.get_close_matches(found, known, n=1, cutoff=0.4)
    if close:
        return f"nearest known: {close[0]}"
    return f"known here: {', '.join(sorted(known)[:8])}" if known else "nothing is known here"


def all_paths(node: object, before: Parts = ()) -> Iterator[Parts]:
    """Go through every path of a document, sections and values."""
    if before:
        yield before
    if isinstance(node, Mapping):
        for key, value in node.items():
            yield from all_paths(value, (*before, str(key)))
    elif isinstance(node, list):
        for item in node:
            if (name := item_name(item)) is not None:
                yield from all_paths(item, (*before, name))


def named(location: Sequence[str | int], raw: object) -> str:
    """Turn a place given by keys and positions into a path by names.

    An item that has no name yet is called by its place in words: "item 2".
    """
    parts: list[str] = []
    node = raw
    for key in location:
        if isinstance(key, int) and isinstance(node, list) and key < len(node):
            node = node[key]
            parts.append(item_name(node) or f"item {key + 1}")
        else:
            node = node.get(key) if isinstance(node, Mapping) else None
            parts.append(f"item {key + 1}" if isinstance(key, int) else str(key))
    return join_path(parts)
