"""The band of a change against joints in which everything that is not known is drawn at once."""

from dataclasses import replace

import numpy as np
import pytest
from unit.runs.small_study import ABOUT, CASTINGS, given

from firedeck.joint.clamped import Load
from firedeck.joint.engine import MIDDLE, SOFT, STIFF, dipped, ready
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.condensed import part as part_of
from firedeck.joint.geometry.variants import moved, without_ties
from firedeck.joint.run_in import as_left, lowest_of, passes, run_in
from firedeck.joint.scatter import draws
from firedeck.joint.studied import studied
from firedeck.joint.study_band import Pair, Part, weight_of, whole
from firedeck.joint.tightening import BedIn, TurnBy, TurnTo

DRAWN = 40
NORMAL = 1.96


@pytest.fixture(scope="module")
def bodies():
    """Every body, condensed in this process."""
    wanted = CASTINGS.wanted()
    by_key = {one.key: condensed(one.request.loaded(one.part)) for one in wanted.values()}
    return {name: by_key[one.key] for name, one in wanted.items()}


@pytest.fixture(scope="module")
def engines(bodies):
    return CASTINGS.engine(bodies, given(peak=7.0)), CASTINGS.engine(bodies, given())


@pytest.fixture(scope="module")
def study(engines):
    return studied(ABOUT, *engines)


def between(engine, share):
    """An engine whose head lies between the middle and one end."""
    end = engine.flexible[SOFT if share > 0.0 else STIFF]
    middle, part = engine.flexible[MIDDLE], min(abs(share), 1.0)

    def mixed(one, other):
        return Load(one.w + part * (other.w - one.w), one.r + part * (other.r - one.r))

    flexible = replace(
        middle,
        A=middle.A + part * (end.A - middle.A),
        gas={bore: mixed(load, end.gas[bore]) for bore, load in middle.gas.items()},
        warm={name: mixed(load, end.warm[name]) for name, load in middle.warm.items()},
    )
    return replace(engine, flexible={MIDDLE: flexible})


def drawn_change(engines, luck, factors, study):
    """Change of every ring with one draw of everything."""
    found = []
    for place, engine in enumerate(engines):
        curve = 1.0 + luck[1] * 0.25 / NORMAL
        inputs = engine.given.inputs
        actions = tuple(replace(one, tension=one.tension * factors[one.bolt]) for one in inputs.actions)
        peak = inputs.peak_pressure * (1.0 + 0.1 * luck[2] / NORMAL)
        here = ready(between(engine, luck[0] / NORMAL), MIDDLE, curve)
        changed = replace(here.inputs, actions=actions, peak_pressure=peak)
        if place == 0:
            gap = np.zeros(len(engine.share))
            for one in study.places:
                bore = next(b for b in ABOUT.plan.bores if b.label == one.bore)
                at = (
                    bore.x + bore.ring / 2.0 * np.cos(one.lowest_angle),
                    bore.y + bore.ring / 2.0 * np.sin(one.lowest_angle),
                )
                gap = dipped(engine, gap, at, 0.003 * luck[3] / NORMAL)
            changed = replace(changed, gap=gap)
        found.append(run_in(here, changed).firing)
    return {bore: found[0][bore] - found[1][bore] for bore in found[0]}


def test_most_changes_drawn_lie_in_the_band_and_it_is_not_far_wider(engines, study):
    luck = np.random.default_rng(7).standard_normal((DRAWN, 4))
    factors = draws(len(ABOUT.plan.fasteners), DRAWN, 0.1, 0.1, seed=5)
    changes = [drawn_change(engines, one, factors[:, n], study) for n, one in enumerate(luck)]
    for place in study.places:
        here = np.array([change[place.bore] for change in changes])
        inside = (here >= place.change_band.low) & (here <= place.change_band.high)
        assert inside.mean() >= 0.85
        low, high = np.quantile(here, [0.025, 0.975])
        assert place.change_band.high - place.change_band.low < 2.5 * (high - low)


def test_the_short_way_comes_out_near_the_long_one(engines, study):
    pulls = np.array([bolt.tightened for bolt in study.bolts])
    this = ready(engines[0])
    short = run_in(this, replace(this.inputs, actions=as_left(this.inputs.actions, pulls))).firing
    for place in study.places:
        assert short[place.bore] == pytest.approx(place.firing_lowest, abs=0.03 * place.cold_mean)


def test_more_peak_pressure_is_worse_and_every_ring_says_so(study):
    for place in study.places:
        assert place.firing_lowest < place.as_built_lowest
        assert place.firing_band.low <= place.firing_lowest <= place.firing_band.high
        assert place.opens_at is None or place.opens_at > 7.0
        assert place.lift > 0.0
        assert len(place.curve) == 16
        assert min(load for _, load, _ in place.curve) == pytest.approx(place.firing_lowest, abs=1e-3)
        assert min(load for _, _, load in place.curve) == pytest.approx(place.as_built_lowest, abs=0.5)
    assert study.matches_anchor_at.pressure == pytest.approx(6.0, abs=0.2)


def test_fasteners_and_later_life_are_told(study):
    for bolt in study.bolts:
        assert bolt.tightened > bolt.bedded > 0.0
        assert bolt.bearing * 200.0 == pytest.approx(max(bolt.tightened, bolt.firing, bolt.hot), rel=1e-6)
        assert 0.4 < bolt.share_of_yield < 1.0
    assert study.retorque is None
    assert study.overheat.least_bolt <= min(bolt.cold for bolt in study.bolts) + 1.0
    assert study.cold_soak.least_bolt < min(bolt.cold for bolt in study.bolts)
    assert study.shear.carried > 0.0


