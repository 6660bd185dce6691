"""Rules no bolt breaks, whatever the figures."""

from hypothesis import given
from hypothesis import strategies as st

from firedeck.fasteners import (
    GripPart,
    angle_tension,
    assembly_tension,
    bearing_of,
    bolt_tension,
    bolt_torque,
    class_of,
    embedding_loss,
    friction_of,
    joint_diagram,
    nut_factor_tension,
    same_tension_torque,
    settlement_given,
    thermal_tension,
    thread_of,
    thread_strip,
)

THREADS = st.sampled_from(
    ["M8", "M10x1.25", "M10", "M11x1.25", "M12", "M14x1.5", "3/8-16", "7/16-14", "1/2-20"]
)
FRICTIONS = st.floats(0.03, 0.4)
TORQUES = st.floats(1e3, 5e5)
STIFFNESSES = st.floats(1e4, 2e6)
LUBRICANTS = st.sampled_from(["dry", "oil", "moly", "thread-sealer", "maker-coated"])


def pull(thread, torque, in_thread, under_head):
    return bolt_tension(thread_of(thread), torque, thread_friction=in_thread, head_friction=under_head)


class TestFriction:
    """More friction never gives more tension."""

    @given(THREADS, TORQUES, FRICTIONS, FRICTIONS, FRICTIONS)
    def test_in_the_thread(self, thread, torque, one, other, head):
        less, more = sorted((one, other))
        assert pull(thread, torque, more, head).tension <= pull(thread, torque, less, head).tension

    @given(THREADS, TORQUES, FRICTIONS, FRICTIONS, FRICTIONS)
    def test_under_the_head(self, thread, torque, one, other, in_thread):
        less, more = sorted((one, other))
        assert pull(thread, torque, in_thread, more).tension <= pull(thread, torque, in_thread, less).tension

    @given(st.floats(0.05, 0.5), st.floats(0.05, 0.5), TORQUES)
    def test_as_a_nut_factor(self, one, other, torque):
        less, more = sorted((one, other))
        assert (
            nut_factor_tension(10.0, torque, more).tension <= nut_factor_tension(10.0, torque, less).tension
        )

    @given(THREADS, FRICTIONS, FRICTIONS)
    def test_at_assembly(self, thread, one, other):
        less, more = sorted((one, other))
        size = thread_of(thread)
        slack, tight = (
            assembly_tension(size, (940.0, "iso-898-1"), thread_friction=mu, head_friction=0.12).tension
            for mu in (more, less)
        )
        assert slack <= tight


class TestTorque:
    """More torque never gives less tension."""

    @given(THREADS, TORQUES, TORQUES, FRICTIONS)
    def test_more_torque(self, thread, one, other, friction):
        less, more = sorted((one, other))
        assert (
            pull(thread, less, friction, friction).tension <= pull(thread, more, friction, friction).tension
        )

    @given(THREADS, TORQUES, FRICTIONS, FRICTIONS)
    def test_there_and_back(self, thread, torque, in_thread, under_head):
        size = thread_of(thread)
        tension = pull(thread, torque, in_thread, under_head).tension
        back = bolt_torque(size, tension, thread_friction=in_thread, head_friction=under_head).torque
        assert abs(back / torque - 1) < 1e-9

    @given(THREADS, TORQUES)
    def test_band_holds_the_figure(self, thread, torque):
        band = friction_of("oil")
        found = bolt_tension(
            thread_of(thread), torque, thread_friction=0.11, head_friction=0.11, friction_band=band
        )
        assert found.tension_low <= found.tension <= found.tension_high


class TestAngle:
    """More angle never gives less tension, and never more than the load at yield."""

    @given(st.floats(0.05, 6.0), st.floats(0.05, 6.0), STIFFNESSES, STIFFNESSES)
    def test_more_angle(self, one, other, bolt, member):
        less, more = sorted((one, other))
        thread = thread_of("M10x1.25")
        strength = class_of("10.9", thread)
        first, second = (
            angle_tension(thread, turn, bolt, member, strength=strength) for turn in (less, more)
        )
        assert first.tension <= second.tension <= strength.yield_stress * thread.stress_area * (1 + 1e-12)
        assert first.plastic_stretch <= second.plastic_stretch
        assert second.plastic_stretch >= -1e-9


class TestLubricants:
    """The band of a conversion holds its figure, and the same lubricant changes nothing."""

    @given(THREADS, TORQUES, LUBRICANTS, LUBRICANTS)
    def test_band_holds_the_figure(self, thread, torque, before, after):
        found = same_tension_torque(thread_of(thread), torque, friction_of(before), friction_of(after))
        assert found.torque_low <= found.torque * (1 + 1e-12)
        assert found.torque <= found.torque_high * (1 + 1e-12)

    @given(THREADS, TORQUES, LUBRICANTS)
    def test_same_lubricant(self, thread, torque, lubricant):
        found = same_tension_torque(thread_of(thread), torque, friction_of(lubricant), friction_of(lubricant))
        for value in (found.torque, found.torque_low, found.torque_high):
            assert abs(value / torque - 1) < 1e-9


class TestJoint:
    """Forces balance while the joint is closed; loss and heat follow the stiffness."""

    @given(STIFFNESSES, STIFFNESSES, st.floats(1e3, 1e5), st.floats(1.0, 1e6))
    def test_balance(self, bolt, member, preload, load):
        found = joint_diagram(bolt, member, preload, load)
        assert abs(found.bolt_load - found.member_load - load) <= 1e-6 * max(preload, load)
        assert found.member_load >= -1e-6 * preload
        assert bool(found.cautions) == (found.separation_factor < 1.0)

    @given(STIFFNESSES, STIFFNESSES, st.floats(0.0, 0.05), st.floats(0.0, 0.05))
    def test_more_settling_loses_more(self, bolt, member, one, other):
        less, more = sorted((one, other))
        first, second = (
            embedding_loss(bolt, member, settlement_given(gone, None, None)).loss for gone in (less, more)
        )
        assert 0.0 <= first <= second

    @given(STIFFNESSES, STIFFNESSES, st.floats(5e-6, 30e-6), st.floats(-50.0, 200.0))
    def test_heat_of_equal_metals_changes_nothing(self, bolt, member, expansion, rise):
        parts = (GripPart("one", 40.0, expansion, "derived"), GripPart("two", 60.0, expansion, "derived"))
        found = thermal_tension(parts, (rise,) * 3, expansion, bolt, member)
        assert abs(found.change) < 1e-6


class TestThreads:
    """More engagement never strips sooner; a wider face never turns easier."""

    @given(THREADS, st.floats(2.0, 40.0), st.floats(2.0, 40.0))
    def test_engagement(self, thread, one, other):
        less, more = sorted((one, other))
        size = thread_of(thread)
        first, second = (thread_strip(size, depth, 600.0, 180.0) for depth in (less, more))
        assert first.hole_strip_load <= second.hole_strip_load
        depths = first.engagement_for_full_strength, second.engagement_for_full_strength
        assert abs(depths[0] / depths[1] - 1) < 1e-9

    @given(THREADS, TORQUES, st.floats(1.5, 3.0), st.floats(1.5, 3.0))
    def test_wider_face(self, thread, torque, one, other):
        size = thread_of(thread)
        less, more = sorted((one, other))
        narrow, wide = (
            bolt_tension(
                size,
                torque,
                thread_friction=0.12,
                head_friction=0.12,
                bearing=bearing_of(size, ratio * size.major_diameter, 1.1 * size.major_diameter),
            ).tension
            for ratio in (less, more)
        )
        assert wide <= narrow
