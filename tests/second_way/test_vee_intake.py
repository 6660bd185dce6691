"""Intake faces of a vee engine a second way: points and vectors of the moved head, without the formulas."""

import math
import random

import pytest

from firedeck.cylinder.intake_faces import intake_face_cut

Vector = tuple[float, float]


def turned(vector: Vector, angle: float) -> Vector:
    """Turn clockwise by an angle."""
    c, s = math.cos(angle), math.sin(angle)
    return (vector[0] * c + vector[1] * s, -vector[0] * s + vector[1] * c)


def along(vector: Vector, direction: Vector) -> float:
    return vector[0] * direction[0] + vector[1] * direction[1]


def built(vee: float, lean: float, cut: float) -> tuple[float, float, float]:
    """Build the right bank upright, lean it over, move it, and let the manifold follow by bisection."""
    out_of_bore = turned((0.0, 1.0), vee / 2)
    square_to_deck = turned((-1.0, 0.0), vee / 2)
    normal = turned(square_to_deck, lean)
    up_the_flange = turned(normal, math.pi / 2)
    moved = (-cut * out_of_bore[0], -cut * out_of_bore[1])

    def fallen(drop: float) -> Vector:
        return (0.0 - moved[0], -drop - moved[1])

    def drop_where(measure: Vector) -> float:
        low, high = -100.0 * abs(cut), 100.0 * abs(cut)
        rising = along(fallen(high), measure) > along(fallen(low), measure)
        for _ in range(200):
            middle = (low + high) / 2
            if (along(fallen(middle), measure) > 0.0) == rising:
                high = middle
            else:
                low = middle
        return (low + high) / 2

    lined_up = drop_where(up_the_flange)
    touching = drop_where(normal)
    overlap = -along(fallen(lined_up), normal)
    return abs(overlap), lined_up, abs(along(fallen(touching), up_the_flange))


def test_formulas_and_vectors_agree_on_two_hundred_engines() -> None:
    chance = random.Random(20)
    for _ in range(200):
        vee = math.radians(chance.uniform(20.0, 120.0))
        lean = math.radians(chance.uniform(0.0, min(35.0, 80.0 - math.degrees(vee) / 2)))
        cut = chance.uniform(0.05, 3.0)
        found = intake_face_cut(vee, lean, cut)
        assert (found.flange_cut, found.end_rail_cut, found.port_shift) == pytest.approx(
            built(vee, lean, cut)
        )
