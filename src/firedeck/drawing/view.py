"""From the frame of the joint to paper: x to the right, and y up as seen looking down on the deck."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

Place = tuple[float, float]
Plain = Mapping[str, Any]
Window = tuple[float, float, float, float]
"""Left, top, width and height on paper [mm]."""

EDGE = 10.0
"""Where no outline is given, the picture goes so far beyond the outermost centres [mm of the engine]."""


@dataclass(frozen=True)
class Extent:
    """The smallest upright rectangle round everything [mm of the engine]."""

    left: float
    right: float
    low: float
    high: float

    @property
    def width(self) -> float:
        """From front to rear."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From side to side."""
        return self.high - self.low


@dataclass(frozen=True)
class View:
    """Maps places of the frame to the paper; ``over`` is the head lying face up on the bench."""

    extent: Extent
    scale: float
    left: float
    top: float
    over: bool = False

    def at(self, x: float, y: float) -> Place:
        """Return the place on paper [mm]."""
        down = y - self.extent.low if self.over else self.extent.high - y
        return (self.left + self.scale * (x - self.extent.left), self.top + self.scale * down)

    @property
    def right(self) -> float:
        """Right edge of what is drawn [mm of paper]."""
        return self.left + self.scale * self.extent.width

    @property
    def bottom(self) -> float:
        """Lower edge of what is drawn [mm of paper]."""
        return self.top + self.scale * self.extent.height


def is_drawn(layout: Plain | None) -> bool:
    """Tell whether there is a hole pattern to draw."""
    pattern = layout or {}
    return any(pattern.get(group) for group in ("bores", "fasteners", "outline"))


def extent_of(layout: Plain | None, points: Sequence[Sequence[float]] = ()) -> Extent:
    """Return how far the pattern reaches; the outline alone where it is given."""
    pattern = layout or {}
    outline = [(float(x), float(y)) for x, y in pattern.get("outline") or ()]
    measured = [(float(point[0]), float(point[1])) for point in points]
    if outline:
        return _round(outline, 0.0)
    return _round([*_reaches(pattern), *measured], EDGE)


def fitted(extent: Extent, window: Window, over: bool = False) -> View:
    """Fit the extent into a window of the paper, as large as goes."""
    left, top, width, height = window
    scale = min(width / max(extent.width, 1.0), height / max(extent.height, 1.0))
    spare = width - scale * extent.width
    return View(extent, scale, left + spare / 2, top, over)


def _reaches(pattern: Plain) -> Iterator[Place]:
    for group in ("bores", "fasteners", "dowels", "passages"):
        for thing in pattern.get(group) or ():
            half = (thing.get("diameter") or 0.0) / 2
            yield (thing["x"] - half, thing["y"] - half)
            yield (thing["x"] + half, thing["y"] + half)


def _round(places: Iterable[Place], edge: float) -> Extent:
    xs, ys = zip(*places, strict=True) if (places := list(places)) else ((0.0,), (0.0,))
    return Extent(min(xs) - edge, max(xs) + edge, min(ys) - edge, max(ys) + edge)
