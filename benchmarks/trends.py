"""Which way a clamped joint goes: a hundred drawn joints, flat faces, all bolts drawn alike.

    python benchmarks/trends.py [--json] [--small]

More tension must never lower the least firing line load, more pressure never raise it, by more than a millionth of the
mean ring load. A joint that is open to begin with says nothing: it is counted and another is drawn. Joints of three or
four bores are also bowed 0.05 mm along the head and given a dip of 0.03 mm at the
lowest place. Coarse bricks: the rules hold for the equations, whatever the mesh. ``--small`` draws six joints.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import argparse
import json

import numpy as np
from meshes.drawn import Drawn, drawn
from meshes.reading import firing

from firedeck.errors import DidNotConverge
from firedeck.joint.assembling import gap_load
from firedeck.joint.clamped import Load

SEED = 20261129
MORE = (1.05, 1.2)
"""Times the tension, and times the pressure."""


def against_the_rules(one: Drawn) -> dict[str, float]:
    """By how much tension lowers and pressure raises the least firing load, over the mean ring load [1]."""
    rest = one.made.joint.nothing()
    mean, plain = firing(one.made, rest, one.tension, one.pressure)
    harder = [firing(one.made, rest, more * one.tension, one.pressure)[1].min() for more in MORE]
    gas = [firing(one.made, rest, one.tension, more * one.pressure)[1].min() for more in MORE]
    return {
        "tension": float((plain.min() - min(harder)) / mean),
        "pressure": float((max(gas) - plain.min()) / mean),
        "left": float(plain.min() / mean),
    }


def bow_and_dip(one: Drawn) -> dict[str, float] | None:
    """What a long bow and a short dip at the lowest place do to the least firing load [N/mm]; None if little is left."""
    rest, joint = one.made.joint.nothing(), one.made.joint
    _, plain = firing(one.made, rest, one.tension, one.pressure)
    points = joint.springs.points
    x, y = joint.places.x[:points], joint.places.y[:points]
    bow = 0.05 * ((x - x.mean()) / np.ptp(x) * 2.0) ** 2
    weakest, place = np.unravel_index(int(plain.argmin()), plain.shape)
    ring = np.flatnonzero(joint.places.of("ring", list(one.made.gas)[int(weakest)]))
    size, lowest = float(np.ptp(x[ring])), ring[int(place)]
    far = np.hypot(x - x[lowest], y - y[lowest])
    dip = 0.03 * np.exp(-((far / (size / 8.0)) ** 2))

    def least(gap: np.ndarray) -> float:
        load: Load = rest + gap_load(joint, gap)
        return float(firing(one.made, load, one.tension, one.pressure)[1].min())

    return {"bow": least(bow) - plain.min(), "dip": least(dip) - plain.min()} if plain.min() > 10.0 else None


def trends(count: int) -> dict[str, object]:
    """Worst of each rule over drawn joints that have something left, and what bow and dip cost."""
    worst: dict[str, tuple[float, str]] = {"tension": (-np.inf, ""), "pressure": (-np.inf, "")}
    left: list[float] = []
    costs: list[dict[str, float]] = []
    parted = opened = number = 0
    while len(left) < count:
        one = drawn(SEED + number)
        number += 1
        try:
            found = against_the_rules(one)
        except DidNotConverge:
            parted += 1
            continue
        for rule, (most, _) in worst.items():
            if found[rule] > most:
                worst[rule] = (found[rule], one.says)
        if found["left"] <= 0.0:
            opened += 1
            continue
        left.append(found["left"])
        if len(one.made.gas) > 2 and (cost := bow_and_dip(one)):
            costs.append(cost)
    return {
        "joints": count,
        "parted_by_gas": parted,
        "tension_lowers": worst["tension"][0],
        "pressure_raises": worst["pressure"][0],
        "worst": {rule: says for rule, (_, says) in worst.items()},
        "left_over_mean_median": round(float(np.median(left)), 3),
        "opened": opened,
        "bowed": len(costs),
        "dip_costs_more": int(sum(cost["dip"] < min(cost["bow"], 0.0) for cost in costs)),
        "bow_median": round(float(np.median([cost["bow"] for cost in costs])), 2) if costs else None,
        "dip_median": round(float(np.median([cost["dip"] for cost in costs])), 2) if costs else None,
    }


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="six joints")
    given = parser.parse_args()
    figures = trends(6 if given.small else 100)
    print(json.dumps(figures) if given.json else "\n".join(f"{k:24}{v}" for k, v in figures.items()))


if __name__ == "__main__":
    main()
