"""Every effect of a cut held against its limit: shared by the answers that judge cuts and whole sets."""

from collections.abc import Iterator
from dataclasses import dataclass

from firedeck.answers.given import picked
from firedeck.answers.judging import Judged, judge
from firedeck.answers.making import Draft, both
from firedeck.findings.effects import VALVES_OVER_PISTON, Effects
from firedeck.findings.ratio_after import RatioAfter
from firedeck.job import Engine, Job, Joint
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.tables import Picked
from firedeck.trace import DERIVED, Check, Context, Missing, Outcome, Step, as_printed

TOO_MUCH = frozenset(
    {
        "squish",
        "intake_valve_clearance",
        "exhaust_valve_clearance",
        "ratio",
        "ratio_rise",
        "head_height",
        "land",
    }
)
"""What nothing bolted on brings back; the rest can be restored."""


@dataclass(frozen=True)
class Held:
    """One effect to hold against its limit."""

    name: str
    quantity: str
    value: float
    steps: tuple[Step, ...]
    limit: Picked


def judge_effects(draft: Draft, job: Job, joint: Joint, effects: Effects) -> None:
    """Judge every effect that has a limit; ask for the limit of the others."""
    for one in _held(job, joint, effects):
        if one.limit.winner is None:
            draft.need(_ask_limit(joint, one))
        else:
            draft.add(judge(one.name, one.quantity, one.value, one.limit), one.steps)
    for ratio in effects.ratios:
        _ratio(draft, joint, job.engine, ratio)
    draft.need(*effects.missing)
    if effects.valves is None and job.engine.valve_gear in VALVES_OVER_PISTON:
        _say_wanted(draft, job.engine, joint)


def _say_wanted(draft: Draft, engine: Engine, joint: Joint) -> None:
    """Say how much gap over the piston is wanted, before anybody measures it."""
    for valve in ("intake", "exhaust"):
        quantity = f"{valve}_valve_clearance"
        winner = picked(joint, quantity, Context(part=_over(engine, joint))).winner
        if winner is None or winner.low is None:
            continue
        step = Step.work_out(
            f"Least gap of the {valve} valve, as wanted",
            "least",
            {"least": (winner.low, "mm")},
            ("wanted", "mm"),
            winner.source,
        )
        text = f"at least {both(winner.low, quantity)} is wanted; not measured yet"
        name = f"{valve} valve to piston"
        check = Check(name, quantity, None, Outcome.CANNOT_TELL, limit=winner, text=text)
        draft.add_check(check, (step,), winner.source)


def _over(engine: Engine, joint: Joint) -> str:
    """Name what the valve clears, as the tables do: rods of aluminium stretch more."""
    if engine.valve_gear == "side-valve":
        return "valve-to-head"
    if engine.fuel == "diesel":
        return "diesel-piston"
    return "piston-aluminium-rods" if joint.chamber.rods == "aluminium" else "piston"


def unjudged(draft: Draft) -> bool:
    """Tell whether something that decides is still missing."""
    return bool(draft.next)


def _held(job: Job, joint: Joint, effects: Effects) -> Iterator[Held]:
    yield from _over_the_piston(job.engine, joint, effects)
    yield from _valve_gear(job.engine, joint, effects)
    if effects.height is not None:
        limit = picked(joint, "head_height", Context(part="head", material=joint.head.material))
        if limit.winner is not None:
            yield Held(
                "head height after the cut", "head_height", effects.height.value, (effects.height,), limit
            )
    if effects.land is not None:
        step = Step.work_out(
            "Land left between chamber edge and ring, as measured",
            "land",
            {"land": (effects.land, "mm")},
            ("land_left", "mm"),
            DERIVED,
        )
        yield Held("land at the ring", "land", effects.land, (step,), _engine(joint, "land"))
    if effects.intake is not None:
        first, *_ = (step for step in effects.intake.steps if "port_shift" in step.result)
        yield Held(
            "intake ports out of line",
            "port_shift",
            first.value,
            effects.intake.steps,
            _engine(joint, "port_shift"),
        )
    if effects.cork is not None and joint.cover:
        context = Context(part="cork") if joint.cover.seal == "cork" else Context()
        limit = picked(joint, "cork_squeeze", context)
        yield Held("cork squeeze at the cover", "cork_squeeze", effects.cork.value, (effects.cork,), limit)
    for one in effects.fitted:
        context = Context(part=one.part, material=joint.head.material)
        yield Held(one.name, one.quantity, one.value, one.steps, picked(joint, one.quantity, context))
    for label, room in effects.dowels:
        yield Held(
            f"room over dowel {label}", "dowel_room", room.value, (room,), _engine(joint, "dowel_room")
        )


