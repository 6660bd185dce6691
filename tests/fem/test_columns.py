"""Where loads go when there is little or no metal under them."""

import numpy as np
import pytest
from fem.bodies import STEEL, plain

from firedeck.errors import OutOfRange
from firedeck.fem import (
    Body,
    Face,
    annulus,
    face_points,
    rigid_motions,
    roof_pressure,
    thread_zone,
    wall_pressure,
)

EDGE = np.arange(0.0, 41.0, 4.0)


def holed(share_inside):
    """A plate with a square window of four by four bricks in its middle."""
    share = np.ones((10, 10, 2))
    share[3:7, 3:7] = share_inside
    return Body(EDGE, EDGE, np.array([0.0, 4.0, 8.0]), share, STEEL)


def test_a_point_beside_the_metal_keeps_its_place():
    body = holed(0.0)
    column = face_points(body, Face(2, upward=False), np.array([13.5]), np.array([20.0]))
    assert rigid_motions(body, column)[0] == pytest.approx([0.0, 0.0, 1.0, 20.0, -13.5, 0.0])
    assert body.touched.ravel()[column.dof // 3].all()


def test_a_point_far_off_the_metal_is_refused():
    with pytest.raises(OutOfRange, match=r"\(20.0, 20.0\) mm lies off the metal"):
        face_points(holed(0.0), Face(2, upward=False), np.array([20.0]), np.array([20.0]))


def test_a_sliver_carries_only_where_there_is_nothing_better():
    thin = holed(0.1)
    beside = face_points(thin, Face(2, upward=False), np.array([13.5]), np.array([20.0]))
    within = face_points(thin, Face(2, upward=False), np.array([21.0]), np.array([20.5]))
    assert set(thin.places()[beside.dof // 3][:, 0]) == {8.0, 12.0}
    assert set(thin.places()[within.dof // 3][:, 0]) == {20.0, 24.0}


def test_gas_on_a_roof_finds_the_lowest_metal():
    share = np.ones((10, 10, 2))
    share[3:7, 3:7, 0] = 0.0
    head = Body(EDGE, EDGE, np.array([0.0, 4.0, 8.0]), share, STEEL)
    gas = roof_pressure(head, 20.0, 20.0, 6.0)
    assert gas.weight.sum() == pytest.approx(np.pi * 36.0)
    assert set(head.places()[gas.dof // 3][:, 2]) == {4.0}
    share[3:7, 3:7] = 0.0
    with pytest.raises(OutOfRange, match="roof"):
        roof_pressure(Body(EDGE, EDGE, head.z, share, STEEL), 20.0, 20.0, 6.0)


def test_gas_on_a_wall_widens_a_bore_with_its_whole_force():
    body = holed(0.0)
    gas = wall_pressure(body, 20.0, 20.0, radius=8.0, low=3.0, high=8.0)
    place = body.places()[gas.dof // 3] - (20.0, 20.0, 0.0)
    outwards = sum(w * p[d] for w, p, d in zip(gas.weight, place, gas.dof % 3, strict=True))
    assert outwards == pytest.approx(2 * np.pi * 8.0 * 5.0 * 8.0, rel=0.01)
    assert np.abs(rigid_motions(body, gas)[0][:3]).max() < 1e-9
    with pytest.raises(OutOfRange, match="bore wall"):
        wall_pressure(body, 20.0, 20.0, radius=8.0, low=-1.0, high=8.0)


def test_threads_carry_most_at_the_first():
    body = plain(EDGE, EDGE, np.arange(0.0, 41.0, 4.0))
    zone = thread_zone(body, 20.0, 20.0, radius=5.0, low=10.0, high=34.0, towards_top=True)
    by_height = [zone.weight[body.places()[zone.dof // 3][:, 2] == z].sum() for z in body.z]
    assert sum(by_height) == pytest.approx(1.0)
    assert np.argmax(by_height) == 8
    assert by_height[2] == 0.0
    with pytest.raises(OutOfRange, match="threads"):
        thread_zone(body, 20.0, 20.0, radius=5.0, low=10.0, high=11.0, towards_top=True)


@pytest.mark.parametrize("radii", [(6.0, 6.0), (-1.0, 4.0)])
def test_rings_without_width_are_refused(radii):
    with pytest.raises(OutOfRange, match="ring"):
        annulus(
            plain(EDGE, EDGE, [0.0, 4.0]), Face(1, upward=False), 20.0, 20.0, inner=radii[0], outer=radii[1]
        )
