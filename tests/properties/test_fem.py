"""Bodies of bricks: what must hold for every one of them."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.ndimage import label

from firedeck.errors import OutOfRange
from firedeck.fem import (
    Body,
    Face,
    Material,
    condense,
    face_points,
    held_on_plane,
    joined,
    rigid_motions,
    whole_piece,
)

METAL = Material(modulus=100e3, poisson=0.3)
EDGES = st.lists(st.floats(0.5, 8.0), min_size=2, max_size=5)


@st.composite
def blocks(draw):
    """A block without holes, each brick of its own share of metal."""
    x, y, z = (np.concatenate([[0.0], np.cumsum(draw(EDGES))]) for _ in range(3))
    seed = draw(st.integers(0, 2**32 - 1))
    share = np.random.default_rng(seed).uniform(0.3, 1.0, (len(x) - 1, len(y) - 1, len(z) - 1))
    return Body(x, y, z, share, METAL)


def top_points(body):
    """A grid of points on the upper face."""
    x, y = np.meshgrid(np.linspace(0.0, body.x[-1], 4), np.linspace(0.0, body.y[-1], 3))
    return face_points(body, Face(len(body.z) - 1, upward=False), x.ravel(), y.ravel())


class TestMoreMetalNeverGivesWayMore:
    """Metal added anywhere makes no point give way more under its own load."""

    @given(blocks(), st.integers(0, 2**32 - 1))
    @settings(max_examples=20, deadline=None)
    def test_it(self, body, seed):
        more = np.random.default_rng(seed).uniform(0.0, 0.5, body.share.shape)
        fuller = Body(body.x, body.y, body.z, body.share + more, METAL)
        columns, held = top_points(body), held_on_plane(body, 0)
        before, after = condense(body, columns, held), condense(fuller, columns, held)
        assert np.linalg.eigvalsh(before - after)[0] > -1e-9 * np.abs(before).max()


class TestAColumnKeepsItsForceAndMoments:
    """However a load is spread over nodes, its force and moments are those of the point."""

    @given(blocks(), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
    @settings(max_examples=30, deadline=None)
    def test_it(self, body, s, t):
        x, y = np.array([s * body.x[-1]]), np.array([t * body.y[-1]])
        columns = joined([face_points(body, Face(0, upward=True), x, y), top_points(body)])
        found = rigid_motions(body, columns)[0]
        assert np.allclose(
            found, [0.0, 0.0, 1.0, y[0], -x[0], 0.0], atol=1e-9 * (1.0 + body.x[-1] + body.y[-1])
        )


class TestTheLargestPieceIsKept:
    """What hangs together by faces is found as a general tool for labels finds it."""

    @given(st.integers(0, 2**32 - 1), st.floats(0.6, 0.95))
    @settings(max_examples=30, deadline=None)
    def test_it(self, seed, full):
        rng = np.random.default_rng(seed)
        share = np.where(rng.random((7, 6, 5)) < full, rng.uniform(0.1, 1.0, (7, 6, 5)), 0.0)
        names, count = label(share > 0.0)
        sizes = np.bincount(names.ravel(), minlength=count + 1)[1:]
        if sizes.sum() - sizes.max() <= 0.05 * sizes.sum() and (sizes == sizes.max()).sum() == 1:
            assert (whole_piece(share) == np.where(names == sizes.argmax() + 1, share, 0.0)).all()
        elif sizes.sum() - sizes.max() > 0.05 * sizes.sum():
            with pytest.raises(OutOfRange, match="hang loose"):
                whole_piece(share)
