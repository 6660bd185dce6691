"""From readings to signs: what compression and leak-down say in the words of the evidence table."""

from collections.abc import Collection, Sequence
from statistics import median

from firedeck.diagnosis.compression import CompressionSpread
from firedeck.diagnosis.thresholds import threshold
from firedeck.diagnosis.who_is_low import alike_runs
from firedeck.errors import OutOfRange

STRANGE = frozenset({"neighbour", "coolant", "outside"})
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


def air_that_counts(goes: Sequence[Collection[str]], lost: Sequence[float]) -> set[str]:
    """Places where air was heard that a leak-down can be held to.

    Air past rings, and a breath past the valves, is heard at every sound cylinder. It counts at one that stands
    out from the best, or where all lose much; air at the neighbour, in the coolant or outside belongs nowhere.

    Parameters
    ----------
    goes : sequence of collections of str
        For each cylinder the places where its air was heard [text].
    lost : sequence of float
        Share of air each loses, in the same order [1].

    Returns
    -------
    set of str
        Places for ``leak_down_signs`` [text].

    Source
    ------
    [generic-ours] margins of tables/data/diagnosis_rules.csv.

    Examples
    --------
    >>> sorted(air_that_counts([["sump"], ["sump", "exhaust"]], [0.06, 0.7]))
    ['exhaust', 'sump']
    >>> sorted(air_that_counts([["sump"], ["sump", "coolant"]], [0.06, 0.08]))
    ['coolant']
    """
    best = min(lost)
    worn = best >= threshold("all_lose_much")
    counts = set()
    for places, share in zip(goes, lost, strict=True):
        stands_out = worn or share >= best + threshold("stands_out")
        counts |= {place for place in places if stands_out or place in STRANGE}
    return counts


def leak_down_signs(air_goes: Collection[str], lost: Sequence[float] = ()) -> dict[str, bool]:
    """Signs that a leak-down with listening at every place shows.

    Parameters
    ----------
    air_goes : collection of str
        Places where air was heard, felt or seen, of neighbour, coolant, intake, exhaust, sump,
        outside; the other places were listened at and silent [text].
    lost : sequence of float
        Share of air each cylinder loses; with fewer than two nothing is compared [1].

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
    >>> leak_down_signs(["exhaust"], [0.05, 0.6])["one-loses-much"]
    True
    """
    for place in air_goes:
        if place not in AIR_GOES:
            raise OutOfRange("air_goes", place, f"allowed: {', '.join(AIR_GOES)}")
    signs = {f"air-to-{place}": place in air_goes for place in AIR_GOES}
    if len(lost) > 1:
        signs["one-loses-much"] = max(lost) >= min(lost) + threshold("stands_out")
    return signs
