"""Steps of shapes, bow of the edge and lifts together, uphill and at random: Langevin steps, corrected by Metropolis."""

import numpy as np

from firedeck.surfaces.cloud import LIFT, Cloud
from firedeck.surfaces.first_order import FirstOrder
from firedeck.surfaces.resting import Floats


def climb(cloud: Cloud, order: FirstOrder, size: float, number: int) -> float:
    """Move all smooth numbers of every face.

    Parameters
    ----------
    cloud : Cloud
        The faces, changed in place [µm].
    order : FirstOrder
        How the gaps follow them.
    size : float
        Size of a step [1].
    number : int
        How many steps [count].

    Returns
    -------
    float
        Share of the steps taken [1].

    Source
    ------
    derived
    """
    far = np.float32(size)
    smooth, shapes = cloud.smooth, len(cloud.scatter)
    scatter = cloud.scatter.astype(np.float32)
    _, uphill = _uphill(cloud, order, smooth, cloud.heights, cloud.lift)
    taken = 0.0
    for _ in range(number):
        noise = cloud.random.standard_normal(smooth.shape, dtype=np.float32)
        step = order.root @ (np.float32(0.5) * far * far * uphill + far * noise)
        heights = cloud.linear @ (step[:shapes] * scatter)
        heights += cloud.heights
        lift = cloud.lift + np.float32(LIFT) * step[shapes:].reshape(cloud.lift.shape)
        new = smooth + step
        odds, there = _uphill(cloud, order, new, heights, lift)
        back = noise + np.float32(0.5) * far * (uphill + there)
        lead = 0.5 * (smooth**2 - new**2).sum(axis=0) + 0.5 * (noise**2 - back**2).sum(axis=0)
        gain = (odds - cloud.odds).sum(axis=0, dtype=np.float64) + lead
        yes = np.asarray(np.log(cloud.random.random(cloud.number)) < gain)
        for old, one in ((cloud.heights, heights), (smooth, new), (uphill, there), (cloud.odds, odds)):
            np.copyto(old, one, where=yes)
        np.copyto(cloud.lift, lift, where=yes)
        taken += float(yes.mean()) / number
    cloud.shapes = smooth[:shapes] * scatter
    return taken


def _uphill(
    cloud: Cloud, order: FirstOrder, smooth: Floats, heights: Floats, lift: Floats
) -> tuple[Floats, Floats]:
    """Odds of every line, and the way in which the smooth numbers agree better with the leaves."""
    leaves = cloud.leaves
    gaps = leaves.gaps(heights, leaves.edges(heights, cloud.weight), cloud.under_lift(lift))
    told, pull = leaves.told_and_pull(gaps, cloud.blur)
    odds = leaves.or_nothing(told, cloud.blur)
    pull *= np.exp(np.minimum(told - odds, 0))[leaves.line]
    return odds, np.asarray(order.root.T @ (order.gaps @ pull - smooth))
