"""A hole pattern drawn in letters, so that a slip is seen at once on the terminal."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

WIDE, HIGH = 76, 23
LETTERS = {"fastener": "+", "dowel": "#", "mark": "!"}
LEADS = {"water": "w", "oil": "o", "port": "p", "air": "a", "drain": "d"}
LEGEND = (
    "O bore   + bolt   # dowel   w water   o oil   d drain   a air   p port   * other   ! mark   . outline"
)


@dataclass(frozen=True)
class Dot:
    """One opening to draw: its kind, where it leads, place and diameter [mm]."""

    kind: str
    leads: str
    label: str
    x: float
    y: float
    diameter: float


def in_text(dots: Sequence[Dot], corners: Sequence[tuple[float, float]] = ()) -> str:
    """Draw openings seen looking down on the deck, front at the left; a letter is about twice as high as wide."""
    spots = [
        *corners,
        *((dot.x + s * dot.diameter / 2, dot.y + s * dot.diameter / 2) for dot in dots for s in (-1, 1)),
    ]
    left, right = min(x for x, _ in spots), max(x for x, _ in spots)
    low, high = min(y for _, y in spots), max(y for _, y in spots)
    step = max((right - left) / (WIDE - 1), (high - low) / (2 * (HIGH - 1)), 1e-9)
    grid = [[" "] * WIDE for _ in range(HIGH)]

    def put(x: float, y: float, letter: str) -> None:
        column, row = round((x - left) / step), round((high - y) / (2 * step))
        if 0 <= column < WIDE and 0 <= row < HIGH:
            grid[row][column] = letter

    for x, y in _edges(corners, step):
        put(x, y, ".")
    for dot in sorted(dots, key=lambda dot: dot.kind != "bore"):
        if dot.kind == "bore":
            for turn in range(60):
                angle = turn * math.tau / 60
                put(
                    dot.x + dot.diameter / 2 * math.cos(angle),
                    dot.y + dot.diameter / 2 * math.sin(angle),
                    "O",
                )
            put(dot.x, dot.y, dot.label[:1])
        else:
            put(dot.x, dot.y, LETTERS.get(dot.kind) or LEADS.get(dot.leads, "*"))
    lines = ["".join(row).rstrip() for row in grid]
    while lines and not lines[-1]:
        lines.pop()
    return "\n".join([*lines, LEGEND, "front <-- seen looking down on the deck"])


def _edges(corners: Sequence[tuple[float, float]], step: float) -> Iterator[tuple[float, float]]:
    for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], *corners[:1]], strict=True):
        pieces = max(int(math.hypot(x2 - x1, y2 - y1) / step), 1)
        yield from ((x1 + (x2 - x1) * k / pieces, y1 + (y2 - y1) * k / pieces) for k in range(pieces))
