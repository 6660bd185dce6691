"""A stranger's solver, on the exported arrays alone, finds the same joint."""

import numpy as np
import pytest
from unit.joint.plate_joint import inline

from firedeck.joint.clamped import Case
from firedeck.joint.exporting import exported
from firedeck.joint.newton import settle

PLATE = inline(bores=2, ring=10, rows=2)
JOINT = PLATE.joint
SPRINGS = JOINT.springs


def given():
    held = SPRINGS.turned_to(SPRINGS.fresh(), range(6), np.full(6, 45e3))
    w = settle(JOINT, Case(held, PLATE.weight)).w
    state = SPRINGS.let_go(w, SPRINGS.remembered(w, held))
    state = SPRINGS.bedded_in(w, state, np.full(6, 0.002))
    return exported(JOINT, state, [("cold", PLATE.weight), ("1 firing", PLATE.weight + 7.0 * PLATE.gas["1"])])


def psi_of(export, w):
    """Forces as the words beside the arrays say."""
    psi = np.empty(len(w))
    for index, kind, _, _, _, share, name in export.points:
        law = export.laws[name]
        if kind == "bolt":
            psi[index] = min(max(law["stiffness"] * (w[index] + law["shortening"]), 0.0), law["yield"])
            continue
        closure, load = np.array(law["closure"]), np.array(law["load"])

        def curve(at, closure=closure, load=load, law=law):
            return np.interp(at, closure, load) + law["last_slope"] * max(at - closure[-1], 0.0)

        m = export.largest_closure[index]
        psi[index] = share * max(
            0.0, min(curve(w[index]), curve(m) + law["unloading_slope"] * (w[index] - m))
        )
    return psi


def test_the_written_equations_hold_on_the_exported_arrays():
    export = given()
    for case in range(2):
        psi = psi_of(export, export.w[case])
        assert psi == pytest.approx(export.psi[case], rel=1e-6, abs=1e-2)
        first = export.w[case] + export.A @ psi - export.R @ export.q[case] - export.w_load[case]
        assert np.abs(first).max() < 1e-7
        assert export.R[:, 0] @ psi == pytest.approx(export.r[case, 0], abs=0.1)


def test_everything_is_there_and_plain():
    export = given()
    assert export.names == ("cold", "1 firing")
    assert len(export.points) == len(export.A) == SPRINGS.count
    assert export.w_load.shape == (2, SPRINGS.count)
    assert {row[1] for row in export.points} == {"ring", "half-bead", "body", "bolt"}
    assert all(name in export.laws for *_, name in export.points)
