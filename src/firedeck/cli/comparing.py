"""``firedeck what-if``: a job as written beside the same job done another way."""

import argparse
import sys
from pathlib import Path
from typing import Any

from firedeck.cli.drawing_file import svg_file
from firedeck.cli.files import long_work, read_jobs
from firedeck.cli.options import Options, add_json
from firedeck.cli.printing import print_json
from firedeck.cli.side_by_side import announcement, one_way
from firedeck.errors import JobError

MORE = """A change is a path of the document and what stands there instead, typed as in the document:
  joint.head.cut.head="0.2 mm"   running.boost="0.6 bar"   joint.head.procedure.text="30 N·m; +90°; +120°"
Before it starts it says of each change whether it is answered at once or needs a new shape, about 20 seconds:
  new shape: places and sizes of the hole pattern, outline, ring of a gasket, material of head or block,
             deck, roof, height, ribs, liners, the first cut of a deck, washer, hole and thread of fasteners
  at once:   procedure, class, lubricant, waisted, another gasket of the job, pressures, fuel, weight, all else"""


def arguments(options: Options) -> None:
    """Say what may be typed after ``what-if``."""
    options.epilog = MORE
    options.add_argument("file", metavar="FILE", help="a job document, such as job.toml")
    options.add_argument(
        "--change", metavar="PATH=VALUE", action="extend", nargs="+", default=[], help="replace a value"
    )
    options.add_argument(
        "--variant", metavar="NAME", action="append", default=[], help="a [[variant]] of the document"
    )
    options.add_argument(
        "--candidates", action="store_true", help="every gasket of the document that does not go on yet"
    )
    options.add_argument(
        "--picture", metavar="FILE.svg", help="draw the rings into a file, replaced if there"
    )
    add_json(options)


def run(options: argparse.Namespace) -> None:
    """Answer the job as written and every other way; one ring after the other where they were worked out."""
    from firedeck.assess import assess
    from firedeck.assess.plain_what_if import plain_ways, plain_what_if
    from firedeck.assess.what_if import ways, what_if
    from firedeck.job import Change

    (job,) = read_jobs([options.file])
    picture = svg_file(options.picture, options.file)
    changes = {one.path: one.value for one in map(Change.read, options.change)}
    asked = ways(job, changes, options.variant, options.candidates)
    for way in asked:
        job.what_if(
            way.changes
        )  # a path that meets nothing, or a value that cannot be, is said before any work
    said = plain_ways(job, asked)
    if not options.json:
        print("\n".join([job.document.job.title, *announcement(said)]), flush=True)
    elif sys.stderr.isatty():
        print("\n".join(announcement(said)), file=sys.stderr, flush=True)
    patience = long_work()
    written = assess(job, long_work=patience)
    found = [
        plain_what_if(what_if(written, way, patience), plain) for way, plain in zip(asked, said, strict=True)
    ]
    if options.json:
        print_json(
            {
                "format": job.document.format,
                "job": job.document.job.title,
                "revision": job.revision,
                "ways": found,
            }
        )
    else:
        print("\n".join(line for one in found for line in ["", *one_way(one)]))
    if picture is not None:
        _draw(picture, found, written, quiet=options.json)


def _draw(file: Path, found: list[dict[str, Any]], written: Any, *, quiet: bool) -> None:
    from firedeck.assess.plain import plain_finding
    from firedeck.drawing.rings import rings_beside

    layouts = {name: plain_finding(one.get("layout")) for name, one in written.findings.items()}
    picture = rings_beside(found, layouts)
    if picture is None:
        raise JobError(
            "--picture",
            "no ring that could be worked out",
            "see what is still to be measured: firedeck check",
        )
    file.write_text(picture.svg, encoding="utf-8")
    if not quiet:
        print(f"\nrings drawn in {file}")
