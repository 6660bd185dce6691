"""How liners stand: spread round each one, step from one to the next, and against the limits of the book."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.errors import JobError
from firedeck.quantity import Outcome, meets
from firedeck.trace import DERIVED, GENERIC, Note, Step

_ORDER = {Outcome.HOLDS: 0, Outcome.AT_LIMIT: 1, Outcome.FAILS: 2}


@dataclass(frozen=True)
class LinerLimits:
    """Limits of the book [mm]; None where it gives none."""

    within: float | None = None
    step: float | None = None
    low: float | None = None
    high: float | None = None


def limits_in_order(figures: Sequence[float]) -> LinerLimits:
    """Limits of the book from a plain list.

    Parameters
    ----------
    figures : sequence of float
        Two: most spread within a liner, most step between neighbours. Four: least stand, most stand,
        then the same two [mm].

    Returns
    -------
    LinerLimits
        The limits by name [mm].

    Raises
    ------
    JobError
        If there are not two or four figures.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> limits_in_order((0.03, 0.05)).step
    0.05
    """
    match tuple(figures):
        case (within, step):
            return LinerLimits(within, step)
        case (low, high, within, step):
            return LinerLimits(within, step, low, high)
    raise JobError(
        "liner-step limits",
        f"{len(figures)} figures",
        "give two (spread within a liner, step between) or four (least stand, most stand, spread, step)",
    )


@dataclass(frozen=True)
class LinerStep:
    """Largest spread round a liner and largest step between neighbours [mm], and the verdict."""

    spread_within: float
    step_between: float
    highest: float
    lowest: float
    verdict: Outcome
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


@dataclass(frozen=True)
class LinerStand:
    """How the liners stand, with no limit held against it: each a written sum [mm]."""

    spread_within: Step
    step_between: Step
    highest: Step
    lowest: Step
    step_of_highest: Step


def liner_stand(readings: Sequence[Sequence[float]]) -> LinerStand:
    """Largest spread round one liner, largest step between neighbours, highest and lowest reading.

    Parameters
    ----------
    readings : sequence of sequence of float
        Readings liner by liner in engine order, positive above the block [mm].

    Returns
    -------
    LinerStand
        Spread, step by means and by highest readings, highest and lowest as written sums [mm].

    Raises
    ------
    JobError
        If a liner has no reading.

    Source
    ------
    derived

    Examples
    --------
    >>> round(liner_stand([[0.10, 0.12], [0.14, 0.14]]).step_between.value, 3)
    0.03
    """
    if not readings or any(not each for each in readings):
        raise JobError("liner-step readings", "no reading for a liner", "give three or four for each liner")
    return LinerStand(
        _spread_step(readings), _between_step(readings), *_ends(readings), _between_highest(readings)
    )


def liner_step(readings: Sequence[Sequence[float]], limits: LinerLimits) -> LinerStep:
    """Judge how the liners stand against the limits of the book.

    Parameters
    ----------
    readings : sequence of sequence of float
        Readings liner by liner in engine order, three or four each, positive above the block [mm].
    limits : LinerLimits
        Limits of the book: spread within a liner, step between neighbours, least and most stand [mm].

    Returns
    -------
    LinerStep
        Largest spread within a liner, largest step between means of neighbours, highest and lowest
        reading [mm], and the worst outcome.

    Raises
    ------
    JobError
        If there are no readings or no limit at all.

    Valid for
    ---------
    Liners clamped as the book says when read; a reading without clamps is not final.

    Source
    ------
    derived

    Examples
    --------
    >>> found = liner_step([[0.10, 0.11, 0.10], [0.12, 0.12, 0.13]], LinerLimits(within=0.03, step=0.05))
    >>> round(found.step_between, 3), found.verdict.value
    (0.02, 'holds')
    """
    stand = liner_stand(readings)
    if limits == LinerLimits():
        raise JobError("liner-step limits", "none", "give the limits of the book; there is no default")
    spread, step = stand.spread_within, stand.step_between
    ends = (stand.highest, stand.lowest)
    outcomes = _outcomes(spread.value, step.value, (ends[0].value, ends[1].value), limits)
    worst = max((outcome for _, outcome in outcomes), key=lambda outcome: _ORDER[outcome])
    return LinerStep(
        spread.value,
        step.value,
        ends[0].value,
        ends[1].value,
        worst,
        (spread, step, *ends),
        (Note("liners clamped as the book says when read; unclamped readings are not final", GENERIC),),
        _cautions(readings, outcomes),
    )


def _named(readings: Sequence[Sequence[float]]) -> dict[str, tuple[float, str]]:
    return {
        f"liner_{n}_{place}": (value, "mm")
        for n, each in enumerate(readings, start=1)
        for place, value in enumerate(each, start=1)
    }


def _spread_step(readings: Sequence[Sequence[float]]) -> Step:
    terms = []
    for n, each in enumerate(readings, start=1):
        names = ", ".join(f"liner_{n}_{place}" for place in range(1, len(each) + 1))
        terms.append(f"max({names}) - min({names})" if len(each) > 1 else f"liner_{n}_1 - liner_{n}_1")
    formula = f"max({', '.join(terms)})" if len(terms) > 1 else terms[0]
    return Step.work_out(
        "Largest spread round one liner", formula, _named(readings), ("spread_within", "mm"), DERIVED
    )


def _between_step(readings: Sequence[Sequence[float]]) -> Step:
    means = [sum(each) / len(each) for each in readings]
    return _between("Largest step between neighbours, by means", "mean", means)


def _between_highest(readings: Sequence[Sequence[float]]) -> Step:
    return _between(
        "Largest step between neighbours, by highest readings", "top", [max(each) for each in readings]
    )


def _between(says: str, name: str, values: Sequence[float]) -> Step:
    inputs = {f"{name}_{n}": (value, "mm") for n, value in enumerate(values, start=1)}
    pairs = [f"abs({name}_{n + 1} - {name}_{n})" for n in range(1, len(values))]
    formula = f"0 * {name}_1" if not pairs else pairs[0] if len(pairs) == 1 else f"max({', '.join(pairs)})"
    return Step.work_out(says, formula, inputs, ("step_between", "mm"), DERIVED)


def _ends(readings: Sequence[Sequence[float]]) -> tuple[Step, Step]:
    named = _named(readings)
    names = ", ".join(named)
    many = len(named) > 1
    high = Step.work_out(
        "Highest reading", f"max({names})" if many else names, named, ("highest", "mm"), DERIVED
    )
    low = Step.work_out(
        "Lowest reading", f"min({names})" if many else names, named, ("lowest", "mm"), DERIVED
    )
    return high, low


def _outcomes(
    spread: float, step: float, ends: tuple[float, float], limits: LinerLimits
) -> list[tuple[str, Outcome]]:
    found = []
    if limits.within is not None:
        found.append(("spread within a liner", meets(spread, high=limits.within)))
    if limits.step is not None:
        found.append(("step between neighbours", meets(step, high=limits.step)))
    if limits.low is not None:
        found.append(("lowest stand", meets(ends[1], low=limits.low)))
    if limits.high is not None:
        found.append(("highest stand", meets(ends[0], high=limits.high)))
    return found


def _cautions(readings: Sequence[Sequence[float]], outcomes: list[tuple[str, Outcome]]) -> tuple[Note, ...]:
    notes = [
        Note(f"{what}: {outcome.value}", DERIVED)
        for what, outcome in outcomes
        if outcome is not Outcome.HOLDS
    ]
    if any(len(each) < 3 for each in readings):
        notes.append(Note("fewer than three readings round a liner do not show a tilt", GENERIC))
    return tuple(notes)
