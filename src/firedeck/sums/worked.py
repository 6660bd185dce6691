"""A physics result that carries its own steps, notes and cautions, as the result of a sum."""

from collections.abc import Mapping
from typing import Protocol

from firedeck.sums.registry import Figure, SumResult
from firedeck.sums.written import written
from firedeck.trace import Note, Step


class Worked(Protocol):
    """A physics result that carries its steps; it may carry notes and cautions too."""

    @property
    def steps(self) -> tuple[Step, ...]:
        """The written steps."""


def from_worked(worked: Worked, results: Mapping[str, Figure]) -> SumResult:
    """A sum's answer from a physics result; its notes become assumptions, its cautions stay cautions."""
    notes: tuple[Note, ...] = getattr(worked, "notes", ())
    cautions: tuple[Note, ...] = getattr(worked, "cautions", ())
    return written(results, worked.steps, notes, cautions)
