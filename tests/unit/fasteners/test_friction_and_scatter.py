"""Lubricants, bands of friction, and the two parts of scatter."""

import pytest

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners import bearing_of, bolt_torque, friction_band_of, friction_of, scatter_of, thread_of
from firedeck.tables import rows

LUBRICANTS = [row["lubricant"] for row in rows("lubricants")]


@pytest.mark.parametrize("name", LUBRICANTS)
def test_usual_friction_lies_in_its_band_and_its_class(name):
    found = friction_of(name)
    row = next(row for row in rows("lubricants") if row["lubricant"] == name)
    of_class = next(line for line in rows("friction_classes") if line["class"] == row["class"])
    assert found.low <= found.usual <= found.high
    assert (row["low"], row["high"]) == (of_class["low"], of_class["high"])


@pytest.mark.parametrize("name", LUBRICANTS)
def test_friction_and_nut_factor_tell_the_same(name):
    thread, friction = thread_of("M10"), friction_of(name).usual
    torque = bolt_torque(
        thread, 30000.0, thread_friction=friction, head_friction=friction, bearing=bearing_of(thread)
    ).torque
    row = next(row for row in rows("lubricants") if row["lubricant"] == name)
    assert torque / (10.0 * 30000.0) == pytest.approx(float(row["nut_factor"]), abs=0.01)


def test_thread_sealer_is_a_lubricant():
    assert friction_of("thread sealer").usual < friction_of("dry").usual
    assert friction_of("thread-sealer").note.source == "common-practice"


@pytest.mark.parametrize("text", ["0.08, 0.14", "0.08 to 0.14", "0.08..0.14"])
def test_a_band_typed(text):
    assert (friction_band_of(text).low, friction_band_of(text).high) == (0.08, 0.14)


@pytest.mark.parametrize("text", ["0.14, 0.08", "0.1, 0.2, 0.3", "0.1, 3"])
def test_a_band_that_is_none(text):
    with pytest.raises(OutOfRange, match="friction_band"):
        friction_band_of(text)


def test_a_lubricant_nobody_knows():
    with pytest.raises(TableGap, match="maker-coated"):
        friction_of("honey")


@pytest.mark.parametrize("method", [row["method"] for row in rows("scatter")])
def test_common_and_individual_part_make_the_whole(method):
    found = scatter_of(method)
    half = (found.high - found.low) / 2
    assert (found.common**2 + found.individual**2) ** 0.5 == pytest.approx(half, abs=5e-4)
    assert found.high_over_low == pytest.approx(found.high / found.low)
    assert any(note.source == "generic-ours" for note in found.notes)


def test_methods_by_their_long_names():
    assert scatter_of("torque wrench, friction estimated (class B)").method == "torque-wrench"
    assert scatter_of("Impact wrench").method == "impact"
