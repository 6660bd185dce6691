"""What the cuts and the new gasket change: ratio, gaps over the piston, timing, push-rods, faces and covers."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar

from firedeck.cylinder.cam_timing import CamShift, cam_timing_shift, push_rod_change
from firedeck.cylinder.intake_faces import IntakeFaceCut, intake_face_cut
from firedeck.cylinder.squish import squish_gap
from firedeck.cylinder.valve_clearance import ValveToPiston, valve_to_piston
from firedeck.errors import OutOfRange
from firedeck.findings.amounts import Amounts, amounts, drop, height_after
from firedeck.findings.doubted import doubted
from firedeck.findings.finding import Findings
from firedeck.findings.fitted import Fitted, fitted
from firedeck.findings.ratio_after import RatioAfter, area_missing, ratios_after
from firedeck.findings.volumes import Gasket, Volumes, gasket_chosen, gasket_then, unmeasured
from firedeck.job import Engine, Job, Joint
from firedeck.trace import DERIVED, Missing, Step

VALVES_OVER_PISTON = ("overhead-cam", "twin-cam", "push-rod")


@dataclass(frozen=True)
class Effects:
    """What a set of cuts and a gasket change; what the engine has none of stays None."""

    id: ClassVar[str] = "effects"
    cuts: Amounts
    gasket: Gasket | None
    gasket_change: float
    drop: Step
    ratios: tuple[RatioAfter, ...]
    mistake: Step | None
    upper_bound: bool
    squish: tuple[str, Step] | None
    valves: ValveToPiston | None
    cam: CamShift | None
    gear_centre: Step | None
    push_rods: Step | None
    intake: IntakeFaceCut | None
    height: Step | None
    land: float | None
    cork: Step | None
    dowels: tuple[tuple[str, Step], ...]
    fitted: tuple[Fitted, ...]
    missing: tuple[Missing, ...]


def find(job: Job, joint: Joint | None, found: Findings) -> Effects | Missing:
    """Work out what the cut of this job does with the gasket to be fitted."""
    assert joint is not None
    volumes = found.get(Volumes)
    measured = volumes if isinstance(volumes, Volumes) else None
    try:
        return effects_of(job, joint, measured, amounts(joint), gasket_chosen(joint))
    except OutOfRange as fault:
        return doubted(joint, fault, "cut")


def effects_of(
    job: Job, joint: Joint, volumes: Volumes | None, cuts: Amounts, gasket: Gasket | None
) -> Effects:
    """Work out what any set of cuts and gasket does."""
    engine = job.engine
    before = gasket_then(joint)
    change = gasket.thickness - before.thickness if gasket and before else 0.0
    since_new, by_this = drop(cuts, change), drop(cuts, change, in_all=False)
    ratios = tuple(ratios_after(job, joint, volumes, cuts, gasket)) if volumes else ()
    push_rods = push_rod_change(since_new.value).steps[0] if engine.valve_gear == "push-rod" else None
    effects = Effects(
        cuts=cuts,
        gasket=gasket,
        gasket_change=change,
        drop=since_new,
        ratios=ratios,
        mistake=volumes.mistake if volumes else None,
        upper_bound=bool(volumes and volumes.area and volumes.area.upper_bound),
        squish=_squish(joint, cuts, gasket),
        valves=_valves(joint, cuts, gasket),
        cam=_cam(engine, since_new),
        gear_centre=_gears(engine, since_new),
        push_rods=push_rods,
        intake=_intake(engine, since_new),
        height=height_after(joint, cuts),
        land=joint.chamber.land.value if joint.chamber.land else None,
        cork=_cork(joint, by_this),
        dowels=tuple(_dowels(joint, cuts, gasket)),
        fitted=fitted(engine, joint, cuts, by_this, push_rods),
        missing=(),
    )
    return replace(effects, missing=tuple(_missing(job, joint, volumes, effects)))


def nothing_changes(effects: Effects) -> bool:
    """Tell whether nothing comes off, nothing was off before, and the gasket is as thick as it was."""
    cuts = effects.cuts
    return cuts.stated and not (cuts.head_in_all.value or cuts.block_in_all.value or effects.gasket_change)


def _squish(joint: Joint, cuts: Amounts, gasket: Gasket | None) -> tuple[str, Step] | None:
    """Work out the gap over the piston that stands highest."""
    depths = {label: depth.value for label, depth in joint.block.deck_clearance.items()}
    if not depths:
        depths = {
            one.name: -max(stand.value for stand in one.stands)
            for one in joint.readings.pistons
            if one.stands
        }
    if not depths or gasket is None:
        return None
    label = min(depths, key=lambda each: depths[each])
    gap = squish_gap(deck_clearance=depths[label], gasket_thickness=gasket.thickness, cut=cuts.block)
    return label, gap.steps[0]


def _valves(joint: Joint, cuts: Amounts, gasket: Gasket | None) -> ValveToPiston | None:
    chamber = joint.chamber
    if not (chamber.intake_valve_clearance and chamber.exhaust_valve_clearance):
        return None
    then = gasket_then(joint)
    measured_with = (
        chamber.clearance_gasket.value if chamber.clearance_gasket else then.thickness if then else None
    )
    change = gasket.thickness - measured_with if gasket and measured_with is not None else 0.0
    return valve_to_piston(
        intake=chamber.intake_valve_clearance.value,
        exhaust=chamber.exhaust_valve_clearance.value,
        cut=cuts.head + cuts.block,
        gasket_change=change,
        valve_angle=chamber.valve_angle.value if chamber.valve_angle else 0.0,
    )


def _overhead(engine: Engine) -> bool:
    return engine.valve_gear in ("overhead-cam", "twin-cam")


def _cam(engine: Engine, since_new: Step) -> CamShift | None:
    if not _overhead(engine) or engine.cam_drive not in ("belt", "chain"):
        return None
    if engine.sprocket_diameter:
        return cam_timing_shift(cut=since_new.value, sprocket_diameter=engine.sprocket_diameter.value)
    if engine.sprocket_teeth and engine.sprocket_pitch:
        return cam_timing_shift(
            cut=since_new.value, teeth=float(engine.sprocket_teeth), pitch=engine.sprocket_pitch.value
        )
    return None


def _gears(engine: Engine, since_new: Step) -> Step | None:
    if not _overhead(engine) or engine.cam_drive != "gears":
        return None
    return Step.work_out(
        "Cam gear comes nearer the gear that drives it by",
        "drop",
        {"drop": since_new.figure()},
        ("gear_centre_change", "mm"),
        DERIVED,
    )


def _intake(engine: Engine, since_new: Step) -> IntakeFaceCut | None:
    if engine.arrangement != "vee" or not engine.vee_angle or engine.flange_lean is None:
        return None
    return intake_face_cut(engine.vee_angle.value, engine.flange_lean.value, since_new.value)


def _cork(joint: Joint, by_this: Step) -> Step | None:
    cover = joint.cover
    if cover is None or not (cover.seal_thickness and cover.gap):
        return None
    return Step.work_out(
        "Share by which the strip is pressed together",
        "(seal_thickness - (gap - drop)) / seal_thickness",
        {
            "seal_thickness": (cover.seal_thickness.value, "mm"),
            "gap": (cover.gap.value, "mm"),
            "drop": by_this.figure(),
        },
        ("cork_squeeze", "1"),
        DERIVED,
    )


def _dowels(joint: Joint, cuts: Amounts, gasket: Gasket | None) -> Iterator[tuple[str, Step]]:
    for dowel in joint.layout.dowels if joint.layout else ():
        if dowel.stand_out and dowel.hole_depth and gasket:
            yield (
                dowel.label,
                Step.work_out(
                    "Room left over the dowel",
                    "hole_depth + gasket_thickness - stand_out - head_cut - block_cut",
                    {
                        "hole_depth": (dowel.hole_depth.value, "mm"),
                        "gasket_thickness": (gasket.thickness, "mm"),
                        "stand_out": (dowel.stand_out.value, "mm"),
                        "head_cut": (cuts.head, "mm"),
                        "block_cut": (cuts.block, "mm"),
                    },
                    ("dowel_room", "mm"),
                    DERIVED,
                ),
            )


def _missing(job: Job, joint: Joint, volumes: Volumes | None, effects: Effects) -> Iterator[Missing]:
    """Go through what this kind of engine needs and the job does not give."""
    engine, cuts = job.engine, effects.cuts
    at = f"joint.{joint.name}"
    if not cuts.stated:
        yield Missing(
            (f"{at}.cut.head", f"{at}.head.heights_before", f"{at}.head.height_new"),
            "what was or will be skimmed off head and block: height of the head against a new one; on a push-rod "
            "engine also where the rocker meets the valve stem",
            "vernier or micrometer",
            "Measure the height at the four corners, write nought where nothing comes off.",
        )
    if nothing_changes(effects):
        return
    yield from area_missing(volumes, effects.ratios) if volumes else (unmeasured(joint),)
    if engine.valve_gear not in ("ports", "sleeve") and effects.valves is None:
        yield _clearance(at, "head" if engine.valve_gear == "side-valve" else "piston")
    if effects.squish is None and engine.valve_gear != "side-valve":
        yield Missing(
            (f"{at}.block.deck_clearance", f"{at}.gasket.candidates"),
            "squish: depth of the piston below the deck, and compressed thickness of the gasket",
            "depth micrometer, and the sheet with the gasket",
            "Over the gudgeon pin at top dead centre, both sides; or soft solder on the crown, turned once by hand.",
        )
    yield from _missing_drive(engine, effects)


def _missing_drive(engine: Engine, effects: Effects) -> Iterator[Missing]:
    if _overhead(engine) and engine.cam_drive in (None, "belt", "chain") and effects.cam is None:
        yield Missing(
            ("engine.cam_drive", "engine.sprocket_teeth", "engine.sprocket_pitch"),
            "teeth of the cam wheel and pitch of the belt or chain",
            "count and vernier",
            "Count the teeth; measure over ten pitches and divide.",
        )
    if engine.arrangement == "vee" and effects.intake is None:
        yield Missing(
            ("engine.vee_angle", "engine.flange_lean"),
            "angle between the banks, and lean of the intake flange from square to the deck",
            "papers, and a protractor on the head",
            "Lay the protractor between fire face and intake flange; square to the face is 0°.",
        )


def _clearance(at: str, against: str) -> Missing:
    how = (
        "Clay on the head over each valve, head on the old gasket, bolts snug, lash set; turn twice by hand, take the head "
        "off and cut the clay: the least is at full lift, not at top dead centre."
        if against == "head"
        else "Head on the old gasket, bolts snug, lash set; turn twice by hand and cut the clay, or push the valve down "
        "every two degrees from 15 before to 15 after top dead centre; take the least, along the valve."
    )
    return Missing(
        (f"{at}.chamber.intake_valve_clearance", f"{at}.chamber.exhaust_valve_clearance"),
        f"valve-to-{against} clearance of intake and exhaust, and the gasket it was measured with",
        "strip of clay"
        if against == "head"
        else "strip of clay, or indicator on the valve with a light spring",
        how,
    )
