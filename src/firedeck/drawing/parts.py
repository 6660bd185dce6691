"""What is on a face: outline, bores, dowels, passages, and which way the front lies."""

import math

from firedeck.drawing.palette import FAINT, INK, PAPER
from firedeck.drawing.svg import POINT, Value, length, tag, words
from firedeck.drawing.view import Place, Plain, View

LINE = 0.35
THIN = 0.2
STRIP = 7.0
"""Height of the line under a picture that says where the front is [mm]."""

SEEN = {False: "seen looking down on the deck", True: "head face up on the bench"}


def outline(view: View, layout: Plain, fill: str = PAPER, ink: str = INK) -> str:
    """Draw the edge of the face, where it is given."""
    corners = layout.get("outline") or ()
    if not corners:
        return ""
    return tag("path", {"d": outline_path(view, layout), "fill": fill, "stroke": ink, "stroke-width": LINE})


def outline_path(view: View, layout: Plain) -> str:
    """Return the edge of the face as path data."""
    places = [view.at(x, y) for x, y in layout.get("outline") or ()]
    return "M" + " L".join(f"{x:.2f} {y:.2f}" for x, y in places) + " Z" if places else ""


def bores(view: View, layout: Plain) -> str:
    """Draw the cylinder openings with their names in the middle."""
    return rims(view, layout) + "".join(
        bore_name(view, bore, view.at(bore["x"], bore["y"])) for bore in layout.get("bores") or ()
    )


def rims(view: View, layout: Plain) -> str:
    """Draw the cylinder openings alone."""
    return "".join(_rim(view, bore) for bore in layout.get("bores") or ())


def _rim(view: View, bore: Plain) -> str:
    x, y = view.at(bore["x"], bore["y"])
    radius = view.scale * bore["diameter"] / 2
    return tag("circle", {"cx": x, "cy": y, "r": radius, "fill": PAPER, "stroke": INK, "stroke-width": LINE})


def name_size(view: View, bore: Plain) -> tuple[str, float]:
    """Return what is written in a bore, and the size at which it fits."""
    text = f"cyl {bore['label']}"
    radius = view.scale * bore["diameter"] / 2
    return text, min(9 * POINT, 1.7 * radius / max(length(text, 1.0), 1.0))


def bore_name(view: View, bore: Plain, at: Place) -> str:
    """Write the name of a bore at a place of the paper."""
    text, size = name_size(view, bore)
    return words(*at, text, size, fill=FAINT)


def passages(view: View, layout: Plain) -> str:
    """Draw openings for water, oil and air as thin outlines."""
    return "".join(_passage(view, passage) for passage in layout.get("passages") or ())


def _passage(view: View, passage: Plain) -> str:
    x, y = view.at(passage["x"], passage["y"])
    thick = max(view.scale * (passage.get("diameter") or 4.0), 1.0)
    shape: dict[str, Value] = {"fill": PAPER, "stroke": FAINT, "stroke-width": THIN}
    if passage.get("shape") != "slot" or not passage.get("length"):
        return tag("circle", {"cx": x, "cy": y, "r": thick / 2, **shape})
    long = max(view.scale * passage["length"], thick)
    turned = -math.degrees(passage.get("angle") or 0.0) * (-1 if view.over else 1)
    box: dict[str, Value] = {
        "x": x - long / 2,
        "y": y - thick / 2,
        "width": long,
        "height": thick,
        "rx": thick / 2,
    }
    return tag("rect", {**box, **shape, "transform": f"rotate({turned:.1f} {x:.2f} {y:.2f})"})


def dowels(view: View, layout: Plain) -> str:
    """Draw dowels as rings with a cross in them."""
    return "".join(_dowel(view, dowel) for dowel in layout.get("dowels") or ())


def _dowel(view: View, dowel: Plain) -> str:
    x, y = view.at(dowel["x"], dowel["y"])
    radius = max(view.scale * (dowel.get("diameter") or 8.0) / 2, 1.2)
    reach = radius * math.sqrt(0.5)
    cross = f"M{x - reach:.2f} {y - reach:.2f} L{x + reach:.2f} {y + reach:.2f}"
    cross += f" M{x - reach:.2f} {y + reach:.2f} L{x + reach:.2f} {y - reach:.2f}"
    pen: dict[str, Value] = {"stroke": INK, "stroke-width": LINE}
    ring = tag("circle", {"cx": x, "cy": y, "r": radius, "fill": PAPER, **pen})
    return ring + tag("path", {"d": cross, **pen})


def front_strip(width: float, y: float, over: bool = False) -> str:
    """Say under a picture where the front is and how the face is seen."""
    arrow = f"M1 {y:.2f} l3.4 -1.7 v3.4 Z"
    size = 9 * POINT
    return (
        tag("path", {"d": arrow, "fill": INK})
        + words(6, y, "front", size, text_anchor="start", fill=INK)
        + words(width / 2, y, SEEN[over], size, fill=INK)
        + words(width - 1, y, "rear", size, text_anchor="end", fill=INK)
    )
