"""A hole pattern written as CSV text in the document: "@file.csv" or the rows themselves."""

from collections.abc import Iterator, Mapping
from typing import Any

from firedeck.errors import JobError, JobErrors
from firedeck.gasket.pattern_text import rows_of

BLIND = {"yes": "blind", "blind": "blind", "true": "blind", "1": "blind"}
THROUGH = {"no": "through", "through": "through", "false": "through", "0": "through", "": None}
LISTS = {"bore": "bores", "fastener": "fasteners", "dowel": "dowels", "passage": "passages", "mark": "marks"}
SIZES = {
    "bore": {"diameter": "diameter"},
    "fastener": {"diameter": "diameter", "depth": "depth"},
    "dowel": {"diameter": "diameter", "depth": "hole_depth"},
    "passage": {"diameter": "diameter", "length": "length", "angle": "angle"},
    "mark": {},
}
WORDS = {
    "fastener": ("leads", "group"),
    "passage": ("leads", "shape"),
    "mark": ("text",),
}
Given = Mapping[str, tuple[str, str]]


def spread_layouts(raw: Any) -> None:
    """Replace the text of every layout by what it says, or raise the faults of all of them."""
    if faults := list(_spread(raw, "")):
        raise JobErrors(faults)


def _spread(node: Any, path: str) -> Iterator[JobError]:
    if isinstance(node, dict):
        for key, value in node.items():
            at = f"{path}.{key}".strip(".")
            if key == "layout" and isinstance(value, str):
                try:
                    node[key] = layout_of(value, at)
                except JobErrors as fault:
                    yield from fault.faults
                except JobError as fault:
                    yield fault
            else:
                yield from _spread(value, at)
    elif isinstance(node, list):
        for item in node:
            name = item.get("name", "") if isinstance(item, dict) else ""
            yield from _spread(item, f"{path}.{name}" if name else path)


def layout_of(text: str, path: str) -> dict[str, Any]:
    """Read the rows of a layout into the lists of the document."""
    if text.lstrip().startswith("@"):
        raise JobError(path, repr(text.strip()), "a file beside the document; here its rows themselves")
    written = rows_of(text, path)
    layout: dict[str, Any] = {"seen": written.seen, "front": written.front}
    if written.zero:
        layout["zero"] = written.zero
    for number, row in enumerate(written.rows, start=1):
        kind = row["kind"][0]
        lacking = [name for name in ("x", "y") if name not in row]
        if lacking:
            raise JobError(
                f"{path} row {number} {lacking[0]}", "nothing", "every opening has its place, x and y"
            )
        if kind == "outline":
            layout.setdefault("outline", []).append([_figure(row, "x"), _figure(row, "y")])
        else:
            layout.setdefault(LISTS[kind], []).append(_thing(kind, row, number, path))
    return layout


def _thing(kind: str, row: Given, number: int, path: str) -> dict[str, str]:
    thing = {"label": row.get("label", (str(number), ""))[0], "x": _figure(row, "x"), "y": _figure(row, "y")}
    thing |= {field: _figure(row, name) for name, field in SIZES[kind].items() if name in row}
    thing |= {name: row[name][0] for name in WORDS.get(kind, ()) if name in row}
    if kind == "fastener" and "blind" in row:
        said = row["blind"][0].lower()
        if said not in BLIND and said not in THROUGH:
            raise JobError(f"{path} row {number} blind", repr(said), "allowed: yes, no")
        thing |= {"hole": BLIND.get(said) or "through"}
    return thing


def _figure(row: Given, name: str) -> str:
    text, unit = row[name]
    return f"{text} {unit}".strip()
