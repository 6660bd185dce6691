"""The clamped joint in a general solver (CalculiX, C3D8I): same bricks, laws, memory and loads.

    python benchmarks/against_calculix.py [--json] [--small] [--only NAME] [--astray SHARE]

Five invented joints, four of them not symmetric, each assembled, hot for the first time, and shaken down: cold, hot,
firing hot; --small does the first with very coarse bricks. Loads are the same nodal forces, every spring is a table of what
it remembers. Proves the solution, not the physics. How it is put: calculix/deck.py.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import argparse
import json
import shutil
import sys

from calculix.joints import LEAST, SUBJECTS
from calculix.running import compared


def main() -> None:
    """Print the differences."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="very coarse bricks")
    parser.add_argument("--only", choices=list(SUBJECTS), help="one joint only")
    parser.add_argument(
        "--astray", type=float, default=1.0, help="lead the general solver to this share of our answer"
    )
    given = parser.parse_args()
    if shutil.which("ccx") is None:
        sys.exit("ccx is not on this machine: apt-get install calculix-ccx")
    subjects = {"least": LEAST} if given.small else SUBJECTS
    figures = {}
    for name in [given.only] if given.only else list(subjects):
        figures[name] = compared(subjects[name], given.astray)
        if not given.json:
            show(figures[name])
    if given.json:
        print(json.dumps(figures))


def show(found) -> None:
    """Print one joint."""
    print(f"{found['says']}: {found['unknowns']} unknowns, {found['springs']} springs")
    for name, miss in found["cases"].items():
        far = f"{miss['yielded']} bolts yield, {miss['opened']} points open"
        print(f"  {name:30} ring {100 * miss['ring']:.4f} %, bolt {100 * miss['bolt']:.4f} %   {far}")
    print(f"  ours {found['ours_s']} s, CalculiX {found['calculix_s']} s", flush=True)


if __name__ == "__main__":
    main()
