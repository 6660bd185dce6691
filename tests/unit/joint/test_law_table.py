"""The laws held as data: whole, never falling, the measured ones true to their measured shape."""

import numpy as np
import pytest

from firedeck.errors import TableGap
from firedeck.joint.law_table import law, laws_of
from firedeck.tables import rows

NAMES = [row["law"] for row in rows("gasket_laws")]
CONSTRUCTIONS = sorted({row["construction"] for row in rows("gasket_laws")})


@pytest.mark.parametrize("name", NAMES)
def test_every_law_reads_and_never_falls(name):
    found = law(name)
    closure = np.linspace(0.0, 1.2 * found.closure[-1], 300)
    for crushed in (0.0, 0.5, 1.0):
        state = found.set_after(np.full(300, crushed * found.closure[-1]))
        assert (np.diff(found.held(closure, state)) >= 0.0).all()
    assert found.unloading_slope > found.steepest


@pytest.mark.parametrize("construction", CONSTRUCTIONS)
def test_every_construction_has_a_ring(construction):
    assert "ring" in laws_of(construction)


def test_all_constructions_asked_for_are_there():
    wanted = {
        "graphite-metal-core",
        "composite-printed",
        "multi-layer-steel",
        "soft-copper",
        "wire-ring",
        "steel-shim",
    }
    assert wanted <= set(CONSTRUCTIONS)


@pytest.mark.parametrize(("name", "part"), [("wire-ring", "wire-ring"), ("graphite-body", "graphite-body")])
def test_measured_shapes_are_kept(name, part):
    """Scaled back to one, the curve is the measured one."""
    found = law(name)
    for row in rows("gasket_curves"):
        if (row["part"], row["path"]) == (part, "loading"):
            closure = float(row["deflection"]) * found.closure[-1]
            assert found.pressed(np.array([closure]))[0] == pytest.approx(
                float(row["stress"]) * found.load[-1]
            )


def test_the_wire_ring_springs_back_as_little_as_measured():
    found = law("wire-ring")
    back = (1.0 - 0.03) * found.load[-1] / found.unloading_slope
    assert back / found.closure[-1] == pytest.approx(0.028, abs=0.0005)


def test_graphite_unloads_by_the_secant_between_full_and_half_load():
    found = law("graphite-body")
    points = {
        float(row["stress"]): float(row["deflection"])
        for row in rows("gasket_curves")
        if (row["part"], row["path"]) == ("graphite-body", "unloading-from-1.0")
    }
    secant = (1.0 - 0.5) / (1.0 - points[0.5]) * found.load[-1] / found.closure[-1]
    assert found.unloading_slope == pytest.approx(secant, rel=0.01)


def test_an_unknown_law_says_what_there_is():
    with pytest.raises(TableGap, match="wire-ring"):
        law("cork")
    with pytest.raises(TableGap, match="soft-copper"):
        laws_of("cork")
