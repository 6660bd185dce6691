"""Marks on heads, liquid below a bolt, the torque at which a bolt gives way, ductility used by a turn."""

from math import pi

import pytest

from firedeck.errors import OutOfRange, TableGap
from firedeck.fasteners import (
    bolt_torque,
    break_away_tension,
    class_by_marks,
    class_of,
    ductility_used,
    friction_of,
    softest_class,
    thread_of,
    trapped_liquid,
)
from firedeck.tables.materials import material

M12, HALF = thread_of("M12"), thread_of("1/2-13")


@pytest.mark.parametrize(
    ("marks", "thread", "name"),
    [
        ("three lines", HALF, "sae-5"),
        ("6 lines", HALF, "sae-8"),
        ("None", HALF, "sae-2"),
        ("none", M12, "4.6"),
        ("12.9", M12, "12.9"),
    ],
)
def test_marks_name_a_class(marks, thread, name):
    assert class_by_marks(marks, thread) == class_of(name, thread)


def test_no_class_of_the_tables_is_softer_than_the_softest():
    for thread, classes in ((M12, ("4.8", "8.8", "12.9")), (HALF, ("sae-5", "sae-8"))):
        assert all(
            class_of(name, thread).yield_stress > softest_class(thread).yield_stress for name in classes
        )


def test_letters_of_a_maker_are_no_class():
    with pytest.raises(TableGap, match="three lines"):
        class_by_marks("WXY", HALF)


def test_liquid_presses_with_the_whole_pull_over_the_thread():
    found = trapped_liquid(M12, 40000.0, 24.0, material("aluminium"))
    assert found.pressure == pytest.approx(40000.0 / (pi * 36.0))
    assert found.hoop_stress == pytest.approx(found.pressure * 5.0 / 3.0)
    assert found.hoop_share == pytest.approx(found.hoop_stress / 160.0)


def test_a_thicker_boss_bears_more_and_a_metal_without_figures_has_no_share():
    assert trapped_liquid(M12, 4e4, 40.0).hoop_stress < trapped_liquid(M12, 4e4, 20.0).hoop_stress
    assert trapped_liquid(M12, 4e4, 40.0, material("compacted-iron")).hoop_share is None
    assert trapped_liquid(M12, 4e4).hoop_stress is None


def test_a_boss_no_wider_than_its_thread_is_refused():
    with pytest.raises(OutOfRange, match="wider than the thread"):
        trapped_liquid(M12, 4e4, 12.0)


def test_moving_on_gives_back_the_tension_of_tightening():
    oil = friction_of("oil")
    torque = bolt_torque(M12, 40000.0, thread_friction=oil.usual, head_friction=oil.usual).torque
    assert break_away_tension(M12, torque, oil, way="tightening").tension == pytest.approx(40000.0)


def test_a_bolt_comes_loose_at_less_torque_than_it_was_given():
    oil = friction_of("oil")
    back = break_away_tension(M12, 60000.0, oil)
    on = break_away_tension(M12, 60000.0, oil, way="tightening")
    assert back.tension > on.tension
    assert back.tension_low < back.tension < back.tension_high


def test_neither_way_is_refused():
    with pytest.raises(OutOfRange, match="loosening, tightening"):
        break_away_tension(M12, 60000.0, friction_of("oil"), way="round")


def test_ductility_is_shared_by_the_length_that_stretches():
    strength = class_of("10.9", M12)
    short, long = ductility_used(0.9, 50.0, strength), ductility_used(0.9, 100.0, strength)
    assert (short.used, long.used) == (pytest.approx(0.2), pytest.approx(0.1))
    assert long.left == pytest.approx(0.9)
    assert ductility_used(0.0, 50.0, strength).used == 0.0


def test_a_class_without_elongation_is_a_gap():
    with pytest.raises(TableGap, match="elongation"):
        ductility_used(0.9, 50.0, class_of("4.8", M12))
