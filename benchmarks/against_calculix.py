"""The clamped joint in a general solver (CalculiX, C3D8I): the same bricks, laws, memory and loads; assembled, hot, firing.

    python benchmarks/against_calculix.py [--json]

An invented joint of one coarse mesh, not symmetric. Every spring is a table of its own in the general solver: the lower of
its curve and its unloading line. Loads are the same nodal forces. Proves the solution, not the physics.
The shaken-down joint is not among the cases: the general solver does not settle it from where it starts.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import argparse
import json
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

from firedeck.fem import Body, Material
from firedeck.fem.brick import CORNERS
from firedeck.joint.assembling import Bodies, Bolt, assembled
from firedeck.joint.chord import fast_operator, safe_operator
from firedeck.joint.clamped import Load
from firedeck.joint.exporting import exported
from firedeck.joint.geometry.castings import block_section, head_section
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.loading import loaded_block, loaded_head
from firedeck.joint.geometry.mesh import Recipe, block_body, head_body
from firedeck.joint.geometry.plan import Bore, Fastener, JointPlan, Opening
from firedeck.joint.geometry.points import Sampling, gasket_points
from firedeck.joint.law_table import laws_of
from firedeck.joint.states import Service, bedded_in
from firedeck.joint.tightening import TurnTo, tighten

ROUND = [0, 4, 6, 2, 1, 5, 7, 3]
FAR = 2.0
"""Ends of the tables either way [mm]."""
PRESSURE, RISE, TENSION = 6.0, 70.0, 38e3
BOLTS = [
    Fastener(f"{side}{n}", x, y, 10.0, 9.0, 10.0, 19.0, 8.0, 36.0)
    for n, x in enumerate((-72.0, 0.0, 80.0))
    for side, y in (("i", -56.0), ("e", 54.0))
]
PLAN = JointPlan(
    outline=((-82.0, -70.0), (92.0, -70.0), (92.0, 66.0), (-82.0, 66.0)),
    bores=(Bore("1", -38.0, 0.0, 66.0, 69.0, 67.0), Bore("2", 42.0, 0.0, 70.0, 73.0, 71.0)),
    fasteners=tuple(BOLTS),
    openings=(Opening("water", -38.0, 52.0, 9.0),),
)
MESH = Recipe("coarse", 12.0, 16.0, 0.0, 16.0)
BOLT = Bolt(2.0e5, 60e3)


def both_bodies():
    """Head and block with their columns, and the points."""
    head, block = head_section("aluminium-overhead-cam", 70.0), block_section("closed-deck", 70.0)
    points = gasket_points(PLAN, head, block, Sampling(ring=24, half_bead=16.0, body=20.0))
    bricks = (
        head_body(PLAN, head, Material(71e3, 0.33, 21e-6), MESH),
        block_body(PLAN, block, Material(110e3, 0.26, 10.7e-6), MESH),
    )
    return points, (loaded_head(PLAN, head, bricks[0], points), loaded_block(PLAN, bricks[1], points))


def ours(points, loaded):
    """The joint through its life by our own solver, given out case by case, and what each case is loaded with."""
    flexible = put_together(PLAN, points, *(condensed(body) for body in loaded))
    bodies = Bodies(flexible.places, points.share, flexible.A, flexible.R, flexible.gas, flexible.warm)
    laws = dict(laws_of("multi-layer-steel")) | {"body": laws_of("composite")["body"]}
    made = assembled(bodies, laws, {one.label: BOLT for one in BOLTS})
    joint, rest = made.joint, made.joint.nothing()
    warm = RISE * (made.warm["head-even"] + made.warm["block-even"])
    service = Service(rest, warm, {bore: PRESSURE * gas for bore, gas in made.gas.items()})
    safe = safe_operator(joint)
    turns = [TurnTo(bolt, target) for target in (15e3, TENSION) for bolt in (2, 3, 0, 1, 4, 5)]
    tight = tighten(joint, [safe], turns, rest)
    operators = [fast_operator(joint, tight.w, tight.state), safe]
    life = bedded_in(joint, operators, (tight.state, tight.w), rest, np.full(len(BOLTS), 0.004))
    loads: list[tuple[str, Load, tuple[float, float]]] = [
        ("assembled", rest, (0.0, 0.0)),
        ("hot", service.hot, (RISE, 0.0)),
        ("2 firing, hot", service.firing("2"), (RISE, PRESSURE)),
    ]
    early = exported(joint, life.state, [(name, load) for name, load, _ in loads])
    return made, [(early, at, name, given) for at, (name, _, given) in enumerate(loads)]


def table(export, number):
    """Force over closure of one spring: what it remembers as one rising line."""
    _, kind, _, _, _, share, name = export.points[number]
    law = export.laws[name]
    if kind == "bolt":
        k, most, short = law["stiffness"], law["yield"], law["shortening"]
        return [(-FAR - short, 0.0), (-short, 0.0), (most / k - short, most), (most / k + FAR, most)]
    x, y = np.array(law["closure"]), np.array(law["load"])
    largest = float(export.largest_closure[number])
    top = float(np.interp(largest, x, y)) + max(0.0, largest - x[-1]) * law["last_slope"]
    empty = largest - top / law["unloading_slope"]
    rows = [(empty - FAR, 0.0), (empty, 0.0)]
    if top > 0.0:
        rows.append((largest, top * share))
    rows += [(a, b * share) for a, b in zip(x, y, strict=True) if a > largest + 1e-9]
    end = max(largest, x[-1])
    last = max(top, y[-1])
    return [*rows, (end + FAR, (last + FAR * law["last_slope"]) * share)]


def deck(loaded, made, export, given, shift):
    """Input of the general solver for one case; the head is drawn where it will about lie (``shift`` of each spring)."""
    lines, offsets, start = [], [], 0
    for body in (one.body for one in loaded):
        offsets.append(start)
        lines += bricks(body, start)
        start += body.touched.size
    terms = {}
    for one, offset in zip(loaded, offsets, strict=True):
        for dof, column, weight in zip(one.columns.dof, one.columns.column, one.columns.weight, strict=True):
            terms.setdefault(int(column), []).append(
                (offset + int(dof) // 3 + 1, int(dof) % 3 + 1, float(weight))
            )
    first = start + 1
    for at, column in enumerate(made.kept):
        node, earth = first + 2 * at, first + 2 * at + 1
        lines += ["*NODE, NSET=SPRINGS", f"{node},1000.,{at}.,0.", "*NODE", f"{earth},0.,{at}.,0."]
        sum_of = [(node, 1, 1.0), *terms[int(column)]]
        lines += ["*EQUATION", f"{len(sum_of)}", *(f"{n},{d},{c:.14g}" for n, d, c in sum_of)]
        lines += [f"*ELEMENT, TYPE=SPRINGA, ELSET=S{at}", f"{first + at},{earth},{node}"]
        lines += [
            f"*SPRING, ELSET=S{at}, NONLINEAR",
            *(f"{f:.10e},{w - shift[at]:.10e}" for w, f in table(export, at)),
        ]
        lines += ["*BOUNDARY", f"{node},2,3", f"{earth},1,3"]
    flat = [dof for dof in loaded[0].held if dof % 3 != 2]
    held = [*flat, *(3 * offsets[1] + dof for dof in loaded[1].held)]
    lines += ["*BOUNDARY", *(f"{dof // 3 + 1},{dof % 3 + 1},{dof % 3 + 1}" for dof in held)]
    lines += [
        "*STEP, INC=500",
        "*STATIC, SOLVER=SPOOLES",
        "1.,1.,1e-6,1.",
        "*CONTROLS, PARAMETERS=FIELD",
        "1e-7,1e-7",
    ]
    counts = loaded[0].counts
    rise, pressure = given
    amounts = {counts.springs + counts.gas: rise, counts.springs + 1: pressure}
    forces: dict[tuple[int, int], float] = {}
    for column, amount in amounts.items():
        for node, direction, weight in terms.get(column, []):
            forces[node, direction] = forces.get((node, direction), 0.0) + amount * weight
    lines += (
        ["*CLOAD", *(f"{n},{d},{f:.12g}" for (n, d), f in forces.items() if f)] if rise or pressure else []
    )
    lines += ["*NODE PRINT, NSET=SPRINGS", "U", "*END STEP"]
    return "\n".join(lines) + "\n", first


def bricks(body: Body, start: int) -> list[str]:
    """Nodes, elements and metals of one body."""
    metal = np.flatnonzero(body.touched)
    lines = ["*NODE"]
    lines += [
        f"{start + n + 1},{x:.9g},{y:.9g},{z:.9g}"
        for n, (x, y, z) in zip(metal, body.places()[metal], strict=True)
    ]
    _, my, mz = body.nodes
    groups: dict[float, list[str]] = {}
    for number, (i, j, k) in enumerate(np.argwhere(body.share > 0.0), start=start + 1):
        corner = (np.array([i, j, k]) + CORNERS)[ROUND]
        nodes = start + (corner[:, 0] * my + corner[:, 1]) * mz + corner[:, 2] + 1
        groups.setdefault(float(body.share[i, j, k]), []).append(",".join(map(str, [number, *nodes])))
    for at, (share, rows) in enumerate(groups.items()):
        name = f"B{start}N{at}"
        lines += [f"*ELEMENT, TYPE=C3D8I, ELSET={name}", *rows, f"*MATERIAL, NAME={name}", "*ELASTIC"]
        lines += [f"{body.material.modulus * share:.12g},{body.material.poisson}", "*PLASTIC", "1e12,0."]
        lines += [f"*SOLID SECTION, ELSET={name}, MATERIAL={name}"]
    return lines


def theirs(text: str, first: int, springs: int):
    """Closures the general solver printed last."""
    w = np.full(springs, np.nan)
    for line in text.splitlines():
        cells = line.split()
        if len(cells) == 4 and cells[0].isdigit():
            w[(int(cells[0]) - first) // 2] = float(cells[1])
    return w


def compared() -> dict[str, object]:
    """Largest differences case by case, and seconds of both."""
    points, loaded = both_bodies()
    start = time.perf_counter()
    made, cases = ours(points, loaded)
    mine = time.perf_counter() - start
    found, spent = {}, 0.0
    for export, at, name, given in cases:
        shift = made.joint.R @ export.q[at]
        text, first = deck(loaded, made, export, given, shift)
        with tempfile.TemporaryDirectory() as folder:
            (Path(folder) / "joint.inp").write_text(text)
            start = time.perf_counter()
            done = subprocess.run(["ccx", "joint"], cwd=folder, capture_output=True, text=True, check=False)
            spent += time.perf_counter() - start
            printed = Path(folder) / "joint.dat"
            w = theirs(printed.read_text() if printed.exists() else "", first, len(made.kept))
        if not np.isfinite(w).all():
            sys.exit(f"the general solver left no answer for {name}: {done.stdout[-600:]}")
        found[name] = differences(export, at, w + shift)
    return {
        "cases": found,
        "springs": len(made.kept),
        "ours_s": round(mine, 2),
        "calculix_s": round(spent, 2),
    }


def differences(export, at, w) -> dict[str, float]:
    """Largest difference of a ring's line load over the ring's mean, and of a bolt over its pull [1]."""
    psi = np.array([np.interp(w[n], *zip(*table(export, n), strict=True)) for n in range(len(w))])
    kinds = np.array([point[1] for point in export.points])
    places = np.array([point[2] for point in export.points])
    miss = np.abs(psi - export.psi[at])
    bolts = kinds == "bolt"
    rings = {place: (kinds == "ring") & (places == place) for place in set(places[kinds == "ring"])}
    return {
        "ring": max(float(miss[ring].max() / export.psi[at][ring].mean()) for ring in rings.values()),
        "bolt": float((miss[bolts] / export.psi[at][bolts]).max()),
    }


def main() -> None:
    """Print the differences."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="the same: there is one size")
    given = parser.parse_args()
    if shutil.which("ccx") is None:
        sys.exit("ccx is not on this machine: apt-get install calculix-ccx")
    figures = compared()
    if given.json:
        print(json.dumps(figures))
        return
    for name, miss in figures["cases"].items():
        print(f"{name:28} ring {100 * miss['ring']:.4f} % of its mean, bolt {100 * miss['bolt']:.4f} %")
    print(f"ours {figures['ours_s']} s, CalculiX {figures['calculix_s']} s, {figures['springs']} springs")


if __name__ == "__main__":
    main()
