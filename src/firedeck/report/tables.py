"""Rows of the tables that are filled with a pencil."""

from collections.abc import Sequence

from firedeck.quantity import Kind, System, in_unit, show
from firedeck.report.blocks import Row
from firedeck.report.figures import Plain, Units

CORNERS = ("front, left", "front, right", "rear, left", "rear, right")
"""Corners of the head in the order in which their heights are written."""
EMPTY = {"fasteners": 12, "bores": 6}


def table_rows(
    rows: str | int, layout: Plain | None, answers: Sequence[Plain], columns: int
) -> tuple[Row, ...]:
    """Return one row for each bolt or cylinder, its name first; empty where names are not known."""
    if isinstance(rows, int):
        return (("",) * columns,) * rows
    names = _names(rows, layout, answers)
    return tuple((name, *("",) * (columns - 1)) for name in names)


def corner_rows(corners: Sequence[Plain], fills: Sequence[str], units: Units) -> tuple[Row, ...]:
    """Return one row for each corner with the heights that are known; heights that are not four are numbered."""
    known = len(corners) in (0, len(CORNERS))
    names = CORNERS if known else tuple(f"place {number}" for number in range(1, len(corners) + 1))
    found = corners or ({},) * len(CORNERS)
    return tuple(
        (name, *(_height(one.get(fill), units) for fill in fills[1:]))
        for name, one in zip(names, found, strict=True)
    )


def _height(known: Plain | None, units: Units) -> str:
    """Print a height as typed, else to a hundredth of a millimetre or a ten-thousandth of an inch; or what a sum gave."""
    if not known:
        return ""
    system: System = "inch" if units == "inch" else "mm"
    if "result" in known:
        ((value, _),) = known["result"].values()
        return show(value, Kind.LENGTH, system)
    typed = str(known["text"])
    unit, decimals = ("in", 4) if system == "inch" else ("mm", 2)
    if units == "as-typed" or typed.endswith(f" {unit}"):
        return typed
    return f"{in_unit(known['value'], Kind.LENGTH, unit):.{decimals}f} {unit}"


def _names(rows: str, layout: Plain | None, answers: Sequence[Plain]) -> tuple[str, ...]:
    labels = tuple(str(thing["label"]) for thing in (layout or {}).get(rows) or ())
    if not labels and rows == "bores":
        labels = tuple(
            dict.fromkeys(str(label) for answer in answers for label in answer.get("cylinders") or ())
        )
    return labels or ("",) * EMPTY[rows]
