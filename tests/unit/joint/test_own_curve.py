"""Somebody's own press test of a ring: on the way in the curve, on the way out how it springs back."""

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.joint.law_table import law
from firedeck.joint.laws import Per
from firedeck.joint.own_curve import own_law

LIKE = law("wire-ring")
CLOSURE = np.array([0.0, 0.05, 0.10, 0.15, 0.14, 0.13])
LOAD = np.array([0.0, 40.0, 110.0, 210.0, 120.0, 20.0])


def test_pressed_as_read_and_springs_back_as_read():
    found = own_law("mine", Per.LINE, CLOSURE, LOAD, LIKE).law
    assert found.load == (0.0, 40.0, 110.0, 210.0)
    assert found.last_slope == pytest.approx(2000.0)
    assert found.unloading_slope == pytest.approx(105.0 / (0.15 - 0.1385))
    assert found.creep == LIKE.creep


def test_springs_back_as_others_of_its_kind_where_letting_go_was_not_read():
    found = own_law("mine", Per.LINE, CLOSURE[:4], LOAD[:4], LIKE).law
    assert found.unloading_slope == LIKE.unloading_slope


def test_never_springs_back_softer_than_it_was_pressed():
    soft = own_law("mine", Per.LINE, CLOSURE, np.array([0.0, 40.0, 110.0, 210.0, 205.0, 200.0]), LIKE).law
    assert soft.unloading_slope == pytest.approx(soft.steepest)


@pytest.mark.parametrize(
    ("closure", "load", "says"),
    [
        ([0.0, 0.1, 0.05, 0.2], [0.0, 50.0, 20.0, 100.0], "back and forth"),
        ([0.0, 0.05, 0.10, 0.15], [0.0, 150.0, 40.0, 300.0], "loads that fall"),
        ([0.0, 0.05, 0.10], [0.0, 0.0, 0.0], "no load"),
        ([0.0, 0.0, 0.10], [0.0, 10.0, 20.0], "back and forth"),
    ],
)
def test_what_is_no_press_test_is_refused(closure, load, says):
    with pytest.raises(OutOfRange, match=says):
        own_law("mine", Per.LINE, np.array(closure), np.array(load), LIKE)
