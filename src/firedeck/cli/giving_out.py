"""Writing a joint out as plain arrays, for a stranger who wants to solve it himself. No pickle."""

import csv
import json
from pathlib import Path

import numpy as np

from firedeck.errors import JobError
from firedeck.joint.exporting import Export

README = """A clamped joint as plain arrays, written by firedeck. Units: mm, N, MPa.

    w + A psi(w) = R q + w_load          R^T psi = r

n springs in the order of points.csv: gasket points (ring, half-bead, body), then bolts; k rigid motions of the head.
w [mm] closure of a gasket point, lengthening of a bolt. psi [N] their forces: a gasket point pushes head and block apart,
a bolt pulls them together, each positive. q: lift [mm] and tilts [rad] of the head. R: -1 for a gasket point and +1 for a
bolt when the head lifts. w_load: closure the loads would bring with all springs taken out. r: resultant of the loads on
the head, positive where it lengthens the bolts.

    gasket  psi = share * max(0, min(f(w), f(m) + unloading_slope * (w - m)))     m: start.npz, largest closure so far
    bolt    psi = min(max(stiffness * (w + shortening), 0), yield)

f goes straight from point to point of closure and load, nought below the first, on with last_slope behind the last.
share: millimetres of line or square millimetres of body, 1 for a bolt.

points.csv   index, kind, place, x, y, share, law
A.npy        (n, n) mm/N, head and block together
R.npy        (n, k)
laws.json    by name: closure, load, unloading_slope, last_slope; of a bolt: stiffness, yield, and shortening by case
cases.npz    w_load (cases, n), r (cases, k), names
start.npz    largest_closure (n,)
result.npz   w (cases, n), psi (cases, n), q (cases, k) as firedeck found them

Nothing here has been compared with a real engine.
"""


def give_out(export: Export, folder: str) -> None:
    """Write the files into a folder, which is made if need be."""
    place = Path(folder)
    try:
        place.mkdir(parents=True, exist_ok=True)
        with (place / "points.csv").open("w", newline="", encoding="utf-8") as out:
            writer = csv.writer(out)
            writer.writerow(["index", "kind", "place", "x", "y", "share", "law"])
            writer.writerows(export.points)
        np.save(place / "A.npy", export.A, allow_pickle=False)
        np.save(place / "R.npy", export.R, allow_pickle=False)
        (place / "laws.json").write_text(json.dumps(_laws(export), indent=1), encoding="utf-8")
        np.savez(place / "cases.npz", w_load=export.w_load, r=export.r, names=np.array(export.names))
        np.savez(place / "start.npz", largest_closure=export.largest_closure)
        np.savez(place / "result.npz", w=export.w, psi=export.psi, q=export.q)
        (place / "README.txt").write_text(README, encoding="utf-8")
    except OSError as fault:
        raise JobError("--export", f"{folder}: {fault.strerror}", "a folder that can be written") from fault


def _laws(export: Export) -> dict[str, dict[str, object]]:
    """Laws with the shortening of each bolt case by case."""
    cases = len(export.names)
    return {
        name: {key: [value] * cases if key == "shortening" else value for key, value in law.items()}
        for name, law in export.laws.items()
    }
