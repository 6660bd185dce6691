"""terms.toml read once, at first use."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from firedeck.errors import TableGap
from firedeck.quantity import Kind, parse

PLACES = ("block", "head", "gasket", "fastener", "tests", "papers")


@dataclass(frozen=True)
class Term:
    """A quantity of the trade.

    ``plausible`` is the range a reading of it normally lies in, core units; ``measure`` says how a
    garage gets it and ``tool`` with what; ``place`` is where the figure is found.
    """

    name: str
    kind: Kind
    label: str
    help: str
    place: str
    plausible: tuple[float, float] | None = None
    measure: str = ""
    tool: str = ""
    public: bool = False
    choices: tuple[str, ...] = ()


def _term(name: str, row: Mapping[str, object]) -> Term:
    kind = Kind(str(row["kind"]))
    ends = row.get("plausible")
    plausible = None
    if isinstance(ends, list):
        low, high = (parse(str(end), kind).value for end in ends)
        plausible = (low, high)
    choices = row.get("choices", [])
    return Term(
        name=name,
        kind=kind,
        label=str(row["label"]),
        help=str(row["help"]),
        place=str(row["place"]),
        plausible=plausible,
        measure=str(row.get("measure", "")),
        tool=str(row.get("tool", "")),
        public=bool(row.get("public", False)),
        choices=tuple(str(choice) for choice in choices) if isinstance(choices, list) else (),
    )


@cache
def all_terms() -> Mapping[str, Term]:
    """Return every term by name.

    Returns
    -------
    mapping of str to Term
        The terms in the order of terms.toml [text].

    Source
    ------
    derived

    Examples
    --------
    >>> all_terms()["bore"].label
    'bore'
    """
    rows = tomllib.loads(files("firedeck").joinpath("terms.toml").read_text(encoding="utf-8"))
    return MappingProxyType({name: _term(name, row) for name, row in rows.items()})


def term(name: str) -> Term:
    """Return one term.

    Parameters
    ----------
    name : str
        Name as in terms.toml [text].

    Returns
    -------
    Term
        The term [text].

    Raises
    ------
    TableGap
        If terms.toml has no such name.

    Source
    ------
    derived

    Examples
    --------
    >>> term("bore").kind.value
    'length'
    """
    try:
        return all_terms()[name]
    except KeyError:
        raise TableGap("terms.toml", name, "no such term") from None
