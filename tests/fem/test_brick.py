"""Patch test, rigid motion and bending of the brick."""

import numpy as np
import pytest
from fem.bodies import STEEL, plain

from firedeck.errors import OutOfRange
from firedeck.fem import Material
from firedeck.fem.brick import CORNERS, elasticity, mixing, stiffness, stiffness_terms, thermal_load
from firedeck.fem.direct import stiffness_matrix

SIZE = (3.0, 5.0, 2.0)
PLACES = CORNERS * np.array(SIZE)


def rigid():
    """Six rigid motions of the corners, shape (24, 6)."""
    shifts = [np.tile(row, 8) for row in np.eye(3)]
    turns = [np.cross(axis, PLACES).ravel() for axis in np.eye(3)]
    return np.stack(shifts + turns, axis=1)


def test_rigid_motions_cost_nothing_and_nothing_else_is_free():
    K = stiffness(SIZE, STEEL)
    scale = np.abs(K).max()
    assert np.abs(K @ rigid()).max() < 1e-11 * scale * np.abs(rigid()).max()
    values = np.linalg.eigvalsh(K)
    assert (np.abs(values[:6]) < 1e-9 * values[-1]).all()
    assert (values[6:] > 1e-4 * values[-1]).all()


def test_every_state_of_even_strain_gives_the_exact_energy():
    K, D = stiffness(SIZE, STEEL), elasticity(STEEL)
    rng = np.random.default_rng(3)
    for _ in range(5):
        slope = rng.normal(size=(3, 3))
        both = slope + slope.T
        strain = np.array([*np.diag(slope), both[0, 1], both[1, 2], both[0, 2]])
        moved = (PLACES @ slope.T).ravel()
        assert moved @ K @ moved == pytest.approx(strain @ D @ strain * np.prod(SIZE), rel=1e-10)


def test_patch_of_uneven_bricks_carries_even_strain():
    body = plain([0, 1, 3, 4.5], [0, 2, 3], [0, 1.5, 2, 4, 5])
    slope = np.array([[1e-3, 2e-4, -3e-4], [5e-4, -2e-3, 1e-4], [0.0, 7e-4, 1.5e-3]])
    moved = (body.places() @ slope.T).ravel()
    force = (stiffness_matrix(body) @ moved).reshape(*body.nodes, 3)
    inside = force[1:-1, 1:-1, 1:-1]
    assert inside.size
    assert np.abs(inside).max() < 1e-9 * np.abs(force).max()


def test_one_brick_bends_exactly_without_poisson():
    metal = Material(modulus=1000.0, poisson=0.0)
    length, width, height = 10.0, 2.0, 4.0
    x, _, z = (CORNERS * (length, width, height)).T
    curvature = 1e-3
    moved = np.zeros((8, 3))
    moved[:, 0] = -curvature * x * (z - height / 2) + curvature * length / 2 * (z - height / 2)
    moved[:, 2] = curvature * x**2 / 2 - curvature * length * x / 2
    energy = moved.ravel() @ stiffness((length, width, height), metal) @ moved.ravel()
    second_moment = width * height**3 / 12
    assert energy == pytest.approx(1000.0 * second_moment * curvature**2 * length, rel=1e-9)


def test_mixed_terms_are_the_stiffness_of_any_brick():
    terms = stiffness_terms(STEEL)
    for size in [(1.0, 1.0, 1.0), (0.3, 7.0, 2.0), (12.0, 3.0, 0.5)]:
        mixed = np.tensordot(mixing(*(np.array([edge]) for edge in size))[0], terms, axes=1)
        whole = stiffness(size, STEEL)
        assert np.abs(mixed - whole).max() < 1e-9 * np.abs(whole).max()


def test_warm_brick_held_at_its_nodes_pushes_with_the_whole_stress():
    load = thermal_load(SIZE, STEEL).sum(axis=1).reshape(8, 3)
    stress = STEEL.modulus * STEEL.expansion / (1 - 2 * STEEL.poisson)
    top = load[CORNERS[:, 2] == 1, 2].sum()
    assert top == pytest.approx(stress * SIZE[0] * SIZE[1], rel=1e-12)
    assert np.abs(load.sum(axis=0)).max() < 1e-9


@pytest.mark.parametrize("edges", [(0.0, 1.0, 1.0), (1.0, -2.0, 1.0)])
def test_bricks_without_size_are_refused(edges):
    with pytest.raises(OutOfRange, match="edges above nought"):
        stiffness(edges, STEEL)


@pytest.mark.parametrize("values", [(0.0, 0.3), (1000.0, 0.5), (1000.0, -0.1)])
def test_metals_that_cannot_be_are_refused(values):
    with pytest.raises(OutOfRange):
        Material(*values)
