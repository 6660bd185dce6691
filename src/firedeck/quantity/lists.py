"""Lists and rows of quantities.

A list is parted by commas, and in it a comma is never a decimal mark. Where decimal commas are used,
``;`` parts. With neither, ``/`` parts, as cylinder readings are written. One unit at the end may
serve all members. Rows are parted by ``,`` or ``;`` and their cells by ``/``.

A ``/`` can also stand in a fraction or in a unit, so it parts unless

- it is inside a unit: ``lbf/in``, ``r/min``;
- it is a proper fraction of inches or of a turn with a denominator from 2 to 64: ``1/16 in``.

``3/4 mm`` without anything else could be a fraction or two readings: it is refused with both.
"""

import re
from collections.abc import Sequence

from firedeck.errors import BadQuantity
from firedeck.quantity.kinds import Kind
from firedeck.quantity.reading import Quantity, is_bare, parse, unit_text
from firedeck.quantity.units import find, kinds_of

LONGEST_ROW = 2000
_WIDE = str.maketrans({"\uff0c": ",", "\uff1b": ";", "\uff0f": "/"})
_WORD = r"[A-Za-zµμ#]+[²³]?(?:\^?[23](?!\d))?"
_UNIT_SLASH = re.compile(rf"(?P<left>{_WORD}|(?<![\d.,])1)\s*/\s*(?P<right>{_WORD})(?P<more>\s+{_WORD})?")
_RUN = re.compile(r"(?<![\d.,])(?<!\d/)\d{1,9}(?:/\d{1,9})+(?![\d./])")
_AFTER = re.compile(r"\s*([A-Za-z]+|\"|”|″|'')?")


def parse_list(text: str, kind: Kind) -> tuple[Quantity, ...]:
    """Read a list of quantities.

    Parameters
    ----------
    text : str
        The members, with one unit each or one unit at the end for all [text].
    kind : Kind
        What sort of quantity all of them are [kind].

    Returns
    -------
    tuple of Quantity
        In the order typed; a member that borrowed the unit at the end carries it in its text [core unit].

    Raises
    ------
    BadQuantity
        If a member is missing or not clear; its place in the list is named.

    Source
    ------
    [generic-ours] the rules above.

    Examples
    --------
    >>> [str(item) for item in parse_list("160,128,168 psi", Kind.PRESSURE_GAUGE)]
    ['160 psi', '128 psi', '168 psi']
    >>> [item.value for item in parse_list("0,13; 0,15 mm", Kind.LENGTH)]
    [0.13, 0.15]
    >>> [item.value for item in parse_list("1/16 in", Kind.LENGTH)]
    [1.5875]
    """
    members = split_list(text)
    shared = _shared_unit(members, kind)
    found = []
    for place, member in enumerate(members, start=1):
        try:
            found.append(parse(f"{member} {shared}" if shared and place < len(members) else member, kind))
        except BadQuantity as fault:
            raise _placed(fault, place, len(members)) from None
    return tuple(found)


def parse_rows(text: str, kinds: Sequence[Kind]) -> tuple[tuple[Quantity, ...], ...]:
    """Read rows of cells; every cell is a quantity with its own unit.

    Parameters
    ----------
    text : str
        Rows parted by ``,`` or ``;``, cells by ``/`` [text].
    kinds : sequence of Kind
        The kind of each cell of a row [kind].

    Returns
    -------
    tuple of tuple of Quantity
        Row by row [core unit].

    Raises
    ------
    BadQuantity
        If a row has too few or too many cells, or a cell is not clear.

    Source
    ------
    [generic-ours] the rules above.

    Examples
    --------
    >>> rows = parse_rows("13 mm/30 mm, 10.1 mm/60 mm", (Kind.LENGTH, Kind.LENGTH))
    >>> [[cell.value for cell in row] for row in rows]
    [[13.0, 30.0], [10.1, 60.0]]
    """
    rows = split_rows(text)
    found = []
    for place, row in enumerate(rows, start=1):
        if len(row) != len(kinds):
            hint = "; part rows by ; where decimal commas are used" if ";" not in text else ""
            raise BadQuantity(text, f"row {place} has {len(row)} cells, {len(kinds)} are wanted{hint}")
        try:
            found.append(tuple(parse(cell, kind) for cell, kind in zip(row, kinds, strict=True)))
        except BadQuantity as fault:
            raise _placed(fault, place, len(rows), "row") from None
    return tuple(found)


def split_list(text: str) -> tuple[str, ...]:
    """Part a list into its members, without reading them.

    Parameters
    ----------
    text : str
        The list [text].

    Returns
    -------
    tuple of str
        The members as typed, blanks at their ends taken off [text].

    Raises
    ------
    BadQuantity
        If a member is empty or a ``/`` could mean two things.

    Source
    ------
    [generic-ours] the rules above.

    Examples
    --------
    >>> split_list("160/128/168 psi")
    ('160', '128', '168 psi')
    """
    ascii_marks = text.translate(_WIDE)
    mark = ";" if ";" in ascii_marks else "," if "," in ascii_marks else ""
    members = ascii_marks.split(mark) if mark else _part_at_slashes(ascii_marks)
    return _filled(text, members)


