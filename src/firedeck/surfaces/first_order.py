"""How gaps follow the heights to first order: where smooth numbers have to go when a dip changes."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from firedeck.surfaces.leaf_odds import LeafOdds
from firedeck.surfaces.points import Array
from firedeck.surfaces.resting import Edges, Floats
from firedeck.surfaces.touching import Touching


@dataclass(frozen=True)
class FirstOrder:
    """Smooth numbers are the shapes, the bow of the edge and the lifts, each over its scatter (k of them).

    ``gaps`` (k, r) is what a gap gains by each, ``answer`` (k, p) by how much they have to change for a change
    of the heights to be felt least, ``root`` (k, k) how they vary together while the dips stay. ``contacts`` (2, l) are
    the places from the middle of each line on which the edge is taken to stand [mm], and ``answer_lift`` (k, 2, l) is
    by how much the smooth numbers have to change for an edge that something lifts there by one scatter of the lifts.
    """

    gaps: Floats
    answer: Floats
    root: Floats
    contacts: Floats
    answer_lift: Floats


ON_ONE_PLACE = 0.5
"""Share of the right contact where both stand on one and the same place most often: there it only goes up and down [1]."""


def first_order(
    leaves: LeafOdds, edges: Edges, pull: Floats, along: Array, shapes: Array, *, lift: float
) -> FirstOrder:
    """Work out how the gaps of many faces follow their heights; every edge stands where it stands on most of them.

    Parameters
    ----------
    leaves : LeafOdds
        The readings.
    edges : Edges
        How the edges lie on the faces [µm].
    pull : ndarray, shape (r, n)
        What the odds of each line gain per µm of each gap [1/µm].
    along : ndarray, shape (p,)
        Places from the middle of their line [mm].
    shapes : ndarray, shape (p, 13)
        Heights at all places for one scatter of each shape and of the bow of the edge [µm].
    lift : float
        Scatter of the lifts [µm].

    Returns
    -------
    FirstOrder
        The same for all faces: it only says where moves go, not which are taken [1].

    Source
    ------
    derived
    """
    lines, at = len(leaves.readings), along
    worth = (pull.astype(np.float64) ** 2).mean(axis=1)
    left, right = _contacts(leaves.touching, edges)
    reach, from_left = (
        (at[right] - at[left])[leaves.line],
        at[leaves.sides].mean(axis=0) - at[left][leaves.line],
    )
    share = np.divide(from_left, reach, out=np.full_like(reach, ON_ONE_PLACE), where=reach > 0)
    number = np.arange(len(leaves.line))
    by_height = np.zeros((len(number), len(at)))
    np.add.at(by_height, (number, left[leaves.line]), 1.0 - share)
    np.add.at(by_height, (number, right[leaves.line]), share)
    for side in leaves.sides:
        np.add.at(by_height, (number, side), -0.5)
    by_lift = np.zeros((len(number), 2 * lines))
    by_lift[number, leaves.line] = lift * (1.0 - share)
    by_lift[number, lines + leaves.line] = lift * share
    smooth = np.hstack((by_height @ shapes, by_lift))
    weighed = smooth.T * worth
    cover = np.linalg.inv(weighed @ smooth + np.eye(smooth.shape[1]))
    cover = 0.5 * (cover + cover.T)
    return FirstOrder(
        gaps=smooth.T.astype(np.float32),
        answer=(-cover @ (weighed @ by_height)).astype(np.float32),
        root=np.linalg.cholesky(cover).astype(np.float32),
        contacts=at[np.stack((left, right))].astype(np.float32),
        answer_lift=(cover - np.eye(len(cover)))[:, -2 * lines :].reshape(-1, 2, lines).astype(np.float32),
    )


def _contacts(
    blocks: tuple[Touching, ...], edges: Edges
) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]:
    """Numbers of the places on which every edge stands most often, left and right."""
    found = []
    for side in (0, 1):
        numbers = []
        for block in blocks:
            at, stands = ((block.left_at, edges.left), (block.right_at, edges.right))[side]
            often: Array = (at == stands[block.lines]).sum(axis=2)
            lines = at.shape[1]
            numbers.append(
                block.first + (side * block.half + often.argmax(axis=0)) * lines + np.arange(lines)
            )
        found.append(np.concatenate(numbers))
    return found[0], found[1]
