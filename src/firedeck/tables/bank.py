"""The trade's rule for the flatness of both faces together, by the cylinders in the bank."""

from firedeck.errors import TableGap
from firedeck.quantity import Kind, parse
from firedeck.tables.book import rows
from firedeck.trace import Context, Limit, Measure, Rank

_MOST_CYLINDERS = 8


def bank_flatness_limits(cylinders: int) -> tuple[Limit, ...]:
    """Limit along for head and deck added: as many thousandths of an inch as the bank has cylinders.

    The figures printed for some numbers of cylinders are taken as printed (rank published); for others
    the rule is carried on by the thousandth (rank common practice).

    Parameters
    ----------
    cylinders : int
        Cylinders under one head [count].

    Returns
    -------
    tuple of Limit
        One limit of ``both_faces_flatness`` along [mm].

    Raises
    ------
    TableGap
        If there is no cylinder or more than eight.

    Valid for
    ---------
    A rule of thumb where no book limit is known.

    Source
    ------
    rebuilder-flatness-article

    Examples
    --------
    >>> [limit.high for limit in bank_flatness_limits(4)]
    [0.1016]
    """
    if not 1 <= cylinders <= _MOST_CYLINDERS:
        raise TableGap("flatness_by_cylinders", f"{cylinders} cylinders", f"1 to {_MOST_CYLINDERS} in a bank")
    printed = {int(row["cylinders"]): row for row in rows("flatness_by_cylinders")}
    row = printed.get(cylinders)
    text = row["along"] if row else f"{cylinders} thou"
    return (
        Limit(
            quantity="both_faces_flatness",
            low=None,
            high=parse(text, Kind.LENGTH).value,
            measure=Measure.UNDER_THE_EDGE,
            applies=Context(direction="along"),
            rank=Rank.PUBLISHED if row else Rank.COMMON_PRACTICE,
            source=row["source"] if row else "common-practice",
            where=f"as many thousandths as cylinders in the bank, {cylinders} here",
            text=text,
        ),
    )
