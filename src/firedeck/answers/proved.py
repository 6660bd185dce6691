"""proved: the proof list before the start, in the first heat and after it. One no stops."""

from firedeck.answers.answer import Answer, Work
from firedeck.answers.counting import clip, count, count_of
from firedeck.answers.making import Draft, both
from firedeck.findings.expected import Expected, expected_after
from firedeck.findings.finding import Findings
from firedeck.findings.proof import Asked, Proof
from firedeck.findings.valve_gear import VALVED, sealed_by
from firedeck.job import Job, Joint
from firedeck.trace import COMMON_PRACTICE, DERIVED, GENERIC, Check, Missing, Note, Outcome

QUESTION = "proved"
MARKS = "Timing marks that line up do not prove that valves clear the pistons."


def answer(job: Job, _joint: Joint | None, found: Findings) -> Answer:
    """Stop on a no or on a sign that it leaks; run when all is done; else watch or ask."""
    draft = Draft(QUESTION, None)
    proof = found.get(Proof)
    _expect(draft, job, expected_after(job, found))
    assert isinstance(proof, Proof)
    if not proof.begun:
        draft.need(*(_how(one) for one in proof.asked if one.stage != "after"))
        return draft.open("Not to be started yet: nothing of the proof is done")
    draft.anyway = (
        "Started with liquid in a bore a rod bends, with a valve touching the valves do; air left in the head boils "
        "it on the first drive. Each costs more than the test."
    )
    draft.work.extend(
        Work(f"{_STAGES[one.stage]}: {one.text}. {one.how}", one.source, one.said, one.caution)
        for one in proof.asked
    )
    draft.cautions.append("Plugs or injectors out and turn by hand before the first cranking")
    for one in proof.said("no"):
        count(draft, one.text, 0, Outcome.FAILS, "no")
    for sign in proof.alarms:
        count(draft, f"since the work: {sign}", 1, Outcome.FAILS, "a sign that it leaks or touches")
    _count_stages(draft, proof)
    return _ending(draft, proof)


_STAGES = {"before": "Before the start", "first": "First heat", "after": "Afterwards"}


def _expect(draft: Draft, job: Job, expected: Expected) -> None:
    """Say what this engine should read after the work, each with the sum it comes from."""
    band = expected.band
    if band is not None:
        low, high = both(band.low, "compression"), both(band.high, "compression")
        ratio = " to ".join(f"{one:.2f}" for one in expected.ratios)
        of = f"of ratio {ratio} after the work" if expected.after_work else f"of the papers' ratio {ratio}"
        most = f", at most: {expected.at_most}" if expected.at_most else ""
        how = "warm, throttle open, all plugs out, brisk, same puffs, hose valve at the plug"
        text = f"{low} to {high} {of}{most}; {how}; else only between cylinders"
        check = Check("compression to expect", "compression", None, Outcome.CANNOT_TELL, band=band, text=text)
        draft.add_check(check, expected.written, GENERIC)
    if expected.boiling is not None:
        point = both(expected.boiling, "coolant_temperature")
        draft.notes.append(
            Note(f"The coolant boils at {point} as long as the cap holds its rating.", DERIVED)
        )
    if sealed_by(job) == VALVED:
        draft.notes.append(Note(MARKS, COMMON_PRACTICE))


def _count_stages(draft: Draft, proof: Proof) -> None:
    for stage, words in _STAGES.items():
        asked = proof.of(stage)
        done = [one for one in asked if one.said == "yes"]
        if asked and not (stage == "before" and proof.has_run and not done):
            outcome = Outcome.HOLDS if len(done) == len(asked) else Outcome.CANNOT_TELL
            count_of(draft, f"{words}: done and good", len(done), len(asked), outcome)
    if proof.loose:
        text = "moved on at the re-torque: settled, or a fastener that lets go"
        count(
            draft,
            "fasteners found loose",
            len(proof.loose),
            Outcome.CANNOT_TELL,
            ", ".join(proof.loose) or text,
        )


def _ending(draft: Draft, proof: Proof) -> Answer:
    lacking = [one for one in proof.asked if one.said in ("", "not-done")]
    no = proof.said("no")
    if no:
        draft.need(*(_how(one) for one in (*no, *proof.of("before"))))
        return draft.decided("stop", clip(f"Stop, the answer is no: {no[0].text}"))
    if proof.alarms:
        draft.need(*(_how(one) for one in (proof.of("before") or proof.asked)))
        return draft.decided(
            "stop", clip(f"Stop: {proof.alarms[0]} since the work; pressure test cold, turn by hand")
        )
    before = [one for one in lacking if one.stage == "before"]
    if before and not proof.has_run:
        draft.need(*(_how(one) for one in lacking))
        return draft.open(clip(f"Not to be started yet: {before[0].text}?"))
    if lacking or proof.loose:
        draft.need(*(_how(one) for one in lacking if one.stage != "before"))
        first = next((one.text for one in lacking if one.stage != "before"), "level and edge for some weeks")
        start = f"{len(proof.loose)} found loose; " if proof.loose else ""
        return draft.decided("watch", clip(f"{start}run it and watch: {first}?".capitalize()))
    return draft.decided("run", "Every test of the proof is good: run it, keep the dates of the follow-up")


def _how(one: Asked) -> Missing:
    how = " ".join(part for part in (f"{one.how}.", one.caution) if part)
    return Missing((f"tests.proof.{one.key}",), one.text, one.tool, how)
