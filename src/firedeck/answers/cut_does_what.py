"""cut-does-what: what the cuts and the new gasket do to ratio, gaps, timing, push-rods, faces and covers."""

from firedeck.answers.answer import Answer
from firedeck.answers.counting import clip
from firedeck.answers.cut_checks import TOO_MUCH, judge_effects, words_of
from firedeck.answers.given import picked
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft, both, worst
from firedeck.findings.effects import Effects, nothing_changes
from firedeck.findings.finding import Findings
from firedeck.findings.free_gasket import FreeGasket, free_gasket
from firedeck.findings.volumes import Volumes
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.trace import COMMON_PRACTICE, DERIVED, Check, Context, Missing, Note, Outcome, Step

QUESTION = "cut-does-what"
BAD_COVER = ("pushed-out", "split")


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Judge every effect; what can be restored comes before what cannot."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    effects = found.get(Effects)
    if isinstance(effects, Missing):
        return draft.open("The cut cannot be judged with these figures", effects)
    _amounts(draft, effects)
    _cover(draft, joint)
    if nothing_changes(effects) and not draft_fails(draft):
        return draft.decided("fine", "Nothing comes off and the gasket is as thick as it was")
    judge_effects(draft, job, joint, effects)
    _say(draft, job, joint, effects)
    _say_measured(draft, found, effects)
    draft.work.extend(listed("cut_work", _words(draft, job, joint, effects), _figures(draft)))
    return _ending(draft)


def draft_fails(draft: Draft) -> bool:
    """Tell whether a check has failed already."""
    return any(check.outcome is Outcome.FAILS for check in draft.checks)


def _amounts(draft: Draft, effects: Effects) -> None:
    """State what comes off; what the height of the head shows is a check of its own."""
    cuts = effects.cuts
    if cuts.removed is not None:
        said = Check("removed from the head before this job", "cut", cuts.removed.value, Outcome.HOLDS)
        draft.add_check(said, (cuts.removed,), DERIVED)
    if cuts.stated:
        for part, step in (("head", cuts.head_in_all), ("block", cuts.block_in_all)):
            draft.add_check(
                Check(f"off the {part} in all", "cut", step.value, Outcome.HOLDS), (step,), DERIVED
            )


def _cover(draft: Draft, joint: Joint) -> None:
    """A strip that is pushed out or split was squeezed too much, whatever it measures now."""
    signs = [sign for sign in joint.cover.seen if sign in BAD_COVER] if joint.cover else []
    if not signs or joint.cover is None:
        return
    limit = picked(joint, "cork_squeeze", Context(part="cork")) if joint.cover.seal == "cork" else None
    winner = limit.winner if limit else None
    step = Step.work_out(
        "Signs that the strip is squeezed too much",
        "signs",
        {"signs": (float(len(signs)), "1")},
        ("count", "1"),
        DERIVED,
    )
    text = " and ".join(sign.replace("-", " ") for sign in signs)
    name = f"{joint.cover.seal or 'seal'} squeeze at the cover, by its looks"
    draft.add_check(
        Check(name, "cork_squeeze", None, Outcome.FAILS, limit=winner, text=text),
        (step,),
        winner.source if winner else COMMON_PRACTICE,
    )
    draft.need(
        Missing(
            (f"joint.{joint.name}.cover.gap", f"joint.{joint.name}.cover.seal_thickness"),
            f"gap between head and cover with the head down, and free thickness of the {joint.cover.seal or 'seal'}",
            "clay plug and vernier",
            "Head on its gasket and tight, clay where the strip lies, cover on and off again, measure the clay.",
        )
    )


def _ending(draft: Draft) -> Answer:
    bad = worst(draft.checks) if draft.checks else None
    if bad is not None and bad.outcome is Outcome.FAILS:
        fails = [check for check in draft.checks if check.outcome is Outcome.FAILS]
        too_much = any(check.quantity in TOO_MUCH for check in fails)
        return draft.decided("too-much" if too_much else "restore-first", _headline(bad))
    if draft.next:
        return draft.open(clip(f"Still wanted: {draft.next[0].missing.measure.split(':')[0]}"))
    assert bad is not None
    if bad.outcome is Outcome.AT_LIMIT:
        return draft.close("fine", clip(f"{words_of(bad)}: exactly at the limit"))
    return draft.decided("fine", _headline(bad))


def _headline(bad: Check) -> str:
    limit = bad.limit
    if limit is None:
        return clip(f"{words_of(bad)}")
    ends = []
    if limit.low is not None and limit.high is None:
        ends.append(f"least {both(limit.low, bad.quantity)}")
    elif limit.high is not None:
        ends.append(f"most {both(limit.high, bad.quantity)}")
    return clip(f"{words_of(bad)}, {' '.join(ends)}")


