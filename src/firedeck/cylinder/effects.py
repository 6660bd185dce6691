"""All that a cut of head or block and another gasket change on one cylinder, before and after."""

from dataclasses import dataclass

from firedeck.cylinder.bounds import positive, within
from firedeck.cylinder.cam_timing import CamShift, cam_timing_shift
from firedeck.cylinder.chamber_cut import chamber_cut
from firedeck.cylinder.squish import Squish, squish_gap
from firedeck.cylinder.valve_clearance import ValveToPiston, valve_to_piston
from firedeck.cylinder.volumes import CompressionRatio, compression_ratio
from firedeck.trace import DERIVED, NO_UNIT, Note, Step


@dataclass(frozen=True)
class CylinderParts:
    """One cylinder as measured: lengths [mm], volumes [mm³]."""

    bore: float
    stroke: float
    chamber_volume: float
    gasket_thickness: float
    gasket_bore: float
    deck_clearance: float
    dish_volume: float | None = None
    dome_volume: float | None = None
    crevice_volume: float | None = None


@dataclass(frozen=True)
class Change:
    """What is changed: cuts positive when removed, the new gasket's thickness and bore [mm]."""

    head_cut: float = 0.0
    block_cut: float = 0.0
    gasket_thickness: float | None = None
    gasket_bore: float | None = None


@dataclass(frozen=True)
class RatioEffect:
    """Ratio before and after and their difference [1], squish before and after [mm]."""

    before: CompressionRatio
    after: CompressionRatio
    ratio_change: float
    squish_before: Squish
    squish_after: Squish
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def lowered_by(parts: CylinderParts, change: Change) -> Step:
    """By how much the head comes nearer the crank.

    Parameters
    ----------
    parts : CylinderParts
        The cylinder before [mm].
    change : Change
        Cuts and new gasket [mm].

    Returns
    -------
    Step
        The sum; its value is the drop of the head, negative when it rises [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> parts = CylinderParts(86.0, 86.0, 45000.0, 1.2, 87.0, 0.0)
    >>> round(lowered_by(parts, Change(head_cut=0.25, gasket_thickness=1.3)).value, 3)
    0.15
    """
    new = parts.gasket_thickness if change.gasket_thickness is None else change.gasket_thickness
    return Step.work_out(
        "Head comes nearer the crank by",
        "head_cut + block_cut - (new_thickness - old_thickness)",
        {
            "head_cut": (change.head_cut, "mm"),
            "block_cut": (change.block_cut, "mm"),
            "new_thickness": (new, "mm"),
            "old_thickness": (parts.gasket_thickness, "mm"),
        },
        ("drop", "mm"),
        DERIVED,
    )


def ratio_effect(parts: CylinderParts, change: Change, plan_area: float | None) -> RatioEffect:
    """Ratio and squish before and after a cut or another gasket.

    Parameters
    ----------
    parts : CylinderParts
        The cylinder as measured [mm, mm³].
    change : Change
        Cuts and new gasket [mm].
    plan_area : float or None
        Area of the chamber outline at the face; only a head cut needs it [mm²].

    Returns
    -------
    RatioEffect
        Ratios [1] and squish gaps [mm].

    Raises
    ------
    OutOfRange
        If a head cut is given without plan area, or nothing is left of the chamber.

    Valid for
    ---------
    Straight chamber walls; squish pad level with the head face, so that a head cut leaves the gap.

    Source
    ------
    derived

    Examples
    --------
    >>> parts = CylinderParts(86.0, 86.0, 45000.0, 1.2, 87.0, 0.0)
    >>> found = ratio_effect(parts, Change(head_cut=0.25), 5000.0)
    >>> round(found.before.ratio, 3), round(found.after.ratio, 3)
    (10.582, 10.818)
    """
    within("block_cut", change.block_cut, -20.0, 20.0, "mm")
    taken: tuple[Step, ...] = ()
    chamber = parts.chamber_volume
    notes: tuple[Note, ...] = ()
    if change.head_cut:
        area = plan_area if plan_area is not None else 0.0
        positive("plan_area", area, "mm²")
        off = chamber_cut(plan_area=area, cut=change.head_cut)
        taken, notes = off.steps[:1], off.assumptions
        chamber -= off.volume_change
        positive("chamber_volume after the cut", chamber, "mm³")
    new = _after(parts, change, chamber)
    before, after = _ratio(parts), _ratio(new)
    rise = Step.work_out(
        "Change of ratio",
        "ratio_after - ratio_before",
        {"ratio_after": (after.ratio, NO_UNIT), "ratio_before": (before.ratio, NO_UNIT)},
        ("ratio_change", NO_UNIT),
        DERIVED,
    )
    squish_before = squish_gap(parts.deck_clearance, parts.gasket_thickness)
    squish_after = squish_gap(parts.deck_clearance, new.gasket_thickness, change.block_cut)
    steps = (*before.steps, *taken, *after.steps, rise, *squish_before.steps, *squish_after.steps)
    cautions = (*after.cautions, *squish_after.cautions)
    return RatioEffect(
        before, after, rise.value, squish_before, squish_after, steps, (*before.assumptions, *notes), cautions
    )


