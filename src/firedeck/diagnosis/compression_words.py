"""What compression readings say, in words."""

from collections.abc import Sequence

from firedeck.diagnosis.spread_rules import RuleVerdict
from firedeck.diagnosis.wet_test import OilGain, WetReading
from firedeck.quantity import Outcome
from firedeck.trace import Note

_WORDS = {Outcome.HOLDS: "passes", Outcome.AT_LIMIT: "exactly at the limit", Outcome.FAILS: "fails"}


def said(
    verdicts: Sequence[RuleVerdict],
    suspects: Sequence[int],
    wets: Sequence[WetReading],
    oil: OilGain | None,
) -> tuple[Note, ...]:
    """Say what the rules and the wet readings tell.

    Parameters
    ----------
    verdicts : sequence of RuleVerdict
        One per rule [core].
    suspects : sequence of int
        Cylinders called low [1].
    wets : sequence of WetReading
        One per cylinder, none if there was no wet test [core].
    oil : OilGain or None
        What the oil does by itself [core].

    Returns
    -------
    tuple of Note
        The sentences [text].

    Source
    ------
    [common-practice] reading of compression tests.

    Examples
    --------
    >>> said((), (), (), None)[-1].text
    'Even compression does not clear the head gasket or an intake joint.'
    """
    notes = [_rules(verdicts)]
    if not suspects:
        even = "Even compression does not clear the head gasket or an intake joint."
        notes.append(Note(even, "common-practice"))
    if wets:
        notes += [*(oil.notes if oil else ()), *_wet(wets)]
    return tuple(notes)


def _rules(verdicts: Sequence[RuleVerdict]) -> Note:
    by_outcome = {outcome: [v.rule.name for v in verdicts if v.outcome is outcome] for outcome in Outcome}
    kinds = [f"{_WORDS[outcome]} by {', '.join(names)}" for outcome, names in by_outcome.items() if names]
    lead = "The rules disagree" if len(kinds) > 1 else "All rules say the same"
    return Note(f"{lead}: {'; '.join(kinds)}.", "common-practice")


def _wet(wets: Sequence[WetReading]) -> list[Note]:
    notes = []
    tiny = ", ".join(str(reading.cylinder) for reading in wets if reading.percent_misleads)
    if tiny:
        look = "is so low that a percentage misleads: look at the rise as a pressure."
        notes.append(Note(f"Dry reading of {tiny} {look}", "generic-ours"))
    rings = ", ".join(str(reading.cylinder) for reading in wets if reading.rings)
    speak = (
        f"speaks for rings or bore in {rings}" if rings else "is too small to blame the rings of any cylinder"
    )
    return [*notes, Note(f"The rise with oil {speak}.", "generic-ours")]


def assumed(wets: Sequence[WetReading], oil: OilGain | None, felt: bool = True) -> tuple[Note, ...]:
    """Say what was taken for granted.

    Parameters
    ----------
    wets : sequence of WetReading
        One per cylinder, none if there was no wet test [core].
    oil : OilGain or None
        What the oil does by itself [core].
    felt : bool
        Whether the middle cylinder shows the volume of the oil [1].

    Returns
    -------
    tuple of Note
        The sentences [text].

    Source
    ------
    [generic-ours] assumptions of the reader.

    Examples
    --------
    >>> len(assumed((), None))
    2
    """
    notes = [
        Note("Cylinders counted from 1 in the order given, side by side in one bank.", "generic-ours"),
        Note("All cylinders read alike: gauge, speed, throttle, puffs, warmth.", "generic-ours"),
    ]
    if wets and oil and felt:
        notes.append(Note("The rise that the oil makes by its volume is taken off.", "derived"))
    elif wets:
        middle = "the rise is held against the middle one of all cylinders"
        why = (
            "The middle cylinder rises far less than the oil's volume would make it"
            if oil
            else "Oil, swept volume and ratio are not all known"
        )
        notes.append(Note(f"{why}: {middle}.", "generic-ours"))
    return tuple(notes)
