"""Piston classes and liner stand, valve gaps and limits of the trade."""

import pytest

from firedeck.cylinder.allowances import gap_limits
from firedeck.cylinder.liners import LinerLimits, limits_in_order, liner_step
from firedeck.cylinder.piston_class import gasket_class
from firedeck.cylinder.valve_clearance import valve_to_piston
from firedeck.errors import JobError
from firedeck.quantity import Outcome

CLASSES = [(0.91, 1.00, 1.53), (1.01, 1.10, 1.63), (1.11, 1.20, 1.73)]
PISTONS = [[0.97, 1.03], [0.96, 0.98], [0.99, 0.99], [0.95, 0.97]]


def test_the_rule_decides_and_books_differ() -> None:
    by_rule = {
        rule: gasket_class(PISTONS, CLASSES, rule) for rule in ("highest", "highest-mean", "mean-of-all")
    }
    assert by_rule["highest"].class_ == "2"
    assert by_rule["highest-mean"].class_ == "1"
    assert by_rule["highest-mean"].deciding_value == pytest.approx(1.0)
    assert by_rule["mean-of-all"].deciding_value == pytest.approx(0.98)


@pytest.mark.parametrize(
    ("stand", "name", "thickness"),
    [
        (0.91, "1", 1.53),
        (1.00, "1", 1.53),
        (1.005, "between 1 and 2", 1.63),
        (1.01, "2", 1.63),
        (1.20, "3", 1.73),
        (1.21, "above 3", None),
        (0.762, "below 1", 1.53),
    ],
)
def test_class_bounds_are_inclusive(stand: float, name: str, thickness: float | None) -> None:
    found = gasket_class([[stand]], CLASSES, "highest")
    assert (found.class_, found.thickness) == (name, thickness)
    assert bool(found.cautions) == (name not in ("1", "2", "3"))


def test_neighbour_spread_is_between_neighbours_only() -> None:
    assert gasket_class([[0.92], [0.95], [0.99]], CLASSES, "highest").neighbour_spread == pytest.approx(0.04)


@pytest.mark.parametrize(
    ("pistons", "classes", "rule", "said"),
    [
        (PISTONS, CLASSES, "lowest", "allowed: highest"),
        ([], CLASSES, "highest", "no reading"),
        ([[0.9], []], CLASSES, "highest", "no reading"),
        (PISTONS, [], "highest", "no class"),
        (PISTONS, [(1.0, 0.9, 1.5)], "highest", "from must be less"),
        (PISTONS, [(0.9, 1.0, 1.5), (0.95, 1.1, 1.6)], "highest", "no overlap"),
    ],
)
def test_classes_that_cannot_be_used(
    pistons: list[list[float]], classes: list[tuple[float, float, float]], rule: str, said: str
) -> None:
    with pytest.raises(JobError, match=said):
        gasket_class(pistons, classes, rule)


def test_liner_limits_have_no_default() -> None:
    with pytest.raises(JobError, match="no default"):
        liner_step([[0.1, 0.1, 0.1]], LinerLimits())
    with pytest.raises(JobError, match="give two"):
        limits_in_order((0.1, 0.2, 0.3))
    with pytest.raises(JobError, match="no reading"):
        liner_step([[]], LinerLimits(within=0.05))


def test_tilt_needs_three_readings() -> None:
    found = liner_step([[0.10, 0.10], [0.11, 0.11]], LinerLimits(within=0.05))
    assert "tilt" in found.cautions[-1].text


def test_worst_outcome_is_the_verdict() -> None:
    found = liner_step([[0.10, 0.12, 0.11], [0.20, 0.20, 0.20]], LinerLimits(within=0.05, step=0.05))
    assert found.verdict is Outcome.FAILS
    assert found.spread_within == pytest.approx(0.02)
    assert found.step_between == pytest.approx(0.09)
    assert "step between neighbours: fails" in found.cautions[0].text


def test_valve_gap_at_and_under_the_limit() -> None:
    found = valve_to_piston(intake=2.532, exhaust=2.9, cut=0.5, gasket_change=0.0, limits=(2.032, 2.54))
    assert found.intake_outcome is Outcome.AT_LIMIT
    assert found.exhaust_outcome is Outcome.FAILS
    assert len(found.cautions) == 2


def test_valve_meets_the_piston() -> None:
    found = valve_to_piston(intake=0.4, exhaust=3.0, cut=0.5, gasket_change=0.0)
    assert found.intake_outcome is None
    assert "do not turn" in found.cautions[0].text


def test_leaning_valve_over_a_flat_crown_is_cautioned() -> None:
    found = valve_to_piston(intake=2.5, exhaust=3.0, cut=0.5, gasket_change=0.0, valve_angle=0.4)
    assert 2.0 < found.intake < 2.5
    assert "flat crown" in found.cautions[0].text


def test_wrong_number_of_valve_limits() -> None:
    with pytest.raises(JobError, match="3 figures"):
        valve_to_piston(intake=2.5, exhaust=3.0, cut=0.5, gasket_change=0.0, limits=(1.0, 2.0, 3.0))


def test_limits_of_the_trade_are_labelled() -> None:
    (squish,) = gap_limits("squish", fuel="petrol", charging="natural", rod_material="steel", duty="road")
    assert squish.source == "common-practice"
    assert squish.low == pytest.approx(0.889)
    assert gap_limits("squish", fuel="diesel") == ()
    (exhaust,) = gap_limits("exhaust_valve_clearance", rod_material="aluminium")
    assert exhaust.source == "memory"
