"""The plan view: every fastener with its turn or its name, on the face it holds down."""

from typing import Literal

from firedeck.drawing.balloons import RING, Balloon, drawn, radius_of
from firedeck.drawing.parts import STRIP, bores, dowels, front_strip, outline, passages
from firedeck.drawing.picture import Picture
from firedeck.drawing.svg import POINT, drawing
from firedeck.drawing.view import Plain, View, extent_of, fitted, is_drawn

Numbers = Literal["order", "label"]
WET = ("water", "oil")
FIGURES = 15 * POINT


def plan_view(
    layout: Plain | None,
    numbers: Numbers = "order",
    width: float = 180.0,
    height: float = 100.0,
    size: float = FIGURES,
) -> Picture | None:
    """Draw a joint from above, or nothing if its hole pattern is not known.

    ``numbers`` is what stands in the circles: each fastener's turn, or its name where no order is
    written; ``width`` and ``height`` are the most it may take on paper, ``size`` the height of figures [mm].
    """
    if layout is None or not is_drawn(layout):
        return None
    fasteners = list(layout.get("fasteners") or ())
    texts = [_text(fastener, numbers) for fastener in fasteners]
    edge = radius_of(texts, size) + RING + 0.5
    view = fitted(extent_of(layout), (edge, edge, width - 2 * edge, height - STRIP - 2 * edge))
    bottom = view.bottom + edge
    balloons = [
        Balloon(view.at(one["x"], one["y"]), text, one.get("leads") in WET, f"fastener {one['label']}")
        for one, text in zip(fasteners, texts, strict=True)
    ]
    picture = _ground(view, layout) + drawn(balloons, size, width, bottom)
    alt = described(layout, numbers)
    whole = bottom + STRIP
    return Picture(
        drawing(width, whole, alt, picture, front_strip(width, bottom + STRIP / 2)), alt, width, whole
    )


def described(layout: Plain, numbers: Numbers = "order") -> str:
    """Say a plan view in words."""
    fasteners = list(layout.get("fasteners") or ())
    groups = (("bores", "bore"), ("fasteners", "fastener"), ("dowels", "dowel"))
    counts = ", ".join(_count(layout.get(group), name) for group, name in groups)
    says = f"Plan view looking down on the deck, front at the left: {counts}."
    if not fasteners:
        return says
    turns = sorted((one for one in fasteners if one.get("order")), key=lambda one: one["order"])
    if numbers == "order" and turns:
        return f"{says} Tightened in this order: {', '.join(str(one['label']) for one in turns)}."
    return f"{says} Fasteners by name: {', '.join(str(one['label']) for one in fasteners)}."


def has_order(layout: Plain | None) -> bool:
    """Tell whether the papers' order numbers every fastener."""
    fasteners = (layout or {}).get("fasteners") or ()
    return bool(fasteners) and all(one.get("order") for one in fasteners)


def has_wet_holes(layout: Plain | None) -> bool:
    """Tell whether a fastener goes into water or oil."""
    return any(one.get("leads") in WET for one in (layout or {}).get("fasteners") or ())


def _text(fastener: Plain, numbers: Numbers) -> str:
    order = fastener.get("order")
    return str(order) if numbers == "order" and order else str(fastener["label"])


def _ground(view: View, layout: Plain) -> str:
    return outline(view, layout) + passages(view, layout) + bores(view, layout) + dowels(view, layout)


def _count(things: object, name: str) -> str:
    number = len(things) if isinstance(things, list | tuple) else 0
    return f"{number} {name}" if number == 1 else f"{number} {name}s"
