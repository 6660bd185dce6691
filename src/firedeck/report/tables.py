"""Rows of the tables that are filled with a pencil."""

from collections.abc import Sequence

from firedeck.report.blocks import Row
from firedeck.report.figures import Plain

CORNERS = ("front, left", "front, right", "rear, left", "rear, right")
EMPTY = {"fasteners": 12, "bores": 6}


def table_rows(
    rows: str | int, layout: Plain | None, answers: Sequence[Plain], columns: int
) -> tuple[Row, ...]:
    """Return one row for each bolt, cylinder or corner, its name first; empty where names are not known."""
    if isinstance(rows, int):
        return (("",) * columns,) * rows
    names = CORNERS if rows == "corners" else _names(rows, layout, answers)
    return tuple((name, *("",) * (columns - 1)) for name in names)


def _names(rows: str, layout: Plain | None, answers: Sequence[Plain]) -> tuple[str, ...]:
    labels = tuple(str(thing["label"]) for thing in (layout or {}).get(rows) or ())
    if not labels and rows == "bores":
        labels = tuple(
            dict.fromkeys(str(label) for answer in answers for label in answer.get("cylinders") or ())
        )
    return labels or ("",) * EMPTY[rows]
