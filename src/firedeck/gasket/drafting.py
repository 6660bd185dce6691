"""Layouts made from a few numbers, or from points traced on a picture, and written as a layout file."""

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from firedeck.errors import BadQuantity, JobError, shorten
from firedeck.gasket.pattern_text import LENGTHS, LayoutRows
from firedeck.quantity import Kind, parse

COLUMNS = (
    "kind",
    "label",
    "x",
    "y",
    "shape",
    "diameter",
    "length",
    "angle",
    "leads",
    "blind",
    "depth",
    "group",
    "text",
)
PICTURE = ("", "px", "pixel")
Row = Mapping[str, tuple[str, str]]


@dataclass(frozen=True)
class CopiedHole:
    """A passage or dowel at the first bore, copied to every bore and mirrored to the other side if wanted [mm]."""

    kind: str
    label: str
    x: float
    y: float
    diameter: float
    leads: str = ""
    along: bool = False
    mirrored: bool = False


@dataclass(frozen=True)
class FewNumbers:
    """A row of bores at one pitch between two straight rows of bolts [mm]; ``room`` widens every hole all round."""

    bores: int
    pitch: float
    bore: float
    bolt: float
    across: float
    edge: float = 0.0
    room: float = 0.0
    holes: tuple[CopiedHole, ...] = ()


def from_numbers(few: FewNumbers) -> LayoutRows:
    """Lay out bores, bolts between and beyond them in two rows, and what is copied along or mirrored.

    Parameters
    ----------
    few : FewNumbers
        Bores, their pitch and diameter, bolt diameter, distance across the bolt rows [mm].

    Returns
    -------
    LayoutRows
        Rows of a layout file, seen looking down on the deck, zero at bore 1 [mm].

    Raises
    ------
    JobError
        If there is no bore or a size is not above nought.

    Valid for
    ---------
    Bolts half a pitch before the first bore, between the bores and half a pitch behind the last.

    Source
    ------
    derived

    Examples
    --------
    >>> len(from_numbers(FewNumbers(bores=4, pitch=96.0, bore=86.0, bolt=11.0, across=104.0)).rows)
    14
    """
    if few.bores < 1:
        raise JobError("bores", str(few.bores), "one or more")
    for name in ("pitch", "bore", "bolt", "across"):
        if not getattr(few, name) > 0.0:
            raise JobError(name, f"{getattr(few, name):g} mm", "more than nought")
    rows = [
        *_outline(few),
        *(_row("bore", str(n + 1), n * few.pitch, 0.0, few.bore + 2 * few.room) for n in range(few.bores)),
        *_bolts(few),
        *(row for hole in few.holes for row in _copies(few, hole)),
    ]
    return LayoutRows("deck from above", "left", "bore 1", tuple(rows))


def _outline(few: FewNumbers) -> Iterator[Row]:
    if few.edge <= 0.0:
        return
    left, right = -few.pitch / 2 - few.edge, (few.bores - 0.5) * few.pitch + few.edge
    half = few.across / 2 + few.edge
    for x, y in ((left, -half), (right, -half), (right, half), (left, half)):
        yield {"kind": ("outline", ""), "x": (_six(x), "mm"), "y": (_six(y), "mm")}


def _bolts(few: FewNumbers) -> Iterator[Row]:
    number = 0
    for side in (1, -1):
        for place in range(few.bores + 1):
            number += 1
            x = (place - 0.5) * few.pitch
            yield _row("fastener", str(number), x, side * few.across / 2, few.bolt + 2 * few.room)


def _copies(few: FewNumbers, hole: CopiedHole) -> Iterator[Row]:
    times = few.bores if hole.along else 1
    for mirrored in (False, True) if hole.mirrored else (False,):
        for place in range(times):
            number = f" {place + 1}" if times > 1 else ""
            label = f"{hole.label}{number}{' mirrored' if mirrored else ''}"
            y = -hole.y if mirrored else hole.y
            row = _row(hole.kind, label, hole.x + place * few.pitch, y, hole.diameter)
            yield row | ({"leads": (hole.leads, "")} if hole.leads else {})


def _row(kind: str, label: str, x: float, y: float, diameter: float) -> dict[str, tuple[str, str]]:
    return {
        "kind": (kind, ""),
        "label": (label, ""),
        "x": (_six(x), "mm"),
        "y": (_six(y), "mm"),
        "shape": ("round", ""),
        "diameter": (_six(diameter), "mm"),
    }


