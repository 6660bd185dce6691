"""Sums of what else moves when a head comes down: intake faces, cam timing, valve to piston."""

from firedeck.cylinder.cam_timing import cam_timing_shift
from firedeck.cylinder.intake_faces import intake_face_cut
from firedeck.cylinder.valve_clearance import valve_to_piston
from firedeck.quantity import Kind
from firedeck.sums.registry import Figure, SumResult, a_sum
from firedeck.sums.written import written


@a_sum("intake-face-cut")
def intake_face_cut_sum(vee_angle: float, flange_lean: float, cut: float) -> SumResult:
    """Cuts of intake flanges and end rails of a vee engine after a cut of both banks."""
    found = intake_face_cut(vee_angle, flange_lean, cut)
    results = {
        "flange_cut": Figure(found.flange_cut, Kind.LENGTH),
        "end_rail_cut": Figure(found.end_rail_cut, Kind.LENGTH),
        "port_shift": Figure(found.port_shift, Kind.LENGTH),
    }
    return written(found, results)


@a_sum("cam-timing-shift")
def cam_timing_shift_sum(
    *,
    cut: float,
    sprocket_diameter: float | None = None,
    teeth: float | None = None,
    pitch: float | None = None,
) -> SumResult:
    """Shift of an overhead cam after a cut, in cam and in crank degrees, positive late."""
    found = cam_timing_shift(cut=cut, sprocket_diameter=sprocket_diameter, teeth=teeth, pitch=pitch)
    results = {
        "cam_angle": Figure(found.cam_angle, Kind.ANGLE),
        "crank_angle": Figure(found.crank_angle, Kind.ANGLE),
    }
    return written(found, results)


@a_sum("valve-to-piston")
def valve_to_piston_sum(
    *,
    intake: float,
    exhaust: float,
    cut: float,
    gasket_change: float,
    limits: tuple[float, ...] | None = None,
    valve_angle: float = 0.0,
) -> SumResult:
    """Gaps between valves and piston after a cut and a change of gasket."""
    found = valve_to_piston(
        intake=intake,
        exhaust=exhaust,
        cut=cut,
        gasket_change=gasket_change,
        limits=limits,
        valve_angle=valve_angle,
    )
    results = {"intake": Figure(found.intake, Kind.LENGTH), "exhaust": Figure(found.exhaust, Kind.LENGTH)}
    return written(found, results)
