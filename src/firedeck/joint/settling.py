"""Ask a joint many things at once: fast where that settles, else safe, else the judge, else an error that says so."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from firedeck.errors import DidNotConverge
from firedeck.joint.chord import STANDARD, Operator, Stop, go_round
from firedeck.joint.clamped import Case, ClampedJoint, columns_of
from firedeck.joint.laws import Floats
from firedeck.joint.newton import settle


@dataclass(frozen=True)
class Settled:
    """States side by side: closures and forces (n, m) [mm], [N], who settled how many.

    The forces balance the loads to rounding; ``residual`` is the most by which they miss a law [N/mm or MPa].
    """

    w: Floats
    forces: Floats
    residual: float
    ways: tuple[tuple[str, int], ...]


def settle_all(
    joint: ClampedJoint,
    operators: Sequence[Operator],
    case: Case,
    start: Floats,
    stop: Stop = STANDARD,
) -> Settled:
    """Find the equilibrium of every column.

    Parameters
    ----------
    joint : ClampedJoint
        The joint [mm/N].
    operators : sequence of Operator
        Fast ones first, safe ones last [mm/N].
    case : Case
        What springs remember and the loads, with or without columns [mm], [N].
    start : ndarray, shape (n, m)
        Closures to begin at [mm].
    stop : Stop
        When a column is left alone, and rounds of the last operator [N/mm or MPa].

    Returns
    -------
    Settled
        Closures and forces, and how many columns each way settled [mm], [N].

    Raises
    ------
    DidNotConverge
        If the judge does not settle a column either.

    Source
    ------
    derived
    """
    columns = start.shape[1]
    w, forces = start.copy(), np.zeros_like(start)
    left, open_ = np.full(columns, np.inf), np.arange(columns)
    ways: list[tuple[str, int]] = []
    for place, made in enumerate(operators):
        if not len(open_):
            break
        last = place == len(operators) - 1
        limit = stop if last else replace(stop, rounds=min(stop.quick, stop.rounds))
        asked, begin = (case, start) if len(open_) == columns else (columns_of(case, open_), start[:, open_])
        found = go_round(made, joint.springs, asked, begin, limit)
        done = found.residual <= stop.tolerance
        settled = open_[done]
        w[:, settled], forces[:, settled] = found.w[:, done], found.forces[:, done]
        left[settled] = found.residual[done]
        ways.append((made.way, int(done.sum())))
        open_ = open_[~done]
    if len(open_):
        ways.append(("newton", len(open_)))
    for column in open_:
        found_one = settle(joint, columns_of(case, int(column)))
        w[:, column], forces[:, column], left[column] = found_one.w, found_one.forces, found_one.residual
    if not np.isfinite(w).all():
        raise DidNotConverge("the clamped joint", stop.rounds, float(left.max()))
    return Settled(w, forces, float(left.max()), tuple(ways))
