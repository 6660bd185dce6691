"""Plates, beams and warm bodies against their closed forms.

S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., art. 30 (Navier's series) and art. 39
(thick plates, Reissner); M. Hetényi, Beams on Elastic Foundation, 1946, ch. II (long beam, one load).
"""

import numpy as np
import pytest
from fem.bodies import on_plane, plain

from firedeck.fem import (
    Columns,
    Face,
    Material,
    condense,
    face_points,
    held_at_three_nodes,
    joined,
    rigid_motions,
    warmth,
)
from firedeck.fem.columns import Z, node_columns
from firedeck.fem.direct import solve

SIDE, THICK, PRESSURE = 100.0, 12.0, 1.0
METAL = Material(modulus=70e3, poisson=0.3)


def plate_deflection(terms=19, harmonic=None):
    """Middle of a simply supported square plate, thin-plate series with the thick-plate term."""
    rigidity = METAL.modulus * THICK**3 / (12 * (1 - METAL.poisson**2))
    thick = THICK**2 / 10 * (2 - METAL.poisson) / (1 - METAL.poisson)
    total = 0.0
    for m in range(1, terms + 1, 2):
        for n in range(1, terms + 1, 2):
            if harmonic and (m, n) != harmonic:
                continue
            load = PRESSURE if harmonic else 16 * PRESSURE / (np.pi**2 * m * n)
            wave = np.pi**2 * (m**2 + n**2) / SIDE**2
            total += (
                load
                / (rigidity * wave**2)
                * (1 + thick * wave)
                * np.sin(m * np.pi / 2)
                * np.sin(n * np.pi / 2)
            )
    return total


def plate(bricks, layers, pressure):
    """Middle of the same plate by bricks; a quarter of it, the edges held along z and along themselves."""
    edge = np.linspace(0.0, SIDE / 2, bricks + 1)
    body = plain(edge, edge, np.linspace(-THICK / 2, THICK / 2, layers + 1), METAL)
    fine = (np.arange(4 * bricks) + 0.5) * SIDE / 8 / bricks
    x, y = (axis.ravel() for axis in np.meshgrid(fine, fine, indexing="ij"))
    area = (SIDE / 8 / bricks) ** 2
    group = np.zeros(len(x), dtype=int)
    push = face_points(body, Face(layers, upward=False), x, y, groups=group, weights=area * pressure(x, y))
    nodes = {(axis, end): on_plane(body, axis, end) for axis in (0, 1) for end in (0.0, SIDE / 2)}
    held = [3 * nodes[0, 0.0] + 1, 3 * nodes[0, 0.0] + 2, 3 * nodes[1, 0.0], 3 * nodes[1, 0.0] + 2]
    held += [3 * nodes[0, SIDE / 2], 3 * nodes[1, SIDE / 2] + 1]
    middle = np.intersect1d(nodes[0, SIDE / 2], nodes[1, SIDE / 2])
    read = node_columns(body, middle, Z, mean=True)
    return condense(body, joined([push, read]), np.unique(np.concatenate(held)))[0, 1]


def test_thick_plate_of_one_layer_is_within_one_per_cent_of_the_series():
    by_bricks = plate(16, 1, lambda x, y: PRESSURE + 0.0 * (x + y))
    assert by_bricks == pytest.approx(plate_deflection(), rel=0.01)


def test_thick_plate_under_one_wave_converges_with_the_square_of_the_brick():
    def wave(x, y):
        return PRESSURE * np.sin(np.pi * x / SIDE) * np.sin(np.pi * y / SIDE)

    found = [plate(n, n // 2, wave) for n in (4, 8, 16)]
    rate = np.log2((found[0] - found[1]) / (found[1] - found[2]))
    assert rate == pytest.approx(2.0, abs=0.3)
    assert found[2] == pytest.approx(plate_deflection(harmonic=(1, 1)), rel=0.01)


LONG, HIGH, WIDE, BED = 800.0, 12.0, 6.0, 20.0
BEAM = Material(modulus=200e3, poisson=0.0)


def test_long_beam_on_an_elastic_bed_follows_the_closed_form():
    body = plain(np.linspace(-LONG / 2, LONG / 2, 161), [-WIDE / 2, WIDE / 2], [0.0, HIGH / 2, HIGH], BEAM)
    x = np.linspace(-LONG / 2 + 2.5, LONG / 2 - 2.5, 160)
    bed = face_points(body, Face(0, upward=True), x, np.zeros_like(x))
    load = node_columns(body, on_plane(body, 2, HIGH)[2 * 80 : 2 * 80 + 2], Z, mean=True)
    columns = joined([bed, load])
    G = condense(body, columns, held_at_three_nodes(body, 2))
    R = rigid_motions(body, columns)[:, 2:5:2]
    n, spring, force = len(x), BED * 5.0, -1000.0
    left = np.block([[G[:n, :n] + np.eye(n) / spring, -R[:n]], [R[:n].T, np.zeros((2, 2))]])
    right = np.concatenate([-G[:n, n] * force, -R[n] * force])
    push = np.linalg.solve(left, right)[:n]
    assert push.sum() == pytest.approx(-force, rel=1e-9)
    sink = push / spring
    lam = (BED / (4 * BEAM.modulus * WIDE * HIGH**3 / 12)) ** 0.25
    far = lam * np.abs(x)
    closed = -force * lam / (2 * BED) * np.exp(-far) * (np.cos(far) + np.sin(far))
    assert np.abs(sink - closed).max() < 0.02 * closed.max()


def test_evenly_warm_free_body_grows_without_bending():
    body = plain([0, 3, 7, 10], [0, 2, 6], [0, 1, 4, 5], Material(1e5, 0.33, 2e-5))
    heat = warmth(body, np.full(body.nodes, 50.0))
    held = held_at_three_nodes(body, 0)
    moved = solve(body, heat, held).reshape(-1, 3)
    assert moved == pytest.approx(2e-5 * 50.0 * body.places(), abs=1e-12)


def test_free_body_warm_on_one_side_bows_to_a_sphere():
    slope, growth = 2.0, 2e-5
    body = plain(np.linspace(0, 60, 13), np.linspace(0, 40, 9), [0, 5, 10], Material(1e5, 0.33, growth))
    heat = warmth(body, np.broadcast_to(slope * body.z, body.nodes))
    top = on_plane(body, 2, 0.0)
    columns = joined([node_columns(body, top, Z), heat])
    rise = condense(body, columns, held_at_three_nodes(body, 0))[:-1, -1]
    places = body.places()[top]
    sphere = -0.5 * growth * slope * (places[:, 0] ** 2 + places[:, 1] ** 2)
    R = rigid_motions(body, columns)[:-1, 2:5]
    left = (rise - sphere) - R @ np.linalg.lstsq(R, rise - sphere, rcond=None)[0]
    assert np.abs(left).max() < 1e-9 * np.abs(sphere).max()


def test_a_warm_column_is_in_balance():
    body = plain([0, 3, 7], [0, 2, 6], [0, 1, 4], Material(1e5, 0.33, 2e-5))
    rise = np.random.default_rng(0).random(body.nodes)
    assert np.abs(rigid_motions(body, warmth(body, rise))).max() < 1e-9


def test_columns_are_triplets_of_one_length():
    one = Columns(np.array([2]), np.array([0]), np.array([1.0]), 1)
    assert joined([one, one, one]).count == 3
