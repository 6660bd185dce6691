"""How the work of the clamped joint grows: condensing with its unknowns, operator and judge with the points of the gasket.

    python benchmarks/growth.py [--json] [--small] [--picture FILE]

The joint of condensing.py by meshes of other bricks, and by more and fewer points round each ring. Processor time of one
thread, the shortest of a few runs. ``power``: slope of the last two in logarithms. ``--picture`` draws both as SVG.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import argparse
import json
import time
from collections.abc import Callable, Sequence
from math import log
from pathlib import Path

import condensing
import numpy as np

from firedeck.fem import finish
from firedeck.joint.assembling import Bodies, Bolt, assembled
from firedeck.joint.clamped import Case, ClampedJoint, Load
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.loading import loaded_block, loaded_head
from firedeck.joint.geometry.mesh import RECIPES, Recipe, block_body, head_body
from firedeck.joint.geometry.points import Sampling, gasket_points
from firedeck.joint.law_table import laws_of
from firedeck.joint.newton import settle
from firedeck.joint.operators import safe_operator

ALONG = (10.0, 8.0, 6.0, 5.0, 4.0)
"""Edges of the bricks along the face [mm]; layers are twice as thick."""
ROUND = (12, 24, 48, 72)
"""Points round each ring; the others of the gasket in step."""


def spent(run: Callable[[], object], times: int) -> float:
    """Processor seconds of the shortest of a few runs."""
    found = []
    for _ in range(times):
        start = time.thread_time()
        run()
        found.append(time.thread_time() - start)
    return min(found)


def by_unknowns(along: Sequence[float]) -> list[dict[str, float]]:
    """Condense head and block by finer and finer bricks."""
    rows = []
    for edge in along:
        recipe = Recipe(f"{edge:g}", edge, 2.0 * edge, 0.0, 2.0 * edge)
        pair = bodies(recipe, Sampling())
        plans = [one.plan() for one in pair]
        seconds = spent(lambda plans=plans: [finish(plan, {}) for plan in plans], 2)
        rows.append({"unknowns": sum(one.body.unknowns for one in pair), "condense_s": round(seconds, 3)})
    return rows


def by_points(round_ring: Sequence[int]) -> list[dict[str, float]]:
    """Make the operator and ask the judge with more and more points."""
    rows = []
    for ring in round_ring:
        joint = joint_with(Sampling(ring, 8.0 * 48 / ring, 11.0 * (48 / ring) ** 0.5))
        bolts = len(joint.springs.stiffness)
        held = joint.springs.turned_to(joint.springs.fresh(), range(bolts), np.full(bolts, 50e3))
        case = Case(held, Load(joint.nothing().w, np.array([-150.0, 0.0, 0.0])))
        rows.append(
            {
                "springs": joint.springs.count,
                "setup_s": round(spent(lambda joint=joint: safe_operator(joint), 3), 4),
                "judge_s": round(spent(lambda joint=joint, case=case: settle(joint, case), 2), 4),
            }
        )
    return rows


def bodies(recipe: Recipe, sampling: Sampling):
    """Head and block with their columns."""
    plan, head, block = condensing.PLAN, condensing.HEAD, condensing.BLOCK
    points = gasket_points(plan, head, block, sampling)
    metals = condensing.request("preview")
    return (
        loaded_head(plan, head, head_body(plan, head, metals.head_metal, recipe), points),
        loaded_block(plan, block_body(plan, block, metals.block_metal, recipe), points),
    )


def joint_with(sampling: Sampling) -> ClampedJoint:
    """The joint by coarse bricks and some points."""
    points = gasket_points(condensing.PLAN, condensing.HEAD, condensing.BLOCK, sampling)
    pair = bodies(RECIPES["preview"], sampling)
    flexible = put_together(condensing.PLAN, points, *(condensed(one) for one in pair))
    whole = Bodies(flexible.places, points.share, flexible.A, flexible.R, flexible.gas, flexible.warm)
    bolts = {one.label: Bolt(2.5e5, 75e3) for one in condensing.PLAN.fasteners}
    return assembled(
        whole, laws_of("multi-layer-steel") | {"body": laws_of("graphite-metal-core")["body"]}, bolts
    ).joint


def power(rows: Sequence[dict[str, float]], size: str, seconds: str) -> float | None:
    """Slope of the last two in logarithms."""
    if len(rows) < 2:
        return None
    (a, b), (s, t) = ([row[name] for row in rows[-2:]] for name in (size, seconds))
    return round(log(t / s) / log(b / a), 2)


def drawn(lines: dict[str, list[tuple[float, float]]]) -> str:
    """Lines over two axes in logarithms, each with its name and its numbers."""
    wide, high, edge = 640.0, 420.0, 60.0
    every = [point for line in lines.values() for point in line]
    (low_x, high_x), (low_y, high_y) = (
        (min(log(point[axis]) for point in every), max(log(point[axis]) for point in every))
        for axis in (0, 1)
    )

    def place(x: float, y: float) -> tuple[float, float]:
        across = (log(x) - low_x) / (high_x - low_x)
        up = (log(y) - low_y) / (high_y - low_y)
        return edge + across * (wide - 3 * edge), high - edge - up * (high - 2 * edge)

    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high:g}" font-family="sans-serif" font-size="11">',
        '<rect width="100%" height="100%" fill="white"/>',
        f'<text x="{edge:g}" y="20">seconds of one thread over unknowns (condense) or springs (operator, judge)</text>',
    ]
    for (name, line), colour in zip(lines.items(), ("#1f5fa8", "#b3471d", "#3f7f3f"), strict=False):
        spots = [place(*point) for point in line]
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in spots)
        parts.append(f'<polyline points="{path}" fill="none" stroke="{colour}" stroke-width="2"/>')
        parts += [f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>' for x, y in spots]
        for (x, y), (size, seconds), says in zip(
            spots[:: len(spots) - 1], line[:: len(line) - 1], ("", name), strict=True
        ):
            parts.append(
                f'<text x="{x + 7:.1f}" y="{y + 16:.1f}" fill="{colour}">{says} {size:g}: {seconds:.2g} s</text>'
            )
    return "\n".join([*parts, "</svg>\n"])


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="the two smallest of each only")
    parser.add_argument("--picture", type=Path, help="SVG to write")
    asked = parser.parse_args()
    meshes, points = (
        by_unknowns(ALONG[:2] if asked.small else ALONG),
        by_points(ROUND[:2] if asked.small else ROUND),
    )
    figures = {
        "condensing": meshes,
        "condensing_power": power(meshes, "unknowns", "condense_s"),
        "asking": points,
        "setup_power": power(points, "springs", "setup_s"),
        "judge_power": power(points, "springs", "judge_s"),
        "machine_unit_s": condensing.machine_unit(),
        "load": condensing.load(),
    }
    if asked.picture:
        lines = {"condense": [(row["unknowns"], row["condense_s"]) for row in meshes]}
        lines |= {name: [(row["springs"], row[f"{name}_s"]) for row in points] for name in ("setup", "judge")}
        asked.picture.write_text(drawn(lines), encoding="utf-8")
    print(json.dumps(figures) if asked.json else "\n".join(f"{k:18}{v}" for k, v in figures.items()))


if __name__ == "__main__":
    main()
