"""How every result carries its written sum, its limit and its source."""

from firedeck.trace.formula import FormulaError, evaluate, input_names
from firedeck.trace.limit import Band, Check, Context, Limit, Measure, Outcome, Rank, Rival
from firedeck.trace.note import Missing, Note
from firedeck.trace.sources import (
    COMMON_PRACTICE,
    DERIVED,
    FIXED,
    GENERIC,
    MEMORY,
    RUN,
    UNPROVED,
    spoken,
)
from firedeck.trace.step import NO_UNIT, Figure, Step, as_printed

__all__ = [
    "COMMON_PRACTICE",
    "DERIVED",
    "FIXED",
    "GENERIC",
    "MEMORY",
    "NO_UNIT",
    "RUN",
    "UNPROVED",
    "Band",
    "Check",
    "Context",
    "Figure",
    "FormulaError",
    "Limit",
    "Measure",
    "Missing",
    "Note",
    "Outcome",
    "Rank",
    "Rival",
    "Step",
    "as_printed",
    "evaluate",
    "input_names",
    "spoken",
]
