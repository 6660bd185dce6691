"""Seconds of the clamped joint: condensing, asking again, scatter, tightening; on an invented inline four.

    python benchmarks/joint.py [--json] [--small]

The joint of condensing.py with a multi-layer steel gasket and ten bolts at 50 kN. ``--small`` condenses the preview
mesh only, leaves out the meshes' own seconds (null) and draws a hundred joints, not a thousand. One thread of the
algebra library; of each sum the shortest of several runs counts, since other work on the machine only adds (``load``:
processes that wanted a processor, before and after). ``calculix_wall_ratio`` comes from calculix_ratio.py and takes up to
ten minutes more, a lower bound where ``calculix_ended`` is false; null where ccx is absent, and with ``--small``.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import argparse
import json
import time
from dataclasses import replace

import calculix_ratio
import condensing
import numpy as np

from firedeck.joint.assembling import Assembled, Bodies, Bolt, assembled
from firedeck.joint.chord import fast_operator, safe_operator
from firedeck.joint.clamped import Case, Load
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.law_table import laws_of
from firedeck.joint.newton import settle
from firedeck.joint.scatter import course_of, draws, scattered
from firedeck.joint.settling import settle_all
from firedeck.joint.states import Service, worst_of
from firedeck.joint.tightening import TurnTo, tighten

TENSION, PEAK, RISE = 50e3, 8.0, 80.0
SAMPLES, FEWER, COMMON, INDIVIDUAL = 1000, 100, 0.2225, 0.17


def joint_of(mesh: str, construction: str) -> tuple[Assembled, Service]:
    """Condense, put the gasket in, and say what the loads are."""
    loaded = condensing.bodies(mesh)
    flexible = put_together(condensing.PLAN, condensing.POINTS, *(condensed(body) for body in loaded))
    bodies = Bodies(
        flexible.places, condensing.POINTS.share, flexible.A, flexible.R, flexible.gas, flexible.warm
    )
    laws = dict(laws_of("graphite-metal-core")) | laws_of(construction)
    laws.setdefault("half-bead", laws_of("multi-layer-steel")["half-bead"])
    made = assembled(bodies, laws, {one.label: Bolt(2.5e5, 75e3) for one in condensing.PLAN.fasteners})
    rest = Load(np.zeros(made.joint.springs.count), np.array([-150.0, 0.0, 0.0]))
    warmth = RISE * (made.warm["head-even"] + made.warm["block-even"]) + bolts_warm(made)
    return made, Service(rest, warmth, {name: PEAK * gas for name, gas in made.gas.items()})


def bolts_warm(made: Assembled) -> Load:
    """Growth of steel bolts of 90 mm."""
    w = np.where(made.joint.places.of("bolt"), -RISE * 11.5e-6 * 90.0, 0.0)
    return Load(w, np.zeros(made.joint.motions))


def shortest(run, times: int = 5) -> float:
    """Seconds of the shortest of a few runs."""
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        spent.append(time.perf_counter() - start)
    return min(spent)


def asked(made: Assembled, service: Service) -> dict[str, float]:
    """One case after set-up, by each way; the set-up; the passes."""
    joint, springs = made.joint, made.joint.springs
    bolts = len(springs.stiffness)
    held = springs.turned_to(springs.fresh(), range(bolts), np.full(bolts, TENSION))
    cold = settle(joint, Case(held, service.rest))
    state = springs.let_go(cold.w, springs.remembered(cold.w, held))
    fast, safe = fast_operator(joint, cold.w, state), safe_operator(joint)
    hot = settle(joint, Case(state, service.hot), cold.w).w
    firing = [settle(joint, Case(state, service.firing(name)), hot).w for name in service.fires]
    worn = worst_of(state, springs.remembered(np.stack([hot, *firing], axis=1), state))
    case, begin = Case(worn, service.firing("2")), hot[:, None]
    order = [4, 5, 2, 7, 3, 6, 0, 9, 1, 8]
    turns = [TurnTo(bolt, target) for target in (15e3, 35e3, TENSION) for bolt in order]
    judge = settle(joint, case, hot).forces
    miss = (
        np.abs(settle_all(joint, [fast, safe], case, begin).forces[:, 0] - judge)[: springs.points]
        / springs.share
    )
    return {
        "springs": springs.count,
        "setup_s": round(shortest(lambda: fast_operator(joint, cold.w, state)), 3),
        "reask_ms": round(1e3 * shortest(lambda: settle_all(joint, [fast, safe], case, begin), 40), 2),
        "safe_ms": round(1e3 * shortest(lambda: settle_all(joint, [safe], case, begin), 40), 2),
        "newton_ms": round(1e3 * shortest(lambda: settle(joint, case, hot)), 1),
        "reask_error_n_per_mm": round(float(miss.max()), 5),
        "passes_s": round(shortest(lambda: tighten(joint, [safe], turns, service.rest)), 3),
    }


def scatter(made: Assembled, service: Service, joints: int = SAMPLES) -> dict[str, object]:
    """A thousand joints: tightened, hot, firing; then judged cold and firing as well."""
    joint = made.joint
    meant = np.full(len(joint.springs.stiffness), TENSION)
    course = course_of(joint, meant, service)
    tensions = TENSION * draws(len(meant), joints, COMMON, INDIVIDUAL)
    found = scattered(joint, course, tensions)
    six = replace(course, judged=course.judged[:1])
    return {
        "scatter_joints": joints,
        "scatter_setup_s": round(shortest(lambda: course_of(joint, meant, service), 3), 2),
        "scatter_s": round(shortest(lambda: scattered(joint, six, tensions), 3) * 6 / 7, 2),
        "scatter_eleven_cases_s": round(shortest(lambda: scattered(joint, course, tensions), 2), 2),
        "scatter_error_n_per_mm": round(scatter_error(made, service, tensions, found.lowest), 4),
        "scatter_ways": dict(found.ways),
    }


def scatter_error(made: Assembled, service: Service, tensions, lowest) -> float:
    """Largest difference of a lowest line load from the judge's, over a few of the joints."""
    joint, springs = made.joint, made.joint.springs
    rings = [np.flatnonzero(joint.places.of("ring", bore)) for bore in joint.places.names("ring")]
    firing = [service.firing(name) for name in service.fires]
    worst = 0.0
    for column in range(0, tensions.shape[1], tensions.shape[1] // 5):
        held = springs.turned_to(springs.fresh(), range(len(tensions)), tensions[:, column])
        w = settle(joint, Case(held, service.rest)).w
        state = springs.let_go(w, springs.remembered(w, held))
        run = [settle(joint, Case(state, load), w).w for load in (service.hot, *firing)]
        state = worst_of(state, springs.remembered(np.stack(run, axis=1), state))
        for case, load in enumerate((service.rest, *firing)):
            forces = settle(joint, Case(state, load), w).forces
            for ring, points in enumerate(rings):
                low = float((forces[points] / springs.share[points]).min())
                worst = max(worst, abs(low - float(lowest[ring, case, column])))
    return worst


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="preview mesh only")
    parser.add_argument("--gasket", default="multi-layer-steel", help="construction of the gasket")
    given = parser.parse_args()
    made, service = joint_of("preview" if given.small else "standard", given.gasket)
    meshes = ("condense_s", "preview_s", "fine_s", "peak_gb", "fine_peak_gb")
    figures: dict[str, object] = dict.fromkeys(meshes)
    if not given.small:
        figures |= condensing.all_meshes()
    before = condensing.load()
    figures |= asked(made, service) | scatter(made, service, FEWER if given.small else SAMPLES)
    figures |= {"machine_unit_s": condensing.machine_unit(), "calculix_wall_ratio": None}
    if not given.small:
        beside = calculix_ratio.ratio()
        figures |= {name: beside[name] for name in ("calculix_wall_ratio", "calculix_ended")}
    figures["load"] = [before, condensing.load()]
    print(json.dumps(figures) if given.json else "\n".join(f"{k:24}{v}" for k, v in figures.items()))


if __name__ == "__main__":
    main()
