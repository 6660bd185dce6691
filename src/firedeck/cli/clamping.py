"""``firedeck joint``: how hard the gasket is pressed round every bore, now and as the engine left the factory."""

import argparse
import sys
from typing import Any

from firedeck.cli.clamped_text import as_text
from firedeck.cli.files import read_jobs
from firedeck.cli.options import Options, add_json, one_of
from firedeck.cli.printing import print_json
from firedeck.errors import JobError

MESHES = ("preview", "standard", "fine")


def arguments(options: Options) -> None:
    """Say what may be typed after ``joint``."""
    options.add_argument("file", metavar="FILE", help="a job document, such as job.toml")
    options.add_argument("--joint", metavar="NAME", help="only this head")
    options.add_argument(
        "--mesh",
        metavar="|".join(MESHES),
        default="standard",
        type=one_of("--mesh", lambda: MESHES),
        help="how fine the bricks are: seconds, some ten seconds, or more",
    )
    options.add_argument("--export", metavar="DIR", help="write everything needed to solve it yourself")
    add_json(options)


def run(options: argparse.Namespace) -> None:
    """Study the joints of a job and print them."""
    from firedeck.assess.clamped import as_arrays, clamped, plain_study
    from firedeck.cli.giving_out import give_out
    from firedeck.joint.geometry.mesh import RECIPES
    from firedeck.trace import Missing

    (job,) = read_jobs([options.file])
    joints = [job.joint(options.joint)] if options.joint else list(job.joints)
    if options.export and len(joints) > 1:
        names = ", ".join(joint.name for joint in joints)
        raise JobError("--export", f"{len(joints)} heads", f"name one with --joint: {names}")
    recipe, told = RECIPES[options.mesh], _progress(sys.stderr.isatty())
    found: list[dict[str, Any]] = []
    for joint in joints:
        result = clamped(job, joint, recipe, told)
        if isinstance(result, Missing):
            missing = {"measure": result.measure, "tool": result.tool, "how": result.how}
            found.append({"joint": joint.name, "missing": missing | {"paths": list(result.paths)}})
        elif result.study is None:
            found.append({"joint": joint.name, "why_not": result.uncarried or result.waiting})
        else:
            found.append(plain_study(result.study))
            arrays = as_arrays(job, joint, recipe, told) if options.export else None
            if arrays is not None and not isinstance(arrays, Missing):
                give_out(arrays, options.export)
    if options.json:
        print_json({"job": job.document.job.title, "joints": found})
    else:
        print("\n\n".join("\n".join(as_text(one)) for one in found))


def _progress(shown: bool) -> Any:
    def told(part: str, share: float) -> None:
        end = "\r" if share < 1.0 else " \r"
        print(f"  condensing {part}: {100 * share:3.0f} %   ", end=end, file=sys.stderr, flush=True)

    return told if shown else None
