"""What a finding is, and how one asks for another.

A finding is a file with one function ``find(job, joint, found)`` that returns its frozen result, or
what is missing for it. Its public id is the file's name; the result type carries it as ``id``.
"""

import threading
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar, Protocol, TypeVar

from firedeck.job import Job, Joint
from firedeck.trace import Missing


class Finding(Protocol):
    """A frozen result of one finding."""

    id: ClassVar[str]


F = TypeVar("F", bound=Finding)
Find = Callable[[Job, Joint | None, "Findings"], Finding | Missing]


class When(StrEnum):
    """When a finding that takes many seconds may be worked out."""

    NOW = "now"
    KEPT = "only what lies ready from before"
    NEVER = "not at all"


@dataclass(frozen=True)
class LongWork:
    """Whether long work is done, who hears the part and the share of it that is done, and what ends it early."""

    when: When = When.NEVER
    told: Callable[[str, float], None] | None = None
    stop: threading.Event | None = None


@dataclass(frozen=True)
class Listed:
    """One finding of the list: its id, whether it is for the whole engine, and how it is found."""

    id: str
    engine_wide: bool
    find: Find


class Findings:
    """The findings of one joint (or of the engine), each worked out when first asked for.

    A finding may ask only for those above it in the list. ``long_work`` is that of the engine's findings, where
    these stand under them.
    """

    def __init__(
        self,
        job: Job,
        joint: Joint | None,
        listed: Sequence[Listed],
        above: "Findings | None" = None,
        long_work: LongWork | None = None,
    ):
        self._job = job
        self._joint = joint
        self._listed = {one.id: (place, one) for place, one in enumerate(listed)}
        self._above = above
        self.long_work: LongWork = long_work or (above.long_work if above else LongWork())
        self._found: dict[str, Finding | Missing] = {}
        self._asking: list[int] = []
        self._heads: dict[str, Findings] = {}

    def __getitem__(self, name: str) -> Finding | Missing:
        place, listed = self._listed[name]
        if self._asking and place >= self._asking[-1]:
            raise LookupError(f"finding {name!r} is not above the one that asks for it")
        if listed.engine_wide and self._above is not None:
            return self._above[name]
        if name not in self._found:
            self._asking.append(place)
            try:
                self._found[name] = listed.find(self._job, self._joint, self)
            finally:
                self._asking.pop()
        return self._found[name]

    def get(self, kind: type[F]) -> F | Missing:
        """Return the finding of a result type, or what is missing for it."""
        found = self[kind.id]
        if isinstance(found, Missing | kind):
            return found
        raise TypeError(f"finding {kind.id!r} gave {type(found).__name__}")

    def of(self, joint: Joint) -> "Findings":
        """Return the findings of one joint, the same for everybody who asks."""
        if self._above is not None:
            return self._above.of(joint)
        if self._joint is joint:
            return self
        if joint.name not in self._heads:
            listed = [one for _, one in self._listed.values()]
            self._heads[joint.name] = Findings(self._job, joint, listed, self)
        return self._heads[joint.name]

    def worked_out(self) -> Iterator[tuple[str, Finding | Missing]]:
        """Go through what has been worked out so far, in the order of the list."""
        for name, (_, listed) in self._listed.items():
            if name in self._found and not (listed.engine_wide and self._above is not None):
                yield name, self._found[name]

    def all(self) -> "Findings":
        """Work out every finding of this scope."""
        for name, (_, listed) in self._listed.items():
            if listed.engine_wide == (self._above is None):
                self[name]
        return self
