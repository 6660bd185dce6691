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
cases, found = np.load(folder / "cases.npz"), np.load(folder / "result.npz")
share = np.array([float(point["share"]) for point in points])
largest = np.load(folder / "start.npz")["largest_closure"]
n, zero = len(A), np.zeros((R.shape[1], R.shape[1]))


def force(w, case):
    psi = np.zeros(n)
    for name, law in laws.items():
        at = np.array([point["law"] == name for point in points])
        if "stiffness" in law:
            psi[at] = np.clip(law["stiffness"] * (w[at] + law["shortening"][case]), 0, law["yield"])
        else:
            x, y = [*law["closure"], law["closure"][-1] + 9], [*law["load"], law["load"][-1] + 9 * law["last_slope"]]
            unloading = np.interp(largest[at], x, y) + law["unloading_slope"] * (w[at] - largest[at])
            psi[at] = share[at] * np.maximum(0, np.minimum(np.interp(w[at], x, y), unloading))
    return psi


def missed(u, case):
    w, q = u[:n], u[n:]
    psi, slope = force(w, case), (force(w + 1e-8, case) - force(w - 1e-8, case)) / 2e-8
    miss = [w + A @ psi - R @ q - cases["w_load"][case], 1e-6 * (R.T @ psi - cases["r"][case])]
    return np.concatenate(miss), np.block([[np.eye(n) + A * slope, -R], [1e-6 * R.T * slope, zero]])


u, bolts, worst = np.r_[np.full(n, 0.05), np.zeros(R.shape[1])], [point["kind"] == "bolt" for point in points], 0.0
for case, name in enumerate(cases["names"]):
    u = root(missed, u, args=(case,), jac=True, options={"xtol": 1e-12}).x
    psi = force(u[:n], case)
    miss = np.abs(psi - found["psi"][case]).max() / psi.max()
    worst = max(worst, miss)
    print(f"{name:20} bolts {psi[bolts].sum() / 1e3:7.1f} kN, difference {miss:.1e}")
sys.exit(f"differs by {worst:.1e}" if worst > 1e-5 else 0)
