"""SVG text, written plainly: every user text is escaped, every number is short."""

from collections.abc import Mapping
from html import escape

POINT = 25.4 / 72
"""One typographic point [mm]."""

FONT = "DejaVu Sans Mono, monospace"
CHARACTER = 0.602
"""Width of one character of the font, as a share of its size."""

Value = str | float | int


def tag(name: str, attributes: Mapping[str, Value], *children: str) -> str:
    """Write one element."""
    written = "".join(f' {key}="{_value(value)}"' for key, value in attributes.items())
    return f"<{name}{written}>{''.join(children)}</{name}>" if children else f"<{name}{written}/>"


def words(x: float, y: float, text: str, size: float, /, **more: Value) -> str:
    """Write one line of text with its middle at x, y; ``size`` is in mm."""
    attributes: dict[str, Value] = {
        "x": x,
        "y": y + 0.36 * size,
        "font-size": size,
        "font-family": FONT,
        "text-anchor": "middle",
    }
    attributes |= {key.replace("_", "-"): value for key, value in more.items()}
    return tag("text", attributes, _text(text))


def haloed(x: float, y: float, text: str, size: float, /, **more: Value) -> str:
    """Write text over a light halo, readable on any ground."""
    halo: dict[str, Value] = {"stroke": "#ffffff", "stroke_width": 0.3 * size, "stroke_linejoin": "round"}
    return words(x, y, text, size, **more, **halo) + words(x, y, text, size, **more)


def length(text: str, size: float) -> float:
    """Return the printed width of a text [mm]."""
    return CHARACTER * size * len(text)


def drawing(width: float, height: float, title: str, *children: str) -> str:
    """Wrap a picture of this size in paper millimetres."""
    attributes: dict[str, Value] = {
        "xmlns": "http://www.w3.org/2000/svg",
        "viewBox": f"0 0 {_value(width)} {_value(height)}",
        "width": f"{_value(width)}mm",
        "height": f"{_value(height)}mm",
        "role": "img",
        "aria-label": title,
    }
    return tag("svg", attributes, *children)


def _value(value: Value) -> str:
    if isinstance(value, str):
        return escape(legal(value), quote=True)
    return f"{value:.2f}".rstrip("0").rstrip(".") or "0"


def _text(text: str) -> str:
    return escape(legal(text), quote=False)


def legal(text: str) -> str:
    """Replace what XML cannot hold."""
    return "".join(character if _is_legal(ord(character)) else "\ufffd" for character in text)


def _is_legal(code: int) -> bool:
    if code < 0x20:
        return code in (0x9, 0xA, 0xD)
    return not (0x7F <= code <= 0x9F or 0xD800 <= code <= 0xDFFF or code in (0xFFFE, 0xFFFF))
