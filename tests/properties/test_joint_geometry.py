"""Joints drawn at random: from plan to a compliance that can be worked with."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from firedeck.fem import Material
from firedeck.joint.geometry.castings import Variant, block_section, families, head_section
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.loading import loaded_block, loaded_head
from firedeck.joint.geometry.mesh import Recipe, block_body, head_body, scaled
from firedeck.joint.geometry.plan import Bore, Fastener, JointPlan, Opening
from firedeck.joint.geometry.points import Sampling, gasket_points

COARSE = Recipe("coarse", 14.0, 18.0, 0.0, 18.0)
FEW = Sampling(ring=16, half_bead=25.0, body=30.0)


@st.composite
def plans(draw):
    """One to four bores in a row, somewhat staggered, bolts on both sides, one corner of the outline cut off."""
    size = draw(st.floats(45.0, 130.0))
    count = draw(st.integers(1, 4))
    pitch = size * draw(st.floats(1.10, 1.35))
    stagger = size * draw(st.floats(0.0, 0.05))
    half = size * draw(st.floats(0.66, 0.80))
    x = pitch * (np.arange(count) - (count - 1) / 2)
    ring = 1.03 * size
    bores = tuple(
        Bore(str(n + 1), float(at), float(stagger * (-1) ** n), size, ring, 1.01 * size)
        for n, at in enumerate(x)
    )
    hole = 0.12 * size
    at = pitch * (np.arange(count + 1) - count / 2)
    bolts = tuple(
        Fastener(f"{n}{side}", float(a), y, hole, 0.9 * hole, hole, 2.0 * hole, 0.1 * size, 0.45 * size)
        for n, a in enumerate(at)
        for side, y in (("i", -half), ("e", half))
    )
    long, wide = pitch * count / 2 + 0.25 * size, half + 0.22 * size
    cut = draw(st.floats(0.0, 0.08)) * size
    outline = ((-long, -wide), (long, -wide), (long, wide - cut), (long - cut, wide), (-long, wide))
    if cut == 0.0:
        outline = ((-long, -wide), (long, -wide), (long, wide), (-long, wide))
    openings = (Opening("water", float(x[0]), half, 0.08 * size, 0.2 * size, draw(st.floats(-1.0, 1.0))),)
    return JointPlan(outline, bores, bolts, openings)


class TestAnyJointGivesACompliance:
    """Symmetric, positive, and the gas of each bore lifts with its whole force."""

    @given(
        plans(),
        st.sampled_from(families("head")),
        st.sampled_from(families("block")),
        st.sampled_from(list(Variant)),
    )
    @settings(max_examples=15, deadline=None)
    def test_it(self, plan, head_family, block_family, variant):
        size = plan.mean_bore
        head, block = head_section(head_family, size, variant), block_section(block_family, size, variant)
        points = gasket_points(plan, head, block, FEW)
        recipe = scaled(COARSE, size)
        head_bricks = head_body(
            plan, head, Material(70e3, 0.33, 2e-5), recipe, like=head_section(head_family, size)
        )
        block_bricks = block_body(
            plan, block, Material(110e3, 0.26, 1e-5), recipe, like=block_section(block_family, size)
        )
        pair = (
            condensed(loaded_head(plan, head, head_bricks, points)),
            condensed(loaded_block(plan, block_bricks, points)),
        )
        whole = put_together(plan, points, *pair)
        assert np.abs(whole.A - whole.A.T).max() == 0.0
        assert np.linalg.eigvalsh(whole.A)[0] > -1e-12 * np.abs(whole.A).max()
        for bore in plan.bores:
            area = np.pi * bore.gas**2 / 4.0
            expected = np.array([area, area * bore.y, -area * bore.x])
            assert np.allclose(whole.gas[bore.label].r, expected, atol=1e-9 * area * size * 4)
