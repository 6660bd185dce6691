"""How many times quicker than a general solver: wall seconds for the same two cases of one joint on the standard mesh.

    python benchmarks/calculix_ratio.py [--json] [--small] [--at-most SECONDS]

The inline four of condensing.py on 4 mm × 8 mm bricks, tightened and with its second cylinder firing. Ours: condensing
both bodies from nothing and both cases by Newton. The other: its own seconds for the two inputs, held at first where the
head is drawn and let go, not led by our answer as in against_calculix.py: a stranger does not have it. It is waited for
ten minutes (``--at-most``) and wants 3 GB; where it has not ended by then, calculix_ended is false and the ratio is at
least what is printed. ``--small`` leaves the other out and uses the preview mesh. Null where ccx is not installed.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import argparse
import json
import shutil
import subprocess
import sys
import time

import condensing
import numpy as np
from calculix.deck import written
from calculix.joints import Asked
from calculix.running import differences, solved

from firedeck.joint.assembling import Assembled, Bodies, Bolt, assembled
from firedeck.joint.clamped import Case
from firedeck.joint.exporting import exported
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.law_table import laws_of
from firedeck.joint.newton import settle

NAMES = ("calculix_wall_ratio", "calculix_cpu_ratio", "calculix_s", "calculix_cpu_s", "calculix_ended")
TENSION, PEAK, FIRES = 50e3, 8.0, "2"
AT_MOST = 600.0
"""Seconds the general solver is waited for; where it has not ended by then, the ratio is at least what is printed."""
UNLED = 0.0
"""The way our answer would lead is not gone at all: outside forces only hold the head where it is drawn, and fade."""


def ratio(mesh: str = "standard", at_most: float = AT_MOST) -> dict[str, object]:
    """Seconds of both, their ratio, and the differences of the answers; at least the ratio where the other did not end."""
    if shutil.which("ccx") is None:
        return dict.fromkeys(NAMES)
    import resource

    loaded = condensing.bodies(mesh)
    flexible = put_together(condensing.PLAN, condensing.POINTS, *(condensed(body) for body in loaded))
    bodies = Bodies(
        flexible.places, condensing.POINTS.share, flexible.A, flexible.R, flexible.gas, flexible.warm
    )
    laws = dict(laws_of("multi-layer-steel")) | {"body": laws_of("graphite-metal-core")["body"]}
    made = assembled(bodies, laws, {one.label: Bolt(2.5e5, 75e3) for one in condensing.PLAN.fasteners})
    start, spent = time.perf_counter(), time.process_time()
    cases = two_cases(made)
    asked_s, asked_cpu = time.perf_counter() - start, time.process_time() - spent
    alone = condensed_alone(mesh)
    theirs, found = 0.0, {}
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    for case in cases:
        try:
            w, seconds = solved(written(loaded, made, case, astray=UNLED), case.name, at_most - theirs)
        except subprocess.TimeoutExpired:
            theirs = at_most
            break
        theirs += seconds
        found[case.name] = differences(made, case, w)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    ours = float(alone["wall_s"]) + asked_s
    return {
        "calculix_wall_ratio": round(theirs / ours, 1),
        "calculix_cpu_ratio": round(cpu / (float(alone["cpu_s"]) + asked_cpu), 1),
        "calculix_ended": len(found) == len(cases),
        "calculix_s": round(theirs, 1),
        "calculix_cpu_s": round(cpu, 1),
        "ours_s": round(ours, 2),
        "ours_cpu_s": round(float(alone["cpu_s"]) + asked_cpu, 2),
        "cases": found,
    }


def condensed_alone(mesh: str) -> dict[str, float]:
    """Seconds of condensing both bodies in fresh processes."""
    command = [sys.executable, condensing.__file__, "--one", mesh]
    found: dict[str, float] = json.loads(
        subprocess.run(command, check=True, capture_output=True, text=True).stdout
    )
    return found


def two_cases(made: Assembled) -> list[Asked]:
    """Tightened all at once, and the second cylinder firing, from what the gasket remembers then."""
    joint = made.joint
    springs, rest = joint.springs, joint.nothing()
    bolts = len(springs.stiffness)
    held = springs.turned_to(springs.fresh(), range(bolts), np.full(bolts, TENSION))
    cold = settle(joint, Case(held, rest))
    state = springs.let_go(cold.w, springs.remembered(cold.w, held))
    bore = list(made.gas).index(FIRES)
    export = exported(joint, state, [("tightened", rest), ("firing", PEAK * made.gas[FIRES])])
    return [Asked("tightened", export, 0, {}), Asked("firing", export, 1, {bore: PEAK})]


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="without the general solver")
    parser.add_argument(
        "--at-most", type=float, default=AT_MOST, help="seconds the general solver is waited for"
    )
    given = parser.parse_args()
    figures = (
        dict.fromkeys(NAMES) | {"ours_s": condensed_alone("preview")["wall_s"]}
        if given.small
        else ratio(at_most=given.at_most)
    )
    print(json.dumps(figures) if given.json else "\n".join(f"{k:22}{v}" for k, v in figures.items()))


if __name__ == "__main__":
    main()
