"""The same bricks in a general solver (CalculiX, its incompatible-mode brick C3D8I): every node must move alike."""

import shutil
import subprocess

import numpy as np
import pytest
from fem.bodies import on_plane, ragged

from firedeck.fem import condense, held_on_plane, joined
from firedeck.fem.brick import CORNERS
from firedeck.fem.columns import X, Z, node_columns
from firedeck.fem.direct import dense, solve

ROUND = [0, 4, 6, 2, 1, 5, 7, 3]
"""Our corners in the other solver's order: round the lower face, then round the upper."""


def deck(body, force, held):
    """Input of the general solver: nodes, one material per share of metal, forces, supports."""
    lines = ["*NODE, NSET=ALL"]
    metal = np.flatnonzero(body.touched)
    lines += [
        f"{node + 1},{x:.9g},{y:.9g},{z:.9g}"
        for node, (x, y, z) in zip(metal, body.places()[metal], strict=True)
    ]
    _, my, mz = body.nodes
    for number, (i, j, k) in enumerate(np.argwhere(body.share > 0.0), start=1):
        corner = (np.array([i, j, k]) + CORNERS)[ROUND]
        nodes = (corner[:, 0] * my + corner[:, 1]) * mz + corner[:, 2] + 1
        modulus = body.material.modulus * body.share[i, j, k]
        lines += [f"*ELEMENT, TYPE=C3D8I, ELSET=E{number}", ",".join(map(str, [number, *nodes]))]
        lines += [f"*MATERIAL, NAME=M{number}", "*ELASTIC", f"{modulus:.12g},{body.material.poisson}"]
        lines += [f"*SOLID SECTION, ELSET=E{number}, MATERIAL=M{number}"]
    lines += ["*BOUNDARY", *(f"{dof // 3 + 1},{dof % 3 + 1},{dof % 3 + 1}" for dof in held)]
    lines += ["*STEP", "*STATIC", "*CLOAD"]
    lines += [f"{dof // 3 + 1},{dof % 3 + 1},{force[dof]:.12g}" for dof in np.flatnonzero(force)]
    lines += ["*NODE PRINT, NSET=ALL", "U", "*END STEP"]
    return "\n".join(lines) + "\n"


def movements(text, count):
    """Movements the general solver printed, shape (nodes, 3)."""
    found = np.zeros((count, 3))
    for line in text.splitlines():
        cells = line.split()
        if len(cells) == 4 and cells[0].isdigit():
            found[int(cells[0]) - 1] = [float(cell) for cell in cells[1:]]
    return found


@pytest.mark.skipif(shutil.which("ccx") is None, reason="the general solver is not on this machine")
def test_every_node_moves_as_in_the_general_solver(tmp_path):
    body = ragged(4, bricks=(7, 6, 4))
    held = held_on_plane(body, 0)
    top = on_plane(body, 2, body.z[-1])
    columns = joined([node_columns(body, top, Z), node_columns(body, top[:5], X)])
    load = np.random.default_rng(1).normal(size=columns.count) * 1000.0
    force = dense(columns, 3 * body.touched.size) @ load
    force[held] = 0.0
    (tmp_path / "body.inp").write_text(deck(body, force, held))
    done = subprocess.run(
        ["ccx", "body"], cwd=tmp_path, capture_output=True, text=True, check=False, timeout=120
    )
    theirs = movements((tmp_path / "body.dat").read_text(), body.touched.size)
    assert np.abs(theirs).max() > 0.0, done.stdout[-500:]
    ours = (solve(body, columns, held) @ load).reshape(-1, 3)
    assert np.abs(ours - theirs).max() < 1e-5 * np.abs(theirs).max()
    seen = condense(body, columns, held) @ load
    assert seen[: len(top)] == pytest.approx(theirs[top, 2], abs=1e-5 * np.abs(theirs).max())


def test_the_other_order_of_corners_is_right_handed():
    corners = CORNERS[ROUND]
    assert (
        np.linalg.det(np.array([corners[1] - corners[0], corners[3] - corners[0], corners[4] - corners[0]]))
        == 1.0
    )
