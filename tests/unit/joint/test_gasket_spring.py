"""The gasket as one spring: by hand for straight pieces, and against the laws of the table."""

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.joint.gasket_spring import Pressed, gasket_closure, gasket_spring
from firedeck.joint.law_table import laws_of
from firedeck.joint.laws import Law, Per

RING = Law("ring", Per.LINE, (0.0, 0.1, 0.2), (0.0, 100.0, 300.0), 4e3, 3e3, 0.02, 0.2, "generic-ours")
BODY = Law("body", Per.AREA, (0.0, 0.1, 0.2), (0.0, 1.0, 5.0), 200.0, 50.0, 0.10, 0.2, "generic-ours")


def test_two_parts_side_by_side_share_one_closure():
    parts = {"ring": Pressed(RING, 500.0), "body": Pressed(BODY, 20000.0)}
    load = 500.0 * 200.0 + 20000.0 * 3.0
    spring = gasket_spring(parts, load)
    assert spring.closure == pytest.approx(0.15)
    assert spring.pressing == pytest.approx(500.0 * 2000.0 + 20000.0 * 40.0)
    assert spring.springing == pytest.approx(500.0 * 4000.0 + 20000.0 * 200.0)
    assert spring.creep == pytest.approx((100e3 * 0.02 + 60e3 * 0.10) / 160e3)


@pytest.mark.parametrize(
    "construction", ["multi-layer-steel", "composite", "graphite-metal-core", "wire-ring", "soft-copper"]
)
@pytest.mark.parametrize("load", [4e4, 2e5, 1e6])
def test_a_small_change_of_load_moves_it_by_its_stiffness(construction, load):
    """The slope is held against a difference of closures worked out on its own."""
    parts = {
        name: Pressed(law.along(2.0) if name == "ring" and law.per is Per.AREA else law, size)
        for name, law in laws_of(construction).items()
        for size in ([1100.0] if name != "body" else [4e4])
    }
    spring = gasket_spring(parts, load)
    less = gasket_closure(parts, load * (1 - 1e-6))
    assert spring.pressing == pytest.approx(load * 1e-6 / (spring.closure - less), rel=1e-3)
    assert spring.springing >= spring.pressing * (1 - 1e-9)
    borne = sum(
        part.amount * float(part.law.pressed(np.array([spring.closure]))[0]) for part in parts.values()
    )
    assert borne == pytest.approx(load, rel=1e-9)
    assert abs(spring.steps[0].value) < 1e-4


def test_a_part_that_does_not_bear_yet_is_no_spring():
    late = Law("late", Per.LINE, (0.0, 0.5, 0.6), (0.0, 0.0, 10.0), 4e3, 3e3, 0.02, 0.2, "generic-ours")
    alone = gasket_spring({"ring": Pressed(RING, 500.0)}, 5e4)
    both = gasket_spring({"ring": Pressed(RING, 500.0), "half-bead": Pressed(late, 500.0)}, 5e4)
    assert both.springing == alone.springing


@pytest.mark.parametrize("load", [0.0, -1.0, float("nan")])
def test_no_clamp_no_spring(load):
    with pytest.raises(OutOfRange, match="clamp"):
        gasket_spring({"ring": Pressed(RING, 500.0)}, load)


def test_nothing_that_bears_is_refused():
    with pytest.raises(OutOfRange, match="no part that bears"):
        gasket_spring({}, 1e4)
    with pytest.raises(OutOfRange, match="no part that bears"):
        gasket_spring({"ring": Pressed(RING, 0.0)}, 1e4)
