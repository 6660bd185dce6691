"""Checks that no numeric limit judges: how many, yes or no."""

from firedeck.answers.making import Draft
from firedeck.trace import COMMON_PRACTICE, NO_UNIT, Check, Outcome, Step


def count(
    draft: Draft, name: str, found: int, outcome: Outcome, text: str = "", *, source: str = COMMON_PRACTICE
) -> None:
    """Add a check that is a count, with the count as its written sum."""
    counted = {"counted": (float(found), NO_UNIT)}
    step = Step.work_out(f"Counted: {name}", "counted", counted, ("number", NO_UNIT), source)
    draft.add_check(Check(name, "pieces", float(found), outcome, text=text), (step,), source)


def count_of(
    draft: Draft,
    name: str,
    found: int,
    of: int,
    outcome: Outcome,
    *,
    text: str = "",
    source: str = COMMON_PRACTICE,
) -> None:
    """Add a check that is a count of a whole, with what is lacking as its written sum."""
    counted = {"whole": (float(of), NO_UNIT), "found": (float(found), NO_UNIT)}
    step = Step.work_out(f"Still lacking: {name}", "whole - found", counted, ("lacking", NO_UNIT), source)
    draft.add_check(Check(name, "pieces", float(found), outcome, text=text), (step,), source)


def clip(text: str, longest: int = 90) -> str:
    """Cut a headline at a word so that it fits."""
    return text if len(text) <= longest else f"{text[: longest - 4].rsplit(' ', 1)[0]} ..."
