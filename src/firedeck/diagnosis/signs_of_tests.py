"""From readings to signs: what compression and leak-down say in the words of the evidence table."""

from collections.abc import Collection
from statistics import median

from firedeck.diagnosis.compression import CompressionSpread
from firedeck.diagnosis.thresholds import threshold
from firedeck.diagnosis.who_is_low import alike_runs
from firedeck.errors import OutOfRange

AIR_GOES = ("neighbour", "coolant", "intake", "exhaust", "sump", "outside")
_OUTCOMES = ("adjacent-pair-low", "one-low", "several-low", "even")


def compression_signs(spread: CompressionSpread) -> dict[str, bool]:
    """Signs that compression readings show.

    Parameters
    ----------
    spread : CompressionSpread
        Readings of one bank, read together [core].

    Returns
    -------
    dict
        Sign ids of tables/data/leak_evidence.csv with True or False [1].

    Valid for
    ---------
    One bank.

    Source
    ------
    [generic-ours] how the evidence table words its signs.

    Examples
    --------
    >>> from firedeck.diagnosis.compression import compression_spread
    >>> signs = compression_signs(compression_spread((1.10, 0.61, 0.63, 1.08)))
    >>> [name for name, seen in signs.items() if seen]
    ['compression-adjacent-pair-low']
    """
    outcome = _outcome(spread)
    signs = {f"compression-{name}": name == outcome for name in _OUTCOMES}
    if spread.wet and spread.suspects:
        signs["wet-gain-on-low"] = _gains_more(spread)
    return signs


def _gains_more(spread: CompressionSpread) -> bool:
    """Whether a low cylinder gains more than the oil and more than the sound ones, whose rings the oil helps too."""
    low = [one for one in spread.wet if one.cylinder in spread.suspects]
    sound = [one.beyond_oil for one in spread.wet if one.cylinder not in spread.suspects]
    usual = max(median(sound), 0.0) if sound else 0.0
    least = usual + threshold("ring_gain_over_highest") * max(spread.readings)
    return any(one.rings and one.beyond_oil > least for one in low)


def _outcome(spread: CompressionSpread) -> str:
    if not spread.suspects:
        return "even"
    if len(spread.suspects) == 1:
        return "one-low"
    longest = max(len(run) for run in alike_runs(spread.readings, spread.suspects))
    return "adjacent-pair-low" if longest == 2 else "several-low"


def leak_down_signs(air_goes: Collection[str]) -> dict[str, bool]:
    """Signs that a leak-down with listening at every place shows.

    Parameters
    ----------
    air_goes : collection of str
        Places where air was heard, felt or seen, of neighbour, coolant, intake, exhaust, sump,
        outside; the other places were listened at and silent [text].

    Returns
    -------
    dict
        Sign ids of tables/data/leak_evidence.csv with True or False [1].

    Raises
    ------
    OutOfRange
        For a place that is not in the list.

    Source
    ------
    [generic-ours] how the evidence table words its signs.

    Examples
    --------
    >>> leak_down_signs(["coolant"])["air-to-coolant"]
    True
    """
    for place in air_goes:
        if place not in AIR_GOES:
            raise OutOfRange("air_goes", place, f"allowed: {', '.join(AIR_GOES)}")
    return {f"air-to-{place}": place in air_goes for place in AIR_GOES}
