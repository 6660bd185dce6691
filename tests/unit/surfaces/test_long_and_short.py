"""Long shapes, spans, rings and both faces together."""

import itertools
import math

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.surfaces.both import gap_field
from firedeck.surfaces.local import local_flatness
from firedeck.surfaces.plane import least_squares_plane
from firedeck.surfaces.ring import ring_dip
from firedeck.surfaces.shape import long_shapes

PLACES = np.array([(x, y) for x in np.arange(0.0, 421.0, 10.0) for y in np.arange(0.0, 161.0, 10.0)])
U, V = PLACES[:, 0] / 210 - 1, PLACES[:, 1] / 80 - 1


def face(heights: np.ndarray) -> np.ndarray:
    return np.column_stack((PLACES, heights))


def dip(x: float, y: float, depth: float, size: float) -> np.ndarray:
    away = (PLACES[:, 0] - x) ** 2 + (PLACES[:, 1] - y) ** 2
    return -depth * np.exp(-away / (2 * size**2))


def test_bow_cross_bow_and_twist_are_told_apart() -> None:
    heights = 0.3 - 0.12 * U**2 + 0.06 * V**2 + 0.1 * U * V + 0.02 * U - 0.05 * V
    found = long_shapes(face(heights))
    assert (found.long_bow, found.cross_bow, found.twist) == pytest.approx((0.12, -0.06, 0.1))
    assert found.left_over == pytest.approx(0.0, abs=1e-12)


def test_a_short_dip_stays_in_what_is_left_over() -> None:
    found = long_shapes(face(0.05 * U**2 + dip(210, 80, 0.04, 8)))
    assert found.long_bow == pytest.approx(-0.05, abs=0.003)
    assert found.left_over == pytest.approx(0.04, abs=0.004)


def test_two_rows_cannot_tell_a_cross_bow() -> None:
    with pytest.raises(OutOfRange, match="three places along, three across"):
        long_shapes([(x, y, 0.0) for x in (0, 100, 200) for y in (0, 140)])


def test_a_span_finds_the_dip_that_the_whole_line_hides() -> None:
    heights = -0.1 * U**2 + dip(300, 80, 0.03, 10)
    found = local_flatness(face(heights), 60.0)
    assert found.along is not None
    assert found.along.name == "along y 80 mm"
    assert found.along.start[0] <= 300 <= found.along.end[0]
    assert found.worst is found.along
    assert found.square.worst >= found.along.worst


@pytest.mark.parametrize("spans", [(40.0, 80.0, 160.0, 420.0)])
def test_a_longer_span_never_finds_less(spans: tuple[float, ...]) -> None:
    heights = np.random.default_rng(1).normal(size=len(PLACES))
    worst = [local_flatness(face(heights), span) for span in spans]
    for shorter, longer in itertools.pairwise(worst):
        assert longer.along.worst >= shorter.along.worst
        assert longer.square.worst >= shorter.square.worst


def test_points_without_rows_are_judged_by_squares_and_say_so() -> None:
    rng = np.random.default_rng(9)
    places = rng.uniform(0, [400, 150], (200, 2))
    found = local_flatness(np.column_stack((places, 0.001 * places[:, 0])), 100.0)
    assert found.along is None
    assert found.worst is found.square
    assert "no rows" in found.cautions[0].text
    with pytest.raises(OutOfRange, match="at least three of the points"):
        local_flatness(np.column_stack((places, places[:, 0])), 0.01)


def test_a_ring_takes_no_notice_of_tilt_but_follows_no_dip() -> None:
    tilted = face(0.3 * U - 0.2 * V + dip(150, 80, 0.05, 6))
    found = ring_dip(tilted, (105.0, 80.0), 90.0)
    assert found.dip == pytest.approx(0.05, abs=0.006)
    assert found.lowest_at == pytest.approx((150.0, 80.0))
    assert ring_dip(face(0.3 * U - 0.2 * V), (105.0, 80.0), 86.0).dip == pytest.approx(0.0, abs=1e-12)


def test_a_cross_bow_shows_on_a_ring_as_much_as_its_chord() -> None:
    found = ring_dip(face(-0.08 * V**2), (210.0, 80.0), 86.0)
    assert found.dip == pytest.approx(0.08 * (43 / 80) ** 2, rel=0.05)


@pytest.mark.parametrize(("centre", "diameter"), [((20.0, 80.0), 86.0), ((105.0, 80.0), 0.0)])
def test_a_ring_off_the_face_is_one_line(centre: tuple[float, float], diameter: float) -> None:
    with pytest.raises(OutOfRange):
        ring_dip(face(U), centre, diameter)


def test_both_faces_add_and_tilts_do_not_matter() -> None:
    deck, head = dip(100, 80, 0.03, 15), dip(100, 80, 0.02, 15)
    found = gap_field(face(deck + 0.4 * U), face(head - 0.1 * V + 2.0))
    assert found.largest == pytest.approx(0.05, abs=0.001)
    assert found.largest_at == (100.0, 80.0)
    assert found.gap.min() == 0.0
    assert found.largest == pytest.approx(found.together.minimum_zone)


def test_a_crown_that_meets_the_same_hollow_leaves_no_gap() -> None:
    crown = 0.05 * (1 - U**2)
    assert gap_field(face(crown), face(-crown)).largest == pytest.approx(0.0, abs=1e-12)


def test_faces_read_at_different_places_meet_where_both_are_known() -> None:
    deck = face(0.1 * U)
    head = np.array(
        [(x, y, -0.1 * (x / 210 - 1)) for x in np.linspace(5, 415, 9) for y in np.linspace(5, 155, 7)]
    )
    found = gap_field(deck, head)
    assert found.largest == pytest.approx(0.0, abs=1e-9)
    assert len(found.places) > 9 * 7
    with pytest.raises(OutOfRange, match="common to both"):
        gap_field(deck, head + np.array([1000.0, 0.0, 0.0]))


def test_what_adding_up_leaves_is_nought_in_the_written_sums():
    """Along there is no slope and no bow: only rounding of the sums would say otherwise."""
    points = [(x, y, 0.01 * (y / 50) ** 2 + 0.0007 * y) for x in (0.1, 101.3, 199.7) for y in (-50, 0.3, 50)]
    steps = [*long_shapes(points).steps[:3], *least_squares_plane(points).steps]
    figures = [number for step in steps for number, _ in (*step.inputs.values(), *step.result.values())]
    assert [number for number in figures if 0.0 < abs(number) < 1e-9] == []
    assert [math.copysign(1.0, number) for number in figures if number == 0.0].count(-1.0) == 0
    assert long_shapes(points).cross_bow == pytest.approx(-0.01, abs=1e-6)
