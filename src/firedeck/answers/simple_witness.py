"""The simple sum, clamp over gas force: the first word on a joint where there is no other, the second where there is one."""

from dataclasses import replace

from firedeck.answers.judging import judge
from firedeck.answers.making import Draft
from firedeck.findings.clamp import Clamp
from firedeck.findings.holding import Holding, Share
from firedeck.quantity import Kind, show
from firedeck.tables import Picked
from firedeck.trace import DERIVED, GENERIC, Band, Check, Context, Limit, Measure, Note, Outcome, Rank

NEVER = "The simple sum can say worse, or that it cannot tell; that a joint holds it never says."
LOAD = "clamp over gas force, against as it left the factory"


def judge_simple_sum(draft: Draft, holding: Holding, clamp: Clamp | None) -> Outcome | None:
    """Add the checks of the simple sum; return how the change of clamp over gas force came out."""
    draft.notes.append(Note(NEVER, GENERIC))
    if clamp is not None:
        _judge_lost(draft, clamp)
        said = [Note(f"{one.name}: {note.text}", note.source) for one in clamp.groups for note in one.notes]
        draft.notes.extend(dict.fromkeys(said))
    _judge_shares(draft, holding)
    _judge_bores(draft, holding)
    draft.need(*holding.missing)
    draft.assumptions.extend(note.text for note in holding.taken)
    return next((check.outcome for check in draft.checks if check.name == LOAD), None)


def set_aside(draft: Draft, says: str) -> None:
    """Let the check of clamp over gas force stand without a verdict: the rings place by place say otherwise."""
    for place, check in enumerate(draft.checks):
        if check.name == LOAD and check.value is not None:
            text = f"{check.value:.2f}: {says}"
            draft.checks[place] = replace(
                check, outcome=Outcome.CANNOT_TELL, limit=None, margin=None, text=text
            )


def _judge_lost(draft: Draft, clamp: Clamp) -> None:
    if clamp.lost is None:
        return
    share = clamp.lost.share
    outcome = Outcome.FAILS if clamp.lost.band.low > 0.0 else Outcome.CANNOT_TELL
    low, high = (show(end, Kind.SHARE, "mm") for end in (clamp.lost.band.low, clamp.lost.band.high))
    text = f"{low} to {high} by the torque they move on at; stiction makes the loss look smaller than it is"
    check = Check(
        "clamp lost since it was tightened",
        "clamp_lost",
        share.value,
        outcome,
        band=clamp.lost.band,
        text=text,
    )
    draft.add_check(check, (share,), DERIVED)


def _judge_shares(draft: Draft, holding: Holding) -> None:
    for name, quantity, share in (
        ("clamp against as it left the factory", "clamp_share", holding.clamp_share),
        ("gas force against as it left the factory", "gas_share", holding.gas_share),
    ):
        if share is not None:
            outcome = Outcome.CANNOT_TELL if quantity == "gas_share" else _against_one(share)
            check = Check(name, quantity, share.step.value, outcome, band=_wide(share))
            draft.add_check(check, (share.step,), DERIVED)
    if holding.load_share is not None:
        share = holding.load_share
        limit = Limit(
            "load_share", 1.0, None, Measure.COMPUTED, Context(), Rank.COMMON_PRACTICE, DERIVED, "as built"
        )
        judged = judge(LOAD, "load_share", share.step.value, Picked(limit, (), ""), _wide(share))
        draft.add(replace(judged, check=replace(judged.check, band=share.band)), (share.step,))


def _wide(share: Share) -> Band | None:
    """Give the band of a share, none where it is sharp."""
    return None if share.band.low == share.band.high else share.band


def _against_one(share: Share) -> Outcome:
    if share.band.high < 1.0:
        return Outcome.FAILS
    return Outcome.HOLDS if share.band.low >= 1.0 else Outcome.CANNOT_TELL


def _judge_bores(draft: Draft, holding: Holding) -> None:
    """Show the weakest bore; no limit is known for the figure by itself."""
    if holding.now is None:
        return
    bore = holding.now.of(holding.now.weakest)
    text = f"{bore.ratio:.2f}, {bore.band.low:.2f} to {bore.band.high:.2f}: an order of size, no limit is known for it"
    name = f"bore {bore.label}: clamp over gas force, weakest of all"
    check = Check(name, "clamp_ratio", bore.ratio, Outcome.CANNOT_TELL, band=bore.band, text=text)
    places = [i for i, step in enumerate(holding.now.steps) if step.says.endswith(f"bore {bore.label}")]
    steps = holding.now.steps[places[0] : places[-1] + 1] if places else holding.now.steps[:3]
    draft.add_check(check, steps, DERIVED)
    draft.assumptions.extend(note.text for note in holding.now.assumptions)
