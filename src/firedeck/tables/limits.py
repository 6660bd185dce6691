"""Whose limit wins, and what the others would have said."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from firedeck.quantity import Kind, parse
from firedeck.tables.book import Row, rows
from firedeck.terms import term
from firedeck.trace import Context, Limit, Measure, Rank

_CONTEXT = (
    "part",
    "material",
    "mating_material",
    "construction",
    "direction",
    "duty",
    "fastener",
    "lubricant",
    "washer",
    "gasket",
)


@dataclass(frozen=True)
class Picked:
    """The limit that holds (None: no book limit known), those that did not win, and why."""

    winner: Limit | None
    rivals: tuple[Limit, ...]
    why: str


def pick(quantity: str, asked: Context, given: Sequence[Limit] = ()) -> Picked:
    """Choose the limit that holds for a quantity in a context.

    Rank decides first (bulletin, sheet with the part fitted, manual, published, common practice);
    of one rank the stricter holds. A row from memory never wins. The limits of the job's own
    papers come in as ``given``; the published ones are in tables/data/limits.csv.

    Parameters
    ----------
    quantity : str
        Term the limit is for [text].
    asked : Context
        What is being judged; span in mm [core].
    given : sequence of Limit
        Limits of the job's papers [core].

    Returns
    -------
    Picked
        Winner, rivals and why [core].

    Valid for
    ---------
    Limits whose every stated field equals the context.

    Source
    ------
    derived

    Examples
    --------
    >>> pick("face_flatness", Context(part="head", material="unobtainium")).winner is None
    True
    """
    fitting = [
        limit
        for limit in (*given, *published_limits())
        if limit.quantity == quantity and limit.applies.covers(asked)
    ]
    able = [limit for limit in fitting if limit.rank is not Rank.MEMORY]
    if not able:
        return Picked(None, tuple(fitting), "no book limit known")
    winner = min(able, key=_strength)
    rivals = tuple(sorted((limit for limit in fitting if limit is not winner), key=_strength))
    equals = [rival for rival in rivals if rival.rank is winner.rank]
    why = f"{winner.rank.value} holds" if not equals else f"stricter of {len(equals) + 1} of one rank"
    return Picked(winner, rivals, why)


def _strength(limit: Limit) -> tuple[int, float, float]:
    high = float("inf") if limit.high is None else limit.high
    low = float("inf") if limit.low is None else -limit.low
    return (limit.rank.order, high, low)


@cache
def published_limits() -> tuple[Limit, ...]:
    """Return the published limits of tables/data/limits.csv.

    Returns
    -------
    tuple of Limit
        One per row, core units [core].

    Source
    ------
    derived

    Examples
    --------
    >>> all(limit.source for limit in published_limits())
    True
    """
    return tuple(_limit(row) for row in rows("limits"))


def _limit(row: Row) -> Limit:
    kind = term(row["quantity"]).kind
    stated: dict[str, str | None] = {name: row.get(name) or None for name in _CONTEXT}
    text = " to ".join(bound for bound in (row["low"], row["high"]) if bound)
    return Limit(
        quantity=row["quantity"],
        low=_bound(row["low"], kind),
        high=_bound(row["high"], kind),
        measure=Measure(row["measure"]),
        applies=Context(span=_bound(row.get("span") or "", Kind.LENGTH), **stated),
        rank=Rank(row["rank"]),
        source=row["source"],
        where=row["where"],
        text=text,
    )


def _bound(text: str, kind: Kind) -> float | None:
    return parse(text, kind).value if text else None
