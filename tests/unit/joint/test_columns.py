"""States side by side: what has columns is cut, what is common stays, numbers keep their length."""

import numpy as np
from unit.joint.plate_joint import inline

from firedeck.joint.clamped import Case, Load, columns_of, counted_in
from firedeck.joint.columns import tall

PLATE = inline(bores=2, ring=8, rows=2)
SPRINGS = PLATE.joint.springs
BOLTS = np.arange(len(SPRINGS.stiffness))
TENSIONS = np.linspace(30e3, 50e3, 4) * np.ones((len(BOLTS), 1))
CASE = Case(SPRINGS.turned_to(SPRINGS.fresh(), BOLTS, TENSIONS), PLATE.weight)


def test_columns_are_cut_and_what_is_common_stays():
    some = columns_of(CASE, np.array([2, 0]))
    assert (some.state.least == TENSIONS[:, [2, 0]]).all()
    assert some.state.permanent_set is CASE.state.permanent_set
    assert some.load.w is CASE.load.w


def test_one_column_has_none():
    one = columns_of(CASE, 3)
    assert one.state.most.shape == (len(BOLTS),)
    assert (one.state.most == 50e3).all()


def test_a_load_with_columns_is_cut_too():
    load = Load(np.arange(6.0).reshape(3, 2), np.ones((3, 2)))
    cut = columns_of(Case(SPRINGS.fresh(), load), np.array([False, True])).load
    assert cut.w.tolist() == [[1.0], [3.0], [5.0]]


def test_forces_in_short_numbers_are_the_forces():
    w = np.repeat(PLATE.joint.nothing().w[:, None] + 0.1, 4, axis=1)
    short = SPRINGS.force(w.astype(np.float32), counted_in(CASE, np.float32).state)
    assert short.dtype == np.float32
    assert np.abs(short - SPRINGS.force(w, CASE.state)).max() < 1e-2


def test_values_stand_up_only_where_there_are_columns():
    assert tall(np.ones(3), np.zeros(3)).shape == (3,)
    assert tall(np.ones(3), np.zeros((3, 2), dtype=np.float32)).dtype == np.float32
