"""leak-where: the tests read together, where they point, and which test tells most next."""

from collections.abc import Sequence
from dataclasses import replace

from firedeck.answers.answer import Answer, Work, Working
from firedeck.answers.compression_checks import is_close, judge_compression
from firedeck.answers.counting import clip
from firedeck.answers.cranked_checks import one_reading
from firedeck.answers.judging import judge
from firedeck.answers.leak_checks import cautions, judge_air, judge_coolant, judge_seen
from firedeck.answers.making import Draft
from firedeck.answers.next_tests import next_tests, optional
from firedeck.findings.air_tests import whip_of
from firedeck.findings.causes import Causes
from firedeck.findings.cooling import LIQUID, SAID, asked, cooled_by, taken
from firedeck.findings.finding import Findings
from firedeck.findings.tests import TestsRead, untested
from firedeck.job import Job, Joint
from firedeck.quantity import Kind, show
from firedeck.tables import pick
from firedeck.trace import GENERIC, Context, Missing, Note, Outcome

QUESTION = "leak-where"
ON_THE_BENCH = ("dry-compression", "leak-down", "coolant-pressure", "gas-in-coolant", "bores-looked-at")
SHOWN = 3
"""So many tests are named, best first."""
WORTH_SAYING = 0.1
"""Odds of an impostor from which they are shown."""


def answer(job: Job, _joint: Joint | None, found: Findings) -> Answer:
    """Judge every test, weigh the causes, and say: take it off, test first, or look elsewhere."""
    read, causes = found.get(TestsRead), found.get(Causes)
    weighed = isinstance(causes, Causes) and causes.leak is not None
    draft = Draft(QUESTION, None, _cylinders(read))
    draft.assumptions.extend(taken(job))
    cautions(draft, job, whip_of(job))
    judge_seen(draft, job)
    if isinstance(read, TestsRead):
        if read.compression:
            source = job.document.tests.compression.source
            judge_compression(draft, read.compression, source, job.engine)
        if read.leak_down:
            judge_air(draft, read.leak_down)
        judge_coolant(draft, job, read)
    if not weighed and not draft.checks:
        cooled = cooled_by(job)
        first = "compression and cold pressure" if cooled == LIQUID else "compression"
        return draft.open(f"Nothing has been tested yet: {first} first", untested(cooled), *asked(job))
    draft.need(*asked(job))
    return _weigh(draft, job, read, causes)


def _cylinders(read: TestsRead | Missing) -> tuple[str, ...]:
    """Name the cylinders the tests point at: the lowest that stand together."""
    if isinstance(read, Missing):
        return ()
    if read.compression and read.compression.worst:
        return read.compression.worst.cylinders
    if read.compression and read.compression.taken == "only":
        return tuple(read.compression.readings)
    if read.leak_down:
        return tuple(label for label, goes in read.leak_down.goes.items() if goes != "nowhere")
    return ()


def _weigh(draft: Draft, job: Job, read: TestsRead | Missing, causes: Causes | Missing) -> Answer:
    assert isinstance(causes, Causes)
    draft.anyway = (
        "Taken off on one reading, a sound joint costs gasket and bolts and the fault stays. Run on, coolant "
        "in a bore bends a rod and gas in the coolant boils the engine. Watch level, hose and gauge."
    )
    doubted = _doubted(read)
    if causes.leak is None and doubted:
        draft.need(*next_tests(causes, ("coolant-pressure",), job, doubted))
        return draft.decided("test-next", clip(f"{doubted}: test again before anything is condemned"))
    if causes.leak is None:
        low = isinstance(read, TestsRead) and read.compression is not None and read.compression.too_low
        tests = ("leak-down", "coolant-pressure") if low else ("coolant-pressure", "leak-down")
        draft.need(*next_tests(causes, (*tests, "gas-in-coolant"), job))
        return draft.decided("test-next", clip(f"{_first(job, read)}: {_nothing_else(read)}"))
    _say_causes(draft, causes)
    _judge_odds(draft, causes)
    ranked = [one.trial.id for one in causes.leak.next[:SHOWN]]
    return _ending(draft, job, read, causes, ranked)


def _nothing_else(read: TestsRead | Missing) -> str:
    """Say what the readings come to where no sign speaks for a leak."""
    compression = None if isinstance(read, Missing) else read.compression
    if compression is None or not compression.too_low:
        return "nothing points to the joint so far"
    return "next leak-down" if compression.absolute else "say first how it was cranked"


def _say_causes(draft: Draft, causes: Causes) -> None:
    leak = causes.leak
    assert leak is not None
    for one in leak.causes[:SHOWN]:
        for_ = f"; for it: {', '.join(one.speaks_for)}" if one.speaks_for else ""
        against = f"; against it: {', '.join(one.speaks_against)}" if one.speaks_against else ""
        text = f"{one.cause.label}: {one.words} ({one.odds}), {one.cause.means}{for_}{against}."
        draft.notes.append(Note(text, one.cause.source))
    for blow in leak.overturned_by:
        seen = "" if blow.seen else "not "
        draft.notes.append(Note(f"It would be overturned by: {seen}{blow.sign.label}.", "generic-ours"))
    if not any(one.tells for one in leak.next):
        text = "No test left on our list parts these any further: what is seen with the part off decides."
        draft.notes.append(Note(text, "generic-ours"))
    draft.notes.extend(leak.notes)
    for cause, why in causes.leak_seen.absent.items():
        draft.assumptions.append(f"{cause.replace('-', ' ')} left out: {why}")


