"""Assumptions of the clamped joint as they are made, each once."""

from firedeck.trace import GENERIC, Note


class Said:
    """A list of sentences; saying one twice adds nothing."""

    def __init__(self) -> None:
        self._notes: dict[str, Note] = {}

    def __call__(self, text: str, source: str = GENERIC) -> None:
        self._notes.setdefault(text, Note(text, source))

    @property
    def notes(self) -> tuple[Note, ...]:
        """All that was said, in order."""
        return tuple(self._notes.values())
