"""Every written sum of cylinder and joint works out from its printed inputs, to five digits."""

import math

import pytest

from firedeck.cylinder.air import standard_atmosphere
from firedeck.cylinder.cam_timing import cam_timing_shift, push_rod_change
from firedeck.cylinder.chamber_cut import bore_area_mistake, chamber_cut
from firedeck.cylinder.cranking import altitude_compression, cranking_exponent, cranking_pressure
from firedeck.cylinder.cut_for_ratio import cut_for_ratio
from firedeck.cylinder.effects import Change, CylinderParts, cam_effect, ratio_effect
from firedeck.cylinder.gas_force import gas_force
from firedeck.cylinder.head_fittings import (
    backlash_after,
    depth_after_cut,
    slack_made,
    stand_out_after_cut,
)
from firedeck.cylinder.ideal_cycle import ideal_cycle
from firedeck.cylinder.intake_faces import angle_mill, intake_face_cut
from firedeck.cylinder.liners import LinerLimits, liner_step
from firedeck.cylinder.peak_pressure import Firing, peak_pressure
from firedeck.cylinder.piston_class import gasket_class
from firedeck.cylinder.squish import squish_gap
from firedeck.cylinder.stacking import stacked_gaskets
from firedeck.cylinder.thickness import compressed_thickness
from firedeck.cylinder.valve_clearance import valve_to_piston
from firedeck.cylinder.working_gas import gas_named
from firedeck.gasket.ring_fit import ring_fit
from firedeck.joint.simple_sum import Bore, Fastener, Scatter, against_as_built, clamp_against_gas
from firedeck.trace import Step, evaluate

PARTS = CylinderParts(86.0, 86.0, 45000.0, 1.2, 87.0, 0.31, 3000.0, 500.0, 300.0)
CHANGE = Change(0.152, 0.05, 1.25)
BOLTS = [Fastener(str(n), 60.0 * n, 40.0, 41000.0 + 700.0 * n) for n in range(4)]
BORES = [Bore("1", 30.0, 0.0, 87.3), Bore("2", 126.0, 0.0, 87.3)]
CLAMP = clamp_against_gas(BORES, BOLTS, 7.77, Scatter(0.1, 0.2))
RESULTS: dict[str, tuple[Step, ...]] = {
    "ratio": ratio_effect(PARTS, CHANGE, 5012.0).steps,
    "rim": chamber_cut(rim_length=251.3, cut=0.152).steps,
    "filled": chamber_cut(volume_before=45120.0, volume_after=44310.0, cut=0.152).steps,
    "fittings": (
        depth_after_cut(1.13, 0.152),
        stand_out_after_cut(0.021, 0.152, "Pre-chamber"),
        backlash_after(0.17, 0.152, math.radians(20.0)),
        slack_made(0.152),
    ),
    "mistake": bore_area_mistake(86.0, 5012.0).steps,
    "cut": cut_for_ratio(swept_volume=499557.0, clearance_volume=52134.0, ratio=10.9, plan_area=5012.0).steps,
    "squish": squish_gap(0.31, 1.23, 0.1).steps,
    "intake faces": intake_face_cut(math.radians(90), math.radians(10), 0.762).steps,
    "angle mill": angle_mill(150.0, math.radians(1)).steps,
    "cam": cam_effect(PARTS, CHANGE, teeth=38.0, pitch=9.525).steps,
    "cam wheel": cam_timing_shift(cut=0.152, sprocket_diameter=113.1, strand_angle=0.2).steps,
    "push-rod": push_rod_change(0.152, 0.15).steps,
    "valves": valve_to_piston(
        intake=2.61, exhaust=3.13, cut=0.152, gasket_change=-0.05, valve_angle=0.3
    ).steps,
    "air": standard_atmosphere(1_234_000.0).steps,
    "cranking": cranking_pressure(
        ratio=9.8, altitude=312_000.0, valve_closing=0.84, rod=143.0, stroke=86.0
    ).steps,
    "exponent": cranking_exponent(9.8, 1.31).steps,
    "altitude": altitude_compression(1.21, 1_500_000.0, 312_000.0).steps,
    "cycle": ideal_cycle(
        kind="dual",
        ratio=16.3,
        pressure=0.0981,
        temperature=41.0,
        heat=1234.0,
        pressure_ratio=1.31,
        gas=gas_named("variable"),
    ).steps,
    "firing": peak_pressure(Firing(9.3, 0.07, 312_000.0)).steps,
    "force": gas_force(7.77, 87.3).steps,
    "class": gasket_class(
        [[0.953, 0.957], [0.961, 0.969]], [(0.91, 1.0, 1.53), (1.01, 1.1, 1.63)], "mean-of-all"
    ).steps,
    "liners": liner_step([[0.081, 0.09, 0.085], [0.1, 0.09, 0.093]], LinerLimits(within=0.05)).steps,
    "one liner": liner_step([[0.081]], LinerLimits(within=0.05)).steps,
    "stack": stacked_gaskets([(1.1, 87.0), (0.35, 88.2)]).steps,
    "crush": compressed_thickness(1.27, "free", "composite").steps,
    "ring": ring_fit(86.03, 87.41).steps,
    "clamp": CLAMP.steps,
    "against": against_as_built(
        CLAMP, clamp_against_gas(BORES, BOLTS, 6.1, Scatter()), clamp_doubt=0.1
    ).steps,
}


@pytest.mark.parametrize("name", RESULTS)
def test_steps_work_out(name: str) -> None:
    assert RESULTS[name]
    for step in RESULTS[name]:
        printed = {key: float(f"{number:.6g}") for key, (number, _) in step.inputs.items()}
        assert evaluate(step.formula, printed) == pytest.approx(step.value, rel=2e-5, abs=1e-9), step.says
        assert step.source
