"""Cutting the text of a procedure into parts, each with its group and the number the papers give it.

Lines and semicolons part first, so that a group line may hold commas; then a comma with a blank behind it,
and the word "then". A comma without a blank is a decimal comma.
"""

import re
from dataclasses import dataclass

from firedeck.errors import BadQuantity
from firedeck.fasteners.procedure_lines import ALL

MOST_MEMBERS = 200
_HEADER = re.compile(r"^(?P<names>[^:=+°]{1,120}?)\s*:\s*(?P<rest>.*)$")
_NOT_A_GROUP = re.compile(
    r"^(step|stage|pass|after|re-?torque|re-?tighten|run|wait|cold|hot|warm|loosen|back|repeat|check|at|total"
    r"|tighten|torque|turn|then|oil|oiled|dry|sealer|moly|finally|one\s+by\s+one|one\b.*\bat\s+a\s+time|each\s+in\s+turn"
    r"|bolt\s+by\s+bolt|singly)\b|\bsequence$|\b(step|stage|pass)$",
    re.IGNORECASE,
)
_NOUN = r"(?:(?:cylinder\s+)?head\s+)?(?:cap\s*-?\s*screws?|bolts?|screws?|studs?|nuts?|fasteners?|row)"
_NOUNS = re.compile(rf"^(?:no\.?\s+|{_NOUN}\s+)(?=\S)|(?<=\S)\s+{_NOUN}$", re.IGNORECASE)
_NAME = re.compile(r"^[^\W_][\w .&'-]{0,39}$")
_SPAN = re.compile(r"^(?:(\d{1,4})\s*(?:-|–|\bto\b)\s*(\d{1,4})|([A-Za-z])\s*(?:-|–|\bto\b)\s*([A-Za-z]))$")
_LABEL = re.compile(
    r"^(?:(?:step|stage|pass)\s+(?P<a>\d{1,3})\s*[:=.)]?\s*"
    r"|(?P<b>\d{1,3})(?:st|nd|rd|th)\s+(?:step|stage|pass)\s*[:=]?\s*"
    r"|(?P<word>first|second|third|fourth|fifth|sixth)\s+(?:step|stage|pass)\s*[:=]?\s*"
    r"|\(?(?P<c>\d{1,3})[.)]\s+)",
    re.IGNORECASE,
)
_ORDINALS = {word: at + 1 for at, word in enumerate(("first", "second", "third", "fourth", "fifth", "sixth"))}
_BETWEEN = re.compile(r",\s+(?:(?:and\s+)?then\s+)?|\s+(?:and\s+)?then\s+", re.IGNORECASE)


@dataclass(frozen=True)
class Part:
    """One part of the text; ``label`` is the number the papers give it, 0 without one."""

    text: str
    group: str
    label: int = 0


@dataclass(frozen=True)
class Header:
    """A line that opens a group: its name written one way, and the labels or names it covers."""

    name: str
    members: tuple[str, ...]


def pieces(text: str) -> tuple[str, ...]:
    """Cut a text at lines and semicolons; empty ones are dropped.

    Parameters
    ----------
    text : str
        The whole text [text].

    Returns
    -------
    tuple of str
        Lines without blanks at their ends [text].

    Source
    ------
    [generic-ours] the grammar of a procedure.

    Examples
    --------
    >>> pieces("30 N·m; +90°")
    ('30 N·m', '+90°')
    """
    cut = (" ".join(piece.split()).rstrip(" ,.") for piece in re.split(r"[\n\r;]", text))
    return tuple(piece for piece in cut if piece)


