"""A check that is passed, failed or not done."""

from firedeck.answers.counting import count
from firedeck.answers.making import Draft
from firedeck.trace import Outcome


def yes_or_no(draft: Draft, name: str, outcome: Outcome, text: str) -> Outcome:
    """Take in a check without a figure: one when it is passed, none when not."""
    count(draft, name, int(outcome is Outcome.HOLDS), outcome, text)
    return outcome


def of_word(said: bool | None) -> Outcome:
    """Turn yes, no and not said into an outcome."""
    if said is None:
        return Outcome.CANNOT_TELL
    return Outcome.HOLDS if said else Outcome.FAILS
