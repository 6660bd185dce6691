"""A published row that a sum answers: arguments as typed, figures as printed, tolerance beside them.

``given``     arguments parted by ``|``, such as ``thread=M8 | class=8.8``
``expected``  figures parted by ``|``: ``result=figure unit ±tolerance``, tolerance in the unit or in %,
              or ``result=low..high unit`` for a printed range; ``each[1]`` is the first of a list
"""

import re

from firedeck import sums
from firedeck.quantity import Kind, in_unit

Row = dict[str, str]

_FIGURE = re.compile(
    r"(?P<name>\w+)(?:\[(?P<place>\d+)\])?="
    r"(?P<low>\d+(?:\.\d+)?)(?:\.\.(?P<high>\d+(?:\.\d+)?))?(?: (?P<unit>[^±%]+?))?"
    r"(?: ±(?P<by>[\d.]+)(?P<percent> %)?)?"
)


def run(row: Row) -> sums.SumResult:
    """Do the sum a row names, with its arguments."""
    given = dict(part.split("=", 1) for part in (part.strip() for part in row["given"].split("|")))
    return sums.find_sum(row["sum"]).run(**given)


def check(row: Row) -> sums.SumResult:
    """Do the sum of a row and hold every printed figure against it."""
    answer = run(row)
    for text in row["expected"].split("|"):
        figure = _FIGURE.fullmatch(text.strip())
        assert figure, f"{row['id']}: cannot read {text!r}"
        value = _value(answer, figure)
        low, high = _band(figure)
        assert low <= value <= high, (
            f"{row['id']} {figure['name']}: {value:.7g} is not within {low:.7g} to {high:.7g}"
        )
    return answer


def _value(answer: sums.SumResult, figure: re.Match[str]) -> float:
    found = answer.results[figure["name"]]
    value, unit = found.value, figure["unit"] or "1"
    if figure["place"]:
        value = list(value)[int(figure["place"]) - 1]
    kind = Kind.STIFFNESS if found.unit == "N/mm" else found.kind
    if kind is None:
        assert unit == (found.unit or "1"), f"{figure['name']} is in {found.unit}"
        return float(value)
    return in_unit(float(value), kind, unit)


def _band(figure: re.Match[str]) -> tuple[float, float]:
    if figure["high"]:
        return float(figure["low"]), float(figure["high"])
    middle = float(figure["low"])
    assert figure["by"], "a single figure needs its tolerance"
    by = float(figure["by"]) * (middle / 100 if figure["percent"] else 1.0)
    return middle - by * (1 + 1e-9), middle + by * (1 + 1e-9)
