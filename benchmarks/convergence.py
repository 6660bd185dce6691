"""How far the standard mesh is from the fine one, and what points round a ring and the depth of the block's cut change.

    python benchmarks/convergence.py [--json] [--small] [--only NAME]

Two invented joints the standard mesh was chosen by, and others nothing was fitted to. Line loads in N/mm: mean of the
rings when tightened, lowest place of each ring with its cylinder firing, and what changes there with a fifth less gas,
a tenth less tension, and a shallow hollow beside the second ring. Each pair: this mesh, the fine one. ``--small`` takes
very coarse meshes, to see that it runs.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import argparse
import json
import sys
from dataclasses import replace

import numpy as np
from meshes.joints import JOINTS, Tried
from meshes.reading import read

from firedeck.joint.geometry.mesh import PREVIEW, STANDARD, Recipe
from firedeck.joint.geometry.points import Sampling

LEAST_CHANGE = 5.0
"""A change smaller than this is counted on this [N/mm]: a tenth of little is nothing anybody could use."""
SMALLEST = ["bank"]
VERY_COARSE = Recipe("coarse", 14.0, 18.0, 0.0, 18.0), Recipe("coarser", 18.0, 24.0, 0.0, 24.0)


def apart(tried: Tried, mesh: Recipe, fine: Recipe) -> dict[str, object]:
    """One joint on two meshes and how far they are apart; changes at the places the fine mesh finds lowest."""
    here, there = read(tried, mesh), read(tried, fine)
    places = there.firing.argmin(axis=1)
    ours, theirs = here.change_at(places), there.change_at(places)
    return {
        "says": tried.says,
        "chosen_by": tried.chosen_by,
        "mean": [round(here.mean, 1), round(there.mean, 1)],
        "lowest": [rounded(here.lowest), rounded(there.lowest)],
        "lowest_off": round(float(np.abs(here.lowest - there.lowest).max()), 2),
        "changes": {name: [rounded(ours[name]), rounded(theirs[name])] for name in theirs},
        "change_off": {name: round(off(ours[name], theirs[name]), 3) for name in theirs},
    }


def off(here: np.ndarray, there: np.ndarray) -> float:
    """Largest miss of a change, as a share of it; small ones are counted on LEAST_CHANGE."""
    return float((np.abs(here - there) / np.maximum(np.abs(there), LEAST_CHANGE)).max())


def rounded(loads: np.ndarray) -> list[float]:
    """Loads to a hundredth [N/mm]."""
    return [round(float(load), 2) for load in loads]


def varied(tried: Tried, mesh: Recipe) -> dict[str, float]:
    """Change of the lowest firing loads by other points and other cuts, largest over the rings [N/mm]."""
    usual = read(tried, mesh).lowest
    points = {f"{ring} points round a ring": Sampling(ring=ring) for ring in (32, 64, 96)}
    points["body cells of 8 mm"] = replace(Sampling(), body=8.0)
    cuts = {
        f"block cut at {share:g} of the usual depth": share * tried.block.cut_depth for share in (1.3, 1.7)
    }
    found = {name: read(tried, mesh, sampling).lowest for name, sampling in points.items()}
    found |= {name: read(tried, mesh, cut=cut).lowest for name, cut in cuts.items()}
    return {name: round(float(np.abs(one - usual).max()), 2) for name, one in found.items()}


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="very coarse meshes, one joint")
    parser.add_argument("--only", choices=[*JOINTS, "varied"], help="one joint, or points and cuts")
    given = parser.parse_args()
    figures: dict[str, object] = {}
    for name in [given.only] if given.only else (SMALLEST if given.small else list(JOINTS)):
        if name != "varied":
            meshes = VERY_COARSE[::-1] if given.small else (STANDARD, JOINTS[name].fine)
            figures[name] = apart(JOINTS[name], *meshes)
            print(name, json.dumps(figures[name]), file=sys.stderr, flush=True)
    if given.only in {None, "varied"} and not given.small:
        figures["varied"] = varied(JOINTS["closed"], PREVIEW)
    print(json.dumps(figures) if given.json else json.dumps(figures, indent=1))


if __name__ == "__main__":
    main()
