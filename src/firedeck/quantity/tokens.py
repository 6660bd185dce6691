"""Numbers, words and marks: the tokenizer.

It works on ASCII only (see ``characters``). A number is digits with decimal marks and, as in tables
and sums, an exponent (``2.0e-5``); names of numbers such as nan or inf are words like any other, and
an underscore is a mark that nothing accepts.
"""

import re
from dataclasses import dataclass
from typing import Literal

_TOKEN = re.compile(
    r"(?P<number>(?:\d+(?:[.,]\d+)*\.?|[.,]\d+(?:[.,]\d+)*)(?:[eE][+-]?\d{1,3}(?![A-Za-z0-9]))?)"
    r"|(?P<word>[A-Za-z]+)"
    r"|(?P<mark>[^\sA-Za-z0-9])"
)


What = Literal["number", "word", "mark"]


@dataclass(frozen=True)
class Token:
    """One piece of a text: what it is, its letters, and where it begins and ends."""

    what: What
    text: str
    start: int
    end: int


def tokens(text: str) -> tuple[Token, ...]:
    """Cut an ASCII text into numbers, words and marks; blanks part them and are dropped.

    Parameters
    ----------
    text : str
        ASCII text.

    Returns
    -------
    tuple of Token
        In the order of the text.

    Source
    ------
    [generic-ours] see the pattern above.

    Examples
    --------
    >>> [token.text for token in tokens("1 1/2 thou")]
    ['1', '1', '/', '2', 'thou']
    >>> [token.what for token in tokens("0.004in")]
    ['number', 'word']
    """
    found = []
    for match in _TOKEN.finditer(text):
        what: What = "number" if match["number"] else "word" if match["word"] else "mark"
        found.append(Token(what, match.group(), match.start(), match.end()))
    return tuple(found)
