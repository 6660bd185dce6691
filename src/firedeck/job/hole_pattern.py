"""The hole pattern of the document as plain places, for the gasket room."""

from collections.abc import Mapping

from firedeck.gasket.pattern import Opening, Pattern
from firedeck.job.frame import layout_frame, point, turned
from firedeck.job.schema.layout import Layout
from firedeck.quantity import Quantity


def hole_pattern(layout: Layout, part: str, pins: Mapping[str, float] | None = None) -> Pattern:
    """Return a layout looking down on the deck, bores about the origin; ``pins`` are diameters of fasteners [mm]."""
    frame, (sign_x, sign_y) = layout_frame(layout), turned(layout)
    openings = [Opening("outline", "", *frame.place(*point(pair))) for pair in layout.outline]

    def add(kind: str, one: object, diameter: Quantity | None, **more: object) -> None:
        x, y = frame.place(one.x.value, one.y.value)  # type: ignore[attr-defined]
        size = diameter.value if diameter else 0.0
        openings.append(Opening(kind, one.label, x, y, size, **more))  # type: ignore[attr-defined, arg-type]

    for bore in layout.bores:
        add("bore", bore, bore.diameter)
    for hole in layout.fasteners:
        add("fastener", hole, hole.diameter)
    for dowel in layout.dowels:
        add("dowel", dowel, dowel.diameter)
    for passage in layout.passages:
        length = passage.length.value if passage.length else 0.0
        angle = passage.angle.value if passage.angle else 0.0
        add(
            "passage",
            passage,
            passage.diameter,
            length=length,
            angle=angle if sign_x == sign_y else -angle,
            leads=passage.leads if passage.leads and passage.leads != "nowhere" else "",
        )
    for mark in layout.marks:
        add("mark", mark, None, text=mark.text)
    return Pattern(part, tuple(_pinned(one, pins or {}) for one in openings))


def _pinned(opening: Opening, pins: Mapping[str, float]) -> Opening:
    from dataclasses import replace

    if opening.kind == "fastener" and opening.label in pins:
        return replace(opening, diameter=pins[opening.label])
    return opening
