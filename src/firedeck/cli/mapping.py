"""``firedeck face``: a face from straightedge lines, with what the readings allow and where to lay next."""

import argparse
import os
import sys
from typing import TYPE_CHECKING, Any

from firedeck.cli.failing import in_file
from firedeck.cli.files import text_of
from firedeck.cli.options import Options, add_json
from firedeck.cli.printing import print_json, wrapped
from firedeck.drawing.facemap_text import text_map
from firedeck.errors import JobError, OutOfRange

if TYPE_CHECKING:
    from firedeck.sums.face_file import FaceFile
    from firedeck.surfaces.face_map import FaceMap


def arguments(options: Options) -> None:
    """Say what may be typed after ``face``."""
    options.add_argument("file", metavar="READINGS.toml", help="lines of the straightedge with leaves")
    options.add_argument("--preview", action="store_true", help="a first rough answer at once")
    add_json(options)


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
        print("\n".join(_as_text(said, found, read)))


def _as_text(said: dict[str, Any], found: "FaceMap", read: "FaceFile") -> list[str]:
    lines = ["First rough answer: run again without --preview", ""] if said["preview"] else []
    lines.append(f"Smallest out-of-flat by any tilt: {_band(said['flatness'])}")
    words = {"holds": "is in", "fails": "is out", "cannot-tell": "cannot tell: the band holds the limit"}
    for one in said["limits"]:
        gap = _band(one["gap"]) if one["gap"] else "no line that way"
        way = one["direction"]
        under = f"In any {one['span']:g} mm, {way}" if "span" in one else f"Under the edge, {way}"
        lines.append(f"{under}: {gap}, limit {one['limit']:g} mm: {words[one['outcome']]}")
    lines += ["", "On each line, largest gap under a true edge:"]
    lines += [f"  {one['name']}: {_band({**one, 'value': one['largest_gap']})}" for one in said["lines"]]
    for one in found.spoilt:
        lines += ["", *wrapped(one.says, "Mind: ", "      ")]
    lines += ["", *_map(said, found, read).splitlines()]
    seen = len(said["heights"]) - len(said["not_seen"])
    lines += [
        "",
        f"Seen: {seen} of {len(said['heights'])} places; a dip elsewhere cannot be found.",
        "",
        "Lay next:",
    ]
    for one in said["next"]:
        start, end = (f"{x:.0f}/{y:.0f}" for x, y in (one["from"], one["to"]))
        lines.append(f"  from {start} to {end} mm, {one['laid']}")
    return lines


def _map(said: dict[str, Any], found: "FaceMap", read: "FaceFile") -> str:
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
    return text_map({"bores": bores}, face, "mm", colour=coloured, front=front)


def _band(one: dict[str, float]) -> str:
    return f"{one['value']:.3f} mm ({one['low']:.3f} to {one['high']:.3f})"
