"""Angle, heat, stripping and pressure, where a figure can be worked out by hand."""

from math import pi

import pytest

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners import (
    Frustum,
    GripPart,
    angle_tension,
    bearing_pressure,
    bolt_tension,
    class_of,
    grip_parts,
    limits_with,
    member_stiffness,
    rises_of,
    settlement_given,
    thermal_tension,
    thread_of,
    thread_strip,
)
from firedeck.tables.materials import material

THREAD = thread_of("M10x1.25")


def test_a_quarter_turn_on_two_springs_in_line():
    found = angle_tension(THREAD, pi / 2, 200e3, 800e3, snug_tension=10e3)
    assert found.tension == pytest.approx(10e3 + 1.25 / 4 * 160e3)
    assert found.reached_yield is None
    assert found.cautions[0].text.startswith("no class")


def test_a_waist_yields_before_the_thread():
    strength = class_of("10.9", THREAD)
    waist = angle_tension(THREAD, pi, 150e3, 500e3, strength=strength, stress_area=40.0)
    assert waist.reached_yield
    assert waist.tension == pytest.approx(40.0 * 940.0)
    elastic = waist.tension / 150e3
    assert waist.stretch == pytest.approx(elastic + waist.plastic_stretch)
    assert waist.plastic_stretch == pytest.approx(0.625 - waist.tension * (1 / 150e3 + 1 / 500e3))


def test_snug_at_yield_is_no_snug():
    with pytest.raises(OutOfRange, match="snug_tension"):
        angle_tension(THREAD, 1.0, 150e3, 500e3, snug_tension=90e3, strength=class_of("8.8", THREAD))


def test_an_area_without_a_class_is_refused():
    with pytest.raises(OutOfRange, match="class"):
        angle_tension(THREAD, 1.0, 150e3, 500e3, stress_area=40.0)


def test_past_yield_is_said():
    over = bolt_tension(
        THREAD, 90e3, thread_friction=0.12, head_friction=0.12, strength=class_of("8.8", THREAD)
    )
    assert over.yield_fraction > 1
    assert "past yield" in over.cautions[0].text


def test_the_band_must_hold_the_friction():
    from firedeck.fasteners import friction_of

    with pytest.raises(OutOfRange, match="friction_band"):
        bolt_tension(THREAD, 50e3, thread_friction=0.12, head_friction=0.2, friction_band=friction_of("oil"))


def test_alloy_head_on_steel_bolts_tightens_when_hot():
    parts = grip_parts("aluminium/90 mm, grey-iron/12 mm")
    assert thermal_tension(parts, rises_of(2, 80.0, None), material("steel"), 150e3, 500e3).change > 0
    iron = grip_parts("grey-iron/102 mm")
    assert thermal_tension(iron, rises_of(1, 80.0, None), material("steel"), 150e3, 500e3).change < 0


def test_rises_of_each_part():
    parts = (GripPart("one", 50.0, 20e-6, "derived"), GripPart("two", 50.0, 10e-6, "derived"))
    found = thermal_tension(parts, (100.0, 50.0, 80.0), 12e-6, 1e5, 1e5)
    growth = 50 * 20e-6 * 100 + 50 * 10e-6 * 50 - 100 * 12e-6 * 80
    assert found.change == pytest.approx(growth * 5e4)
    with pytest.raises(OutOfRange, match="then the bolt"):
        rises_of(2, None, (80.0, 60.0))
    with pytest.raises(OutOfRange, match="both"):
        rises_of(2, 80.0, (80.0, 60.0, 50.0))


@pytest.mark.parametrize("text", ["aluminium", "aluminium/90 mm/3", "aluminium/90"])
def test_a_grip_that_is_none(text):
    with pytest.raises(OutOfRange, match="grip"):
        grip_parts(text)


def test_settling_is_typed_or_counted_not_both():
    with pytest.raises(OutOfRange, match="settlement"):
        settlement_given(0.01, 0.006, 2.0)
    with pytest.raises(OutOfRange, match="needed"):
        settlement_given(None, 0.006, None)
    with pytest.raises(TableGap, match="160"):
        settlement_given(None, 0.2, 2.0)


def test_a_measured_hole_takes_the_place_of_the_usual_one():
    worn = limits_with(THREAD, internal_minor_maximum=9.2)
    assert worn.internal_minor_maximum == 9.2
    assert worn.external_major_minimum == limits_with(THREAD).external_major_minimum
    fresh = thread_strip(THREAD, 12.0, 600.0, 180.0)
    assert thread_strip(THREAD, 12.0, 600.0, 180.0, worn).bolt_strip_load < fresh.bolt_strip_load


def test_a_stripped_hole_has_no_tooth():
    with pytest.raises(OutOfRange, match="no tooth"):
        thread_strip(THREAD, 12.0, limits=limits_with(THREAD, internal_pitch_maximum=11.5))


def test_aluminium_needs_more_thread_than_iron():
    alloy, iron = (thread_strip(THREAD, 15.0, 620.0, shear) for shear in (180.0, 300.0))
    assert alloy.engagement_for_full_strength > iron.engagement_for_full_strength
    assert 1.0 < alloy.engagement_for_full_strength / 10.0 < 2.5


def test_a_wide_slice_of_cone_nears_a_plain_tube():
    thin = member_stiffness((Frustum(200e3, 40.0, 0.01),), 10.0).stiffness
    assert thin == pytest.approx(200e3 * pi / 4 * (40.0**2 - 10.0**2) / 0.01, rel=1e-3)


def test_pressure_on_alloy_and_on_iron():
    alloy = bearing_pressure(40e3, 20.0, 11.0, material("aluminium"))
    iron = bearing_pressure(40e3, 20.0, 11.0, material("grey-iron"))
    assert alloy.pressure == pytest.approx(40e3 / (pi / 4 * (400 - 121)))
    assert alloy.share_of_yield > 1 > iron.share_of_yield
    assert bearing_pressure(40e3, 20.0, 11.0).share_of_yield is None
