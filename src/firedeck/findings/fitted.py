"""What hangs on the height of head and seats: valves in the face, inserts, gears, chain, lifters, springs."""

from collections.abc import Iterator
from dataclasses import dataclass

from firedeck.cylinder.head_fittings import (
    backlash_after,
    depth_after_cut,
    slack_made,
    stand_out_after_cut,
)
from firedeck.findings.amounts import Amounts
from firedeck.job import Engine, Joint
from firedeck.quantity import Kind, Quantity, parse
from firedeck.trace import DERIVED, Step

USUAL_ANGLE = "20°"
"""Pressure angle of gears where none is written down; the answer says so."""


@dataclass(frozen=True)
class Fitted:
    """One thing after the work: in words, its term, the part whose limit counts, and the sum."""

    name: str
    quantity: str
    part: str
    value: float
    steps: tuple[Step, ...]


def fitted(
    engine: Engine, joint: Joint, cuts: Amounts, drop: Step, push_rods: Step | None
) -> tuple[Fitted, ...]:
    """Work out everything that was measured of the valve gear and what is let into the head."""
    return (
        *_in_the_face(joint, cuts),
        *_drive(engine, joint, drop),
        *_lifters(engine, joint, push_rods),
        *_as_read(joint),
    )


def _in_the_face(joint: Joint, cuts: Amounts) -> Iterator[Fitted]:
    train = joint.valve_train
    for valve, depth in (("intake", train.intake_recession), ("exhaust", train.exhaust_recession)):
        if depth is not None:
            step = depth_after_cut(depth.value, cuts.head)
            yield Fitted(f"{valve} valve below the face", "valve_recession", "head", step.value, (step,))
    for part, stand, quantity in (
        ("pre-chamber", train.pre_chamber_stand_out, "chamber_stand_out"),
        ("injector", train.injector_stand_out, "injector_stand_out"),
    ):
        if stand is not None:
            step = stand_out_after_cut(stand.value, cuts.head, part.capitalize())
            yield Fitted(f"{part} stand-out", quantity, "head", step.value, (step,))


def _drive(engine: Engine, joint: Joint, drop: Step) -> Iterator[Fitted]:
    train = joint.valve_train
    if train.backlash is not None and engine.cam_drive == "gears":
        angle = train.pressure_angle.value if train.pressure_angle else parse(USUAL_ANGLE, Kind.ANGLE).value
        step = backlash_after(train.backlash.value, drop.value, angle)
        yield Fitted("backlash of the cam gear", "backlash", "engine", step.value, (drop, step))
    if train.tensioner_left is not None and engine.cam_drive in ("belt", "chain"):
        slack = slack_made(drop.value)
        left = Step.work_out(
            "Tensioner travel left, if it takes all the slack straight up",
            "tensioner_left - slack_made",
            {"tensioner_left": (train.tensioner_left.value, "mm"), "slack_made": slack.figure()},
            ("tensioner_after", "mm"),
            DERIVED,
        )
        yield Fitted("tensioner travel left", "tensioner_left", "engine", left.value, (drop, slack, left))


def _lifters(engine: Engine, joint: Joint, push_rods: Step | None) -> Iterator[Fitted]:
    travel = joint.valve_train.plunger_range
    if travel is None or push_rods is None or engine.lifters != "hydraulic":
        return
    step = Step.work_out(
        "Plunger travel left, starting from its middle",
        "plunger_range / 2 - abs(push_rod_change)",
        {"plunger_range": (travel.value, "mm"), "push_rod_change": push_rods.figure()},
        ("plunger_left", "mm"),
        DERIVED,
    )
    yield Fitted("lifter plunger travel left", "plunger_left", "engine", step.value, (push_rods, step))


def _as_read(joint: Joint) -> Iterator[Fitted]:
    """Heights that seats and grinding change, not the cut of the face: held against the papers as they are."""
    train = joint.valve_train
    read: tuple[tuple[str, str, Quantity | None], ...] = (
        ("valve to valve", "valve_to_valve", train.valve_to_valve),
        ("valve stem height", "stem_height", train.stem_height),
        ("spring height, fitted", "spring_height", train.spring_height),
        ("valve lash", "valve_lash", train.lash),
    )
    for name, quantity, value in read:
        if value is not None:
            step = Step.work_out(
                f"{name[:1].upper()}{name[1:]}, as read",
                "reading",
                {"reading": (value.value, "mm")},
                (quantity, "mm"),
                DERIVED,
            )
            yield Fitted(name, quantity, "head", value.value, (step,))
