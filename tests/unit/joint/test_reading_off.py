"""What is read off: line loads by place, lift, opening pressure, change against the factory's joint."""

import numpy as np
import pytest
from unit.joint.plate_joint import inline

from firedeck.errors import OutOfRange
from firedeck.joint.chord import fast_operator, safe_operator
from firedeck.joint.clamped import Case
from firedeck.joint.comparing import Rank, ranked
from firedeck.joint.line_loads import lift_between, read_off
from firedeck.joint.newton import settle
from firedeck.joint.opening import Quiet, lowest_at, pressure_for
from firedeck.joint.states import Life
from firedeck.trace import Band

PLATE = inline(bores=2, ring=20, rows=2)
JOINT = PLATE.joint
SPRINGS = JOINT.springs
BOLTS = len(SPRINGS.stiffness)


def cold(tension=30e3):
    held = SPRINGS.turned_to(SPRINGS.fresh(), range(BOLTS), np.full(BOLTS, tension))
    found = settle(JOINT, Case(held, PLATE.weight))
    state = SPRINGS.let_go(found.w, SPRINGS.remembered(found.w, held))
    return Life(state, found.w, found.forces, 0, ())


LIFE = cold()
OPERATORS = [fast_operator(JOINT, LIFE.w, LIFE.state), safe_operator(JOINT)]
QUIET = Quiet(LIFE, PLATE.weight, PLATE.gas["1"], "1")


def test_places_add_up_to_the_whole():
    read = read_off(JOINT, LIFE.forces)
    length = 2 * np.pi * 46.0
    rings = sum(ring.mean * length for ring in read.rings)
    beads = LIFE.forces[JOINT.places.of("half-bead")].sum()
    body = LIFE.forces[JOINT.places.of("body")].sum()
    assert rings + beads + body == pytest.approx(BOLTS * 30e3 + 150.0)
    assert [label for label, _ in read.bolts] == [str(n) for n in range(1, BOLTS + 1)]
    assert [name for name, _ in read.beads] == ["front", "back"]


def test_the_lowest_place_is_where_it_says():
    ring = read_off(JOINT, LIFE.forces).ring("2")
    place = int(ring.load.argmin())
    assert ring.angle[place] == pytest.approx(ring.lowest_angle)
    assert ring.lowest == ring.load.min()
    assert ring.side in {
        "front",
        "rear",
        "+y",
        "-y",
        "front and +y",
        "front and -y",
        "rear and +y",
        "rear and -y",
    }
    with pytest.raises(OutOfRange, match="known: 1, 2"):
        read_off(JOINT, LIFE.forces).ring("7")


def test_firing_lifts_its_own_ring_most():
    firing = settle(JOINT, Case(LIFE.state, PLATE.weight + 6.0 * PLATE.gas["1"]), LIFE.w)
    own, other = (lift_between(JOINT, LIFE.w, firing.w, bore) for bore in "12")
    assert own.min() > 0.0
    assert own.mean() > other.mean()


def test_more_gas_never_leaves_more_load():
    loads = lowest_at(JOINT, OPERATORS, QUIET, np.linspace(0.0, 15.0, 8))
    assert (np.diff(loads) < 1e-3).all()


def test_the_pressure_found_gives_the_load_asked_for():
    level = 60.0
    pressure = pressure_for(JOINT, OPERATORS, QUIET, level, most=30.0)
    assert lowest_at(JOINT, OPERATORS, QUIET, np.array([pressure]))[0] == pytest.approx(level, abs=0.1)
    opens = pressure_for(JOINT, OPERATORS, QUIET, 0.0, most=30.0)
    assert opens > pressure


def test_a_pressure_out_of_reach_is_none_and_a_load_never_there_is_nought():
    assert pressure_for(JOINT, OPERATORS, QUIET, 1.0, most=0.5) is None
    assert pressure_for(JOINT, OPERATORS, QUIET, 1e6, most=5.0) == 0.0
    with pytest.raises(OutOfRange):
        pressure_for(JOINT, OPERATORS, QUIET, 1.0, most=0.0)


@pytest.mark.parametrize(
    ("low", "high", "rank"),
    [
        (-30.0, -20.0, Rank.WORSE),
        (-10.0, 5.0, Rank.CANNOT_RANK),
        (0.0, 8.0, Rank.NO_WORSE),
        (-0.5, 0.2, Rank.NO_WORSE),
        (-30.0, -0.5, Rank.CANNOT_RANK),
    ],
)
def test_ranks(low, high, rank):
    assert ranked(Band(low, high)) is rank
