"""Hold a value against the limit that wins, with its rivals, its margin and the sum written out."""

from dataclasses import dataclass, replace

from firedeck.answers.answer import Working
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import core_unit, meets
from firedeck.tables import Picked
from firedeck.terms import term
from firedeck.trace import DERIVED, Band, Check, Limit, Outcome, Rival, Step, as_printed


@dataclass(frozen=True)
class Judged:
    """A check with its written sum; ``differ`` when a rival of the same rank says otherwise."""

    check: Check
    steps: tuple[Working, ...]
    differ: bool

    @property
    def outcome(self) -> Outcome:
        """How the check came out."""
        return self.check.outcome

    @property
    def source(self) -> str:
        """Where the limit comes from."""
        return self.check.limit.source if self.check.limit else DERIVED


def judge(name: str, quantity: str, value: float, picked: Picked, band: Band | None = None) -> Judged:
    """Judge a value (with what the readings allow, if banded) by the limit that wins.

    The caller makes sure that ``picked`` has a winner.
    """
    limit = picked.winner
    if limit is None:
        raise ValueError(f"{name}: no limit to judge by")
    outcome = outcome_of(value, band, limit)
    rivals = tuple(Rival(rival, outcome_of(value, band, rival)) for rival in picked.rivals)
    differ = any(_says_otherwise(rival, outcome, limit, value) for rival in rivals)
    step = _room(name, quantity, value, limit)
    check = Check(name, quantity, value, outcome, limit, step.value, band, rivals)
    return Judged(check, (Working(name, step),), differ)


def _says_otherwise(rival: Rival, outcome: Outcome, limit: Limit, value: float) -> bool:
    """Tell whether a limit of the same rank disagrees; one without a bound on the side that is passed does not."""
    if rival.outcome is outcome or rival.limit.rank is not limit.rank:
        return False
    if outcome is not Outcome.FAILS:
        return True
    too_high = limit.high is not None and value > limit.high
    return (rival.limit.high if too_high else rival.limit.low) is not None


def disputed(judged: Judged) -> Judged:
    """Return what the stricter of two disagreeing limits of one rank fails as not to be told: neither says it is out."""
    if not (judged.differ and judged.outcome is Outcome.FAILS):
        return judged
    return replace(judged, check=replace(judged.check, outcome=Outcome.CANNOT_TELL))


def outcome_of(value: float, band: Band | None, limit: Limit) -> Outcome:
    """Tell how a value, or everything a band allows, stands to a limit."""
    if band is None or band.low == band.high:
        return _OUTCOME[meets(value, limit.low, limit.high)]
    ends = {meets(end, limit.low, limit.high) for end in (band.low, band.high)}
    if ends <= {Meets.HOLDS, Meets.AT_LIMIT}:
        return Outcome.HOLDS
    one_side = limit.high is None or band.low > limit.high or limit.low is None or band.high < limit.low
    if ends == {Meets.FAILS} and one_side and not band.straddles(limit):
        return Outcome.FAILS
    return Outcome.CANNOT_TELL


_OUTCOME = {
    Meets.HOLDS: Outcome.HOLDS,
    Meets.AT_LIMIT: Outcome.AT_LIMIT,
    Meets.FAILS: Outcome.FAILS,
}


def _on_the_bound(value: float, limit: Limit) -> float:
    """Return the bound itself for a value that is at it: the last binary digit is no reading."""
    if meets(value, limit.low, limit.high) is not Meets.AT_LIMIT:
        return value
    bounds = [bound for bound in (limit.low, limit.high) if bound is not None]
    return min(bounds, key=lambda bound: abs(bound - value))


def _room(name: str, quantity: str, value: float, limit: Limit) -> Step:
    """Write out how much room is left to the nearer bound; negative when it is passed."""
    unit = core_unit(term(quantity).kind)
    figures = {"value": (as_printed(_on_the_bound(value, limit)), unit)}
    parts = []
    if limit.high is not None:
        figures["high"] = (as_printed(limit.high), unit)
        parts.append("high - value")
    if limit.low is not None:
        figures["low"] = (as_printed(limit.low), unit)
        parts.append("value - low")
    formula = parts[0] if len(parts) == 1 else f"min({', '.join(parts)})"
    return Step.work_out(f"Room to the limit: {name}", formula, figures, ("room", unit), DERIVED)
