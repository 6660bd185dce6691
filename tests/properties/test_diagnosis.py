"""Rules of the test reader that hold for every engine."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firedeck.diagnosis import coolant_boiling, leak_causes, leak_down, oil_gain
from firedeck.diagnosis.case_book import case_book
from firedeck.diagnosis.compression import compression_spread
from firedeck.diagnosis.next_test import information
from firedeck.diagnosis.odds import shares, shares_of_ways

readings = st.lists(st.floats(0.05, 4.0), min_size=2, max_size=8)
BOOK = case_book("leak")
ORDER = {"holds": 0, "at-limit": 1, "fails": 2}
signs = st.dictionaries(
    st.sampled_from([name for name, sign in BOOK.signs.items() if BOOK.trials[sign.test].form != "one-of"]),
    st.booleans(),
    max_size=8,
)


class TestOneMoreLowReading:
    """One more low reading never makes the spread, or the verdict of any rule, better."""

    @given(readings, st.floats(0.0, 1.0))
    def test_never_better(self, given_readings: list[float], share: float) -> None:
        before = compression_spread(given_readings)
        after = compression_spread([*given_readings, share * min(given_readings)])
        assert after.lowest_over_highest <= before.lowest_over_highest
        assert after.spread >= before.spread
        for rule, outcome in before.outcome_by_rule.items():
            assert ORDER[after.outcome_by_rule[rule]] >= ORDER[outcome]
        assert set(before.suspects) <= set(after.suspects)


class TestStricterRule:
    """A stricter share never passes what a laxer one refuses."""

    @given(readings)
    def test_shares_in_order(self, given_readings: list[float]) -> None:
        found = compression_spread(given_readings).outcome_by_rule
        assert ORDER[found["10 %"]] >= ORDER[found["15 %"]] >= ORDER[found["25 %"]]


class TestUnits:
    """Twice every reading leaves shares, suspects and pattern as they were."""

    @given(readings)
    def test_scale(self, given_readings: list[float]) -> None:
        one, two = (compression_spread([f * r for r in given_readings]) for f in (1.0, 2.0))
        assert two.lowest_over_highest == pytest.approx(one.lowest_over_highest)
        assert (two.suspects, two.pattern) == (one.suspects, one.pattern)


class TestOil:
    """More oil never lowers the gain, and a higher ratio never lowers it either."""

    @given(st.floats(2.0, 20.0), st.floats(0.01, 0.45), st.floats(1.01, 1.9))
    def test_grows(self, ratio: float, share: float, more: float) -> None:
        clearance = 450e3 / (ratio - 1)
        little = oil_gain(450e3, ratio, share * clearance).gain
        assert 0.0 < little < oil_gain(450e3, ratio, share * clearance * more).gain


class TestLeakDown:
    """A lower reading never means a smaller leak, and the share is read off the gauges alone."""

    @given(st.floats(0.2, 1.0), st.floats(0.02, 0.97), st.floats(0.1, 0.99))
    def test_lower_reading_bigger_hole(self, supply: float, share: float, less: float) -> None:
        tight = leak_down(supply, reading=supply * share, restrictor=1.0)
        loose = leak_down(supply, reading=supply * share * less, restrictor=1.0)
        assert tight.area is not None
        assert loose.area is not None
        assert loose.area > tight.area
        assert loose.share > tight.share

    @settings(max_examples=30)
    @given(st.floats(0.2, 1.0), st.floats(0.2, 4.0), st.floats(0.3, 2.0))
    def test_hole_there_and_back(self, supply: float, hole: float, restrictor: float) -> None:
        there = leak_down(supply, leak_hole=hole, restrictor=restrictor)
        back = leak_down(supply, reading=there.reading, restrictor=restrictor)
        assert back.hole == pytest.approx(hole, rel=1e-5)


class TestBoiling:
    """A stronger cap never lowers the boiling point, height never raises it."""

    @given(
        st.sampled_from(["water", "ethylene 50 %", "propylene 50 %"]),
        st.floats(0.0, 0.24),
        st.floats(0.01, 0.25),
        st.floats(0.0, 5e6),
    )
    def test_cap_and_height(self, coolant: str, cap: float, more: float, altitude: float) -> None:
        here = coolant_boiling(coolant, cap, altitude).boiling
        assert coolant_boiling(coolant, cap + more, altitude).boiling > here
        assert coolant_boiling(coolant, cap, altitude + 1e5).boiling < here


class TestOdds:
    """Shares add up to one, the order of telling does not matter, information is never negative."""

    @settings(max_examples=40)
    @given(signs)
    def test_add_up(self, seen: dict[str, bool]) -> None:
        found = shares(BOOK, seen)
        assert sum(found.values()) == pytest.approx(1.0)
        turned = shares(BOOK, dict(reversed(seen.items())))
        assert all(turned[cause] == pytest.approx(share) for cause, share in found.items())
        assert all(
            information(BOOK, trial, shares_of_ways(BOOK, seen)) >= 0.0
            for trial in BOOK.trials.values()
            if trial.form != "ask"
        )

    @settings(max_examples=20)
    @given(signs)
    def test_a_sign_never_hurts_the_cause_it_speaks_most_for(self, seen: dict[str, bool]) -> None:
        seen.pop("gas-in-coolant", None)
        more = {**seen, "gas-in-coolant": True}
        assert shares(BOOK, more)["gasket-to-water"] >= shares(BOOK, seen)["gasket-to-water"]

    @settings(max_examples=10, deadline=None)
    @given(signs)
    def test_no_missing_sign_makes_certain(self, seen: dict[str, bool]) -> None:
        assert leak_causes(seen).leader.share < 1.0
