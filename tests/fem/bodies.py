"""Bodies the tests of the room use."""

import numpy as np

from firedeck.fem import Body, Material, whole_piece

STEEL = Material(modulus=210e3, poisson=0.3, expansion=12e-6)


def plain(x, y, z, material=STEEL):
    """A body without holes on given planes."""
    planes = [np.asarray(p, dtype=float) for p in (x, y, z)]
    return Body(*planes, np.ones([len(p) - 1 for p in planes]), material)


def ragged(seed, bricks=(9, 7, 5), material=STEEL):
    """An uneven body with voids and half-filled bricks, in one piece."""
    rng = np.random.default_rng(seed)
    planes = [np.concatenate([[0.0], np.cumsum(rng.uniform(1.0, 2.5, n))]) for n in bricks]
    share = np.where(rng.random(bricks) < 0.2, 0.0, rng.uniform(0.3, 1.0, bricks))
    return Body(*planes, whole_piece(share), material)


def on_plane(body, axis, value):
    """Grid nodes of metal on a plane."""
    places = body.places()
    return np.flatnonzero(body.touched.ravel() & (np.abs(places[:, axis] - value) < 1e-9))
