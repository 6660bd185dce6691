"""Which low cylinders stand side by side, in words."""

from collections.abc import Sequence

from firedeck.diagnosis.thresholds import threshold

EVEN = "even"


def pattern_of(readings: Sequence[float], suspects: Sequence[int]) -> str:
    """Say how the low cylinders lie to each other.

    Parameters
    ----------
    readings : sequence of float
        Readings in the order in which the cylinders stand, shape (n,) [MPa].
    suspects : sequence of int
        Cylinders called low, counted from 1, in order [1].

    Returns
    -------
    str
        "even", "one low: 3", "adjacent pair low: 2-3", ... parted by "; " [text].

    Valid for
    ---------
    One bank: the list order is the order along the block.

    Source
    ------
    [generic-ours] two neighbours share a leak only if their readings are alike.

    Examples
    --------
    >>> pattern_of((0.5, 0.1, 0.7, 0.7), (1, 2))
    'adjacent pair low but unequal: 1-2'
    """
    if not suspects:
        return EVEN
    runs = neighbours(suspects)
    return "; ".join(_say(readings, run) for run in sorted(runs, key=len, reverse=True))


def alike_runs(readings: Sequence[float], suspects: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    """Part low cylinders into runs of neighbours with like readings.

    Parameters
    ----------
    readings : sequence of float
        Readings in the order in which the cylinders stand, shape (n,) [MPa].
    suspects : sequence of int
        Cylinders called low, counted from 1, in order [1].

    Returns
    -------
    tuple of tuple of int
        The runs [1].

    Source
    ------
    [generic-ours] two neighbours share a leak only if their readings are alike.

    Examples
    --------
    >>> alike_runs((1.2, 0.2, 0.0, 0.0), (2, 3, 4))
    ((2,), (3, 4))
    """
    return tuple(part for run in neighbours(suspects) for part in _alike_parts(readings, run))


def neighbours(cylinders: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    """Part cylinders into runs that stand side by side.

    Parameters
    ----------
    cylinders : sequence of int
        Cylinders in order, counted from 1 [1].

    Returns
    -------
    tuple of tuple of int
        The runs [1].

    Source
    ------
    [derived] counting.

    Examples
    --------
    >>> neighbours((2, 3, 6))
    ((2, 3), (6,))
    """
    runs: list[tuple[int, ...]] = []
    for cylinder in cylinders:
        if runs and runs[-1][-1] == cylinder - 1:
            runs[-1] = (*runs[-1], cylinder)
        else:
            runs.append((cylinder,))
    return tuple(runs)


def _say(readings: Sequence[float], run: tuple[int, ...]) -> str:
    parts = sorted(_alike_parts(readings, run), key=len, reverse=True)
    if len(parts[0]) == 1 < len(run):
        return f"{_kind(run)} low but unequal: {_names(run)}"
    beside = [f"low beside it: {_names(part)}" for part in parts[1:]]
    return "; ".join([f"{_kind(parts[0])} low: {_names(parts[0])}", *beside])


def _kind(run: tuple[int, ...]) -> str:
    return {1: "one", 2: "adjacent pair"}.get(len(run), f"adjacent {len(run)}")


def _names(run: tuple[int, ...]) -> str:
    return "-".join(str(cylinder) for cylinder in run)


def _alike_parts(readings: Sequence[float], run: tuple[int, ...]) -> list[tuple[int, ...]]:
    parts: list[tuple[int, ...]] = [run[:1]]
    for cylinder in run[1:]:
        one, other = readings[parts[-1][-1] - 1], readings[cylinder - 1]
        if min(one, other) >= threshold("pair_unequal_below") * max(one, other):
            parts[-1] = (*parts[-1], cylinder)
        else:
            parts.append((cylinder,))
    return parts
