"""Figures, limits and sums as they are printed, from what the plain answers already hold."""

import re
from collections.abc import Mapping, Sequence
from typing import Any, Literal

from firedeck.drawing import OUTCOME_MARKS
from firedeck.quantity import number
from firedeck.report.blocks import Sum

Plain = Mapping[str, Any]
Units = Literal["as-typed", "mm", "inch"]
NO_UNIT = ("1", "")
IN_THE_DOCUMENT = re.compile(r"(limits|tools)\.\S+")
OF_THE_PAPERS = ("bulletin", "part-sheet", "manual")
"""Ranks of limits that somebody typed; all others are printed in the units of the job."""
WORST_FIRST = ("fails", "at-limit", "cannot-tell", "holds")


def figure(shown: Plain | None, units: Units) -> str:
    """Pick the figure of the units asked for."""
    return str(shown[units.replace("-", "_")]) if shown else ""


def value_of(check: Plain, units: Units) -> str:
    """Return what a check looked at: in words where it has words, else the figure, its band beside it."""
    value = check.get("text") or figure(check.get("shown"), units) or "–"
    band = check.get("band_shown")
    return f"{value} ({figure(band[0], units)} to {figure(band[1], units)})" if band else str(value)


def limit_words(limit: Plain | None, units: Units) -> str:
    """Say a limit: at most, at least, or from and to."""
    if not limit:
        return "none known"
    low, high = figure(limit.get("low_shown"), units), figure(limit.get("high_shown"), units)
    if units == "as-typed" and limit.get("text") and limit.get("rank") in OF_THE_PAPERS:
        typed = str(limit["text"])
        return typed if low and high else f"{'at least' if low else 'at most'} {typed}"
    if low and high:
        return low if low == high else f"{low} to {high}"
    return f"at least {low}" if low else f"at most {high}"


def where_from(limit: Plain | None) -> str:
    """Say where a limit comes from; where in the document it was typed is of no use on paper."""
    if not limit:
        return ""
    words = dict.fromkeys(str(limit[key]) for key in ("source", "where") if limit.get(key))
    return ", ".join(word for word in words if not IN_THE_DOCUMENT.fullmatch(word))


def outcome_words(check: Plain) -> str:
    """Return the mark and the words of an outcome."""
    return f"{OUTCOME_MARKS.get(check['outcome'], '')} {check['outcome_words']}".strip()


def worst_first(checks: list[Plain]) -> list[Plain]:
    """Put the checks that fail first, then those at the limit; what was not chosen comes last."""
    return sorted(checks, key=lambda check: (not check["counts"], WORST_FIRST.index(check["outcome"])))


def judged_words(answers: Sequence[Plain], joint: str, quantity: str, part: str, units: Units) -> str:
    """Say the worst check of a quantity of one part, with its limit and who says it; blank without any."""
    checks = [
        check
        for answer in answers
        if answer["joint"] == joint
        for check in answer["checks"]
        if check["quantity"] == quantity and check["limit"] and check["name"].startswith(f"{part} ")
    ]
    if not checks:
        return ""
    check = worst_first(checks)[0]
    limit = f"limit {limit_words(check['limit'], units)} ({where_from(check['limit'])})"
    return f"{check['name'].capitalize()}: {value_of(check, units)}, {limit}: {check['outcome_words']}."


def sum_of(step: Plain) -> Sum:
    """Return a written sum with its figures."""
    ((name, result),) = step["result"].items()
    inputs = ", ".join(f"{key} = {_amount(value)}" for key, value in step["inputs"].items())
    return Sum(
        says=step["says"],
        formula=f"{name} = {step['formula']}",
        inputs=inputs,
        result=f"{name} = {_amount(result)}",
        source=step["source"],
    )


def _amount(amount: tuple[float, str]) -> str:
    value, unit = amount
    return number(value) if unit in NO_UNIT else f"{number(value)} {unit}"
