"""Words that travel with results: notes, and what is missing."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Note:
    """A sentence and where it comes from."""

    text: str
    source: str


@dataclass(frozen=True)
class Missing:
    """What has to be measured before a result exists.

    ``paths`` are document paths, ``measure`` what to measure, ``tool`` with what, ``how`` in one
    or two sentences.
    """

    paths: tuple[str, ...]
    measure: str
    tool: str
    how: str

    def __post_init__(self) -> None:
        if not (self.measure and self.tool and self.how):
            raise ValueError("a missing reading says what to measure, with what and how")
