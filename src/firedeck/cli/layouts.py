"""``firedeck layout``: a layout file from a few numbers, from points or from a traced picture, drawn back at once."""

import argparse
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from firedeck.cli.files import text_of
from firedeck.cli.options import Options, nearest
from firedeck.errors import JobError

if TYPE_CHECKING:
    from firedeck.gasket.drafting import CopiedHole
    from firedeck.gasket.pattern import Pattern
    from firedeck.gasket.pattern_text import LayoutRows

WAYS = {
    "numbers": 'bores=4 pitch="96 mm" bore="86 mm" bolt="11 mm" across="104 mm" edge="15 mm" room="0.5 mm" '
    'passage="w: water, 10 mm, 0 mm, 58 mm, along, mirrored" dowel="d: 12 mm, -58 mm, -52 mm"',
    "points": "FILE of points with units",
    "trace": 'FILE of points without units  ends="bore 1, bore 4" length="288 mm" y=down',
    "show": "FILE of a layout",
}
SIZES = ("pitch", "bore", "bolt", "across", "edge", "room")
NEEDED = ("bores", "pitch", "bore", "bolt", "across")
COPY = ("along", "mirrored")


def arguments(options: Options) -> None:
    """Say what may be typed after ``layout``."""
    ways = "\n".join(f"  firedeck layout {way} {words}" for way, words in WAYS.items())
    more = "passage and dowel may be given more than once; a comma parts what belongs to one."
    options.epilog = f"The ways to make one:\n{ways}\n\n{more}"
    options.add_argument("way", choices=tuple(WAYS), metavar="|".join(WAYS), help="how the layout is made")
    options.add_argument("words", nargs="*", metavar="FILE or name=value", help="the file, or the numbers")
    options.add_argument("-o", "--output", metavar="FILE", help="write the layout file here")
    options.add_argument("--svg", metavar="FILE", help="write the drawing here as well")


def run(options: argparse.Namespace) -> None:
    """Make a layout, check it, write it and draw it."""
    from firedeck.gasket.drafting import layout_text
    from firedeck.gasket.pattern_text import pattern_of

    written = _made(options.way, options.words)
    text = layout_text(written)
    pattern = pattern_of(text, options.output or "layout")
    if options.output:
        _write(options.output, text)
    if options.svg:
        _write(options.svg, _svg(pattern))
    print(_drawn(pattern))
    print(_counted(pattern, options.output))


def _made(way: str, words: Sequence[str]) -> "LayoutRows":
    from firedeck.gasket.pattern_text import rows_of

    files = [word for word in words if "=" not in word]
    given = [word.partition("=") for word in words if "=" in word]
    if way == "numbers":
        return _from_numbers([(name, value) for name, _, value in given], files)
    if len(files) != 1:
        raise JobError(f"layout {way}", f"{len(files)} files", "the name of one file")
    written = rows_of(text_of(files[0]), files[0])
    values = {name: value for name, _, value in given}
    allowed = ("ends", "length", "y") if way == "trace" else ()
    _known(f"layout {way}", values, allowed)
    return _traced(written, values) if way == "trace" else written


def _known(where: str, values: Mapping[str, str], allowed: Sequence[str]) -> None:
    for name in values:
        if name not in allowed:
            raise JobError(f"{where} {name}", "a word that is not known", nearest(name, allowed))


def _traced(written: "LayoutRows", values: Mapping[str, str]) -> "LayoutRows":
    from firedeck.gasket.drafting import traced

    ends = [end.strip() for end in values.get("ends", "").split(",") if end.strip()]
    if len(ends) != 2 or "length" not in values:
        raise JobError("layout trace", "no length to go by", 'ends="bore 1, bore 4" length="288 mm"')
    down = values.get("y", "up")
    if down not in ("up", "down"):
        raise JobError("layout trace y", repr(down), "allowed: up, down")
    return traced(written, (ends[0], ends[1]), _length("length", values["length"]), down == "down")


