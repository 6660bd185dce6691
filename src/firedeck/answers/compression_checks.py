"""Compression held against every rule in use, cylinder by cylinder where there is more to say."""

from collections.abc import Iterable
from dataclasses import replace

from firedeck.answers.cranked_checks import judge_worked_out, only_between
from firedeck.answers.judging import Judged, judge
from firedeck.answers.making import Draft, both
from firedeck.findings.tests import Compression
from firedeck.job.schema.engine import Engine
from firedeck.quantity import Kind, show
from firedeck.tables import Picked
from firedeck.trace import COMMON_PRACTICE, DERIVED, Check, Context, Limit, Measure, Note, Outcome, Rank, Step

AS_GIVEN = "as given"
NOT_CLEARED = "Even compression does not clear the head gasket or an intake joint."


def judge_compression(draft: Draft, compression: Compression, source: str, engine: Engine) -> None:
    """Add every check of the compression readings."""
    for label, step in compression.of_expected.items():
        _judge_expected(draft, compression, label, step)
    judge_worked_out(draft, compression)
    if not compression.absolute:
        draft.assumptions.append(f"{only_between(compression)}: the figures speak only between cylinders")
    if len(compression.readings) == 1:
        draft.assumptions.append(
            "one cylinder: nothing to compare with, hold it against the figure of the papers"
        )
    elif compression.problem:
        draft.assumptions.append(f"compression not read together: {compression.problem}")
    if compression.spread is None:
        return
    _judge_rules(draft, compression, source, diesel=engine.fuel == "diesel")
    _judge_wet(draft, compression)
    _judge_hot(draft, compression)
    _say(draft, compression, engine)


def is_close(draft: Draft) -> bool:
    """Tell whether a reading lies on the rule, or rules of one rank disagree about the lowest cylinder."""
    rules = [check for check in draft.checks if check.quantity == "lowest_over_highest"]
    return any(
        check.outcome is Outcome.AT_LIMIT
        or any(
            check.limit and rival.limit.rank is check.limit.rank and rival.outcome is not check.outcome
            for rival in check.rivals
        )
        for check in rules
    )


def _judge_rules(draft: Draft, compression: Compression, source: str, *, diesel: bool) -> None:
    spread = compression.spread
    assert spread is not None
    for form, says, quantity, value, step in (
        ("share", "lowest over highest", "lowest_over_highest", spread.lowest_over_highest, spread.steps[0]),
        ("spread", "highest less lowest", "compression_spread", spread.spread, spread.steps[1]),
    ):
        limits = []
        for verdict in spread.verdicts:
            rule = verdict.rule
            given = rule.source == AS_GIVEN
            if rule.form != form or (diesel and form == "spread" and not given):
                continue
            low, high = (rule.bound, None) if form == "share" else (None, rule.bound)
            rank = Rank.MANUAL if given else Rank.COMMON_PRACTICE
            origin = (source or "the papers") if given else rule.source
            limits.append(
                Limit(quantity, low, high, Measure.COMPUTED, Context(), rank, origin, text=rule.name)
            )
        if limits:
            draft.add(_strictest(f"compression, {says}", quantity, value, limits), (step,))


def _strictest(name: str, quantity: str, value: float, limits: list[Limit]) -> Judged:
    def strength(limit: Limit) -> tuple[int, float]:
        return (limit.rank.order, limit.high if limit.high is not None else -(limit.low or 0.0))

    winner, *rivals = sorted(limits, key=strength)
    return judge(name, quantity, value, Picked(winner, tuple(rivals), "strictest of the strongest rank"))


def _judge_expected(draft: Draft, compression: Compression, label: str, step: Step) -> None:
    """A figure of the papers is an absolute one: it speaks only when the conditions are known."""
    low = label in compression.low or compression.spread is None
    sure = compression.absolute
    outcome = Outcome.CANNOT_TELL if not sure else Outcome.FAILS if low else Outcome.HOLDS
    text = f"{step.value:.2f} of it" + ("" if sure else f", {only_between(compression)}")
    name = f"cylinder {label}: share of what the papers expect"
    draft.add_check(Check(name, "share_of_expected", step.value, outcome, text=text), (step,), DERIVED)