def test_tightened_again_gives_back_what_bedding_in_took(bodies):
    again = tuple(TurnTo(place, 32e3) for place in range(len(ABOUT.plan.fasteners)))
    once = studied(ABOUT, CASTINGS.engine(bodies, given(retorque=again)), None)
    assert once.retorque.least_bolt > min(bolt.cold for bolt in once.bolts)
    assert once.retorque.lowest > min(place.firing_lowest for place in once.places)
    assert (once.rank, once.compared, once.matches_anchor_at) == (None, False, None)


def test_the_same_engine_twice_is_no_change_at_all(engines):
    same = studied(ABOUT, engines[1], engines[1])
    for place in same.places:
        assert (place.change, place.change_band.low, place.change_band.high) == (0.0, 0.0, 0.0)
        assert place.rank.value == "no worse"


def test_another_gasket_has_a_doubt_of_its_own(bodies):
    other = studied(ABOUT, CASTINGS.engine(bodies, given(gasket="another")), CASTINGS.engine(bodies, given()))
    names = {one.name for one in other.influences}
    assert {"gasket curve", "gasket curve as built"} <= names
    assert max(other.influences, key=lambda one: one.share).name.startswith("gasket curve")


def test_a_changed_casting_is_the_fine_one_and_the_difference(bodies):
    coarse = without_ties(bodies["tied head"])
    whole_way = moved(coarse, bodies["soft head"], coarse).G
    assert whole_way == pytest.approx(bodies["soft head"].G, rel=1e-9, abs=1e-12)
    half = moved(coarse, bodies["soft head"], coarse, 0.5).G
    assert half == pytest.approx((coarse.G + bodies["soft head"].G) / 2.0, rel=1e-9, abs=1e-12)


def test_ties_left_out_are_the_body_condensed_without_them(bodies):
    free = condensed(CASTINGS.wanted()["soft head"].request.loaded("block"))
    found = without_ties(bodies["tied block"])
    assert found.counts == free.counts
    assert pytest.approx(free.G, rel=1e-7, abs=1e-15) == found.G


def test_two_gaskets_condensed_together_are_each_as_condensed_alone():
    request = CASTINGS.request
    wide = replace(request.plan, bores=tuple(replace(one, ring=75.0, gas=73.0) for one in request.plan.bores))
    both = replace(request, others=(wide,))
    every = both.points()
    assert every.count == request.points().count + 3 * 16 - lost(request, wide)
    pair = [condensed(both.loaded(part)) for part in ("head", "block")]
    whole = put_together(wide, every, *pair, gas_from=3)
    rods = np.arange(every.count, len(whole.places.x))
    found = part_of(whole, np.concatenate([every.of_gasket(1, 2), rods]))
    alone_request = replace(request, plan=wide)
    alone = put_together(
        wide, alone_request.points(), *(condensed(alone_request.loaded(part)) for part in ("head", "block"))
    )
    assert found.places.place == alone.places.place
    assert pytest.approx(alone.A, rel=1e-7, abs=1e-15) == found.A
    for bore in ("1", "2", "3"):
        assert found.gas[bore].w == pytest.approx(alone.gas[bore].w, rel=1e-7, abs=1e-12)
        assert found.gas[bore].r == pytest.approx(alone.gas[bore].r, rel=1e-9)
    narrow = replace(CASTINGS, request=both, gasket=0).points()
    assert narrow.x[:48] == pytest.approx(request.points().x[:48])


def lost(request, wide):
    """Points of beads and body that a wider ring takes the place of."""
    counts = [
        sum(kind != "ring" for kind in replace(request, plan=one).points().kind)
        for one in (request.plan, wide)
    ]
    return counts[0] - counts[1]


def test_parts_of_a_band():
    middle = Pair({"1": 50.0}, {"1": 60.0})
    part = Part("x", "", middle, (Pair({"1": 45.0}, {"1": 58.0}), Pair({"1": 57.0}, {"1": 61.0})))
    assert part.load("1") == (-5.0, 7.0)
    assert part.change("1") == (-3.0, 6.0)
    low, high = part.share("1", 50.0, 60.0)
    assert (low, high) == pytest.approx((45.0 / 58.0 - 50.0 / 60.0, 57.0 / 61.0 - 50.0 / 60.0))
    assert part.share("1", 50.0, 2.5) is None
    alone = Part("x", "", Pair({"1": 50.0}, None), (Pair({"1": 45.0}, None),))
    assert alone.change("1") == alone.load("1") == (-5.0, 0.0)
    assert whole([]) == (0.0, 0.0)
    assert weight_of([(0.0, 0.0)]).tolist() == [0.0]


def test_a_pass_ends_where_a_bolt_comes_round_again():
    bed = BedIn((0.0, 0.0))
    turns = (TurnTo(0, 1.0), TurnTo(1, 1.0), TurnBy(0, 0.1), bed, TurnBy(1, 0.1), TurnBy(0, 0.1))
    assert [len(one) for one in passes(turns)] == [2, 1, 1, 2]
    assert passes(()) == []


def test_the_lowest_of_a_ring_is_that_of_its_points(engines):
    this = ready(engines[0])
    forces = np.arange(this.made.joint.springs.count, dtype=float)
    ring = np.flatnonzero(this.made.joint.places.of("ring", "2"))
    assert lowest_of(this.made.joint, forces, "2") == pytest.approx(
        ring[0] / this.made.joint.springs.share[ring[0]]
    )
