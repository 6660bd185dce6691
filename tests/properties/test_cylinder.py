"""What must hold for every engine, cut and pressure."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firedeck.cylinder.cam_timing import cam_timing_shift
from firedeck.cylinder.chamber_cut import chamber_cut
from firedeck.cylinder.cranking import cranking_pressure
from firedeck.cylinder.cut_for_ratio import cut_for_ratio
from firedeck.cylinder.effects import Change, CylinderParts, ratio_effect
from firedeck.cylinder.ideal_cycle import ideal_cycle
from firedeck.cylinder.peak_pressure import Firing, peak_pressure
from firedeck.cylinder.volumes import compression_ratio
from firedeck.cylinder.working_gas import gas_named
from firedeck.joint.simple_sum import Bore, Fastener, Scatter, Standing, against_as_built, clamp_against_gas

lengths = st.floats(40.0, 160.0)
thin = st.floats(0.3, 3.0)


class TestRatio:
    """Taking metal or gasket away never lowers the ratio; both ways in give the same ratio."""

    @given(lengths, st.floats(1.0, 20.0), thin, st.floats(0.0, 1.0), st.floats(0.0, 1.0))
    def test_cuts_raise_it(self, bore: float, height: float, gasket: float, deck: float, cut: float) -> None:
        area = 0.9 * math.pi / 4 * bore**2
        parts = CylinderParts(bore, bore, area * (height + 1.1), gasket, bore + 1.0, deck)
        for change in (Change(head_cut=cut), Change(block_cut=min(cut, gasket / 2))):
            found = ratio_effect(parts, change, area)
            assert found.after.ratio >= found.before.ratio
            assert found.after.swept_volume == found.before.swept_volume

    @given(lengths, lengths, st.floats(5000.0, 500000.0), thin)
    def test_both_ways_agree(self, bore: float, stroke: float, chamber: float, gasket: float) -> None:
        parts = compression_ratio(
            bore=bore,
            stroke=stroke,
            chamber_volume=chamber,
            gasket_thickness=gasket,
            gasket_bore=bore,
            deck_clearance=0.0,
        )
        volumes = compression_ratio(swept_volume=parts.swept_volume, clearance_volume=parts.clearance_volume)
        assert volumes.ratio == parts.ratio


class TestCut:
    """The cut for a ratio, made, gives that ratio; twice the cut takes twice the volume."""

    @given(st.floats(1e4, 3e6), st.floats(7.0, 12.0), st.floats(0.2, 4.0), st.floats(500.0, 50000.0))
    def test_there_and_back(self, swept: float, now: float, more: float, area: float) -> None:
        clearance = swept / (now - 1.0)
        cut = cut_for_ratio(swept_volume=swept, clearance_volume=clearance, ratio=now + more, plan_area=area)
        off = chamber_cut(plan_area=area, cut=min(cut.cut, 50.0)).volume_change
        if cut.cut <= 50.0:
            after = compression_ratio(swept_volume=swept, clearance_volume=clearance - off).ratio
            assert after == pytest.approx(now + more)

    @given(st.floats(0.01, 2.0), st.floats(50.0, 300.0))
    def test_cam_shift_is_even_and_odd(self, cut: float, wheel: float) -> None:
        late = cam_timing_shift(cut=cut, sprocket_diameter=wheel)
        early = cam_timing_shift(cut=-cut, sprocket_diameter=wheel)
        assert late.cam_angle == -early.cam_angle
        assert late.crank_angle == 2 * late.cam_angle
        assert (late.direction, early.direction) == ("late", "early")


class TestGas:
    """More ratio, more air and more boost never lower a pressure; no cycle beats its own limits."""

    @given(st.floats(5.0, 14.0), st.floats(0.1, 3.0), st.floats(0.0, 4000.0))
    def test_cranking(self, ratio: float, more: float, metres: float) -> None:
        low = cranking_pressure(ratio=ratio, altitude=metres * 1000)
        assert cranking_pressure(ratio=ratio + more, altitude=metres * 1000).gauge > low.gauge
        assert cranking_pressure(ratio=ratio, altitude=metres * 1000 + 1e5).gauge < low.gauge

    @given(st.floats(4.0, 22.0), st.floats(100.0, 2500.0), st.sampled_from(["cold-air", "variable"]))
    def test_efficiency_lies_between_nought_and_one(self, ratio: float, heat: float, gas: str) -> None:
        found = ideal_cycle(
            kind="otto", ratio=ratio, pressure=0.1, temperature=25.0, heat=heat, gas=gas_named(gas)
        )
        assert 0.0 < found.efficiency < 1.0
        assert found.work + found.heat_out == pytest.approx(heat)

    @settings(max_examples=15, deadline=None)
    @given(
        st.floats(7.5, 18.0),
        st.floats(0.0, 0.25),
        st.floats(0.005, 0.1),
        st.sampled_from(["petrol", "diesel"]),
    )
    def test_boost_never_lowers_the_peak(self, ratio: float, boost: float, more: float, fuel: str) -> None:
        low, high = (peak_pressure(Firing(ratio, b, fuel=fuel)) for b in (boost, boost + more))
        assert high.peak > low.peak
        assert low.band.low < low.peak < low.band.high


class TestSimpleSum:
    """More gas never improves a verdict, more pull never worsens it, and nothing is ever said to hold."""

    @given(st.floats(3.0, 15.0), st.floats(0.1, 10.0), st.floats(1e4, 9e4), st.floats(0.0, 0.4))
    def test_boost_never_improves(self, peak: float, more: float, tension: float, doubt: float) -> None:
        bores = [Bore("1", 0.0, 0.0, 88.0), Bore("2", 95.0, 0.0, 88.0)]
        bolts = [Fastener(f"{x}{y}", x, y, tension) for x in (-47.0, 47.0, 143.0) for y in (-50.0, 50.0)]
        stock, low, high = (clamp_against_gas(bores, bolts, p, Scatter()) for p in (6.0, peak, peak + more))
        before = against_as_built(low, stock, clamp_doubt=doubt)
        after = against_as_built(high, stock, clamp_doubt=doubt)
        assert after.change < before.change
        if before.standing is Standing.WORSE:
            assert after.standing is Standing.WORSE
