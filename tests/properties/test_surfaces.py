"""Rules of faces that hold whatever was measured."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firedeck.surfaces.both import gap_field
from firedeck.surfaces.edge import gap_on_high_points, lay
from firedeck.surfaces.flatness import flatness
from firedeck.surfaces.leaf import felt_gap, largest_felt_gap
from firedeck.surfaces.local import local_flatness
from firedeck.surfaces.ring import ring_dip
from firedeck.surfaces.roughness import roughness
from firedeck.surfaces.shape import long_shapes
from firedeck.surfaces.straightedge import straightedge_gaps
from firedeck.surfaces.verdict import LeafReading, judge_line
from firedeck.trace import Outcome

CALM = settings(max_examples=40, deadline=None)
PLACES = np.array(
    [(x, y) for x in (-200, -120, -60, 0, 60, 120, 200) for y in (-70, -30, 0, 30, 70)], dtype=float
)
MICRONS = st.integers(-150, 150)


@st.composite
def faces(draw: st.DrawFn) -> np.ndarray:
    """Heights to a micrometre on a grid."""
    heights = draw(st.lists(MICRONS, min_size=len(PLACES), max_size=len(PLACES)))
    return np.column_stack((PLACES, np.array(heights) / 1000))


@st.composite
def profiles(draw: st.DrawFn) -> tuple[np.ndarray, np.ndarray]:
    heights = draw(st.lists(MICRONS, min_size=3, max_size=14))
    steps = draw(st.lists(st.integers(5, 60), min_size=len(heights) - 1, max_size=len(heights) - 1))
    return np.concatenate(([0.0], np.cumsum(steps))).astype(float), np.array(heights) / 1000


def figures(face: np.ndarray, middle: tuple[float, float] = (0.0, 0.0)) -> list[float]:
    """Everything that looks at a face, as plain figures; a ring lies round its middle."""
    found, shape, local = flatness(face), long_shapes(face), local_flatness(face, 130.0)
    gaps = [
        line.gap for word in ("along", "across", "diagonals") for line in straightedge_gaps(face, word).lines
    ]
    zones = [found.minimum_zone, found.least_squares, found.rms]
    bows = [shape.long_bow, shape.cross_bow, abs(shape.twist), shape.left_over]
    spans = [local.along.worst, local.across.worst, local.square.worst]
    ring = ring_dip(face, middle, 120.0).dip
    return [*zones, *bows, *spans, ring, *sorted(gaps)]


SAME = {
    "mirror": [-1, 1, 1],
    "mirror across": [1, -1, 1],
    "half turn": [-1, -1, 1],
}


class TestMovingTheFace:
    """Mirror, half turn, tilt and shift change nothing."""

    @CALM
    @given(face=faces(), how=st.sampled_from(sorted(SAME)))
    def test_mirror_and_half_turn(self, face, how):
        assert figures(face * SAME[how]) == pytest.approx(figures(face), abs=1e-9)

    @CALM
    @given(
        face=faces(),
        tilt=st.tuples(*[st.floats(-0.01, 0.01)] * 2),
        shift=st.tuples(*[st.floats(-500, 500)] * 3),
    )
    def test_tilt_and_shift(self, face, tilt, shift):
        moved = face.copy()
        moved[:, 2] += face[:, :2] @ np.array(tilt)
        assert figures(moved + np.array(shift), shift[:2]) == pytest.approx(figures(face), abs=1e-9)

    @CALM
    @given(face=faces())
    def test_the_order_of_the_points(self, face):
        shuffled = np.random.default_rng(0).permutation(face)
        assert figures(shuffled) == pytest.approx(figures(face), abs=1e-9)

    @CALM
    @given(face=faces(), times=st.floats(0.1, 10))
    def test_heights_scale(self, face, times):
        scaled = face * [1, 1, times]
        assert figures(scaled) == pytest.approx(
            [times * figure for figure in figures(face)], rel=1e-6, abs=1e-9
        )

    @CALM
    @given(face=faces())
    def test_turned_over_the_zone_stays_and_bows_change_sign(self, face):
        under = face * [1, 1, -1]
        assert flatness(under).minimum_zone == pytest.approx(flatness(face).minimum_zone, abs=1e-12)
        assert long_shapes(under).long_bow == pytest.approx(-long_shapes(face).long_bow, abs=1e-12)


class TestZones:
    """The smallest zone is never more than any other measure, and never less than that of a part."""

    @CALM
    @given(face=faces())
    def test_order_of_the_measures(self, face):
        found = flatness(face)
        assert found.minimum_zone <= found.least_squares + 1e-12
        assert found.minimum_zone <= found.range + 1e-12
        assert found.rms <= found.least_squares
        assert found.least_squares_peak >= 0 <= found.least_squares_valley

    @CALM
    @given(face=faces(), keep=st.integers(3, 30))
    def test_leaving_points_out_never_makes_it_larger(self, face, keep):
        assert flatness(face[:keep]).minimum_zone <= flatness(face).minimum_zone + 1e-12

    @CALM
    @given(face=faces())
    def test_no_line_is_further_from_straight_than_the_face_from_flat(self, face):
        for part in (local_flatness(face, 400.0).along, local_flatness(face, 400.0).across):
            assert part.worst <= flatness(face).minimum_zone + 1e-12


class TestEdgeAndLeaf:
    """An edge never lies in the metal, and a wider leaf never feels more."""

    @CALM
    @given(profile=profiles(), share=st.floats(0, 1))
    def test_edge_rests_on_two_places(self, profile, share):
        stations, heights = profile
        laid = lay(stations, heights, share * stations[-1])
        assert laid.gap.min() == 0.0
        assert np.count_nonzero(laid.gap < 1e-12) >= 2
        assert (laid.gap >= gap_on_high_points(stations, heights) - 1e-12).all()

    @CALM
    @given(profile=profiles(), share=st.floats(0, 1))
    def test_edge_mirrored(self, profile, share):
        stations, heights = profile
        at = share * stations[-1]
        mirrored = lay(stations[-1] - stations[::-1], heights[::-1], stations[-1] - at)
        same_place = lay(stations, heights, at)
        ours, theirs = sorted(same_place.contacts), sorted(stations[-1] - np.array(mirrored.contacts))
        tie = min(abs(at - contact) for contact in same_place.contacts) < 1e-9
        assert tie or np.allclose(ours, theirs)

    @CALM
    @given(profile=profiles(), widths=st.tuples(st.floats(0, 9), st.floats(0, 9)))
    def test_a_wider_leaf_never_feels_more(self, profile, widths):
        stations, heights = profile
        gap = gap_on_high_points(stations, heights)
        narrow, wide = sorted(widths)
        at = np.linspace(stations[0], stations[-1], 37)
        assert (felt_gap(stations, gap, at, wide) <= felt_gap(stations, gap, at, narrow) + 1e-15).all()
        assert largest_felt_gap(stations, gap, wide)[0] <= largest_felt_gap(stations, gap, narrow)[0] + 1e-15

    @CALM
    @given(profile=profiles(), station=st.integers(0, 13), by=st.integers(1, 100))
    def test_lowering_a_place_never_closes_the_gap_there(self, profile, station, by):
        stations, heights = profile
        at = station % len(heights)
        lower = heights.copy()
        lower[at] -= by / 1000
        if at not in (0, len(heights) - 1):
            assert gap_on_high_points(stations, lower)[at] >= gap_on_high_points(stations, heights)[at]


LEAVES = [thou / 100 for thou in (3, 4, 5, 6, 8, 10, 15, 20)]


class TestLeafVerdict:
    """The verdict of leaves is never wrong about the gap they were read on."""

    @staticmethod
    def read(gap: float, at: float) -> LeafReading:
        goes = max((leaf for leaf in LEAVES if leaf <= gap), default=None)
        stops = min((leaf for leaf in LEAVES if leaf > gap), default=None)
        return LeafReading(at, goes, stops)

    @CALM
    @given(gaps=st.lists(st.floats(0, 0.25), min_size=1, max_size=8), limit=st.floats(0.01, 0.25))
    def test_truth_lies_in_the_band_and_the_verdict_fits_it(self, gaps, limit):
        found = judge_line([self.read(gap, float(at)) for at, gap in enumerate(gaps)], limit, LEAVES)
        largest = max(gaps)
        assert found.low <= largest
        assert found.high is None or largest < found.high
        if found.outcome is Outcome.HOLDS:
            assert largest <= limit * (1 + 1e-9)
        if found.outcome is Outcome.FAILS:
            assert largest > limit

    @CALM
    @given(gaps=st.lists(st.floats(0, 0.25), min_size=1, max_size=8), limit=st.floats(0.01, 0.25))
    def test_a_missing_stop_never_turns_into_holds(self, gaps, limit):
        readings = [self.read(gap, float(at)) for at, gap in enumerate(gaps)]
        open_ended = [LeafReading(reading.at, reading.goes, None) for reading in readings]
        assert judge_line(open_ended, limit, LEAVES).outcome is not Outcome.HOLDS


class TestBothFaces:
    """Both faces together: which is called deck does not matter, and common tilts are nothing."""

    @CALM
    @given(deck=faces(), head=faces())
    def test_exchanged(self, deck, head):
        one, other = gap_field(deck, head), gap_field(head, deck)
        assert one.largest == pytest.approx(other.largest, abs=1e-12)
        assert one.largest <= flatness(deck).minimum_zone + flatness(head).minimum_zone + 1e-12
        assert one.gap.min() >= 0.0

    @CALM
    @given(deck=faces(), head=faces(), how=st.sampled_from(sorted(SAME)))
    def test_both_turned_together(self, deck, head, how):
        turned = gap_field(deck * SAME[how], head * SAME[how])
        assert turned.largest == pytest.approx(gap_field(deck, head).largest, abs=1e-12)


class TestRoughness:
    """Turned end for end a trace is as rough; scaled it is rougher by as much."""

    @CALM
    @given(seed=st.integers(0, 10_000), times=st.floats(0.01, 100))
    def test_turned_and_scaled(self, seed, times):
        trace = np.random.default_rng(seed).normal(size=900)
        plain, turned = (roughness(heights, 0.001, 0.08, 9) for heights in (trace, trace[::-1]))
        scaled = roughness(times * trace, 0.001, 0.08, 9)
        for name in ("Ra", "Rq", "Rt", "Rz"):
            assert getattr(turned, name) == pytest.approx(getattr(plain, name), rel=1e-9)
            assert getattr(scaled, name) == pytest.approx(times * getattr(plain, name), rel=1e-9)
        assert (scaled.Rsk, scaled.Rku) == pytest.approx((plain.Rsk, plain.Rku), rel=1e-6, abs=1e-9)
        assert plain.Ra <= plain.Rq <= plain.Rt
        assert plain.Rz <= plain.Rz1max <= plain.Rt + 1e-12
