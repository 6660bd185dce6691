"""How far a turn goes, drawn: a clock hand from the top, to the right when tightened."""

import math

from firedeck.drawing.palette import INK, PAPER
from firedeck.drawing.picture import Picture
from firedeck.drawing.svg import Value, drawing, tag


def turn_picture(degrees: float, loosen: bool = False, size: float = 14.0) -> Picture:
    """Draw a turn of so many degrees; more than one turn is drawn as a whole one, its figure beside it."""
    middle = size / 2
    radius = middle - 2.6
    way = -1 if loosen else 1
    dial: dict[str, Value] = {"cx": middle, "cy": middle, "r": radius, "fill": PAPER, "stroke": INK}
    ring = tag("circle", {**dial, "stroke-width": 0.25})
    sweep = min(degrees, 359.0)
    end = math.radians(way * sweep)
    start_at = (middle, middle - radius)
    end_at = (middle + radius * math.sin(end), middle - radius * math.cos(end))
    arc = (
        f"M{start_at[0]:.2f} {start_at[1]:.2f} A{radius:.2f} {radius:.2f} 0 {int(sweep > 180)} "
        f"{int(way > 0)} {end_at[0]:.2f} {end_at[1]:.2f}"
    )
    pen: dict[str, Value] = {"fill": "none", "stroke": INK, "stroke-width": 1.1}
    hand = f"M{middle:.2f} {middle:.2f} L{start_at[0]:.2f} {start_at[1] - 1.6:.2f}"
    to = f"M{middle:.2f} {middle:.2f} L{end_at[0]:.2f} {end_at[1]:.2f}"
    thin: dict[str, Value] = {"fill": "none", "stroke": INK, "stroke-width": 0.35}
    picture = (
        ring
        + tag("path", {"d": hand, **thin})
        + tag("path", {"d": to, **thin})
        + tag("path", {"d": arc, **pen})
    )
    alt = f"{'Loosen' if loosen else 'Turn on'} by {degrees:g} degrees"
    return Picture(drawing(size, size, alt, picture, _head(end_at, end, way)), alt, size, size)


def _head(at: tuple[float, float], angle: float, way: int) -> str:
    """Draw the arrow head at the end of the arc, pointing onward."""
    onward = (way * math.cos(angle), way * math.sin(angle))
    outward = (math.sin(angle), -math.cos(angle))
    tip = (at[0] + 2.0 * onward[0], at[1] + 2.0 * onward[1])
    sides = [
        (at[0] + s * 1.5 * outward[0] - 0.2 * onward[0], at[1] + s * 1.5 * outward[1] - 0.2 * onward[1])
        for s in (1, -1)
    ]
    corners = " L".join(f"{x:.2f} {y:.2f}" for x, y in (tip, *sides))
    return tag("path", {"d": f"M{corners} Z", "fill": INK})
