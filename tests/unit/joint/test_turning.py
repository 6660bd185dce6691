"""From the papers' procedure to turns of the wrench."""

from math import pi

import pytest

from firedeck.errors import JobError, OutOfRange
from firedeck.fasteners.procedure_lines import FastenerGroup
from firedeck.fasteners.procedure_reading import parse
from firedeck.joint.tightening import BedIn, Loosen, TurnBy, TurnTo
from firedeck.joint.turning import Wrench, actions_of

LABELS = ("1", "2", "3")
WRENCHES = {label: Wrench(lever=2.0, pitch=1.5, settling=0.004) for label in LABELS}
ALL = (FastenerGroup("all", ("2", "1", "3")),)


def acts(text, groups=ALL, wrenches=WRENCHES):
    return actions_of(parse(text), groups, LABELS, wrenches)


def test_a_torque_is_a_tension_in_the_stated_order():
    assert acts("30 N·m; 60 N·m") == tuple(
        TurnTo(bolt, torque / 2.0) for torque in (30e3, 60e3) for bolt in (1, 0, 2)
    )


def test_an_angle_is_pitch_by_turns():
    found = acts("30 N·m; +90°")
    assert found[3:] == tuple(TurnBy(bolt, pytest.approx(1.5 / 4)) for bolt in (1, 0, 2))


def test_wind_up_is_lost():
    wound = {label: Wrench(lever=2.0, pitch=1.5, wind_up=0.1) for label in LABELS}
    assert acts("30 N·m; +90°", wrenches=wound)[3].shortening == pytest.approx(0.9 * 1.5 / 4)


def test_loosening_fully_and_by_an_angle():
    found = acts("60 N·m; loosen fully; 30 N·m")
    assert [type(one) for one in found[3:6]] == [Loosen] * 3
    assert acts("60 N·m; loosen 90°; 60 N·m")[3].shortening == pytest.approx(-1.5 / 4)


def test_a_wait_beds_in_once():
    found = acts("30 N·m; wait 10 min; 60 N·m; wait 10 min")
    assert [one for one in found if isinstance(one, BedIn)] == [BedIn((0.004, 0.004, 0.004))]


def test_retorque_after_use_is_no_part_of_fitting():
    assert acts("60 N·m; after 1000 km cold +30°") == acts("60 N·m")


def test_groups_have_their_own_steps():
    groups = (FastenerGroup("long", ("2", "1")), FastenerGroup("short", ("3",)))
    found = acts("long: 60 N·m\nshort: 20 N·m", groups)
    assert found == (TurnTo(1, 30e3), TurnTo(0, 30e3), TurnTo(2, 10e3))


def test_a_fastener_nobody_knows_is_refused():
    with pytest.raises(JobError, match="'9'"):
        acts("60 N·m", (FastenerGroup("all", ("9",)),))


def test_a_wrench_that_cannot_be_is_refused():
    with pytest.raises(OutOfRange):
        Wrench(lever=0.0, pitch=1.5)
    with pytest.raises(OutOfRange):
        Wrench(lever=2.0, pitch=1.5, wind_up=1.0)
    assert Wrench(lever=2.0, pitch=1.5).advance(2 * pi) == pytest.approx(1.5)
