"""Published figures as data files inside the package, read once at first use."""

import csv
from collections.abc import Callable, Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from firedeck.errors import TableGap

Row = Mapping[str, str]


@cache
def rows(table: str) -> tuple[Row, ...]:
    """Return the rows of one table of published figures, as text.

    Parameters
    ----------
    table : str
        Name of a file in tables/data without its ending [text].

    Returns
    -------
    tuple of mapping
        One mapping of column name to cell per row; every row has a ``source`` [text].

    Raises
    ------
    TableGap
        If there is no such table.

    Source
    ------
    derived

    Examples
    --------
    >>> all("source" in row for row in rows("limits"))
    True
    """
    file = files("firedeck.tables").joinpath("data", f"{table}.csv")
    if not file.is_file():
        raise TableGap("tables", table, "no file of that name")
    lines = (line for line in file.read_text(encoding="utf-8").splitlines() if not line.startswith("#"))
    return tuple(MappingProxyType(dict(row)) for row in csv.DictReader(lines))


def one(table: str, asked: str, fits: Callable[[Row], bool]) -> Row:
    """Return the first row of a table that fits.

    Parameters
    ----------
    table : str
        Name of the table [text].
    asked : str
        What was asked for, in words, for the message [text].
    fits : callable
        Tells whether a row is the one [text].

    Returns
    -------
    mapping
        The row [text].

    Raises
    ------
    TableGap
        If no row fits.

    Source
    ------
    derived

    Examples
    --------
    >>> one("limits", "any row", lambda row: True)["source"] != ""
    True
    """
    for row in rows(table):
        if fits(row):
            return row
    raise TableGap(table, asked, f"{len(rows(table))} other rows")