def traced(written: LayoutRows, ends: tuple[str, str], length: float, down: bool = False) -> LayoutRows:
    """Give traced points their size: everything without a unit is scaled by one length that was measured.

    Parameters
    ----------
    written : LayoutRows
        Rows with x and y in points of the picture: no unit, or px [text].
    ends : tuple of str
        The two features the length was measured between, such as "bore 1" and "bore 4" [text].
    length : float
        Distance between their centres, measured on the part [mm].
    down : bool, optional
        y counts down the picture, as on a screen [text].

    Returns
    -------
    LayoutRows
        The same rows in millimetres; what had a unit keeps it [mm].

    Raises
    ------
    JobError
        If an end is not there, both lie in one place, or the length is not above nought.

    Valid for
    ---------
    A picture taken square to the face: a slant shows as holes that do not match.

    Source
    ------
    derived

    Examples
    --------
    >>> def bore(label, x):
    ...     return {"kind": ("bore", ""), "label": (label, ""), "x": (x, "px"), "y": ("0", "px")}
    >>> rows = LayoutRows("deck from above", "left", "", (bore("1", "0"), bore("2", "200")))
    >>> traced(rows, ("bore 1", "bore 2"), 100.0).rows[1]["x"]
    ('100', 'mm')
    """
    if not length > 0.0:
        raise JobError("length", f"{length:g} mm", "more than nought")
    one, two = (_point(written.rows, end) for end in ends)
    apart = math.dist(one, two)
    if apart == 0.0:
        raise JobError("ends", f"{ends[0]} and {ends[1]} in one place", "two features some way apart")
    return replace(written, rows=tuple(_scaled(row, length / apart, down) for row in written.rows))


def _point(rows: Sequence[Row], end: str) -> tuple[float, float]:
    for row in rows:
        if f"{row['kind'][0]} {row.get('label', ('', ''))[0]}" == end:
            return _bare(row, "x"), _bare(row, "y")
    known = ", ".join(f"{row['kind'][0]} {row['label'][0]}" for row in rows if "label" in row)
    raise JobError("ends", repr(end), f"known: {shorten(known, 120)}")


def _bare(row: Row, name: str) -> float:
    text, unit = row.get(name, ("", ""))
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not math.isfinite(value) or unit not in PICTURE:
        raise JobError(
            f"{row['kind'][0]} {name}", repr(shorten(f"{text} {unit}".strip())), "a number of the picture"
        )
    return value


def _scaled(row: Row, factor: float, down: bool) -> Row:
    scaled = {
        name: (_six(_bare(row, name) * factor), "mm") if name in LENGTHS and unit in PICTURE else (text, unit)
        for name, (text, unit) in row.items()
    }
    if down:
        for name in ("y", "angle"):
            if name in scaled:
                text, unit = scaled[name]
                scaled[name] = (text[1:] if text.startswith("-") else f"-{text}", unit)
    return scaled


def layout_text(written: LayoutRows) -> str:
    """Write a layout file: the line on top, every column with its unit, one opening a row.

    Parameters
    ----------
    written : LayoutRows
        The rows, every length with its unit [text].

    Returns
    -------
    str
        CSV text in millimetres and degrees [text].

    Raises
    ------
    JobError
        If a figure has no unit or cannot be read.

    Source
    ------
    derived

    Examples
    --------
    >>> row = {"kind": ("bore", ""), "label": ("1", ""), "x": ("1", "in"), "y": ("0", "mm"), "diameter": ("86", "mm")}
    >>> layout_text(LayoutRows("deck from above", "left", "bore 1", (row,))).splitlines()[2]
    'bore,1,25.4,0,,86,,,,,,,'
    """
    units = dict.fromkeys(LENGTHS, "mm") | {"angle": "deg"}
    top = f"#seen={written.seen} front={written.front}" + (f" zero={written.zero}" if written.zero else "")
    header = ",".join(f"{name} [{units[name]}]" if name in units else name for name in COLUMNS)
    lines = [
        ",".join(_cell(row, name, number) for name in COLUMNS)
        for number, row in enumerate(written.rows, start=1)
    ]
    return "\n".join([top, header, *lines]) + "\n"


def _cell(row: Row, name: str, number: int) -> str:
    if name not in row:
        return ""
    text, unit = row[name]
    if name not in LENGTHS and name != "angle":
        return '"' + text.replace('"', '""') + '"' if re.search(r'[,"\n]', text) else text
    try:
        value = parse(f"{text} {unit}".strip(), Kind.ANGLE if name == "angle" else Kind.LENGTH).value
    except BadQuantity as fault:
        raise JobError(
            f"row {number} {name}", repr(shorten(f"{text} {unit}".strip())), fault.allowed
        ) from None
    return _six(math.degrees(value) if name == "angle" else value)


def _six(value: float) -> str:
    text = f"{value:.6g}"
    return "0" if text == "-0" else text
