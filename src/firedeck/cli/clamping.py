"""``firedeck joint``: how hard the gasket is pressed round every bore, now and as the engine left the factory."""

import argparse
import os
import sys
from typing import Any

from firedeck.cli.files import read_jobs
from firedeck.cli.options import Options, add_json, one_of
from firedeck.cli.printing import print_json, wrapped
from firedeck.errors import JobError

MESHES = ("preview", "standard", "fine")

SAME = (
    "Nothing that goes into this sum differs from the engine as it left the factory; faces, finish and damage are "
    "judged by a check."
)


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
    """Work the joints of a job out and print them; two threads of the algebra library hinder each other here."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from firedeck.assess.clamped import as_arrays, clamped, plain_clamped
    from firedeck.cli.giving_out import give_out
    from firedeck.joint.geometry.mesh import RECIPES
    from firedeck.trace import Missing

    (job,) = read_jobs([options.file])
    joints = [job.joint(options.joint)] if options.joint else list(job.joints)
    if options.export and len(joints) > 1:
        names = ", ".join(joint.name for joint in joints)
        raise JobError("--export", f"{len(joints)} heads", f"name one with --joint: {names}")
    found: list[dict[str, Any]] = []
    for joint in joints:
        result = clamped(job, joint, RECIPES[options.mesh], _progress(sys.stderr.isatty()))
        if isinstance(result, Missing):
            missing = {"measure": result.measure, "tool": result.tool, "how": result.how}
            found.append({"joint": joint.name, "missing": missing | {"paths": list(result.paths)}})
            continue
        found.append(plain_clamped(result))
        if options.export:
            give_out(as_arrays(result), options.export)
    if options.json:
        print_json({"job": job.document.job.title, "joints": found})
    else:
        print("\n\n".join("\n".join(_as_text(one)) for one in found))


def _progress(shown: bool) -> Any:
    def told(part: str, share: float) -> None:
        end = "\r" if share < 1.0 else " \r"
        print(f"  condensing {part}: {100 * share:3.0f} %", end=end, file=sys.stderr, flush=True)

    return told if shown else None


def _as_text(one: dict[str, Any]) -> list[str]:
    if "missing" in one:
        lacks = one["missing"]
        where = ", ".join(lacks["paths"])
        return [
            one["joint"],
            *wrapped(f"Open. Measure {lacks['measure']} ({where}). {lacks['how']}", "  ", "  "),
        ]
    lines = [f"{one['joint']}  ({one['mesh']} bricks, peak pressure {one['peak_pressure']['value']:g} MPa)"]
    lines += [line for bore in one["bores"] for line in wrapped(_of_bore(bore), "  ", "    ")]
    if not any("as_built" in bore for bore in one["bores"]):
        lines += wrapped("As it left the factory: not said ([as_built]), so nothing is ranked.", "  ", "  ")
    elif all(bore["as_built"]["band"] == [0.0, 0.0] for bore in one["bores"]):
        lines += wrapped(SAME, "  ", "  ")
    pulls = [bolt["cold"] for bolt in one["fasteners"]]
    lines += wrapped(
        f"Fasteners, run in and cold: {min(pulls) / 1e3:.0f} to {max(pulls) / 1e3:.0f} kN.", "  ", "  "
    )
    says = [one["mesh_says"]] if one["mesh_says"] else []
    lines += [line for text in [*says, *one["assumptions"]] for line in wrapped(f"- {text}", "  ", "    ")]
    return lines + wrapped(one["says"], "  ", "  ")


def _of_bore(bore: dict[str, Any]) -> str:
    here = f"{bore['firing_lowest']:.0f} N/mm firing, {bore['cold_lowest']:.0f} N/mm cold at the lowest place"
    then = bore.get("as_built")
    if then is None or then["share"] is None:
        return f"No {bore['bore']}, {bore['side']} side: {here}"
    low, high = (100.0 * end for end in then["share_band"])
    return (
        f"No {bore['bore']}, {bore['side']} side: about {100.0 * then['share']:.0f} % of what standard has left, "
        f"band {low:.0f} to {high:.0f}: {then['rank']}. {here}; as built {then['firing_lowest']:.0f} N/mm, "
        f"change {then['change']:+.0f} N/mm, band {then['band'][0]:+.0f} to {then['band'][1]:+.0f}"
    )
