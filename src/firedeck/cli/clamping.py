"""``firedeck joint``: how hard the gasket is pressed round every bore, now and as the engine left the factory."""

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from firedeck.cli.clamped_text import as_text
from firedeck.cli.drawing_file import svg_file
from firedeck.cli.failing import in_file
from firedeck.cli.files import long_work, read_jobs
from firedeck.cli.options import Options, add_json, one_of
from firedeck.cli.printing import print_json
from firedeck.errors import JobError, JobErrors

if TYPE_CHECKING:
    from firedeck.job import Job, Joint
    from firedeck.joint.study import JointStudy

MESHES = ("preview", "standard", "fine")
IN_LETTERS = ""
"""What stands for a picture drawn on the terminal."""


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
    options.add_argument(
        "--picture",
        metavar="FILE.svg",
        nargs="?",
        const=IN_LETTERS,
        help="draw the load round every ring: here, or into a file, replaced if there",
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
    if faults := [_without_bolts(joint) for joint in joints if joint.layout and not joint.layout.fasteners]:
        raise in_file(options.file, JobErrors(faults))
    if options.export and len(joints) > 1:
        raise _name_one("--export", joints)
    file = svg_file(options.picture or None, options.file)
    if file is not None and len(joints) > 1:
        raise _name_one("--picture", joints)
    recipe, told = RECIPES[options.mesh], long_work().told
    found: list[dict[str, Any]] = []
    drawn: list[str] = []
    for joint in joints:
        result = clamped(job, joint, recipe, told)
        if isinstance(result, Missing):
            missing = {"measure": result.measure, "tool": result.tool, "how": result.how}
            found.append({"joint": joint.name, "missing": missing | {"paths": list(result.paths)}})
        elif result.study is None:
            found.append({"joint": joint.name, "why_not": result.uncarried or result.waiting})
        else:
            found.append(plain_study(result.study))
            if options.picture is not None:
                drawn.append(_drawn(job, joint, result.study, file))
            arrays = as_arrays(job, joint, recipe, told) if options.export else None
            if arrays is not None and not isinstance(arrays, Missing):
                give_out(arrays, options.export)
    if options.json:
        print_json({"job": job.document.job.title, "joints": found})
    else:
        print("\n\n".join(["\n".join(as_text(one)) for one in found] + drawn))
    if file is not None and not drawn:
        raise JobError("--picture", "no ring that could be worked out", "see what stands above")


def _drawn(job: "Job", joint: "Joint", study: "JointStudy", file: Path | None) -> str:
    """Draw the rings of one head into a file, or in letters."""
    from firedeck.assess.clamped import drawn_from
    from firedeck.drawing import ring_picture, ring_text

    layout, plain = drawn_from(job, joint, study)
    if file is None:
        return f"{joint.name}, round every ring\n{ring_text(layout, plain)}"
    picture = ring_picture(layout, plain)
    if picture is None:
        raise JobError("--picture", "a study without rings", "a layout with bores")
    file.write_text(picture.svg, encoding="utf-8")
    return f"rings drawn in {file}"


def _without_bolts(joint: "Joint") -> JobError:
    """A pattern that names no bolt cannot be clamped; one that is not there at all is asked for."""
    from firedeck.job.paths import join_path

    path = join_path(("joint", joint.name, "layout", "fasteners"))
    return JobError(path, "no bolt or stud", "each one with its label, x and y: they clamp the joint")


def _name_one(option: str, joints: "Sequence[Joint]") -> JobError:
    names = ", ".join(joint.name for joint in joints)
    return JobError(option, f"{len(joints)} heads", f"name one with --joint: {names}")