def _judge_wet(draft: Draft, compression: Compression) -> None:
    spread = compression.spread
    assert spread is not None
    for label, reading in zip(compression.readings, spread.wet, strict=False):
        if reading.gain is None:
            continue
        outcome = Outcome.FAILS if reading.rings else Outcome.HOLDS
        if reading.percent_misleads and not reading.rings:
            outcome = Outcome.CANNOT_TELL
        text = f"{show(reading.gain, Kind.SHARE, 'mm')}, {both(reading.rise, 'compression')} up; "
        text += "speaks for rings or bore" if reading.rings else "too little to blame the rings"
        text += ", a percentage misleads on so low a reading" if reading.percent_misleads else ""
        name = f"cylinder {label}: gain with oil"
        check = Check(name, "wet_gain", reading.gain, outcome, text=text)
        draft.add_check(check, _of_cylinder(spread.steps, reading.cylinder, label), "generic-ours")
        if reading.percent_misleads:
            where = f"Cylinder {label} is so low that a percentage misleads: look at the rise as a pressure"
            draft.notes.append(Note(f"{where}, {both(reading.rise, 'compression')}.", "generic-ours"))


def _of_cylinder(steps: Iterable[Step], place: int, label: str) -> tuple[Step, ...]:
    """Give the sums of one cylinder, called by its label."""
    start = f"Cylinder {place}:"
    return tuple(
        replace(step, says=f"Cylinder {label}:{step.says.removeprefix(start)}")
        for step in steps
        if step.says.startswith(start)
    )


def _judge_hot(draft: Draft, compression: Compression) -> None:
    if not compression.hot_over_cold:
        return
    label, step = min(compression.hot_over_cold.items(), key=lambda item: item[1].value)
    every = all(one.value < 1.0 for one in compression.hot_over_cold.values())
    text = f"{step.value:.2f}; "
    text += (
        "every cylinder falls when hot: a leak that opens with heat" if every else "not every cylinder falls"
    )
    outcome = Outcome.FAILS if every else Outcome.CANNOT_TELL
    check = Check(f"cylinder {label}: hot over cold", "hot_over_cold", step.value, outcome, text=text)
    draft.add_check(check, (step,), COMMON_PRACTICE)


def _say(draft: Draft, compression: Compression, engine: Engine) -> None:
    spread = compression.spread
    assert spread is not None
    by_outcome: dict[str, list[str]] = {}
    for verdict in spread.verdicts:
        by_outcome.setdefault(_WORDS[verdict.outcome.value], []).append(verdict.rule.name)
    said = "; ".join(f"{word} by {', '.join(names)}" for word, names in by_outcome.items())
    lead = "The rules disagree" if spread.disagree else "All rules say the same"
    draft.notes.append(Note(f"{lead}: {said}.", COMMON_PRACTICE))
    if not compression.low:
        draft.notes.append(Note(NOT_CLEARED, COMMON_PRACTICE))
    if spread.oil:
        gain = show(spread.oil.gain, Kind.SHARE, "mm")
        taken = (
            "that much is taken off"
            if spread.oil_felt
            else "the middle cylinder rises far less, so each is held against the middle one"
        )
        draft.notes.append(Note(f"The oil alone raises a sound cylinder by {gain}; {taken}.", DERIVED))
        draft.notes.extend(spread.oil.notes_for(engine.fuel, engine.arrangement))
    elif spread.wet:
        draft.assumptions.append(
            "rise with oil held against the middle one of all: oil, swept volume and ratio are not all known"
        )


_WORDS = {"holds": "passes", "at-limit": "exactly at the limit", "fails": "fails"}
