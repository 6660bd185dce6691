"""Pressing laws: what they refuse, loading, unloading, stacks."""

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.joint.laws import Law, Per, stacked

GOOD = {
    "name": "made up",
    "per": Per.LINE,
    "closure": (0.0, 0.1, 0.2),
    "load": (0.0, 100.0, 300.0),
    "unloading_slope": 4000.0,
    "last_slope": 3000.0,
    "creep": 0.1,
    "band": 0.2,
    "source": "generic-ours",
}
LAW = Law(**GOOD)


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"load": (0.0, 100.0, 90.0)}, "may never fall"),
        ({"load": (5.0, 100.0, 200.0)}, "begin at nought"),
        ({"load": (0.0, 0.0, 0.0)}, "begin at nought"),
        ({"closure": (0.0, 0.2, 0.1)}, "do not rise"),
        ({"closure": (0.0, 0.1)}, "2 closures and 3 loads"),
        ({"closure": (0.0, 0.1, float("nan"))}, "no number"),
        ({"last_slope": 0.0}, "behind its last point"),
        ({"unloading_slope": 1500.0}, "springs back softer"),
        ({"creep": 1.0}, "shares from 0 to 1"),
    ],
)
def test_a_law_that_could_fall_is_refused(changed, says):
    with pytest.raises(OutOfRange, match=says):
        Law(**{**GOOD, **changed})


def test_loading_follows_the_curve_and_goes_on_with_the_last_slope():
    closure = np.array([-1.0, 0.0, 0.05, 0.15, 0.2, 0.3])
    assert LAW.pressed(closure).tolist() == pytest.approx([0.0, 0.0, 50.0, 200.0, 300.0, 600.0])


def test_unloading_is_steep_and_meets_the_curve_where_it_left_it():
    crushed = LAW.set_after(np.array([0.2]))
    assert crushed.tolist() == pytest.approx([0.2 - 300.0 / 4000.0])
    closure = np.array([0.1, 0.125, 0.15, 0.2, 0.25])
    assert LAW.held(closure, crushed).tolist() == pytest.approx([0.0, 0.0, 100.0, 300.0, 450.0])


def test_a_set_never_falls_with_the_closure():
    closure = np.linspace(-0.1, 0.5, 200)
    assert (np.diff(LAW.set_after(closure)) >= -1e-15).all()
    assert LAW.set_after(np.array([-0.1]))[0] == LAW.first_touch == 0.0


def test_the_largest_closure_is_found_again_from_the_set():
    closure = np.array([0.0, 0.03, 0.1, 0.17, 0.4])
    assert LAW.crushed_to(LAW.set_after(closure)) == pytest.approx(closure)


def test_first_touch_is_where_the_load_leaves_nought():
    late = Law(**{**GOOD, "load": (0.0, 0.0, 300.0)})
    assert late.first_touch == 0.1
    assert LAW.scaled(2.0, closer=0.05).first_touch == pytest.approx(0.05)


def test_scaling_scales_loads_and_slopes_alike():
    double = LAW.scaled(2.0)
    closure = np.array([0.03, 0.12, 0.4])
    assert double.held(closure, np.zeros(3)) == pytest.approx(2.0 * LAW.held(closure, np.zeros(3)))
    with pytest.raises(OutOfRange, match="factor"):
        LAW.scaled(0.0)


def test_a_law_per_area_is_laid_along_a_strip_only_once():
    area = Law(**{**GOOD, "per": Per.AREA})
    assert area.along(3.0).load == (0.0, 300.0, 900.0)
    assert area.along(3.0).per is Per.LINE
    with pytest.raises(OutOfRange, match="a law per line"):
        LAW.along(3.0)


def test_layers_on_each_other_share_the_load_and_add_their_closure():
    other = Law(**{**GOOD, "name": "other", "closure": (0.0, 0.05, 0.3), "load": (0.0, 0.0, 250.0)})
    both = stacked("both", (LAW, other))
    for load in (10.0, 150.0, 250.0, 400.0):
        alone = [np.interp(load, law.knots[1][1:], law.knots[0][1:]) for law in (other,)]
        alone.append(np.interp(load, *LAW.knots[::-1]))
        assert both.pressed(np.array([sum(alone)]))[0] == pytest.approx(load)
    assert both.unloading_slope == pytest.approx(2000.0)
    assert both.first_touch == pytest.approx(0.05)


def test_lines_and_areas_do_not_stack():
    with pytest.raises(OutOfRange, match="mixed"):
        stacked("both", (LAW, Law(**{**GOOD, "per": Per.AREA})))
    flat = Law(**{**GOOD, "load": (0.0, 100.0, 100.0)})
    with pytest.raises(OutOfRange, match="stands still"):
        stacked("both", (LAW, flat))
