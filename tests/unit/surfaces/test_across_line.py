"""A dip beside a line: what the line shows of it stays when the dip is moved across; invented lines."""

import numpy as np
import pytest

from firedeck.surfaces.across_line import REACH, LinesRead
from firedeck.surfaces.face_model import Plan
from firedeck.surfaces.faces_allowed import depth_of, squares
from firedeck.surfaces.laying import Laying, stations
from firedeck.surfaces.verdict import LeafReading

PLAN = Plan((0.0, 0.0), (300.0, 140.0))


def laid(name, start, end):
    length = float(np.hypot(end[0] - start[0], end[1] - start[1]))
    tried = tuple(LeafReading(float(at), None, 0.03) for at in np.arange(10.0, length, 12.0))
    return Laying(name, start, end, 0.05, tried)


SLANTED = laid("slanted", (10.0, 20.0), (290.0, 120.0))
PLACES = stations(PLAN, [SLANTED])
LINES = LinesRead.of(PLACES)


def drawn(count, seed=3):
    """Dips within reach of the slanted line."""
    chance = np.random.default_rng(seed)
    way = np.array([280.0, 100.0]) / np.hypot(280.0, 100.0)
    along, size = chance.uniform(30, 260, count), chance.uniform(6, 12, count)
    aside = chance.uniform(-REACH, REACH, count) * size
    x, y = 10 + along * way[0] - aside * way[1], 20 + along * way[1] + aside * way[0]
    dips = np.stack((x, y, chance.gamma(2, 40, count), np.log(size))).astype(np.float32)
    return dips, aside, chance.uniform(-1, 1, count)


def test_what_the_line_shows_stays_and_the_place_beside_it_is_new():
    dips, aside, share = drawn(200)
    there, deeper, able = LINES.across(dips, share)
    assert able.all()
    at = np.arange(5.0, 290.0, 5.0)
    x, y = SLANTED.places(at)
    here = squares(x, y)
    assert depth_of(there, here) == pytest.approx(depth_of(dips, here), abs=0.3)
    _, now = LINES.nearest(there[0], there[1])
    assert now == pytest.approx(REACH * np.exp(dips[3]) * share, abs=1e-3)
    assert np.log(there[2] / dips[2]) == pytest.approx(deeper, abs=1e-4)
    assert np.corrcoef(now, aside)[0, 1] < 0.5


def test_there_and_back_is_the_same_dip():
    dips, aside, share = drawn(50, seed=8)
    there, deeper, _ = LINES.across(dips, share)
    again, back, _ = LINES.across(there, aside / (REACH * np.exp(dips[3])))
    assert again == pytest.approx(dips, abs=0.02)
    assert back == pytest.approx(-deeper, abs=1e-3)


def test_a_dip_far_from_the_line_or_past_its_end_stays():
    dips, _, share = drawn(2)
    dips[:2] = [[150.0, 295.0], [20.0, 138.0]]
    assert not LINES.across(dips, share)[2].any()


def test_a_dip_that_would_come_nearer_another_line_stays():
    two = LinesRead.of(
        stations(PLAN, [laid("low", (10.0, 40.0), (290.0, 40.0)), laid("high", (10.0, 60.0), (290.0, 60.0))])
    )
    dip = np.array([[150.0, 150.0], [45.0, 45.0], [50.0, 50.0], [np.log(9.0)] * 2], dtype=np.float32)
    assert two.across(dip, np.array([0.2, 0.9]))[2].tolist() == [True, False]