def _after(parts: CylinderParts, change: Change, chamber_volume: float) -> CylinderParts:
    return CylinderParts(
        bore=parts.bore,
        stroke=parts.stroke,
        chamber_volume=chamber_volume,
        gasket_thickness=change.gasket_thickness or parts.gasket_thickness,
        gasket_bore=change.gasket_bore or parts.gasket_bore,
        deck_clearance=parts.deck_clearance - change.block_cut,
        dish_volume=parts.dish_volume,
        dome_volume=parts.dome_volume,
        crevice_volume=parts.crevice_volume,
    )


def _ratio(parts: CylinderParts) -> CompressionRatio:
    return compression_ratio(
        bore=parts.bore,
        stroke=parts.stroke,
        chamber_volume=parts.chamber_volume,
        gasket_thickness=parts.gasket_thickness,
        gasket_bore=parts.gasket_bore,
        deck_clearance=parts.deck_clearance,
        dish_volume=parts.dish_volume,
        dome_volume=parts.dome_volume,
        crevice_volume=parts.crevice_volume,
    )


def cam_effect(
    parts: CylinderParts,
    change: Change,
    *,
    sprocket_diameter: float | None = None,
    teeth: float | None = None,
    pitch: float | None = None,
) -> CamShift:
    """Shift of an overhead cam from cuts and another gasket together.

    Parameters
    ----------
    parts : CylinderParts
        The cylinder before [mm].
    change : Change
        Cuts and new gasket [mm].
    sprocket_diameter : float, optional
        Pitch diameter of the cam wheel [mm].
    teeth, pitch : float, optional
        Teeth of the cam wheel [1] and pitch of chain or belt [mm].

    Returns
    -------
    CamShift
        Cam and crank angle, positive late, and the direction in words [rad].

    Raises
    ------
    JobError
        If neither or both ways of giving the wheel are taken.

    Source
    ------
    derived

    Examples
    --------
    >>> parts = CylinderParts(86.0, 86.0, 45000.0, 1.2, 87.0, 0.0)
    >>> cam_effect(parts, Change(gasket_thickness=1.5), teeth=38.0, pitch=9.525).direction
    'early'
    """
    drop = lowered_by(parts, change)
    shift = cam_timing_shift(cut=drop.value, sprocket_diameter=sprocket_diameter, teeth=teeth, pitch=pitch)
    return CamShift(
        shift.cam_angle,
        shift.crank_angle,
        shift.direction,
        (drop, *shift.steps),
        shift.assumptions,
        shift.cautions,
    )


def valve_effect(
    parts: CylinderParts,
    change: Change,
    *,
    intake: float,
    exhaust: float,
    limits: tuple[float, float] | None = None,
    valve_angle: float = 0.0,
) -> ValveToPiston:
    """Valve to piston after cuts and another gasket together.

    Parameters
    ----------
    parts : CylinderParts
        The cylinder before [mm].
    change : Change
        Cuts and new gasket [mm].
    intake, exhaust : float
        Gaps measured before, along the valve's axis [mm].
    limits : (float, float), optional
        Least gap of intake and exhaust [mm].
    valve_angle : float, optional
        Lean of the valves from the bore axis [rad].

    Returns
    -------
    ValveToPiston
        Gaps after the change [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> parts = CylinderParts(86.0, 86.0, 45000.0, 1.2, 87.0, 0.0)
    >>> round(valve_effect(parts, Change(head_cut=0.3), intake=2.5, exhaust=3.0).intake, 3)
    2.2
    """
    new = parts.gasket_thickness if change.gasket_thickness is None else change.gasket_thickness
    return valve_to_piston(
        intake=intake,
        exhaust=exhaust,
        cut=change.head_cut + change.block_cut,
        gasket_change=new - parts.gasket_thickness,
        limits=limits,
        valve_angle=valve_angle,
    )
