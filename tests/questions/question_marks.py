"""What counts as right in a reply: numbers, labels, words, decisions. See README.md beside this file."""

import math
import re
from collections.abc import Iterable
from typing import Any

from question_rows import Row, Want, words

Object = dict[str, Any]

NO_RULE = frozenset({"memory", "generic-ours"})
"""Source keys that are no rule anybody else has written down."""

UNITS: dict[str, tuple[str, float]] = {
    **{"mm": ("length", 1.0), "µm": ("length", 1e-3), "in": ("length", 25.4)},
    **{"N": ("force", 1.0), "kN": ("force", 1e3)},
    **{"N·mm": ("torque", 1.0), "N·m": ("torque", 1e3)},
    **{"MPa": ("stress", 1.0), "bar": ("stress", 0.1)},
    **{"deg": ("angle", 1.0), "rad": ("angle", 180 / math.pi)},
    **{"1": ("ratio", 1.0), "%": ("ratio", 0.01)},
    **{"mm³": ("volume", 1e-3), "cc": ("volume", 1.0)},
}


def number(value: object, own_unit: object, unit: str) -> float | None:
    """Read a printed value as a number in the unit wanted; None where it is no such number."""
    if isinstance(value, dict):
        return number(value.get("value"), value.get("unit", own_unit), unit)
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        return None
    if own_unit is None or own_unit == unit:
        return float(value)
    if unit not in UNITS or own_unit not in UNITS or UNITS[unit][0] != UNITS[str(own_unit)][0]:
        return None
    return float(value) * UNITS[str(own_unit)][1] / UNITS[unit][1]


def fits(want: Want, value: float | None, low: float | None = None, high: float | None = None) -> bool:
    """Tell whether the value lies inside the tolerance, or the band low to high holds the number."""
    slack = 1e-9
    for least, most in want.ranges():
        if value is not None and least - slack * abs(least) <= value <= most + slack * abs(most):
            return True
    exact = Want(want.key, want.expected, want.unit, "exact")
    return low is not None and high is not None and any(low <= b and a <= high for a, b in exact.ranges())


def plain(text: object) -> str:
    """Give a text in one spelling: small letters, blanks for hyphens and underscores."""
    return " ".join(re.sub(r"[_\-]+", " ", str(text)).casefold().split())


def speaks_of(alternatives: Iterable[str], text: str) -> bool:
    """Tell whether one of the words stands in the text as a word, common endings allowed."""
    endings = "(?:s|es|e|ed|ing|ion|ness)?"
    spoken = plain(text)
    return any(re.search(rf"\b{re.escape(plain(word))}{endings}\b", spoken) for word in alternatives)


def labels(value: object) -> frozenset[str]:
    """Read labels from a list or a text."""
    parts = value if isinstance(value, list | tuple) else re.split(r"[\s,;+/]+", str(value))
    return frozenset(plain(part) for part in parts if str(part).strip())


def sum_has(want: Want, results: Object) -> bool:
    """Tell whether a sum's result is the one wanted."""
    found = results.get(want.key)
    if not isinstance(found, dict):
        return False
    if not want.is_number:
        return any(labels(found.get("value")) == labels(one) for one in want.expected.split("|"))
    ends = (results.get(f"{want.key}_{end}") for end in ("low", "high"))
    return fits(want, number(found, None, want.unit), *(number(end, None, want.unit) for end in ends))


def answer_has(want: Want, answer: Object) -> bool:
    """Tell whether an answer holds what is wanted: a number in a check, labels, or words of its work."""
    if want.key == "action":
        return True  # judged with its source, by ``decided``
    if want.key == "cylinders":
        return any(labels(answer.get("cylinders")) == labels(one) for one in want.expected.split("|"))
    if want.key == "work":
        lines = (line.values() if isinstance(line, dict) else [line] for line in answer.get("work", []))
        return any(speaks_of(words(want.expected), " ".join(map(str, line))) for line in lines)
    return any(
        check_has(want, *key.strip().rpartition(":")[::2], check, answer)
        for key in want.key.split("|")
        for check in answer.get("checks", [])
    )


def check_has(want: Want, part: str, name: str, check: Object, answer: Object) -> bool:
    """Tell whether this check is the one named and its value, limit or margin the number wanted."""
    spoken = re.findall(r"\w+", plain(f"{check.get('name', '')} {check.get('quantity', '')}"))
    if not set(plain(name).split()) <= set(spoken):
        return False
    unit = check.get("unit")
    if part == "margin":
        return fits(want, number(check.get("margin"), unit, want.unit))
    if part:
        limit = check.get("limit") or {}
        settled = answer.get("state") in ("decided", "close")
        return settled and fits(want, number(limit.get(part), limit.get("unit", unit), want.unit))
    band = check.get("band") or {}
    ends = (number(band.get(end), band.get("unit", unit), want.unit) for end in ("low", "high"))
    return fits(want, number(check.get("value"), unit, want.unit), *ends)


def decided(row: Row, answer: Object) -> bool:
    """Tell whether the answer takes the expected action on a rule somebody else has written down."""
    if answer.get("state") not in ("decided", "close"):
        return False
    sources = answer.get("sources", [])
    named = {source.get("key") if isinstance(source, dict) else source for source in sources}
    if not named - NO_RULE - ({"common-practice"} if row.has_number else set()) - {None, ""}:
        return False
    return any(same_action(one, answer) for one in row.decision)


def same_action(expected: str, answer: Object) -> bool:
    """Compare actions; the name after "use" or "choose" may stand in the headline instead."""
    action = plain(str(answer.get("action") or "").replace(":", " "))
    verb, _, name = plain(expected).partition(" ")
    if action == plain(expected):
        return True
    return bool(name) and action == verb and name in plain(answer.get("headline", ""))


def names_the_next(row: Row, answer: Object) -> bool:
    """Tell whether an open answer sends the mechanic to the measurement that settles it."""
    if answer.get("state") != "open":
        return False
    texts = (f"{one.get('measure', '')} {one.get('tool', '')}" for one in answer.get("next", []))
    return any(speaks_of(row.next, text) for text in texts)
