"""A stranger's solver for what ``firedeck joint JOB --export DIR`` writes: python solve_it_yourself.py DIR"""

import csv
import json
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import root

folder = Path(sys.argv[1])
points = list(csv.DictReader((folder / "points.csv").open(encoding="utf-8")))
laws = json.loads((folder / "laws.json").read_text(encoding="utf-8"))
A, R = np.load(folder / "A.npy"), np.load(folder / "R.npy")
cases, theirs = np.load(folder / "cases.npz"), np.load(folder / "result.npz")
largest = np.load(folder / "start.npz")["largest_closure"]
share = np.array([float(point["share"]) for point in points])
rows = {name: np.flatnonzero([point["law"] == name for point in points]) for name in laws}


def force(w, case):
    """Force of every spring and its slope."""
    psi, slope = np.zeros_like(w), np.zeros_like(w)
    for name, law in laws.items():
        at, here = rows[name], w[rows[name]]
        if "stiffness" in law:
            pull = law["stiffness"] * (here + law["shortening"][case])
            psi[at] = np.clip(pull, 0, law["yield"])
            slope[at] = law["stiffness"] * ((pull > 0) & (pull < law["yield"]))
            continue
        x = np.append(law["closure"], law["closure"][-1] + 9)
        y = np.append(law["load"], law["load"][-1] + 9 * law["last_slope"])
        load = np.interp(here, x, y, left=0)
        out = np.interp(largest[at], x, y) + law["unloading_slope"] * (here - largest[at])
        steep = (np.interp(here + 1e-9, x, y, left=0) - load) / 1e-9
        psi[at] = share[at] * np.maximum(0, np.minimum(load, out))
        slope[at] = (
            share[at] * np.where(out < load, law["unloading_slope"], steep) * (np.minimum(load, out) > 0)
        )
    return psi, slope


def missed(u, case):
    """What is missing in both equations, and how it changes with w and q."""
    w, q = u[: len(A)], u[len(A) :]
    psi, slope = force(w, case)
    zero = np.zeros((len(q), len(q)))
    miss = np.concatenate(
        [w + A @ psi - R @ q - cases["w_load"][case], (R.T @ psi - cases["r"][case]) * 1e-6]
    )
    return miss, np.block([[np.eye(len(A)) + A * slope, -R], [R.T * slope * 1e-6, zero]])


bolts = [number for number, point in enumerate(points) if point["kind"] == "bolt"]
worst, begin = 0.0, np.concatenate([np.full(len(A), 0.05), np.zeros(R.shape[1])])
for case, name in enumerate(cases["names"]):
    found = root(missed, begin, args=(case,), jac=True, method="hybr", options={"xtol": 1e-12})
    psi = force(found.x[: len(A)], case)[0]
    miss = np.abs(psi - theirs["psi"][case]).max() / np.abs(psi).max()
    worst, begin = max(worst, miss), found.x
    print(f"{name:20} bolts {psi[bolts].sum() / 1e3:7.1f} kN, difference {miss:.1e}")
sys.exit(f"differs by {worst:.1e}" if worst > 1e-5 else 0)