def _over_the_piston(engine: Engine, joint: Joint, effects: Effects) -> Iterator[Held]:
    part = "diesel-piston" if engine.fuel == "diesel" else "piston"
    rods = joint.chamber.rods or "steel"
    if effects.squish is not None and engine.valve_gear != "side-valve":
        label, gap = effects.squish
        context = Context(part=part, material=rods, duty=engine.duty or "road")
        limit = picked(joint, "squish", context)
        if limit.winner is not None or engine.fuel != "diesel":
            yield Held(f"squish, cylinder {label}", "squish", gap.value, (gap,), limit)
    if effects.valves is None:
        return
    side = engine.valve_gear == "side-valve"
    for valve, step in zip(("intake", "exhaust"), effects.valves.steps, strict=True):
        limit = picked(joint, f"{valve}_valve_clearance", Context(part=_over(engine, joint)))
        name = f"{valve} valve to {'head' if side else 'piston'}"
        yield Held(name, f"{valve}_valve_clearance", step.value, (step,), limit)


def _valve_gear(engine: Engine, joint: Joint, effects: Effects) -> Iterator[Held]:
    if effects.cam is not None:
        steps = (effects.drop, *effects.cam.steps)
        name = "cam timing in crank degrees"
        yield Held(name, "cam_shift", effects.cam.crank_angle, steps, _engine(joint, "cam_shift"))
    if effects.gear_centre is not None:
        steps = (effects.drop, effects.gear_centre)
        limit = _engine(joint, "gear_centre_change")
        yield Held("gear centre distance", "gear_centre_change", effects.gear_centre.value, steps, limit)
    if effects.push_rods is not None:
        limit = picked(joint, "push_rod_change", Context(part=engine.lifters or "solid"))
        steps = (effects.drop, effects.push_rods)
        yield Held("push-rods too long", "push_rod_change", effects.push_rods.value, steps, limit)


def _engine(joint: Joint, quantity: str) -> Picked:
    return picked(joint, quantity, Context(part="engine"))


def _ratio(draft: Draft, joint: Joint, engine: Engine, ratio: RatioAfter) -> None:
    """Judge the ratio by the papers, else by what the fuel bears, else by how much it rises."""
    name = f"compression ratio{f', cylinder {ratio.label}' if ratio.label else ''}"
    if ratio.after is None:
        if ratio.band is not None:
            text = f"between {ratio.band.low:.1f} and {ratio.band.high:.1f}: {ratio.band.why}"
            check = Check(name, "ratio", None, Outcome.CANNOT_TELL, band=ratio.band, text=text)
            draft.add_check(check, ratio.steps, DERIVED)
        return
    fuel = (
        "petrol-natural" if engine.fuel == "petrol" and engine.charging in (None, "natural") else "other-fuel"
    )
    limit = picked(joint, "ratio", Context(part=fuel))
    standard = engine.ratio.value if engine.ratio else ratio.before
    absolute = limit.winner is not None and meets(ratio.after, limit.winner.low, limit.winner.high)
    if limit.winner is not None and (absolute is not Meets.FAILS or limit.winner.rank != "common-practice"):
        draft.add(judge(name, "ratio", ratio.after, limit), ratio.steps)
        return
    rise = Step.work_out(
        "Rise of the ratio against standard",
        "ratio_after - ratio_standard",
        {"ratio_after": (as_printed(ratio.after), "1"), "ratio_standard": (as_printed(standard), "1")},
        ("ratio_rise", "1"),
        DERIVED,
    )
    rising = judge(f"{name}, rise", "ratio_rise", rise.value, _engine(joint, "ratio_rise"))
    draft.add(rising, (*ratio.steps, rise))
    said = Check(name, "ratio", ratio.after, rising.outcome, text="judged by its rise")
    draft.add_check(said, ratio.steps[-1:], DERIVED)


def words_of(one: Judged | Check) -> str:
    """Say a check with its figure in both families of units."""
    check = one.check if isinstance(one, Judged) else one
    value = both(check.value, check.quantity) if check.value is not None else check.text
    return f"{check.name[:1].upper()}{check.name[1:]} {value}"


def _ask_limit(joint: Joint, one: Held) -> Missing:
    return Missing(
        (f"joint.{joint.name}.limits",),
        f"limit of {one.name}: no book limit known",
        "the engine's manual or the maker of the parts",
        f"It comes to {both(one.value, one.quantity)}; write the limit of {one.quantity} with page and edition.",
    )
