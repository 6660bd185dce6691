"""Every written sum of the room gives its printed result from its printed inputs, to five digits."""

import pytest

from firedeck.diagnosis import (
    compression_spread,
    coolant_boiling,
    died_of,
    leak_causes,
    leak_down,
    leak_down_crank_torque,
    leak_down_signs,
    oil_gain,
)
from firedeck.trace import Step, evaluate

RESULTS = {
    "compression": compression_spread(
        (0.95, 0.92, 0.82),
        limit_rule="25 psi",
        wet=(1.1, 1.0, 0.93),
        oil_volume=5e3,
        swept_volume=45e4,
        ratio=9.9,
    ).steps,
    "oil": oil_gain(450e3, 9.9, 5e3).steps,
    "leak-down": leak_down(0.55, reading=0.4, restrictor=1.016, altitude=1e6).steps,
    "leak-down from a hole": leak_down(0.55, leak_hole=0.7, restrictor=1.016).steps,
    "crank": leak_down_crank_torque(86.0, 86.0, 143.0, 0.69, 0.2).steps,
    "water": coolant_boiling("water", 0.05, 1e6).steps,
    "ethylene": coolant_boiling("ethylene 50 %", 0.1, 1e6).steps,
    "leak": leak_causes(
        {"compression-one-low": True, "blue-smoke": False, **leak_down_signs(["sump"])}
    ).steps,
    "root": died_of({"overheated": True, "edges-eaten": False, "knock-heard": False}).steps,
}


@pytest.mark.parametrize("name", RESULTS)
def test_steps_work_out(name: str) -> None:
    steps = RESULTS[name]
    assert steps
    for step in steps:
        printed = {key: float(f"{number:.6g}") for key, (number, _) in step.inputs.items()}
        slack = 1e-5 if step.source.startswith("run:") else 2e-5
        assert evaluate(step.formula, printed) == pytest.approx(step.value, rel=slack, abs=slack), step.says


@pytest.mark.parametrize("name", RESULTS)
def test_steps_name_a_source(name: str) -> None:
    assert all(step.source for step in RESULTS[name])


def test_the_balance_of_a_hole_is_one() -> None:
    (balance,) = (step for step in RESULTS["leak-down from a hole"] if "balance" in step.result)
    assert isinstance(balance, Step)
    assert balance.value == pytest.approx(1.0, abs=1e-9)
