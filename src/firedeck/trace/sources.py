"""Where a figure comes from: keys of docs/sources.md, and four fixed words of our own."""

DERIVED = "derived"
COMMON_PRACTICE = "common-practice"
MEMORY = "memory"
GENERIC = "generic-ours"

FIXED = {
    DERIVED: "derived",
    COMMON_PRACTICE: "common practice",
    MEMORY: "from memory",
    GENERIC: "our own assumption",
}

RUN = "run:"
"""Prefix of the source of a number that comes from an iteration or a sampling."""

UNPROVED = frozenset({COMMON_PRACTICE, MEMORY, GENERIC})
"""Sources that docs/what-we-do-not-know.md lists wherever they reach an answer."""


def spoken(source: str) -> str:
    """Return the words a person reads for a source key.

    Parameters
    ----------
    source : str
        A fixed key, a key of docs/sources.md, or free words such as "manual p. 4-12" [text].

    Returns
    -------
    str
        The words to print [text].

    Source
    ------
    derived

    Examples
    --------
    >>> spoken("common-practice")
    'common practice'
    >>> spoken("manual p. 4-12")
    'manual p. 4-12'
    """
    return FIXED.get(source, source)
