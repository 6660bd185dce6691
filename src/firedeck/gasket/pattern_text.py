"""A hole pattern as CSV text: one line on top says how it was seen, the header gives the units.

#seen=deck from above front=left zero=bore 1
kind,label,x [mm],y [mm],shape,diameter [mm],length [mm],angle [deg],leads
bore,1,0,0,round,86,,,
fastener,1,48,52,round,11,,,
passage,w1,0,58,slot,8,20,45,water
"""

import csv
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

from firedeck.errors import BadQuantity, JobError, shorten
from firedeck.gasket.pattern import KINDS, LEADS, Opening, Pattern, check_pattern
from firedeck.quantity import Kind, parse

SHORT = {"deck": "deck from above", "gasket": "gasket, this side up", "head": "head face up on the bench"}
SEEN = {"deck from above": 1, "gasket, this side up": 1, "head face up on the bench": -1}
FRONT = {"left": 1, "right": -1}
DOT = 1.0
"""A passage given as a point is looked at as a dot of this diameter [mm]."""
SHAPES = ("round", "slot", "point", "")
_AS_SEEN = ("deck from above", "left")
WORDS = ("kind", "label", "shape", "leads", "blind", "group", "text")
LENGTHS = ("x", "y", "diameter", "length", "depth")
_HEADER = re.compile(r"^(?P<name>[a-z]+)\s*(?:[\[(](?P<unit>[^\])]+)[\])]|_(?P<suffix>mm|in|deg))?$")
_BARE = re.compile(r"^[-+]?[\d.]+$")
_TOP = re.compile(r"(seen|front|zero)\s*=\s*(.*?)(?=[\s,;]+(?:seen|front|zero)\s*=|$)")


def pattern_of(text: str, part: str) -> Pattern:
    """Read a hole pattern and map it to how it is seen looking down on the deck.

    Parameters
    ----------
    text : str
        The CSV text with its line on top [text].
    part : str
        What it is the pattern of, for messages: gasket, block or head [text].

    Returns
    -------
    Pattern
        The openings seen looking down on the deck, in the part's own zero [mm].

    Raises
    ------
    JobError
        One line: where, what was found, what is allowed.

    Source
    ------
    derived

    Examples
    --------
    >>> text = "#seen=deck from above front=right\\nkind,label,x [mm],y [mm],diameter [mm]\\nbore,1,10,0,80"
    >>> pattern_of(text, "block").openings[0].x
    -10.0
    """
    written = rows_of(text, part)
    openings = tuple(_opening(given, number, part) for number, given in enumerate(written.rows, start=1))
    over, end = SEEN[written.seen], FRONT[written.front]
    pattern = Pattern(part, openings).turned(end, end * over)
    check_pattern(pattern)
    return pattern


@dataclass(frozen=True)
class LayoutRows:
    """A layout as written: its top line, and every row as name → (text, unit)."""

    seen: str
    front: str
    zero: str
    rows: tuple[Mapping[str, tuple[str, str]], ...]


def rows_of(text: str, part: str) -> LayoutRows:
    """Read the rows of a layout without working anything out.

    Parameters
    ----------
    text : str
        The CSV text with its line on top [text].
    part : str
        What it is the layout of, for messages [text].

    Returns
    -------
    LayoutRows
        The top line, and each row with its units [text].

    Raises
    ------
    JobError
        One line: where, what was found, what is allowed.

    Source
    ------
    derived

    Examples
    --------
    >>> rows_of("#zero=bore 1\\nkind,label,x [mm],y [mm],diameter [mm]\\nbore,1,10,0,80", "block").rows[0]["x"]
    ('10', 'mm')
    """
    lines = [line.strip() for line in text.lstrip("\ufeff").splitlines() if line.strip()]
    if not lines:
        raise JobError(part, "an empty layout", "a line on top, a header with units, and one opening a row")
    seen, front, zero = _top(lines[0], part) if lines[0].startswith("#") else (*_AS_SEEN, "")
    rows = [line for line in lines if not line.startswith("#")]
    if len(rows) < 2:
        raise JobError(part, "a layout without openings", "a header with units, and one opening a row")
    units = _units(next(csv.reader([rows[0]])), part)
    listed = enumerate(csv.reader(rows[1:]), start=1)
    return LayoutRows(
        seen, front, zero, tuple(_given(cells, units, number, part) for number, cells in listed)
    )


