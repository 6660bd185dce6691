"""Forces, slopes and memory of all springs together."""

from dataclasses import replace

import numpy as np
import pytest
from unit.joint.plate_joint import BEAD, BODY, RING

from firedeck.errors import JobError, OutOfRange
from firedeck.joint.springs import Springs

SPRINGS = Springs(
    laws=(RING, BEAD, BODY),
    law_of=np.array([0, 0, 1, 2, 0]),
    share=np.array([6.0, 5.0, 8.0, 700.0, 6.0]),
    stiffness=np.array([2e5, 3e5]),
    least=np.zeros(2),
    most=np.array([50e3, 60e3]),
)


def closures(seed=0, columns=None):
    rng = np.random.default_rng(seed)
    shape = (7,) if columns is None else (7, columns)
    return np.abs(rng.normal(0.15, 0.1, shape))


def crushed(w):
    return SPRINGS.remembered(w, SPRINGS.fresh())


def test_forces_are_law_times_share_and_straight_for_bolts():
    w = closures()
    force = SPRINGS.force(w, SPRINGS.fresh())
    assert force[0] == pytest.approx(6.0 * RING.pressed(w[:1])[0])
    assert force[3] == pytest.approx(700.0 * BODY.pressed(w[3:4])[0])
    assert force[5] == pytest.approx(2e5 * w[5])


def test_slopes_are_the_slopes_of_the_forces():
    state = crushed(closures(1))
    for seed in range(10, 30):
        w = closures(seed)
        step = 1e-8
        found = (SPRINGS.force(w + step, state) - SPRINGS.force(w - step, state)) / (2 * step)
        assert SPRINGS.slope(w, state) == pytest.approx(found, rel=1e-5, abs=1e-2)


def test_no_slope_exceeds_the_steepest_and_none_is_negative():
    state = crushed(closures(3))
    for seed in range(20):
        slope = SPRINGS.slope(closures(seed), state)
        assert (slope >= 0.0).all()
        assert (slope <= SPRINGS.steepest * (1 + 1e-12)).all()


def test_columns_are_the_single_states_side_by_side():
    w = closures(4, columns=3)
    state = SPRINGS.remembered(w, SPRINGS.fresh())
    for column in range(3):
        alone = crushed(w[:, column])
        assert state.permanent_set[:, column] == pytest.approx(alone.permanent_set)
        assert SPRINGS.force(0.9 * w, state)[:, column] == pytest.approx(
            SPRINGS.force(0.9 * w[:, column], alone)
        )
        assert SPRINGS.slope(0.9 * w, state)[:, column] == pytest.approx(
            SPRINGS.slope(0.9 * w[:, column], alone)
        )


def test_memory_keeps_the_force_where_it_was_made_and_never_goes_back():
    w = closures(5)
    state = crushed(w)
    assert SPRINGS.force(w, state) == pytest.approx(SPRINGS.force(w, SPRINGS.fresh()))
    again = SPRINGS.remembered(0.5 * w, state)
    assert again.permanent_set == pytest.approx(state.permanent_set)


def test_a_bolt_past_yield_keeps_its_yield_load_and_springs_back_straight():
    w = np.zeros(7)
    w[5] = 0.4
    state = crushed(w)
    assert SPRINGS.force(w, SPRINGS.fresh())[5] == 50e3
    assert SPRINGS.force(w, state)[5] == pytest.approx(50e3)
    w[5] = 0.3
    assert SPRINGS.force(w, state)[5] == pytest.approx(30e3)


def test_creep_takes_its_share_of_every_load_at_held_closures():
    w = closures(6)
    state = crushed(w)
    after = SPRINGS.bedded_in(w, state, np.array([0.01, 0.0]))
    creep = np.array([RING.creep, RING.creep, BEAD.creep, BODY.creep, RING.creep])
    assert SPRINGS.force(w, after)[:5] == pytest.approx((1 - creep) * SPRINGS.force(w, state)[:5])
    assert SPRINGS.force(w, after)[5] == pytest.approx(SPRINGS.force(w, state)[5] - 2e5 * 0.01)


def test_a_held_bolt_has_its_tension_wherever_it_stands_and_keeps_it_when_let_go():
    w = closures(7)
    held = SPRINGS.turned_to(SPRINGS.fresh(), [1], np.array([33e3]))
    assert SPRINGS.force(w, held)[6] == 33e3
    assert SPRINGS.slope(w, held)[6] == 0.0
    free = SPRINGS.let_go(w, held)
    assert SPRINGS.force(w, free)[6] == pytest.approx(33e3)
    assert SPRINGS.slope(w, free)[6] == 3e5


@pytest.mark.parametrize(
    ("changed", "error"),
    [
        ({"law_of": np.array([0, 0, 1, 3, 0])}, JobError),
        ({"law_of": np.array([0, 0, 1])}, JobError),
        ({"share": np.array([6.0, 5.0, 0.0, 700.0, 6.0])}, OutOfRange),
        ({"stiffness": np.array([2e5, 0.0])}, OutOfRange),
        ({"stiffness": np.empty(0), "least": np.empty(0), "most": np.empty(0)}, JobError),
    ],
)
def test_springs_that_cannot_be_are_refused(changed, error):
    with pytest.raises(error):
        replace(SPRINGS, **changed)
