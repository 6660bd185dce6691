"""How hard each ring is pressed all round, in letters for the terminal: a bar for every hour of the clock."""

import math
from collections.abc import Iterator

from firedeck.drawing.rings import AS_BUILT, Dial, Line, dials_of, round_up
from firedeck.drawing.view import Plain

HOURS = (12, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11)
WIDE = 36
"""Letters of a bar at full scale."""
BAR, THEN = "█", "┆"


def ring_text(layout: Plain | None, study: Plain | None) -> str:
    """Write the rings of one head, its own cylinder firing; nothing where they were not worked out.

    Each bar is the lowest load of that twelfth of the ring; seen looking down on the deck, 9 o'clock is the front.
    """
    dials = dials_of(layout, study)
    if not dials:
        return ""
    top = round_up(max(1.0, *(load for dial in dials for line in dial.lines for _, load in line.points)))
    lines = [line for dial in dials for line in [*_ring(dial, top), ""]]
    then = any(line.name == AS_BUILT for dial in dials for line in dial.lines)
    key = [f"N/mm, its own cylinder firing; a full bar is {top:g}"]
    key += [f"first figure and bar: now; second figure and {THEN}: as it left the factory"] if then else []
    return "\n".join([*lines, *key, "seen looking down on the deck: 9 o'clock is the front, 3 the rear"])


def _ring(dial: Dial, top: float) -> Iterator[str]:
    now = _by_hour(dial.lines[-1])
    then = next((_by_hour(line) for line in dial.lines if line.name == AS_BUILT), {})
    least = hour_of(dial.angle)
    yield f"No {dial.bore}: lowest {dial.lowest:.0f} N/mm, {dial.side}, at {least} o'clock"
    for hour in HOURS:
        if hour in now:
            mark = "  lowest" if hour == least else ""
            was = f"{then[hour]:6.0f}" if hour in then else ""
            yield f"  {hour:>2} {now[hour]:6.0f} {_bar(now[hour], then.get(hour), top)}{was}{mark}".rstrip()


def _bar(load: float, then: float | None, top: float) -> str:
    """Draw a bar as long as the load, and where the factory's ended."""
    cells = list(f"{BAR * _cells(load, top):<{WIDE + 1}}")
    if then is not None:
        cells[_cells(then, top)] = THEN
    return "".join(cells)


def _cells(load: float, top: float) -> int:
    return round(WIDE * min(max(load, 0.0), top) / top)


def hour_of(angle: float) -> int:
    """Return the hour at which an angle [rad] from the rear, counted to the left, stands: the rear is 3 o'clock."""
    return round(3.0 - 6.0 * angle / math.pi) % 12 or 12


def _by_hour(line: Line) -> dict[int, float]:
    """Take the lowest load of every twelfth of the ring."""
    least: dict[int, float] = {}
    for angle, load in line.points:
        hour = hour_of(angle)
        least[hour] = min(load, least.get(hour, load))
    return least
