"""Go/no-go leaves against a limit: never more said than the leaves say."""

import pytest

from firedeck.errors import OutOfRange
from firedeck.surfaces.verdict import LeafReading, NextLeaf, judge_line
from firedeck.trace import Outcome

LEAVES = (0.03, 0.04, 0.05, 0.06, 0.08, 0.10, 0.15, 0.20)


def judge(*gaps: tuple[float | None, float | None], limit: float = 0.10, leaves=LEAVES):
    return judge_line([LeafReading(50.0 * at, *gap) for at, gap in enumerate(gaps, 1)], limit, leaves)


@pytest.mark.parametrize(
    ("gaps", "outcome"),
    [
        ([(0.05, 0.06), (0.08, 0.10)], Outcome.HOLDS),
        ([(None, 0.03)], Outcome.HOLDS),
        ([(0.05, 0.06), (0.15, 0.20)], Outcome.FAILS),
        ([(0.20, None)], Outcome.FAILS),
        ([(0.08, 0.15)], Outcome.CANNOT_TELL),
        ([(0.10, 0.15)], Outcome.CANNOT_TELL),
        ([(0.10, None)], Outcome.CANNOT_TELL),
        ([(None, 0.20), (0.05, 0.06)], Outcome.CANNOT_TELL),
    ],
)
def test_outcome(gaps, outcome: Outcome) -> None:
    assert judge(*gaps).outcome is outcome


def test_the_band_runs_from_the_largest_lower_to_the_largest_upper_end() -> None:
    found = judge((0.05, 0.06), (None, 0.15), (0.08, 0.10))
    assert (found.low, found.high) == (0.08, 0.15)
    assert found.band is not None
    assert (found.band.low, found.band.high, found.band.share) == (0.08, 0.15, 1.0)
    assert [step.value for step in found.steps] == [0.08, 0.15]


def test_a_place_where_no_leaf_stopped_leaves_the_upper_end_open() -> None:
    found = judge((0.05, 0.06), (0.08, None))
    assert (found.high, found.band, found.doubtful) == (None, None, (100.0,))


def test_the_next_leaf_is_the_one_of_the_limit_where_the_gap_may_be_over_it() -> None:
    assert judge((0.05, 0.06), (0.06, 0.20)).next_leaf == NextLeaf(100.0, (0.10,))


def test_without_that_leaf_the_nearest_below_or_else_above() -> None:
    assert judge((0.05, 0.20), leaves=(0.05, 0.08, 0.15)).next_leaf == NextLeaf(50.0, (0.08,))
    assert judge((0.08, 0.20), leaves=(0.05, 0.08, 0.15)).next_leaf == NextLeaf(50.0, (0.15,))


def test_two_leaves_together_where_no_single_one_tells_more() -> None:
    found = judge((0.08, 0.15), leaves=(0.04, 0.05, 0.08, 0.15))
    assert found.next_leaf is not None
    assert found.next_leaf.leaves == (0.04, 0.05)
    assert found.next_leaf.thickness == pytest.approx(0.09)


def test_no_leaf_of_the_set_tells_more() -> None:
    found = judge((0.08, 0.15), leaves=(0.08, 0.15))
    assert (found.outcome, found.next_leaf) == (Outcome.CANNOT_TELL, None)


def test_a_limit_in_inches_is_met_by_its_own_leaf() -> None:
    assert judge((0.0762, 0.1016), limit=0.004 * 25.4).outcome is Outcome.HOLDS


@pytest.mark.parametrize(
    ("gaps", "says"),
    [
        ([(0.10, 0.08)], "0.1 mm goes and 0.08 mm stops at 50 mm"),
        ([(0.10, 0.10)], "thinner than the one that stops"),
        ([(-0.05, 0.10)], "thicker than nothing"),
        ([], "at least one place"),
    ],
)
def test_readings_that_contradict_themselves_are_one_line(gaps, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        judge(*gaps)
    with pytest.raises(OutOfRange, match="0 mm or more"):
        judge((0.05, 0.06), limit=-0.1)
