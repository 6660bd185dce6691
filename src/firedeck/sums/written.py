"""From a physics result to what a sum gives back: figures, written steps, sources, assumptions, cautions."""

from collections.abc import Mapping
from typing import Protocol

from firedeck.sums.registry import Figure, SumResult
from firedeck.trace import Note, Step


class Worked(Protocol):
    """A physics result that carries its steps."""

    @property
    def steps(self) -> tuple[Step, ...]:
        """The written steps."""


def written(worked: Worked, results: Mapping[str, Figure]) -> SumResult:
    """A sum's answer from a physics result; notes are assumptions, cautions stay cautions."""
    notes: tuple[Note, ...] = (*getattr(worked, "notes", ()), *getattr(worked, "assumptions", ()))
    cautions: tuple[Note, ...] = getattr(worked, "cautions", ())
    named = (*(step.source for step in worked.steps), *(note.source for note in (*notes, *cautions)))
    return SumResult(
        results=results,
        steps=worked.steps,
        sources=tuple(dict.fromkeys(named)),
        assumptions=tuple(note.text for note in notes),
        cautions=tuple(note.text for note in cautions),
    )