def header(piece: str) -> tuple[Header, str] | None:
    """Read the group a piece opens.

    Parameters
    ----------
    piece : str
        A line of the text [text].

    Returns
    -------
    (Header, str) or None
        The group and the rest of the line; None if the line opens no group [text].

    Raises
    ------
    BadQuantity
        If it looks like a group line but names no group clearly.

    Source
    ------
    [generic-ours] the grammar of a procedure.

    Examples
    --------
    >>> header("1-3, 11: 40 N·m")
    (Header(name='1-3, 11', members=('1', '2', '3', '11')), '40 N·m')
    >>> header("Step 1: 40 N·m") is None
    True
    """
    match = _HEADER.match(piece)
    if match is None or _NOT_A_GROUP.search(match["names"]) or _LABEL.match(piece):
        return None
    items = [normal_name(item) for item in re.split(r"\s*,\s*|\s+and\s+|\s*&\s*", match["names"])]
    members: list[str] = []
    for item in items:
        members += _members(item, match["names"])
    if [item.casefold() for item in items] in (["all"], ["every"]):
        return Header(ALL, (ALL,)), match["rest"]
    if len(members) > MOST_MEMBERS:
        raise BadQuantity(match["names"], f"a group names at most {MOST_MEMBERS} fasteners")
    spans = (_SPAN.sub(lambda m: f"{m[1] or m[3]}-{m[2] or m[4]}", item) for item in items)
    return Header(", ".join(spans), tuple(members)), match["rest"]


def normal_name(name: str) -> str:
    """Write the name of a group without the word bolts, screws, studs or nuts.

    Parameters
    ----------
    name : str
        As typed [text].

    Returns
    -------
    str
        The name that tells the group from others [text].

    Source
    ------
    [generic-ours] the grammar of a procedure.

    Examples
    --------
    >>> normal_name("long cap screws"), normal_name("studs")
    ('long', 'studs')
    """
    plain, before = " ".join(name.split()), None
    while plain != before:
        plain, before = _NOUNS.sub("", plain).strip(), plain
    return plain


def _members(item: str, names: str) -> list[str]:
    if span := _SPAN.match(item):
        low, high = (int(span[1]), int(span[2])) if span[1] else (ord(span[3]), ord(span[4]))
        if not low < high <= low + MOST_MEMBERS:
            raise BadQuantity(names, f"a span goes up, such as 1-8, to at most {MOST_MEMBERS} fasteners")
        name = str if span[1] else chr
        return [name(at) for at in range(low, high + 1) if name(at).isalnum()]
    if not _NAME.match(item):
        raise BadQuantity(
            names, "a group is a name or labels and a colon at the front of a line, such as long: or 1-8, 11:"
        )
    return [item]


def parts(piece: str) -> tuple[tuple[str, int], ...]:
    """Cut the rest of a line into parts with the numbers the papers give them.

    Parameters
    ----------
    piece : str
        A line without its group [text].

    Returns
    -------
    tuple of (str, int)
        Text and number of each part, 0 without a number [text].

    Source
    ------
    [generic-ours] the grammar of a procedure.

    Examples
    --------
    >>> parts("Step 1: 2,5 mkg, +90° then +45°")
    (('2,5 mkg', 1), ('+90°', 0), ('+45°', 0))
    """
    rest, first = unlabelled(piece)
    cut = [(text.strip(" ,."), first * (at == 0)) for at, text in enumerate(_BETWEEN.split(rest))]
    named = [(text, label) if label else unlabelled(text) for text, label in cut]
    return tuple((text, label) for text, label in named if text or label)


def unlabelled(text: str) -> tuple[str, int]:
    """Take ``Step 1:``, ``2nd stage`` or ``3.`` off the front.

    Parameters
    ----------
    text : str
        One part [text].

    Returns
    -------
    (str, int)
        The rest and the number, 0 without one [text].

    Source
    ------
    [generic-ours] the grammar of a procedure.

    Examples
    --------
    >>> unlabelled("2nd stage: 59 N·m")
    ('59 N·m', 2)
    """
    match = _LABEL.match(text)
    if match is None:
        return text, 0
    figure = match["a"] or match["b"] or match["c"]
    number = int(figure) if figure else _ORDINALS[match["word"].lower()]
    return text[match.end() :].strip(), number
