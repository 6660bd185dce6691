"""Tables of readings as CSV text with the unit of each column in its header.

``x [mm]``, ``x_mm``, ``angle [arcsec]`` and ``z_um`` name their unit. Bare ``x``, ``y`` and ``z`` are
read as mm, and the result says so; bare names of labels (line, step, name ...) stay text. Columns are
parted by ``;``, a tab or ``,``; with the first two a decimal comma is understood.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from firedeck.errors import BadQuantity
from firedeck.quantity.factors import Unit
from firedeck.quantity.kinds import Kind
from firedeck.quantity.units import find, to_core

BARE = ("x", "y", "z")
LABELS = frozenset({"line", "step", "name", "label", "place", "station", "cylinder", "note"})
MOST_ROWS = 200_000
_COLUMN_KINDS = (
    Kind.LENGTH,
    Kind.ANGLE,
    Kind.FORCE,
    Kind.TORQUE,
    Kind.STRESS,
    Kind.PRESSURE_GAUGE,
    Kind.PRESSURE_ABSOLUTE,
    Kind.TEMPERATURE,
    Kind.VOLUME,
    Kind.AREA,
    Kind.LINE_LOAD,
)
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?")
_BRACKETED = re.compile(r"(.*?)\s*[\[(]\s*(.*?)\s*[\])]")


@dataclass(frozen=True)
class Columns:
    """Named columns of one length, in core units, each number column with its kind; ``labels`` stayed text."""

    numbers: Mapping[str, tuple[float, ...]]
    labels: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    assumptions: tuple[str, ...] = ()
    kinds: Mapping[str, Kind] = field(default_factory=dict)

    @property
    def length(self) -> int:
        """Number of rows."""
        return max((len(column) for column in (*self.numbers.values(), *self.labels.values())), default=0)

    def __contains__(self, name: str) -> bool:
        return name in self.numbers or name in self.labels

    def column(self, name: str) -> tuple[float, ...]:
        """Return one column of numbers.

        Parameters
        ----------
        name : str
            Name without its unit [text].

        Returns
        -------
        tuple of float
            The numbers in the core unit of their kind [core unit].

        Raises
        ------
        BadQuantity
            If there is no such column; it says which there are.

        Source
        ------
        generic-ours

        Examples
        --------
        >>> read_columns("x [mm],z [um]\\n1,2\\n").column("z")
        (0.002,)
        """
        if name not in self.numbers:
            has = ", ".join((*self.numbers, *self.labels)) or "none"
            raise BadQuantity(f"no column {name}", f"needed: {name} with its unit; columns found: {has}")
        return self.numbers[name]


@dataclass(frozen=True)
class _Head:
    """One header cell: name, unit and kind; no unit for a label."""

    name: str
    unit: Unit | None = None
    kind: Kind | None = None
    bare: bool = False


def read_columns(text: str) -> Columns:
    """Read a CSV text with units in its header.

    Parameters
    ----------
    text : str
        Header and rows; any newline, a byte-order mark, blank lines and lines with # are passed
        over [text].

    Returns
    -------
    Columns
        Numbers in core units, labels as text, and what was taken for granted [core unit].

    Raises
    ------
    BadQuantity
        At the first fault, with its row as counted in the text, and its column.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> read = read_columns("x,y,z_um\\n0,0,12\\n50,0,-3\\n")
    >>> read.column("z"), read.assumptions
    ((0.012, -0.003), ('x and y have no unit: read as mm',))
    """
    lines = _lines(text)
    if len(lines) < 2:
        found = lines[0][1] if lines else "nothing"
        raise BadQuantity(found, "a header such as x [mm], y [mm], z [um], then rows")
    header = lines[0][1]
    separator = next((mark for mark in ";\t" if mark in header), ",")
    heads = _heads(header, separator)
    if len(lines) - 1 > MOST_ROWS:
        raise BadQuantity(f"{len(lines) - 1} rows", f"at most {MOST_ROWS} rows")
    rows = [_cells(number, line, separator, heads) for number, line in lines[1:]]
    numbers, labels = {}, {}
    for place, head in enumerate(heads):
        if head.unit is None:
            labels[head.name] = tuple(row[place] for _, row in rows)
        else:
            numbers[head.name] = tuple(_number(row[place], number, head, separator) for number, row in rows)
    kinds = MappingProxyType({head.name: head.kind for head in heads if head.kind is not None})
    return Columns(MappingProxyType(numbers), MappingProxyType(labels), _assumptions(heads), kinds)


def _lines(text: str) -> list[tuple[int, str]]:
    """Numbered lines of the text, without blank ones and comments."""
    lines = enumerate(text.removeprefix("\ufeff").splitlines(), start=1)
    return [(number, line) for number, line in lines if line.strip() and not line.lstrip().startswith("#")]


def _heads(header: str, separator: str) -> list[_Head]:
    heads = [_head(cell.strip().strip('"').strip()) for cell in header.split(separator)]
    names = [head.name for head in heads]
    twice = [name for name in names if names.count(name) > 1]
    if twice:
        raise BadQuantity(header, f"header: column {twice[0]} stands there twice")
    return heads


def _head(cell: str) -> _Head:
    bracketed = _BRACKETED.fullmatch(cell)
    if bracketed:
        name, written = bracketed.groups()
        return _with_unit(cell, name, written)
    if cell.casefold() in BARE:
        return _Head(cell.casefold(), *_unit("mm"), bare=True)
    if cell.casefold() in LABELS:
        return _Head(cell.casefold())
    name, under, written = cell.rpartition("_")
    if under and name and _known(written):
        return _with_unit(cell, name, written)
    like = cell or "x"
    raise BadQuantity(cell, f"header: the unit of this column, as in {like} [mm] or {like}_mm")


def _with_unit(cell: str, name: str, written: str) -> _Head:
    if not name or not _known(written):
        raise BadQuantity(cell, "header: a name and a unit, as in z [um], x_mm, angle [arcsec]")
    return _Head(name.strip(), *_unit(written))


def _known(written: str) -> bool:
    try:
        return bool(written.strip()) and any(find(written, kind) for kind in _COLUMN_KINDS)
    except BadQuantity:
        return False


def _unit(written: str) -> tuple[Unit, Kind]:
    return next((unit, kind) for kind in _COLUMN_KINDS if (unit := find(written, kind)))


def _cells(number: int, line: str, separator: str, heads: list[_Head]) -> tuple[int, list[str]]:
    cells = [cell.strip().strip('"').strip() for cell in line.split(separator)]
    while len(cells) > len(heads) and not cells[-1]:
        cells.pop()
    if len(cells) != len(heads):
        raise BadQuantity(line, f"row {number}: {len(heads)} cells, one for each column")
    return number, cells


def _number(cell: str, row: int, head: _Head, separator: str) -> float:
    assert head.unit is not None
    assert head.kind is not None
    typed = cell.replace("\u2212", "-")
    if separator != ",":
        typed = typed.replace(",", ".", 1)
    if not _NUMBER.fullmatch(typed):
        found = cell or "an empty cell"
        raise BadQuantity(found, f"row {row}, column {head.name}: a number in {head.unit.name}")
    return to_core((Fraction(typed) - head.unit.zero) * head.unit.factor, head.kind)


def _assumptions(heads: list[_Head]) -> tuple[str, ...]:
    bare = [head.name for head in heads if head.bare]
    if not bare:
        return ()
    listed = " and ".join((", ".join(bare[:-1]), bare[-1])) if len(bare) > 1 else bare[0]
    return (f"{listed} {'have' if len(bare) > 1 else 'has'} no unit: read as mm",)
