"""``firedeck face``: a face from straightedge lines, with what the readings allow and where to lay next."""

import argparse
import os
import sys
from typing import TYPE_CHECKING, Any

from firedeck.cli.failing import in_file
from firedeck.cli.files import text_of
from firedeck.cli.options import Options, add_json, add_units
from firedeck.cli.printing import print_json, wrapped
from firedeck.drawing.facemap_text import text_map
from firedeck.errors import JobError, OutOfRange
from firedeck.quantity import Kind, System, in_unit

ON_LEAVES = "on end leaves of"

if TYPE_CHECKING:
    from firedeck.sums.face_file import FaceFile
    from firedeck.surfaces.face_map import FaceMap


def arguments(options: Options) -> None:
    """Say what may be typed after ``face``."""
    options.add_argument("file", metavar="READINGS.toml", help="lines of the straightedge with leaves")
    options.add_argument("--preview", action="store_true", help="a first rough answer at once")
    add_json(options)
    add_units(options)


def run(options: argparse.Namespace) -> None:
    """Work the face out and print it."""
    text = text_of(options.file)
    from firedeck.sums.face_file import as_json, read_face

    try:
        read = read_face(text)
        found = read.found(options.preview)
    except JobError as fault:
        raise in_file(options.file, fault) from None
    except OutOfRange as fault:
        raise JobError(f"{options.file}: {fault.name}", fault.found, fault.allowed) from None
    said = as_json(read, found)
    if options.json:
        print_json(said)
    else:
        system = read.written_in if options.units == "as-typed" else options.units
        print("\n".join(_as_text(said, found, read, system)))


def _as_text(said: dict[str, Any], found: "FaceMap", read: "FaceFile", system: System) -> list[str]:
    lines = ["First rough answer: run again without --preview", ""] if said["preview"] else []
    lines.append(f"Smallest out-of-flat by any tilt: {_band(said['flatness'], system)}")
    lines += [_limit(one, system) for one in said["limits"]]
    lines += ["", "On each line, largest gap under a true edge:"]
    lines += [
        f"  {one['name']}: {_band({**one, 'value': one['largest_gap']}, system)}" for one in said["lines"]
    ]
    for one in found.spoilt:
        lines += ["", *wrapped(one.says, "Mind: ", "      ")]
    lines += ["", *_map(said, found, read, system).splitlines()]
    seen = len(said["heights"]) - len(said["not_seen"])
    lines += [
        "",
        f"Seen: {seen} of {len(said['heights'])} places; a dip elsewhere cannot be found.",
        "",
        "Lay next:",
        *(f"  {_next(one, system)}" for one in said["next"]),
    ]
    return lines


def _limit(one: dict[str, Any], system: System) -> str:
    """Say how one limit came out, in words."""
    words = {"holds": "is in", "fails": "is out", "cannot-tell": "cannot tell: the band holds the limit"}
    gap = _band(one["gap"], system) if one["gap"] else "no line that way"
    way = one["direction"]
    span = f"In any {_length(one['span'], system)}, {way}" if "span" in one else f"Under the edge, {way}"
    return f"{span}: {gap}, limit {_length(one['limit'], system)}: {words[one['outcome']]}"


def _next(one: dict[str, Any], system: System) -> str:
    unit, decimals = ("mm", 0) if system == "mm" else ("in", 2)
    places = [[in_unit(at, Kind.LENGTH, unit) for at in one[end]] for end in ("from", "to")]
    start, end = (f"{x:.{decimals}f}/{y:.{decimals}f}" for x, y in places)
    laid, leaf = one["laid"], one["laid"].removeprefix(f"{ON_LEAVES} ").removesuffix(" mm")
    if leaf != laid:
        laid = f"{ON_LEAVES} {_length(float(leaf), system)}"
    return f"from {start} to {end} {unit}, {laid}"


def _map(said: dict[str, Any], found: "FaceMap", read: "FaceFile", system: System) -> str:
    """Draw the heights in figures, in the axes of the file."""
    heights = said["heights"]
    bores = [
        {"label": bore.label, "x": x, "y": y, "diameter": bore.diameter}
        for bore in read.plan.bores
        for x, y in [read.back((bore.x, bore.y))]
    ]
    allowed = {
        "places": [(one["x"], one["y"]) for one in heights],
        "heights": [one["z"] for one in heights],
        "seen": [one["seen"] for one in heights],
    }
    laid = [
        {"by": "leaves", "gap": one.gap.value, "place": read.back(one.at), "span": None}
        for one in found.lines
        if one.laid
    ]
    coloured = sys.stdout.isatty() and not os.environ.get("NO_COLOR")
    front = "right" if read.signs[0] < 0 else "left"
    face = {"allowed": allowed, "lines": laid}
    return text_map({"bores": bores}, face, system, colour=coloured, front=front)


def _band(one: dict[str, float], system: System) -> str:
    low, high = (_length(one[end], system) for end in ("low", "high"))
    return f"{_length(one['value'], system)} ({low.split(' ')[0]} to {high.split(' ')[0]})"


def _length(value: float, system: System) -> str:
    """Write a small length: three decimals of a millimetre, four of an inch; longer ones as they are read."""
    unit, decimals = ("mm", 3) if system == "mm" else ("in", 4)
    number = in_unit(value, Kind.LENGTH, unit)
    text = f"{number:.{decimals}f}"
    return f"{text if number < 1.0 else f'{number:.4g}'} {unit}"
