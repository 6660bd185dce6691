"""Backlash of gears whose centres move, a second way: exact involutes on the new centre distance."""

import math

import pytest

from firedeck.cylinder.head_fittings import backlash_after
from firedeck.errors import OutOfRange


def involute(angle: float) -> float:
    return math.tan(angle) - angle


def exact(teeth: tuple[int, int], module: float, angle: float, backlash: float, drop: float) -> float:
    """Backlash at the working pitch circle from the involute of the working pressure angle."""
    centre = module * sum(teeth) / 2
    base = centre * math.cos(angle)
    working = math.acos(base / (centre - drop))
    thickness = math.pi * module - backlash
    scale = (centre - drop) / centre
    pitch = math.pi * module * scale
    both = thickness * scale + module * sum(teeth) * scale * (involute(angle) - involute(working))
    return pitch - both


@pytest.mark.parametrize("teeth", [(28, 56), (40, 40), (21, 42)])
@pytest.mark.parametrize("module", [2.0, 3.0])
@pytest.mark.parametrize("degrees", [14.5, 20.0, 25.0])
@pytest.mark.parametrize("drop", [-0.15, 0.05, 0.1])
def test_first_order_and_involutes_agree(
    teeth: tuple[int, int], module: float, degrees: float, drop: float
) -> None:
    angle = math.radians(degrees)
    found = backlash_after(0.2, drop, angle).value
    assert found == pytest.approx(exact(teeth, module, angle, 0.2, drop), abs=0.004)


def test_an_angle_no_gear_has_is_refused() -> None:
    with pytest.raises(OutOfRange):
        backlash_after(0.2, 0.1, math.radians(45.0))
