"""Eight lines of a foot: any plate comes back, and what is no jack is refused."""

import itertools
from dataclasses import replace
from math import atan

import pytest

from firedeck.errors import OutOfRange
from firedeck.surfaces.union_jack import FootStep, union_jack

FOOT = 100.0
ENDS = {
    "NW-SE": ((0, 600), (800, 0)),
    "NE-SW": ((800, 600), (0, 0)),
    "NW-NE": ((0, 600), (800, 600)),
    "SW-SE": ((0, 0), (800, 0)),
    "NW-SW": ((0, 600), (0, 0)),
    "NE-SE": ((800, 600), (800, 0)),
    "W-E": ((0, 300), (800, 300)),
    "N-S": ((400, 600), (400, 0)),
}


def stepped(height, tilt_of_line=0.0) -> list[FootStep]:
    """Step every line over a surface; each line is read with a tilt of its own."""
    steps = []
    for number, (line, (start, end)) in enumerate(ENDS.items()):
        length = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
        count = round(length / FOOT)
        places = [
            (start[0] + (end[0] - start[0]) * at / count, start[1] + (end[1] - start[1]) * at / count)
            for at in range(count + 1)
        ]
        for one, other in itertools.pairwise(places):
            rise = height(*other) - height(*one)
            steps.append(FootStep(line, one, other, atan(rise / FOOT + tilt_of_line * number)))
    return steps


def bowl(x: float, y: float) -> float:
    return 0.01 * ((x - 400) / 400) ** 2 + 0.004 * ((y - 300) / 300) ** 2


def test_a_bowl_comes_back_whatever_tilt_each_line_was_read_with() -> None:
    plain, tilted = union_jack(stepped(bowl), FOOT), union_jack(stepped(bowl, 1e-4), FOOT)
    for found in (plain, tilted):
        assert found.corners == pytest.approx(dict.fromkeys(("NW", "NE", "SW", "SE"), 0.014))
        assert found.mid_sides == pytest.approx({"N": 0.004, "S": 0.004, "W": 0.01, "E": 0.01})
        assert found.closures == pytest.approx({"W-E": 0.0, "N-S": 0.0}, abs=1e-12)
        assert found.flatness.range == pytest.approx(0.014)


def test_a_line_stepped_the_other_way_gives_the_same() -> None:
    steps = stepped(bowl)
    line = [step for step in steps if step.line == "W-E"]
    turned = [FootStep("W-E", step.end, step.start, -step.angle) for step in reversed(line)]
    others = [step for step in steps if step.line != "W-E"]
    assert union_jack([*others, *turned], FOOT).closures == pytest.approx({"W-E": 0.0, "N-S": 0.0}, abs=1e-12)


def test_a_bad_line_shows_in_its_closure() -> None:
    steps = [
        replace(step, angle=step.angle + 2e-5) if step.line == "W-E" and step.end[0] <= 400 else step
        for step in stepped(bowl)
    ]
    assert union_jack(steps, FOOT).closures["W-E"] == pytest.approx(4 * FOOT * 2e-5 / 2, rel=1e-3)


def without(line: str) -> list[FootStep]:
    return [step for step in stepped(bowl) if step.line != line]


@pytest.mark.parametrize(
    ("steps", "foot", "says"),
    [
        ([], FOOT, "the steps of eight lines"),
        (without("N-S"), FOOT, "no line N-S"),
        (stepped(bowl), 80.0, "a step of 100 mm; steps as long as the foot, 80 mm"),
        (stepped(bowl)[1:], FOOT, "an even number"),
        ([*stepped(bowl)[:4], *stepped(bowl)[6:]], FOOT, "begins where the last ended"),
        (stepped(bowl) + [replace(step, line="again") for step in without("W-E")[:10]], FOOT, "each once"),
    ],
)
def test_what_is_no_jack_is_one_line(steps: list[FootStep], foot: float, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        union_jack(steps, foot)
