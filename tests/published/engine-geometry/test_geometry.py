"""Volumes, cuts, intake faces, cam timing and squish against worked-out figures."""

import math

import pytest
from cases import Row, published
from sum_rows import check

from firedeck.cylinder.cam_timing import cam_timing_shift, push_rod_change
from firedeck.cylinder.chamber_cut import bore_area_mistake, chamber_cut
from firedeck.cylinder.effects import Change, CylinderParts, ratio_effect
from firedeck.cylinder.intake_faces import angle_mill
from firedeck.quantity import Kind, parse


def length(text: str) -> float:
    return parse(text, Kind.LENGTH).value


@published(__file__, "sums.csv")
def test_sum(row: Row) -> None:
    check(row)


@published(__file__, "areas.csv")
def test_plan_area_is_not_the_bore_area(row: Row) -> None:
    taken, area = parse(row["volume"], Kind.VOLUME).value, parse(row["plan_area"], Kind.AREA).value
    found = chamber_cut(volume_before=10 * taken, volume_after=9 * taken, cut=length(row["cut"]))
    assert found.volume_per_cut == pytest.approx(area, abs=parse("0.05 sq in", Kind.AREA).value)
    bore = math.sqrt(4 / math.pi * parse(row["bore_area"], Kind.AREA).value)
    assert bore_area_mistake(bore, found.volume_per_cut).share < -0.35


@published(__file__, "areas.csv", lambda row: row["cut"] == "0.125 in")
def test_head_cut_raises_the_ratio_by_its_plan_area(row: Row) -> None:
    parts = CylinderParts(86.0, 86.0, 45000.0, 1.2, 87.0, 0.0)
    found = [ratio_effect(parts, Change(head_cut=cut), 5000.0).after.ratio for cut in (0.25, 0.50)]
    assert found == pytest.approx([10.818, 11.065], abs=0.001)


@published(__file__, "shifts.csv")
def test_shift(row: Row) -> None:
    angle = math.radians(float(row["angle"]))
    if row["what"] == "angle-mill":
        found = angle_mill(length(row["length"]), angle).deep_cut
        assert found == pytest.approx(length(row["expected"]), rel=0.005)
    elif row["what"] == "cam":
        shift = cam_timing_shift(
            cut=length(row["length"]), sprocket_diameter=length(row["size"]), strand_angle=angle
        )
        assert math.degrees(shift.cam_angle) == pytest.approx(float(row["expected"]), abs=0.000005)
        assert shift.crank_angle == 2 * shift.cam_angle
        assert shift.direction == "late"
    else:
        found = push_rod_change(length(row["length"]), angle).change
        assert found == pytest.approx(length(row["expected"]), abs=0.0000005)
