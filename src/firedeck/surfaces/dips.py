"""Dips that most of the faces have at the same place."""

from dataclasses import dataclass

import numpy as np

from firedeck.surfaces.faces_allowed import Sampled
from firedeck.surfaces.lines import Place
from firedeck.surfaces.points import Array

LEAST = 20.0
"""Dips shallower than this are not spoken of [µm]."""


@dataclass(frozen=True)
class DipFound:
    """A dip most of the faces have: middle, depth, size [mm], and the share of the faces that have it."""

    x: float
    y: float
    depth: float
    size: float
    share: float


def dips_found(sampled: Sampled, least_share: float = 0.5, near: float = 12.0) -> tuple[DipFound, ...]:
    """Dips deeper than 0.02 mm that most faces have at the same place.

    Parameters
    ----------
    sampled : Sampled
        Faces the readings allow [µm].
    least_share : float
        Share of the faces that have it [1].
    near : float
        Dips nearer than this are the same one [mm].

    Returns
    -------
    tuple of DipFound
        The surest first [mm].

    Source
    ------
    derived
    """
    alive = (np.arange(sampled.dips.shape[1])[:, None] < sampled.count) & (sampled.dips[2] > LEAST)
    face = np.broadcast_to(np.arange(sampled.count.size), alive.shape)[alive]
    x, y, depth, size = sampled.dips[:, alive].astype(np.float64)
    found: list[DipFound] = []
    free = np.ones(len(x), dtype=bool)
    while free.any():
        best = _most_crowded(x[free], y[free], near)
        close = np.hypot(x - best[0], y - best[1]) < near
        mine = close & free
        share = len(np.unique(face[mine])) / sampled.count.size
        if share < least_share:
            break
        found.append(
            DipFound(
                float(np.median(x[mine])),
                float(np.median(y[mine])),
                float(np.median(depth[mine])) / 1000.0,
                float(np.median(np.exp(size[mine]))),
                share,
            )
        )
        free &= np.hypot(x - best[0], y - best[1]) >= 1.6 * near
    return tuple(found)


def _most_crowded(x: Array, y: Array, near: float) -> Place:
    """Middle of the place with the most dips around it."""
    cells = np.round(np.column_stack((x, y)) / (near / 2.0)).astype(np.intp)
    kinds, counts = np.unique(cells, axis=0, return_counts=True)
    middles = kinds * (near / 2.0)
    around = (np.hypot(*(middles[:, None] - middles).transpose(2, 0, 1)) < near) @ counts
    at = middles[int(around.argmax())]
    close = np.hypot(x - at[0], y - at[1]) < near
    return (
        (float(np.median(x[close])), float(np.median(y[close])))
        if close.any()
        else (float(at[0]), float(at[1]))
    )
