"""Lists of work by construction: a line is listed when every word it asks for holds for the engine."""

from collections.abc import Iterator
from dataclasses import dataclass

from firedeck.tables.book import Row, rows

Words = frozenset[str]


@dataclass(frozen=True)
class Line:
    """One line of a list of work; ``key`` names what it is for, ``figure`` the figure it carries, ``about`` its subject."""

    key: str
    text: str
    figure: str
    caution: str
    source: str
    about: str = ""


def lines(table: str, holding: Words) -> tuple[Line, ...]:
    """Return the lines of a list of work that are for this engine.

    Parameters
    ----------
    table : str
        Name of the list in tables/data [text].
    holding : frozenset of str
        Words that hold for the engine; "!word" in a line asks that it does not [text].

    Returns
    -------
    tuple of Line
        In the order of the work [text].

    Raises
    ------
    TableGap
        If there is no such list.

    Source
    ------
    derived

    Examples
    --------
    >>> any("clamp" in line.text for line in lines("strip_work", frozenset({"liners-wet"})))
    True
    """
    return tuple(_fitting(rows(table), holding))


def _fitting(table: tuple[Row, ...], holding: Words) -> Iterator[Line]:
    for row in table:
        if all(_holds(word, holding) for word in row["when"].split()):
            yield Line(
                row["key"], row["text"], row["figure"], row["caution"], row["source"], row.get("about", "")
            )


def _holds(word: str, holding: Words) -> bool:
    return word[1:] not in holding if word.startswith("!") else any(one in holding for one in word.split("|"))
