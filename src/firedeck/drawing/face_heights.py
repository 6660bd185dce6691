"""Heights of a face in the plain findings: measured points, or what the leaves allow with the places nobody saw."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from firedeck.drawing.view import Place, Plain


@dataclass(frozen=True)
class Heights:
    """Points (x, y, z) [mm]; ``unseen`` are places no leaf was tried near; ``measured`` is False for what leaves allow."""

    points: tuple[tuple[float, float, float], ...]
    unseen: tuple[Place, ...] = ()
    measured: bool = True

    @property
    def known(self) -> tuple[tuple[float, float, float], ...]:
        """Points that were seen; all of them where none was."""
        dark = set(self.unseen)
        return tuple(point for point in self.points if point[:2] not in dark) or self.points


def heights_of(face: Plain) -> Heights | None:
    """Take the points of a face, or what its leaves allow; None where it is known by lines only."""
    points = [point for point in face.get("points") or () if len(point) == 3]
    if points:
        return Heights(tuple((float(x), float(y), float(z)) for x, y, z in points))
    allowed: Plain = face.get("allowed") or {}
    places: Sequence[Any] = allowed.get("places") or ()
    if not places:
        return None
    found = tuple(
        (float(x), float(y), float(z)) for (x, y), z in zip(places, allowed["heights"], strict=True)
    )
    dark = tuple(point[:2] for point, seen in zip(found, allowed["seen"], strict=True) if not seen)
    return Heights(found, dark, measured=False)


def worst_of(face: Plain) -> Plain | None:
    """Return the line with the largest gap, where its place is known."""
    lines = [line for line in face.get("lines") or () if line.get("by") and line.get("span") is None]
    return max(lines, key=lambda line: float(line["gap"]), default=None)
