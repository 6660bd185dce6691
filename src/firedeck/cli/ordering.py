"""``firedeck order``: the order of tightening and loosening, the papers' own or one worked out."""

import argparse
from typing import TYPE_CHECKING, Any

from firedeck.cli.files import read_jobs
from firedeck.cli.options import Options, add_json
from firedeck.cli.printing import print_json, wrapped

if TYPE_CHECKING:
    from firedeck.fasteners.order import FastenerPlace
    from firedeck.job import Joint

NO_PLACES = "no hole pattern in the document: write layout.fasteners, each with its label, x and y"


def arguments(options: Options) -> None:
    """Say what may be typed after ``order``."""
    options.add_argument("file", metavar="FILE", help="a job document, such as job.toml")
    add_json(options)


def run(options: argparse.Namespace) -> None:
    """Print the order of every head."""
    (job,) = read_jobs([options.file])
    orders = [order_of(joint) for joint in job.joints]
    if options.json:
        print_json({"job": job.document.job.title, "joints": orders})
    else:
        print("\n\n".join("\n".join(_as_text(order)) for order in orders))


def order_of(joint: "Joint") -> dict[str, Any]:
    """Return the order of one head; the papers' own wins, and loosening goes the other way round."""
    from firedeck.fasteners.order import tightening_order
    from firedeck.trace import spoken

    if joint.procedure and joint.procedure.order:
        labels = list(joint.procedure.order)
        return _order(joint.name, joint.procedure.source or "the papers", labels, labels[::-1], [])
    places = _places(joint)
    if not places:
        return _order(joint.name, "", [], [], [NO_PLACES])
    found = tightening_order(places)
    source = spoken(found.notes[0].source)
    return _order(
        joint.name, source, list(found.labels), list(found.loosening), [note.text for note in found.notes]
    )


def _order(
    joint: str, source: str, tightening: list[str], loosening: list[str], notes: list[str]
) -> dict[str, Any]:
    return {
        "joint": joint,
        "source": source,
        "tightening": tightening,
        "loosening": loosening,
        "notes": notes,
    }


def _places(joint: "Joint") -> "list[FastenerPlace]":
    from firedeck.fasteners.order import FastenerPlace
    from firedeck.fasteners.threads import thread_of
    from firedeck.job.frame import layout_frame

    if joint.layout is None:
        return []
    sizes = {
        label: thread_of(group.thread).major_diameter
        for group in joint.fasteners
        if group.thread
        for label in group.labels
    }
    frame = layout_frame(joint.layout)
    return [
        FastenerPlace(hole.label, *frame.place(hole.x.value, hole.y.value), sizes.get(hole.label))
        for hole in joint.layout.fasteners
    ]


def _as_text(order: dict[str, Any]) -> list[str]:
    source = f"  ({order['source']})" if order["source"] else ""
    lines = [f"{order['joint']}{source}"]
    for title, labels in (("tighten", order["tightening"]), ("loosen", order["loosening"])):
        if labels:
            lines += wrapped(f"{title:<8} {' · '.join(labels)}", "  ", " " * 11)
    return lines + [line for note in order["notes"] for line in wrapped(f"- {note}", "  ", "    ")]
