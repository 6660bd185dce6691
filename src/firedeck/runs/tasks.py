"""What the processes that condense are given, one after the other."""

import pickle
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from firedeck.fem import share_out
from firedeck.joint.geometry.condensed import CondensedBody, condensed
from firedeck.joint.geometry.loading import LoadedBody
from firedeck.runs.child import Task
from firedeck.runs.request import JointRequest, Part


@dataclass(frozen=True)
class Wanted:
    """One body to condense, and how it is spoken of while it is."""

    request: JointRequest
    part: Part
    says: str = ""

    @property
    def key(self) -> str:
        """Name under which it is kept."""
        return self.request.key(self.part)


class Tasks:
    """One task for each body, in their order; no more bodies than ``hands`` are shared out between these.

    Bodies are put together here, those that come later while the hands are busy.
    """

    def __init__(self, by_key: Mapping[str, Wanted], hands: int, folder: Path) -> None:
        self._folder = folder
        self._loaded: dict[str, LoadedBody] = {}
        self._ready: list[bytes] = []
        bodies = list(by_key.items())
        together = len(bodies) <= hands
        self._hands = hands if together else 1
        self._left = iter([bodies] if together else [[body] for body in bodies])

    def next(self) -> bytes | None:
        """Return the next task as a hand reads it, or None when all are given."""
        self.look_ahead()
        return self._ready.pop(0) if self._ready else None

    def look_ahead(self) -> None:
        """Make the next task, unless one waits already."""
        if not self._ready and (group := next(self._left, None)) is not None:
            self._ready = self._made(group)

    def done(self, key: str) -> CondensedBody:
        """Take over a body that is condensed."""
        return condensed(self._loaded.pop(key), np.load(self._folder / f"{key}.npy", allow_pickle=False))

    def _made(self, group: Sequence[tuple[str, Wanted]]) -> list[bytes]:
        """Put bodies together and share them out."""
        loaded = {key: one.request.loaded(one.part) for key, one in group}
        self._loaded |= loaded
        bodies = tuple((key, body.plan()) for key, body in loaded.items())
        shares = share_out([plan for _, plan in bodies], self._hands)
        task = pickle.dumps(Task(bodies, self._folder, shares))
        return [pickle.dumps(hand) + task for hand in range(self._hands)]