def _top(line: str, part: str) -> tuple[str, str, str]:
    said = {name: value.strip() for name, value in _TOP.findall(line[1:])}
    seen, front = _in_full(said.get("seen", "")) or _AS_SEEN[0], said.get("front") or _AS_SEEN[1]
    if seen not in SEEN:
        raise JobError(f"{part} seen", repr(shorten(seen)), f"allowed: {'; '.join(SEEN)}")
    if front not in FRONT:
        raise JobError(f"{part} front", repr(shorten(front)), "allowed: left, right")
    return seen, front, said.get("zero", "")


def _in_full(seen: str) -> str:
    """Return how it was seen in full: one word is enough, and hyphens for blanks."""
    words = seen.strip("\"'").replace("-", " ").replace("_", " ")
    return SHORT.get(words, words)


def _units(header: list[str], part: str) -> list[tuple[str, str]]:
    found = []
    for cell in header:
        match = _HEADER.match(cell.strip())
        name = match["name"] if match else ""
        unit = (match["unit"] or match["suffix"] or "") if match else ""
        if name not in (*WORDS, *LENGTHS, "angle"):
            raise JobError(
                part, f"column {shorten(cell)!r}", f"allowed: {', '.join((*WORDS, *LENGTHS, 'angle'))}"
            )
        found.append((name, unit))
    lacking = [name for name in ("kind", "x", "y") if name not in [name for name, _ in found]]
    if lacking:
        raise JobError(part, f"no column {lacking[0]}", "needed: kind, x, y; and diameter for round openings")
    return found


def _given(
    cells: list[str], units: list[tuple[str, str]], row: int, part: str
) -> Mapping[str, tuple[str, str]]:
    if len(cells) > len(units):
        raise JobError(f"{part} row {row}", f"{len(cells)} cells", f"as many as the header: {len(units)}")
    given = {
        name: (cell.strip(), unit) for (name, unit), cell in zip(units, cells, strict=False) if cell.strip()
    }
    if "angle" in given and given["angle"][1] == "" and _BARE.match(given["angle"][0]):
        given["angle"] = (given["angle"][0], "deg")
    for name, allowed in (("kind", KINDS), ("leads", LEADS), ("shape", SHAPES)):
        found = given.get(name, ("", ""))[0]
        if found not in allowed:
            raise JobError(
                f"{part} row {row} {name}",
                repr(shorten(found)),
                f"allowed: {', '.join(one for one in allowed if one)}",
            )
    return given


def _opening(given: Mapping[str, tuple[str, str]], row: int, part: str) -> Opening:
    kind = given["kind"][0]
    leads = given.get("leads", ("", ""))[0]
    lacking = [name for name in ("x", "y") if name not in given]
    if lacking:
        raise JobError(f"{part} row {row} {lacking[0]}", "nothing", "every opening has its place, x and y")
    diameter = _figure(given, "diameter", row, part)
    if kind == "passage" and given.get("shape", ("", ""))[0] == "point":
        diameter = diameter or DOT
    if kind in ("bore", "fastener", "dowel", "passage") and diameter <= 0.0:
        raise JobError(f"{part} row {row} diameter", "nothing", f"a {kind} has a diameter above nought")
    return Opening(
        kind=kind,
        label=given.get("label", (str(row), ""))[0],
        x=_figure(given, "x", row, part),
        y=_figure(given, "y", row, part),
        diameter=diameter,
        length=_figure(given, "length", row, part),
        angle=_figure(given, "angle", row, part),
        leads=leads,
        text=given.get("text", ("", ""))[0],
    )


def _figure(given: Mapping[str, tuple[str, str]], name: str, row: int, part: str) -> float:
    if name not in given:
        return 0.0
    text, unit = given[name]
    try:
        value = parse(f"{text} {unit}".strip(), Kind.ANGLE if name == "angle" else Kind.LENGTH).value
    except BadQuantity as fault:
        if not unit and name in LENGTHS:
            raise JobError(
                part, f"column {name} without a unit", f"write {name} [mm] or {name} [in]"
            ) from None
        raise JobError(f"{part} row {row} {name}", repr(shorten(text)), fault.allowed) from None
    if not math.isfinite(value) or (name in ("diameter", "length") and value < 0.0):
        raise JobError(f"{part} row {row} {name}", repr(shorten(text)), "a size not below nought")
    return value
