"""Ring against bore, and what the table says of each construction."""

import pytest

from firedeck.errors import OutOfRange, TableGap
from firedeck.gasket.constructions import code_factors, construction, constructions
from firedeck.gasket.ring_fit import RingPlace, ring_fit, ring_margins


def test_ring_inside_the_bore_is_a_fault() -> None:
    found = ring_fit(105.537, 104.14)
    assert found.place is RingPlace.INSIDE
    assert found.overhang == pytest.approx(-0.6985)
    assert "hangs into the gas" in found.cautions[0].text


def test_flush_and_back() -> None:
    assert ring_fit(86.0, 86.0).place is RingPlace.FLUSH
    assert ring_fit(86.0, 87.5).place is RingPlace.BACK
    assert ring_fit(86.0, 87.5).cautions == ()


def test_off_centre_eats_the_margin() -> None:
    assert ring_fit(86.0, 87.0, off_centre=0.6).place is RingPlace.INSIDE


@pytest.mark.parametrize("sizes", [(0.0, 87.0), (86.0, -1.0), (86.0, float("nan"))])
def test_ring_refusals(sizes: tuple[float, float]) -> None:
    with pytest.raises(OutOfRange):
        ring_fit(*sizes)
    with pytest.raises(OutOfRange):
        ring_fit(86.0, 87.0, off_centre=-0.1)


def test_margins_are_per_side_and_memory_comes_last() -> None:
    general, steel = ring_margins("multi-layer-steel")
    assert (general.source, steel.source) == ("common-practice", "memory")
    assert general.low == pytest.approx(0.381)
    assert ring_margins("composite") == (general,)


def test_constructions_say_what_they_want() -> None:
    names = [kind.name for kind in constructions()]
    assert len(names) == len(set(names))
    for kind in constructions():
        assert kind.source == "common-practice"
        assert kind.faces in ("dry", "sprayed")
        assert kind.retorque in ("yes", "no", "as-marked")
        assert kind.sliding in ("well", "fairly", "badly")
        assert 0.0 <= kind.crush_least < kind.crush_most < 1.0


def test_facts_of_the_trade() -> None:
    assert construction("composite").faces == "dry"
    assert construction("graphite-metal-core").retorque == "no"
    assert construction("multi-layer-steel").sliding == "well"
    assert construction("composite").sliding != "well"
    assert construction("soft-copper").faces == "sprayed"


def test_unknown_names() -> None:
    with pytest.raises(TableGap, match="soft-copper"):
        construction("felt")
    with pytest.raises(TableGap, match="flat-copper"):
        code_factors("felt")
