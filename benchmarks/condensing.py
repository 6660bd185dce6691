"""Seconds and memory to condense head and block of an invented inline four, in two processes of one thread each.

    python benchmarks/condensing.py [--json] [--small]

450 × 180 mm, four bores of 86 mm at 96 mm, ten bolts, about 870 gasket points. Each mesh goes the way of the program: from
an empty cache through two fresh processes to A and R, all in a process of its own; the shortest of a few runs counts,
since other work on the machine only adds. Memory is that of the largest process. With --small only the preview mesh is
done, once, the others are null. ``machine_unit_s`` is a fixed dense factorisation and product on one thread, so that
figures of different machines compare; ``load`` is how many processes wanted a processor, before and after.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed firedeck is compiled once, not at every start

import argparse
import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Mapping
from pathlib import Path

import numpy as np

from firedeck.fem import Material
from firedeck.joint.geometry.castings import block_section, head_section
from firedeck.joint.geometry.loading import loaded_block, loaded_head
from firedeck.joint.geometry.mesh import RECIPES, block_body, head_body
from firedeck.joint.geometry.plan import Bore, Fastener, JointPlan, Opening
from firedeck.joint.geometry.points import gasket_points
from firedeck.runs import Cache, JointRequest, flexibility

PLAN = JointPlan(
    outline=((-225.0, -90.0), (225.0, -90.0), (225.0, 90.0), (-225.0, 90.0)),
    bores=tuple(
        Bore(str(n + 1), x, 0.0, 86.0, 89.0, 87.0) for n, x in enumerate((-144.0, -48.0, 48.0, 144.0))
    ),
    fasteners=tuple(
        Fastener(f"{n}{side}", x, y, 12.0, 11.0, 12.0, 22.0, 10.0, 40.0)
        for n, x in enumerate((-192.0, -96.0, 0.0, 96.0, 192.0))
        for side, y in (("i", -68.0), ("e", 68.0))
    ),
    openings=tuple(
        Opening(f"water {n}{side}", x, y, 10.0)
        for n, x in enumerate((-144.0, -48.0, 48.0, 144.0))
        for side, y in (("i", -62.0), ("e", 62.0))
    ),
)
HEAD, BLOCK = head_section("aluminium-overhead-cam", 86.0), block_section("closed-deck", 86.0)
POINTS = gasket_points(PLAN, HEAD, BLOCK)


def bodies(name: str):
    """Head and block with their columns."""
    recipe = RECIPES[name]
    head = head_body(PLAN, HEAD, Material(71e3, 0.33, 21.5e-6), recipe)
    block = block_body(PLAN, BLOCK, Material(110e3, 0.26, 10.7e-6), recipe)
    return loaded_head(PLAN, HEAD, head, POINTS), loaded_block(PLAN, block, POINTS)


def request(name: str) -> JointRequest:
    """The same joint as the program asks for it."""
    metals = Material(71e3, 0.33, 21.5e-6), Material(110e3, 0.26, 10.7e-6)
    return JointRequest(PLAN, HEAD, BLOCK, *metals, RECIPES[name])


def one(name: str) -> dict[str, float | int | None]:
    """Condense both bodies by one mesh, from an empty cache to A and R."""
    asked = request(name)
    start = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        flexible = flexibility(asked, Cache(Path(folder)))
        wall = time.perf_counter() - start
    return {"wall_s": round(wall, 2), **of_children(), "springs": len(flexible.A)}


def of_children() -> dict[str, float | None]:
    """Processor time of all processes started from here, and most memory of one of them or of this."""
    try:
        import resource
    except ImportError:
        return {"cpu_s": None, "peak_gb": None}
    unit = 1e9 if sys.platform == "darwin" else 1e6
    theirs, ours = resource.getrusage(resource.RUSAGE_CHILDREN), resource.getrusage(resource.RUSAGE_SELF)
    return {
        "cpu_s": round(theirs.ru_utime + theirs.ru_stime, 2),
        "peak_gb": round(max(theirs.ru_maxrss, ours.ru_maxrss) / unit, 3),
    }


def machine_unit(times: int = 3) -> float:
    """Shortest seconds of a fixed dense factorisation and product."""
    from scipy.linalg.blas import dsyrk
    from scipy.linalg.lapack import dpotrf

    B = np.asfortranarray(np.random.default_rng(0).normal(size=(2000, 2000)))
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        A = dsyrk(1.0, B, lower=1)
        dpotrf(A + 2000.0 * np.eye(2000), lower=1)
        spent.append(time.perf_counter() - start)
    return round(min(spent), 3)


def load() -> float | None:
    """Processes that want a processor, over the last minute."""
    return round(os.getloadavg()[0], 1) if hasattr(os, "getloadavg") else None


RUNS = {"preview": 3, "standard": 3, "fine": 2}
"""How often each mesh is done; the shortest counts."""


def all_meshes(runs: Mapping[str, int] = RUNS) -> dict[str, object]:
    """Every mesh in fresh processes; null for those left out."""
    before = load()
    found: dict[str, dict[str, float]] = {name: {} for name in RECIPES}
    for name, times in runs.items():
        command = [sys.executable, __file__, "--one", name]
        done = [
            json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)
            for _ in range(times)
        ]
        found[name] = {
            key: max(one[key] for one in done) if key == "peak_gb" else min(one[key] for one in done)
            for key in done[0]
        }
    return {
        "condense_s": found["standard"].get("wall_s"),
        "condense_cpu_s": found["standard"].get("cpu_s"),
        "preview_s": found["preview"].get("wall_s"),
        "preview_cpu_s": found["preview"].get("cpu_s"),
        "fine_s": found["fine"].get("wall_s"),
        "fine_cpu_s": found["fine"].get("cpu_s"),
        "peak_gb": found["standard"].get("peak_gb"),
        "fine_peak_gb": found["fine"].get("peak_gb"),
        **{f"{name}_unknowns": unknowns(name) for name in runs},
        "machine_unit_s": machine_unit(),
        "load": [before, load()],
    }


def unknowns(name: str) -> int:
    """Degrees of freedom of both bodies."""
    return sum(body.body.unknowns for body in bodies(name))


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="the preview mesh only")
    parser.add_argument("--one", choices=list(RECIPES), help="one mesh only")
    asked = parser.parse_args()
    figures = one(asked.one) if asked.one else all_meshes({"preview": 1} if asked.small else RUNS)
    print(
        json.dumps(figures)
        if asked.json or asked.one
        else "\n".join(f"{k:18}{v}" for k, v in figures.items())
    )


if __name__ == "__main__":
    main()