def _from_numbers(given: Sequence[tuple[str, str]], files: Sequence[str]) -> "LayoutRows":
    from firedeck.gasket.drafting import FewNumbers, from_numbers

    if files:
        raise JobError("layout numbers", repr(files[0]), f"name=value, such as {WAYS['numbers'][:20]}")
    values = {name: value for name, value in given if name not in ("passage", "dowel")}
    _known("layout numbers", values, ("bores", *SIZES, "passage", "dowel"))
    lacking = [name for name in NEEDED if name not in values]
    if lacking:
        raise JobError("layout numbers", f"no {lacking[0]}", f"needed: {', '.join(NEEDED)}")
    if not values["bores"].isdigit():
        raise JobError("layout numbers bores", repr(values["bores"]), "a whole number")
    sizes = {name: _length(name, value) for name, value in values.items() if name in SIZES}
    holes = tuple(_hole(name, value) for name, value in given if name in ("passage", "dowel"))
    return from_numbers(FewNumbers(bores=int(values["bores"]), holes=holes, **sizes))


def _hole(kind: str, value: str) -> "CopiedHole":
    """Read "label: water, 10 mm, 0 mm, 58 mm, along, mirrored"."""
    from firedeck.gasket.drafting import CopiedHole
    from firedeck.gasket.pattern import LEADS

    label, sign, rest = value.partition(":")
    words = [word.strip() for word in rest.split(",") if word.strip()]
    leads = next((word for word in words if word in LEADS), "")
    copies = [word for word in words if word in COPY]
    sizes = [word for word in words if word not in LEADS and word not in COPY]
    if not sign or len(sizes) != 3:
        raise JobError(
            f"layout numbers {kind}", repr(value), f'{kind}="label: diameter, x, y", and along, mirrored'
        )
    diameter, x, y = (_length(kind, size) for size in sizes)
    return CopiedHole(kind, label.strip(), x, y, diameter, leads, "along" in copies, "mirrored" in copies)


def _length(name: str, text: str) -> float:
    from firedeck.errors import BadQuantity
    from firedeck.quantity import Kind, parse

    try:
        return parse(text, Kind.LENGTH).value
    except BadQuantity as fault:
        raise JobError(f"layout {name}", repr(text), fault.allowed) from None


def _write(name: str, text: str) -> None:
    path = Path(name)
    if not path.parent.is_dir():
        raise JobError(name, "no such folder", "a folder that is there")
    path.write_text(text, encoding="utf-8")


def _drawn(pattern: "Pattern") -> str:
    from firedeck.drawing.in_text import Dot, in_text

    dots = [
        Dot(one.kind, one.leads, one.label, one.x, one.y, one.diameter)
        for one in pattern.openings
        if one.kind != "outline"
    ]
    return in_text(dots, [(one.x, one.y) for one in pattern.of("outline")])


def _svg(pattern: "Pattern") -> str:
    from firedeck.drawing.plan import plan_view

    def listed(kind: str) -> list[dict[str, object]]:
        return [
            {
                "label": one.label,
                "x": one.x,
                "y": one.y,
                "diameter": one.diameter,
                "shape": "slot" if one.length > one.diameter else "round",
                "length": one.length or None,
                "angle": one.angle,
                "leads": one.leads or None,
                "order": None,
            }
            for one in pattern.of(kind)
        ]

    plain = {
        "outline": [(one.x, one.y) for one in pattern.of("outline")],
        "bores": listed("bore"),
        "fasteners": listed("fastener"),
        "dowels": listed("dowel"),
        "passages": listed("passage"),
    }
    picture = plan_view(plain, numbers="label")
    assert picture is not None
    return picture.svg


def _counted(pattern: "Pattern", output: str | None) -> str:
    counts = [(kind, len(pattern.of(kind))) for kind in ("bore", "fastener", "dowel", "passage", "mark")]
    said = ", ".join(f"{number} {kind}{'' if number == 1 else 's'}" for kind, number in counts if number)
    where = f"written to {output}" if output else "not written: add -o FILE"
    return f"{said}; {where}"
