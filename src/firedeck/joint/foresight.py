"""Where the next joints will come to lie, from those that have settled: least squares on the tensions of their bolts.

Only a start for the rounds that follow: a poor guess costs rounds and changes no result.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firedeck.joint.laws import Floats

ENOUGH = 1.5
"""Joints to learn from for each figure that is learnt."""
ALIKE = 1e-6
"""Patterns of tension weaker than this share of the strongest teach nothing."""


@dataclass(frozen=True)
class Foresight:
    """What each stage adds to its plain start, per feature of the tensions: one array (features, n) for each [mm]."""

    per_feature: tuple[Floats, ...]
    curved: bool

    def of(self, stage: int, share: Floats) -> Floats:
        """What to add to the plain start of some joints.

        Parameters
        ----------
        stage : int
            Number of the stage [1].
        share : ndarray, shape (b, m)
            Tension of every bolt over what is meant, less one [1].

        Returns
        -------
        ndarray, shape (n, m), or nought where nothing was learnt
            Closures [mm].

        Source
        ------
        derived
        """
        if not self.per_feature:
            return np.zeros((1, share.shape[1]))
        result: Floats = self.per_feature[stage].T @ _features(share, self.curved)
        return result


NONE = Foresight((), curved=False)


def learnt(share: Floats, missed: Sequence[Floats]) -> Foresight:
    """Learn from joints that have settled.

    Parameters
    ----------
    share : ndarray, shape (b, m)
        Tension of every bolt over what is meant, less one [1].
    missed : sequence of ndarray, shape (n, m)
        For each stage by how much its plain start missed where the joints came to lie [mm].

    Returns
    -------
    Foresight
        Straight in the tensions, and bent with their mean where there are joints enough for it [mm].

    Source
    ------
    derived
    """
    bolts, joints = share.shape
    if joints < ENOUGH * (1 + bolts):
        return NONE
    curved = joints >= ENOUGH * (1 + 2 * bolts)
    features = _features(share, curved).T
    learn = np.linalg.pinv(features, rcond=ALIKE)
    return Foresight(tuple(learn @ one.T for one in missed), curved)


def _features(share: Floats, curved: bool) -> Floats:
    """One, every tension, and every tension times the mean of all, shape (features, m)."""
    parts = [np.ones((1, share.shape[1])), share]
    return np.concatenate([*parts, share * share.mean(axis=0)] if curved else parts)
