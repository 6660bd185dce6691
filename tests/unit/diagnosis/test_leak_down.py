"""Leak-down both ways, and the torque on the crank."""

import math

import pytest

from firedeck.diagnosis import leak_down, leak_down_crank_torque, leak_down_signs
from firedeck.errors import OutOfRange

PSI = 0.006894757293168


def flow(up: float, down: float, kappa: float = 1.4) -> float:
    """Mass flow per area over sqrt(density × pressure), by the enthalpy drop, another way round."""
    throat = max(down, up * (2 / (kappa + 1)) ** (kappa / (kappa - 1)))
    temperature = (throat / up) ** ((kappa - 1) / kappa)
    speed = math.sqrt(2 * kappa / (kappa - 1) * (1 - temperature))
    return up * (throat / up) ** (1 / kappa) * speed


def test_share_is_one_less_reading_over_supply() -> None:
    assert leak_down(50 * PSI, reading=40 * PSI).share == pytest.approx(0.2)


@pytest.mark.parametrize("reading", [79.0, 75.0, 60.0, 40.0, 10.0, 1.0])
def test_area_balances_the_flow(reading: float) -> None:
    found = leak_down(80 * PSI, reading=reading * PSI, restrictor=1.0)
    up, middle, out = (gauge * PSI + 0.101325 for gauge in (80.0, reading, 0.0))
    assert found.area == pytest.approx(math.pi / 4 * flow(up, middle) / flow(middle, out))


@pytest.mark.parametrize("reading", [75.0, 60.0, 20.0, 3.0])
def test_there_and_back(reading: float) -> None:
    there = leak_down(80 * PSI, reading=reading * PSI, restrictor=1.016, altitude=1.5e6)
    back = leak_down(80 * PSI, leak_hole=there.hole, restrictor=1.016, altitude=1.5e6)
    assert back.reading == pytest.approx(reading * PSI, rel=1e-9)
    assert back.share == pytest.approx(there.share, rel=1e-6)


def test_a_tight_cylinder_leaks_nothing() -> None:
    found = leak_down(80 * PSI, reading=80 * PSI, restrictor=1.0)
    assert (found.share, found.area, found.hole) == (0.0, 0.0, 0.0)


def test_no_restrictor_no_hole() -> None:
    found = leak_down(80 * PSI, reading=60 * PSI)
    assert found.hole is None
    assert any("restrictor is not stated" in note.text for note in found.notes)


def test_nothing_held_says_no_hole() -> None:
    found = leak_down(80 * PSI, reading=0.0, restrictor=1.0)
    assert found.share == 1.0
    assert found.area is None


def test_height_changes_the_leak_but_not_the_share() -> None:
    low, high = (leak_down(80 * PSI, reading=20 * PSI, restrictor=1.0, altitude=h) for h in (0.0, 3e6))
    assert low.share == high.share
    assert low.area != pytest.approx(high.area, rel=0.001)


def test_length_is_kept_and_said_to_be_unused() -> None:
    plain = leak_down(80 * PSI, reading=60 * PSI, restrictor=1.0)
    long = leak_down(80 * PSI, reading=60 * PSI, restrictor=1.0, restrictor_length=6.35)
    assert long.area == plain.area
    assert any("length of the restrictor" in note.text for note in long.notes)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({}, "neither of reading and leak_hole"),
        ({"reading": 0.3, "leak_hole": 1.0}, "both"),
        ({"reading": 0.7}, "supply, 5 bar"),
        ({"reading": -0.1}, "reading"),
        ({"leak_hole": 1.0}, "restrictor"),
        ({"leak_hole": 0.0, "restrictor": 1.0}, "leak_hole"),
        ({"reading": 0.3, "restrictor": -1.0}, "restrictor"),
        ({"reading": 0.3, "altitude": 2e7}, "altitude"),
    ],
)
def test_out_of_range(given: dict[str, float], says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        leak_down(0.5, **given)


def test_supply_must_push() -> None:
    with pytest.raises(OutOfRange, match="supply"):
        leak_down(0.0, reading=0.0)


@pytest.mark.parametrize("angle", [-100.0, -20.0, 0.0, 5.0, 30.0, 75.0, 120.0])
def test_crank_torque_is_the_work_of_the_piston(angle: float) -> None:
    """Torque is pressure times area times the travel of the piston per angle."""
    bore, stroke, rod, supply = 86.0, 86.0, 143.0, 0.69
    throw, turn = stroke / 2, math.radians(angle)

    def depth(at: float) -> float:
        return throw * (1 - math.cos(at)) + rod - math.sqrt(rod**2 - (throw * math.sin(at)) ** 2)

    step = 1e-5
    travel = (depth(turn + step) - depth(turn - step)) / (2 * step)
    found = leak_down_crank_torque(bore, stroke, rod, supply, turn)
    assert found.torque == pytest.approx(math.pi / 4 * bore**2 * supply * travel, rel=1e-6, abs=1e-3)
    assert "lock the crank" in found.notes[0].text


@pytest.mark.parametrize(
    ("sizes", "says"),
    [
        ((0.0, 86.0, 143.0, 0.7, 0.1), "bore"),
        ((86.0, -1.0, 143.0, 0.7, 0.1), "stroke"),
        ((86.0, 86.0, 43.0, 0.7, 0.1), "rod"),
        ((86.0, 86.0, 143.0, 0.0, 0.1), "supply"),
    ],
)
def test_crank_out_of_range(sizes: tuple[float, float, float, float, float], says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        leak_down_crank_torque(*sizes)


def test_air_goes_only_to_known_places() -> None:
    assert [name for name, there in leak_down_signs(["coolant", "neighbour"]).items() if there] == [
        "air-to-neighbour",
        "air-to-coolant",
    ]
    with pytest.raises(OutOfRange, match="radio"):
        leak_down_signs(["radio"])
