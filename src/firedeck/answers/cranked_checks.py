"""The best cylinder against what ratio, valve closing and altitude let one expect, where the cranking is known."""

from firedeck.answers.making import Draft, both
from firedeck.findings.tests import Compression
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.trace import COMMON_PRACTICE, GENERIC, Check, Missing, Note, Outcome

NAME = "best cylinder against what ratio and altitude give"


def only_between(compression: Compression) -> str:
    """Say why a figure counts only beside its neighbours."""
    said = [*compression.spoilt]
    said += [f"{', '.join(compression.lacking)} not said"] if compression.lacking else []
    return "; ".join(said)


def judge_worked_out(draft: Draft, compression: Compression) -> None:
    """Far below the band with everything known all are worn, timed late or misread; else the band only stands beside."""
    found, share = compression.worked_out, compression.over_least
    if found is None or found.band is None or share is None:
        return
    best = max(compression.readings.values())
    below = compression.below
    above = meets(best, high=found.band.high) is Meets.FAILS
    counts = compression.absolute and not compression.at_most
    outcome = Outcome.CANNOT_TELL if below or above or not compression.absolute else Outcome.HOLDS
    if compression.far_below and counts:
        outcome = Outcome.FAILS
    low, high = (both(end, "compression") for end in (found.band.low, found.band.high))
    text = f"{both(best, 'compression')}, {low} to {high} to expect"
    text += f" at most: {compression.at_most}" if compression.at_most else ""
    text += "" if compression.absolute else f"; {only_between(compression)}"
    check = Check(NAME, "share_of_expected", share.value, outcome, text=text)
    draft.add_check(check, (*found.low_end, share), GENERIC)
    if compression.too_low and not compression.absolute:
        draft.need(_ask_how_cranked(compression))
    if below and counts:
        says = (
            "All below what the ratio gives: worn throughout, valves timed late, or a gauge that reads low."
        )
        draft.notes.append(Note(says, COMMON_PRACTICE))
    if above:
        says = "Above what the ratio gives: carbon or oil in the chambers, a cut nobody wrote down, or the gauge."
        draft.notes.append(Note(says, COMMON_PRACTICE))


def one_reading(compression: Compression) -> str:
    """Put the reading of an engine of one cylinder into a few words."""
    (label, reading), *_ = compression.readings.items()
    least = compression.over_least
    if least is None or not compression.below:
        return f"Cylinder {label} reads {both(reading, 'compression')}"
    return f"Cylinder {label} at {least.value:.2f} of what is to be expected"


def _ask_how_cranked(compression: Compression) -> Missing:
    """Ask for the conditions before a low figure is believed."""
    return Missing(
        ("tests.conditions", "tests.compression.dry"),
        f"compression once more, and how it is cranked: {only_between(compression)}",
        "compression gauge whose non-return valve sits at the plug",
        "Warm, throttle open, all plugs out, battery full, the same puffs each until the needle stands, decompressor "
        "locked out; a gauge with its valve at the far end of the hose reads low on a small cylinder.",
    )
