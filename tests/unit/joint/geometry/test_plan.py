"""Hole patterns: what is refused, and lines round openings."""

import math

import numpy as np
import pytest
from unit.joint.geometry.invented import bolt, three

from firedeck.errors import JobErrors
from firedeck.joint.geometry.plan import Bore, Opening, plain_outline

BORE = three().bores[0]


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"fasteners": ()}, "three or more"),
        ({"bores": ()}, "one or more cylinders"),
        ({"bores": (BORE, Bore("x", -40.0, 0.0, 70.0, 73.0, 71.0))}, "do not overlap"),
        ({"bores": (BORE, Bore("x", -6.0, 0.0, 70.0, 73.0, 71.0))}, "rings side by side"),
        ({"bores": (Bore("x", 118.0, 0.0, 70.0, 73.0, 71.0),)}, "within the face"),
        ({"bores": (Bore("x", 0.0, 0.0, 70.0, 69.0, 71.0),)}, "within its ring"),
        ({"fasteners": (*three().fasteners, bolt("in", 20.0, 10.0))}, "beside the bores"),
        ({"fasteners": (*three().fasteners, bolt("off", 150.0, 10.0))}, "within the face"),
        ({"outline": ((0.0, 0.0), (1.0, 1.0))}, "three or more corners"),
    ],
)
def test_patterns_that_cannot_be_are_refused_in_one_line_each(changes, says):
    with pytest.raises(JobErrors) as caught:
        three(**changes)
    lines = str(caught.value).splitlines()
    assert any(says in line for line in lines)
    assert all("layout." in line for line in lines)


def test_all_faults_are_told_at_once():
    with pytest.raises(JobErrors) as caught:
        three(fasteners=(bolt("in", 0.0, 0.0), bolt("off", 300.0, 0.0), bolt("ok", -39.0, 54.0)))
    assert len(caught.value.faults) == 2


@pytest.mark.parametrize(("length", "angle"), [(0.0, 0.0), (30.0, 0.0), (30.0, 0.7), (10.0, 0.0)])
def test_line_round_an_opening_keeps_its_margin_and_is_even(length, angle):
    opening = Opening("slot", 5.0, -7.0, 10.0, length, angle)
    x, y = opening.line(margin=3.0, spacing=2.0)
    assert opening.distance(x, y) == pytest.approx(np.full(len(x), 3.0))
    step = np.hypot(np.diff(x, append=x[:1]), np.diff(y, append=y[:1]))
    whole = 2 * math.pi * 8.0 + 2 * max(0.0, length - 10.0)
    assert step.sum() == pytest.approx(whole, rel=0.02)
    assert step.max() < 1.1 * step.min()


def test_a_plain_outline_holds_everything():
    plan = three()
    outline = plain_outline(plan.bores, plan.fasteners)
    assert three(outline=outline).box == pytest.approx((-78.0 - 35.0 * 4 / 3, 131.5, -67.5, 65.5))
    x, y = np.array([(bolt.x, bolt.y) for bolt in plan.fasteners]).T
    assert (three(outline=outline).to_edge(x, y) >= 11.5 - 1e-9).all()


def test_inside_and_distance_to_the_edge():
    plan = three()
    x, y = np.array([0.0, 129.0, 131.0]), np.array([0.0, 0.0, 0.0])
    assert plan.inside(x, y).tolist() == [True, True, False]
    assert plan.to_edge(x, y) == pytest.approx([66.0, 1.0, 1.0])
