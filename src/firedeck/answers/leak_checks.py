"""Leak-down, cooling system and what was seen: the checks beside the compression."""

from firedeck.answers.counting import count
from firedeck.answers.judging import judge
from firedeck.answers.making import Draft, both
from firedeck.findings.air_tests import LeakDownRead, Whip
from firedeck.findings.tests import TestsRead
from firedeck.job import Job
from firedeck.quantity import Kind, show
from firedeck.tables import pick, rows
from firedeck.trace import COMMON_PRACTICE, DERIVED, Check, Context, Note, Outcome

ACROSS = {
    "coolant": "into the coolant: head gasket or a crack",
    "neighbour": "into its neighbour: head gasket between them",
    "outside": "out at the joint",
    "intake": "intake valve",
    "exhaust": "exhaust valve",
    "filler": "past the rings",
    "nowhere": "nowhere to be heard",
}
THROUGH_THE_JOINT = ("coolant", "neighbour", "outside")


def judge_air(draft: Draft, read: LeakDownRead) -> None:
    """Add a check for every cylinder under air."""
    for label, lost in read.lost.items():
        goes = read.goes.get(label, "")
        limit = pick("air_lost", Context())
        name = f"cylinder {label}: air lost"
        if limit.winner is None or goes in THROUGH_THE_JOINT:
            outcome = Outcome.FAILS if goes in THROUGH_THE_JOINT else Outcome.CANNOT_TELL
            text = f"{show(lost.share, Kind.SHARE, 'mm')}, {ACROSS.get(goes, 'not said where it goes')}"
            check = Check(name, "air_lost", lost.share, outcome, text=text)
            draft.add_check(check, lost.steps[:1], DERIVED)
            continue
        draft.add(
            judge(name, "air_lost", lost.share, limit), [s for s in lost.steps if "leak_percent" in s.result]
        )
    for label, goes in read.goes.items():
        if label not in read.lost:
            outcome = Outcome.HOLDS if goes == "nowhere" else Outcome.FAILS
            count(
                draft, f"cylinder {label}: where the air goes", int(goes != "nowhere"), outcome, ACROSS[goes]
            )
    for one, other in read.one_way:
        text = "one way only: a flap in the gasket, or a valve the air lifts"
        count(draft, f"air crosses from {one} to {other} and not back", 1, Outcome.CANNOT_TELL, text)
    if read.reference == "as-bad":
        text = "a head known to be good reads as badly: the tester or the way of testing is at fault"
        count(draft, "same tester on a good head", 0, Outcome.CANNOT_TELL, text)


def judge_coolant(draft: Draft, job: Job, read: TestsRead) -> None:
    """Add the pressure test, the gas test and the cap."""
    coolant = job.document.tests.coolant
    if read.pressure_drop is not None:
        falls = read.pressure_drop.value > 0.0
        outcome = Outcome.FAILS if falls else Outcome.HOLDS
        over = f" in {coolant.time.text}" if coolant.time else ""
        text = f"falls {both(read.pressure_drop.value, 'pressure_drop')}{over}" if falls else f"steady{over}"
        name = "cooling system under pressure"
        check = Check(name, "pressure_drop", read.pressure_drop.value, outcome, text=text)
        draft.add_check(check, (read.pressure_drop,), COMMON_PRACTICE)
    answered = {
        "combustion gas in the coolant": coolant.gas_in_coolant,
        "top hose hard in the first minute from cold": coolant.hose_hard_when_cold,
        "drips outside under pressure": coolant.outside_leak,
        "pressure cap leaks": {"leaks": "yes", "holds": "no"}.get(coolant.cap or ""),
    }
    for name, said in answered.items():
        if said in ("yes", "no"):
            count(draft, name, int(said == "yes"), Outcome.FAILS if said == "yes" else Outcome.HOLDS, said)
    if read.boiling is not None:
        point = both(read.boiling.boiling, "coolant_temperature")
        draft.notes.append(Note(f"This coolant boils at {point} under its cap when the cap holds.", DERIVED))


def judge_seen(draft: Draft, job: Job) -> None:
    """Add what was seen and told as one count."""
    document = job.document
    seen = [word.replace("-", " ") for word in document.symptoms.seen]
    if seen:
        count(draft, "signs seen and told", len(seen), Outcome.FAILS, ", ".join(seen))
    sign_words = {row["evidence"]: row["label"] for row in rows("leak_evidence")}
    for name, signs, outcome in (
        ("other tests that showed something", document.tests.shown, Outcome.FAILS),
        ("other tests that showed nothing", document.tests.not_shown, Outcome.HOLDS),
    ):
        if signs:
            count(draft, name, len(signs), outcome, ", ".join(sign_words[sign] for sign in signs))
    if document.tests.bores_seen:
        good = document.tests.bores_seen == ("good",)
        words = ", ".join(word.replace("-", " ") for word in document.tests.bores_seen)
        count(
            draft,
            "bores looked into",
            len(document.tests.bores_seen),
            Outcome.HOLDS if good else Outcome.FAILS,
            words,
        )
    if document.tests.weak:
        text = "cut out, the idle hardly changes: these pull little"
        labels = document.tests.weak
        count(draft, f"cylinder {', '.join(labels)} cut out", len(labels), Outcome.FAILS, text)


def cautions(draft: Draft, job: Job, whip: Whip | None) -> None:
    """Add the care these tests ask for, with this engine's number for the air on the crank."""
    if job.document.running.coolant != "air":
        draft.cautions.append("Hot coolant is under pressure: never open it hot")
    wet = {"coolant-lost", "coolant-in-cylinder", "overheated", "white-smoke"} & set(
        job.document.symptoms.seen
    )
    if wet or job.document.tests.coolant.liquid_in_bore:
        draft.cautions.append(
            "Liquid in a bore bends rods: plugs or injectors out and turn by hand before cranking"
        )
    if whip is None:
        draft.cautions.append("Air in a cylinder turns the crank: lock it, no bar left on, hands clear")
        return
    ten, most, air = (
        both(value, quantity)
        for value, quantity in (
            (whip.at_ten.torque, "torque"),
            (whip.most.torque, "torque"),
            (whip.supply, "supply"),
        )
    )
    draft.cautions.append(
        f"Air at {air} turns this crank with {ten} only 10° off top dead centre, {most} at its worst: lock it"
    )
    if not whip.supply_said:
        draft.assumptions.append(f"air line of {air} taken for the crank: no supply is written down")
