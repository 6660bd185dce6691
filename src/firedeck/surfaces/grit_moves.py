"""Metropolis steps of grit: put under an edge or taken away, and the whole face bent as that wants.

A face that was led to a line on grit without grit under it is bent or dented there. Grit alone would make that
worse; only together with the bend it replaces is it taken.
"""

import numpy as np

from firedeck.surfaces.cloud import GRIT, GRIT_SHARE, LIFT, Cloud
from firedeck.surfaces.faces_allowed import Counts
from firedeck.surfaces.leaf_odds import on_grit
from firedeck.surfaces.resting import Floats

TAKEN = 0.5
"""Share of the tries that take grit away where there is some; the others put other grit there [1]."""

MORE_LEAN = float(np.log(GRIT_SHARE / (1.0 - GRIT_SHARE) * TAKEN))


def put_or_take(cloud: Cloud) -> None:
    """Put grit under one edge of every face, or take it away, and let all smooth numbers answer.

    Parameters
    ----------
    cloud : Cloud
        The faces, changed in place [µm].

    Source
    ------
    derived
    """
    draw, number, every = cloud.random, cloud.number, np.arange(cloud.number)
    line = draw.integers(cloud.lines, size=number)
    old, was = cloud.grit[line, every], cloud.spot[line, every]
    put = (old == 0) | (draw.random(number) >= TAKEN)
    thick = draw.choice((-1.0, 1.0), number) * draw.uniform(*GRIT, number) * put
    new, at = thick.astype(np.float32), draw.uniform(0, 2, number).astype(np.float32)
    lead = MORE_LEAN * (1.0 * put - (old != 0))
    more = (_lifted(cloud, line, new, at) - _lifted(cloud, line, old, was)) / np.float32(LIFT)
    shift = (cloud.order.answer_lift[:, :, line] * more).sum(axis=1)
    grit, spot = cloud.grit.copy(), cloud.spot.copy()
    grit[line, every], spot[line, every] = new, at
    cloud.answered(shift, lead, None, (grit, spot))


def _lifted(cloud: Cloud, line: Counts, grit: Floats, spot: Floats) -> Floats:
    """How much grit lifts the edge over the left and the right contact (2, n), as the first order takes them [µm]."""
    left, right = cloud.order.contacts[:, line]
    other, tilt = on_grit((left, right), cloud.leaves.half_length[line, 0], grit, spot)
    return np.stack((tilt * (left - other), tilt * (right - other)))