def _judge_odds(draft: Draft, causes: Causes) -> None:
    """Hold the odds against our own thresholds, with the sum that made them."""
    leak = causes.leak
    assert leak is not None
    _judge_share(draft, causes, "head_off_share", leak.head_off, leak.head_off_said)
    if leak.impostor >= WORTH_SAYING:
        _judge_share(draft, causes, "impostor_share", leak.impostor, leak.impostor_said)
    draft.steps.append(Working(_NAMES["head_off_share"], causes.leak_seen.counted))
    own = [step for step in leak.steps if not set(_RESULT.values()) & step.result.keys()]
    draft.steps.extend(Working(_NAMES["head_off_share"], step) for step in own)


def _judge_share(draft: Draft, causes: Causes, quantity: str, value: float, said: str) -> None:
    """Odds below the threshold are no fault, they only do not decide."""
    steps = causes.leak.steps if causes.leak else ()
    step = next(step for step in steps if _RESULT[quantity] in step.result)
    judged = judge(_NAMES[quantity], quantity, value, pick(quantity, Context(part="strip")))
    reached = judged.outcome in (Outcome.HOLDS, Outcome.AT_LIMIT)
    outcome = Outcome.HOLDS if reached else Outcome.CANNOT_TELL
    check = replace(judged.check, outcome=outcome, text=said)
    draft.add(replace(judged, check=check), (step,))


_NAMES = {
    "head_off_share": "odds that the head has to come off",
    "impostor_share": "odds that it only looks like the head joint",
}
_RESULT = {"head_off_share": "head_off", "impostor_share": "impostor"}


def _ending(
    draft: Draft, job: Job, read: TestsRead | Missing, causes: Causes, ranked: Sequence[str]
) -> Answer:
    leak = causes.leak
    assert leak is not None
    first = _first(job, read)
    pointed = f"{leak.leader.cause.label} {leak.leader.words}"
    doubted = _doubted(read)
    by_name = {check.name: check.outcome for check in draft.checks}
    close = is_close(draft)
    kinds = [kind for kind in causes.leak_seen.kinds if not (close and kind == "dry-compression")]
    enough = len(kinds) > 1 and any(kind in ON_THE_BENCH for kind in kinds)
    if doubted:
        draft.need(*next_tests(causes, ("leak-down", *ranked), job, doubted))
        return draft.decided("test-next", clip(f"{doubted}: test again before anything is condemned"))
    if by_name.get(_NAMES["impostor_share"]) is Outcome.HOLDS and not leak.leader.cause.head_off:
        draft.need(*next_tests(causes, ranked, job))
        return draft.decided("not-the-joint", clip(f"Not the head joint: {pointed}; mend or test that first"))
    if by_name[_NAMES["head_off_share"]] is Outcome.HOLDS and (enough or _outside(causes)):
        draft.need(*(optional(one) for one in next_tests(causes, ranked, job)))
        _say_with_head_off(draft, causes)
        return draft.decided("strip", clip(f"{first}; {pointed}"))
    draft.need(*next_tests(causes, ranked, job))
    test = next(one.missing for one in draft.next if SAID not in one.missing.paths)
    last = f"{first}; next {test.measure.split(',')[0]}"
    return (draft.close if close else draft.decided)("test-next", clip(last))


def _say_with_head_off(draft: Draft, causes: Causes) -> None:
    """Name the causes that only the open joint parts, and what shows each of them then."""
    leak = causes.leak
    assert leak is not None
    if leak.alike:
        names = " or ".join(f"{one.cause.label} ({one.odds})" for one in leak.alike)
        text = f"Not told apart with the head on: {names}. It comes off for each of them; look before anything is cleaned."
        draft.notes.insert(0, Note(text, GENERIC))
    draft.work.extend(Work(f"With the head off, {note.text}", note.source) for note in leak.while_open)


def _outside(causes: Causes) -> bool:
    """A leak seen at the joint itself is a witness enough beside one other."""
    return bool(causes.leak_seen.signs.get("trail-at-joint")) and len(causes.leak_seen.kinds) > 1


def _doubted(read: TestsRead | Missing) -> str:
    """Say why a leak-down cannot be taken at its word."""
    if isinstance(read, Missing) or read.leak_down is None:
        return ""
    if read.leak_down.reference == "as-bad":
        return "A good head reads as badly on this tester"
    if read.leak_down.one_way:
        one, other = read.leak_down.one_way[0]
        return f"Air crosses from {one} to {other} and not back"
    return ""


def _first(job: Job, read: TestsRead | Missing) -> str:
    """Put the worst reading into a few words."""
    coolant = job.document.tests.coolant
    compression = None if isinstance(read, Missing) else read.compression
    if compression and compression.worst and compression.spread:
        names = "-".join(compression.worst.cylinders)
        lowest = compression.spread.lowest_over_highest
        numbers = "Nos" if len(compression.worst.cylinders) > 1 else "No"
        return f"{numbers} {names} low, lowest {lowest:.2f} of the highest"
    if compression and len(compression.readings) == 1 and not compression.of_expected:
        return one_reading(compression)
    if compression and compression.of_expected:
        label, step = min(compression.of_expected.items(), key=lambda item: item[1].value)
        return f"Cylinder {label} at {step.value:.2f} of what is expected"
    if coolant.gas_in_coolant == "yes":
        return "Gas in the coolant"
    if not isinstance(read, Missing) and read.leak_down and read.leak_down.lost:
        label, lost = max(read.leak_down.lost.items(), key=lambda item: item[1].share)
        return f"Cylinder {label} loses {show(lost.share, Kind.SHARE, 'mm')}"
    seen = job.document.symptoms.seen
    if seen:
        return seen[0].replace("-", " ").capitalize()
    return "Compression even" if compression else "Tests read"
