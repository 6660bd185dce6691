"""Every written sum of a face comes out again from its inputs as printed, to five digits."""

import numpy as np
import pytest

from firedeck.surfaces.both import gap_field
from firedeck.surfaces.cutoff import choose_cutoff
from firedeck.surfaces.feed import feed_for_finish, finish_by_feed
from firedeck.surfaces.flatness import flatness
from firedeck.surfaces.gaussian import transmission
from firedeck.surfaces.local import local_flatness
from firedeck.surfaces.ring import ring_dip
from firedeck.surfaces.roughness import roughness
from firedeck.surfaces.shape import long_shapes
from firedeck.surfaces.straightedge import straightedge_gaps
from firedeck.surfaces.straightness import straightness
from firedeck.surfaces.surface_plate import plate_tolerance
from firedeck.surfaces.verdict import LeafReading, judge_line
from firedeck.trace import RUN, Step, evaluate

PLACES = np.array([(x, y) for x in range(0, 401, 40) for y in range(0, 141, 20)], dtype=float)
HEIGHTS = 0.1 * (PLACES[:, 0] / 200 - 1) ** 2 + 0.003 * np.random.default_rng(6).normal(size=len(PLACES))
FACE = np.column_stack((PLACES, HEIGHTS + 2e-4 * PLACES[:, 0]))

WORKED = {
    "flatness": lambda: flatness(FACE).steps,
    "flat": lambda: flatness([(0, 0, 1), (1, 0, 1), (0, 1, 1), (1, 1, 1)]).steps,
    "straightness": lambda: straightness(PLACES[::8, 0], FACE[::8, 2]).steps,
    "gaps": lambda: straightedge_gaps(FACE, "all", 10.0).steps,
    "local": lambda: local_flatness(FACE, 120.0).steps,
    "shape": lambda: long_shapes(FACE).steps,
    "ring": lambda: ring_dip(FACE, (200.0, 70.0), 90.0).steps,
    "both": lambda: gap_field(FACE, FACE[:, [0, 1, 2]] * [1, 1, 0.5]).steps,
    "verdict": lambda: judge_line([LeafReading(1, 0.05, 0.06), LeafReading(2, None, 0.1)], 0.1).steps,
    "roughness": lambda: roughness(np.sin(np.arange(6000) / 7.0), 0.001, 0.8).steps,
    "filter": lambda: transmission(0.3, 0.8).steps,
    "cut-off": lambda: choose_cutoff(RSm=0.2).steps,
    "feed": lambda: (*finish_by_feed(0.2, 0.8).steps, *feed_for_finish(0.0008, 0.8).steps),
    "plate": lambda: plate_tolerance(600, 400, "A").steps,
}


def as_printed(number: float) -> float:
    return float(f"{number:.6g}")


@pytest.mark.parametrize("name", WORKED)
def test_steps_come_out_again(name: str) -> None:
    steps: tuple[Step, ...] = WORKED[name]()
    assert steps
    for step in steps:
        given = {key: as_printed(number) for key, (number, _) in step.inputs.items()}
        again = evaluate(step.formula, given)
        if "nothing may be left" in step.says or "must balance" in step.says:
            within = float(step.says.split("within ")[1].split(" ")[0])
            assert abs(again) <= within, step
            assert step.source.startswith(RUN)
        else:
            assert again == pytest.approx(step.value, rel=1e-5, abs=1e-9), step


def test_units_stand_beside_every_figure() -> None:
    for make in WORKED.values():
        for step in make():
            assert all(unit for _, unit in (*step.inputs.values(), *step.result.values())), step
