"""Which pieces of which bodies to hand to which process, so that all are done at about the same time."""

from collections.abc import Sequence

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.fem.condensing import Plan, work

FAIR_ENOUGH = 1.05
"""Pieces are cut no further once the longest hand takes this much of an even share."""
MOST_CUTS = 12
Job = tuple[int, int]


def share_out(plans: Sequence[Plan], hands: int) -> tuple[tuple[Job, ...], ...]:
    """Share the condensation of some bodies out among processes.

    Each hand condenses its pieces with :func:`firedeck.fem.condense_piece`; :func:`firedeck.fem.finish` then joins the
    pieces of one body.

    Parameters
    ----------
    plans : sequence of Plan
        Bodies [1].
    hands : int
        Processes [1].

    Returns
    -------
    tuple of tuple of (int, int)
        For each hand its jobs, dearest first: number of the body, number of the piece [1].

    Raises
    ------
    OutOfRange
        If there is no hand.

    Source
    ------
    derived

    Examples
    --------
    >>> share_out([], 2)
    ((), ())
    """
    if hands < 1:
        raise OutOfRange("processes", f"{hands}", "one or more")
    costs = [work(plan) for plan in plans]
    jobs = [(number, len(plan.tree.pieces) - 1) for number, plan in enumerate(plans)]
    even = sum(float(cost[-1]) for cost in costs) / hands
    for _ in range(MOST_CUTS):
        shares = _dealt(jobs, costs, hands)
        longest = max(sum(float(costs[body][piece]) for body, piece in share) for share in shares)
        dearest = max(jobs, key=lambda job: costs[job[0]][job[1]], default=None)
        if dearest is None or longest <= FAIR_ENOUGH * even:
            break
        halves = plans[dearest[0]].tree.pieces[dearest[1]].halves
        if not halves:
            break
        jobs.remove(dearest)
        jobs += [(dearest[0], half) for half in halves]
    return tuple(tuple(share) for share in _dealt(jobs, costs, hands))


def _dealt(jobs: Sequence[Job], costs: Sequence[np.ndarray], hands: int) -> list[list[Job]]:
    """Deal jobs, dearest first, each to the hand with the least to do."""
    shares: list[list[Job]] = [[] for _ in range(hands)]
    busy = [0.0] * hands
    for body, piece in sorted(jobs, key=lambda job: -float(costs[job[0]][job[1]])):
        hand = busy.index(min(busy))
        shares[hand].append((body, piece))
        busy[hand] += float(costs[body][piece])
    return shares