def _words(draft: Draft, job: Job, joint: Joint, effects: Effects) -> frozenset[str]:
    engine = job.engine
    words = {f"fails-{check.quantity}" for check in draft.checks if check.outcome is Outcome.FAILS}
    words |= {one for one in (engine.fuel, engine.valve_gear, engine.arrangement) if one}
    words |= {"pre-chamber"} if engine.pre_chamber else set()
    words |= {"cover"} if joint.cover else set()
    cuts = effects.cuts
    words |= {"cut"} if cuts.head_in_all.value or cuts.block_in_all.value else set()
    return frozenset(words)


def _figures(draft: Draft) -> dict[str, str]:
    figures = {}
    for check in draft.checks:
        if check.value is not None and check.quantity not in figures:
            figures[check.quantity] = both(check.value, check.quantity)
            if check.outcome is Outcome.FAILS and check.margin is not None:
                figures[check.quantity] += f", {both(-check.margin, check.quantity)} out"
    return figures


def _say(draft: Draft, job: Job, joint: Joint, effects: Effects) -> None:
    gasket = effects.gasket
    if gasket is not None:
        thickness = both(gasket.thickness, "gasket_thickness")
        draft.assumptions.append(f"gasket {gasket.name}, {thickness} taken as compressed thickness")
    elif (free := free_gasket(joint)) is not None:
        _say_free(draft, free)
    else:
        draft.assumptions.append("no new gasket named: taken as thick as the old one")
    if job.document.engine.valve_gear in ("overhead-cam", "twin-cam") and effects.cam:
        cam, crank = both(effects.cam.cam_angle, "angle"), both(effects.cam.crank_angle, "cam_shift")
        draft.notes.append(
            Note(f"Cam comes {effects.cam.direction}: {cam} at the cam, {crank} at the crank.", DERIVED)
        )
    if effects.intake:
        flange, rails = both(effects.intake.flange_cut, "cut"), both(effects.intake.end_rail_cut, "cut")
        shift = both(effects.intake.port_shift, "port_shift")
        draft.notes.append(
            Note(
                f"Intake brought back in line: {flange} off each flange, {rails} off the end rails, "
                f"both banks cut alike; left as it is the ports stand {shift} out of line.",
                DERIVED,
            )
        )
    removed, written = effects.cuts.removed, joint.cut.earlier_head
    if removed and written and meets(written.value, removed.value, removed.value) is Meets.FAILS:
        shown, said = both(removed.value, "cut"), both(written.value, "cut")
        draft.assumptions.append(
            f"earlier cut taken as written, {said}; the height of the head shows {shown}"
        )
    if effects.mistake is not None:
        share = effects.mistake.value * 100
        words = "more" if share > 0 else "less"
        draft.notes.append(
            Note(
                f"Taken over the bore area the cut would seem to take {abs(share):.0f} % {words} than it does.",
                DERIVED,
            )
        )
    if effects.upper_bound:
        draft.cautions.append(
            "Chamber area from the rim as a circle is the most it can be: the true ratio is lower."
        )
    if joint.valve_train.backlash and joint.valve_train.pressure_angle is None:
        draft.assumptions.append("teeth of the usual 20° pressure angle")
    if joint.chamber.rods is None and job.engine.fuel != "diesel":
        draft.assumptions.append("steel connecting rods; aluminium ones want more gap")
    draft.anyway = (
        "Too little gap shows first as a tap at top dead centre that stays when hot, then as a bent valve. "
        "Metal that is off cannot be put back: a thicker gasket is the only way home."
    )


def _say_free(draft: Draft, free: FreeGasket) -> None:
    """Never reckon with a free thickness; say what it may be pressed to."""
    draft.need(free.missing)
    text = f"gasket {free.name}: {both(free.free, 'free_thickness')} is its free thickness and is not reckoned with"
    if free.pressed is not None:
        ends = (both(end, "gasket_thickness") for end in (free.pressed.low, free.pressed.high))
        text += f"; pressed it may come to {' to '.join(ends)}"
    draft.assumptions.append(f"{text}; taken as thick as the old one")


def _say_measured(draft: Draft, found: Findings, effects: Effects) -> None:
    """Where the ratio after the cut is open, give what was measured before it, cylinder by cylinder."""
    volumes = found.get(Volumes)
    if isinstance(volumes, Missing) or not volumes.measured or any(one.after for one in effects.ratios):
        return
    now = ", ".join(f"{label}: {one.ratio:.2f}" for label, one in volumes.measured.items())
    draft.assumptions.append(f"ratio as measured, before this cut, {now}")