def split_rows(text: str) -> tuple[tuple[str, ...], ...]:
    """Part rows into their cells, without reading them; cells may be words too.

    Parameters
    ----------
    text : str
        Rows parted by ``,`` or ``;``, cells by ``/`` [text].

    Returns
    -------
    tuple of tuple of str
        The cells as typed, blanks at their ends taken off [text].

    Raises
    ------
    BadQuantity
        If a cell is empty or a ``/`` could mean two things.

    Source
    ------
    [generic-ours] the rules above.

    Examples
    --------
    >>> split_rows("aluminium/90 mm, grey-iron/12 mm")
    (('aluminium', '90 mm'), ('grey-iron', '12 mm'))
    >>> split_rows("16 Mlbf/in/1/2 in")
    (('16 Mlbf/in', '1/2 in'),)
    """
    ascii_marks = text.translate(_WIDE)
    rows = ascii_marks.split(";" if ";" in ascii_marks else ",")
    return tuple(_filled(text, _part_at_slashes(row)) for row in rows)


def _filled(text: str, members: Sequence[str]) -> tuple[str, ...]:
    stripped = tuple(member.strip() for member in members)
    if not text.strip():
        raise BadQuantity(text, "nothing is written")
    for place, member in enumerate(stripped, start=1):
        if not member:
            raise BadQuantity(text, f"number {place} of {len(stripped)} is empty")
    return stripped


def _shared_unit(members: Sequence[str], kind: Kind) -> str:
    """The unit at the end, if it must serve all: all members before it are bare."""
    if len(members) == 1 or not all(_is_bare(member, kind) for member in members[:-1]):
        return ""
    try:
        return unit_text(members[-1], kind)
    except BadQuantity:
        return ""


def _is_bare(member: str, kind: Kind) -> bool:
    """Whether a member has no unit; one that cannot be read is bare if it is figures only."""
    try:
        return is_bare(member, kind)
    except BadQuantity:
        return not any(character.isalpha() for character in member)


def _part_at_slashes(text: str) -> list[str]:
    if len(text) > LONGEST_ROW:
        raise BadQuantity(text, f"{len(text)} characters are too many for one row (at most {LONGEST_ROW})")
    kept = _slashes_of_units(text) | _slashes_of_fractions(text)
    pieces, start = [], 0
    for at, character in enumerate(text):
        if character == "/" and at not in kept:
            pieces.append(text[start:at])
            start = at + 1
    return [*pieces, text[start:]]


def _slashes_of_units(text: str) -> set[int]:
    kept = set()
    for match in _UNIT_SLASH.finditer(text):
        short = f"{match['left']}/{match['right']}"
        if kinds_of(short) or (match["more"] and kinds_of(short + match["more"])):
            kept.add(text.index("/", match.start()))
    return kept


def _slashes_of_fractions(text: str) -> set[int]:
    kept = set()
    for run in _RUN.finditer(text):
        numbers = [int(number) for number in run.group().split("/")]
        after = _AFTER.match(text, run.end())
        unit = (after.group(1) if after else None) or ""
        in_parts = _is_inch_or_turn(unit)
        if len(numbers) == 2 and _looks_like_a_fraction(*numbers):
            if not in_parts:
                raise BadQuantity(text, _two_ways(run.group(), numbers, unit))
            kept.add(text.index("/", run.start()))
        elif in_parts:
            raise BadQuantity(text, f"write fractions of {unit} with the unit behind each, parted by commas")
    return kept


def _is_inch_or_turn(unit: str) -> bool:
    rows = (find(unit, Kind.LENGTH), find(unit, Kind.ANGLE)) if unit else ()
    return any(row is not None and row.name in ("in", "turn") for row in rows)


def _looks_like_a_fraction(top: int, bottom: int) -> bool:
    return bottom in (2, 4, 8, 16, 32, 64) and top < bottom and top % 2 == 1


def _two_ways(written: str, numbers: Sequence[int], unit: str) -> str:
    fraction, readings = f"{numbers[0] / numbers[1]:g} {unit}", f"{numbers[0]}, {numbers[1]} {unit}"
    return f"{written} can be a fraction or two readings: {fraction.strip()} or {readings.strip()}?"


def _placed(fault: BadQuantity, place: int, many: int, called: str = "number") -> BadQuantity:
    where = f"{called} {place} of {many}: " if many > 1 else ""
    return BadQuantity(fault.found, f"{where}{fault.allowed}")
