"""Seconds and memory to condense head and block of an invented inline four, in two processes of one thread each.

    python benchmarks/condensing.py [--json] [--small]

450 × 180 mm, four bores of 86 mm at 96 mm, ten bolts, about 870 gasket points. Each mesh runs in processes of its own;
memory is that of the larger one. With --small only the preview mesh is done, the others are null. ``machine_unit_s`` is a
fixed dense factorisation and product on one thread, so that figures of different machines compare.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import argparse
import json
import subprocess
import sys
import time
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

import numpy as np

from firedeck.fem import Front, Material, Plan, condense_piece, finish, share_out
from firedeck.joint.geometry.castings import block_section, head_section
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.loading import loaded_block, loaded_head
from firedeck.joint.geometry.mesh import RECIPES, block_body, head_body
from firedeck.joint.geometry.plan import Bore, Fastener, JointPlan, Opening
from firedeck.joint.geometry.points import gasket_points

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


def peak_gb() -> float | None:
    """Most memory this process has held."""
    try:
        import resource
    except ImportError:
        return None
    unit = 1e9 if sys.platform == "darwin" else 1e6
    return round(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / unit, 3)


def done(plans: list[Plan], share: tuple[tuple[int, int], ...]) -> dict[tuple[int, int], Front]:
    """Condense a share of the pieces."""
    return {(body, piece): condense_piece(plans[body], piece) for body, piece in share}


def other_hand(name: str) -> tuple[dict[tuple[int, int], Front], float | None, float]:
    """The second share, worked out in a process of its own."""
    plans = [loaded.plan() for loaded in bodies(name)]
    found = done(plans, share_out(plans, 2)[1])
    return found, peak_gb(), time.process_time()


def one(name: str) -> dict[str, float | int | None]:
    """Condense both bodies by one mesh, from nothing to A and R."""
    start = time.perf_counter()
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
        second = pool.submit(other_hand, name)
        loaded = bodies(name)
        plans = [body.plan() for body in loaded]
        ready = done(plans, share_out(plans, 2)[0])
        theirs, their_peak, their_cpu = second.result()
    ready |= theirs
    whole = [
        finish(plan, {piece: ready[at, piece] for at, piece in ready if at == body})
        for body, plan in enumerate(plans)
    ]
    flexible = put_together(
        PLAN, POINTS, *(condensed(body, G) for body, G in zip(loaded, whole, strict=True))
    )
    peaks = [peak for peak in (peak_gb(), their_peak) if peak is not None]
    return {
        "wall_s": round(time.perf_counter() - start, 2),
        "cpu_s": round(time.process_time() + their_cpu, 2),
        "peak_gb": max(peaks, default=None),
        "unknowns": sum(body.body.unknowns for body in loaded),
        "springs": len(flexible.A),
    }


def machine_unit() -> float:
    """Seconds of a fixed dense factorisation and product."""
    from scipy.linalg.blas import dsyrk
    from scipy.linalg.lapack import dpotrf

    B = np.asfortranarray(np.random.default_rng(0).normal(size=(2000, 2000)))
    start = time.perf_counter()
    A = dsyrk(1.0, B, lower=1)
    dpotrf(A + 2000.0 * np.eye(2000), lower=1)
    return round(time.perf_counter() - start, 3)


def all_meshes(names: Sequence[str] = tuple(RECIPES)) -> dict[str, float | None]:
    """Every mesh in fresh processes; null for those left out."""
    found: dict[str, dict[str, float]] = {name: {} for name in RECIPES}
    for name in names:
        text = subprocess.run(
            [sys.executable, __file__, "--one", name], check=True, capture_output=True, text=True
        ).stdout
        found[name] = json.loads(text)
    return {
        "condense_s": found["standard"].get("wall_s"),
        "condense_cpu_s": found["standard"].get("cpu_s"),
        "preview_s": found["preview"].get("wall_s"),
        "fine_s": found["fine"].get("wall_s"),
        "peak_gb": found["standard"].get("peak_gb"),
        "fine_peak_gb": found["fine"].get("peak_gb"),
        "unknowns": found["standard"].get("unknowns"),
        "fine_unknowns": found["fine"].get("unknowns"),
        "machine_unit_s": machine_unit(),
    }


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="the preview mesh only")
    parser.add_argument("--one", choices=list(RECIPES), help="one mesh only")
    asked = parser.parse_args()
    figures = one(asked.one) if asked.one else all_meshes(["preview"] if asked.small else list(RECIPES))
    print(
        json.dumps(figures)
        if asked.json or asked.one
        else "\n".join(f"{k:18}{v}" for k, v in figures.items())
    )


if __name__ == "__main__":
    main()
