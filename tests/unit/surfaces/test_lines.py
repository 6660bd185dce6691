"""Lines over measured points, and heights between them."""

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.surfaces.interpolation import covers, heights_at, sheet
from firedeck.surfaces.lines import columns_across, diagonals, line_between, rows_along
from firedeck.surfaces.straightedge import profiles, straightedge_gaps

GRID = [(x, y, 1e-6 * (x - 200) ** 2 + 1e-4 * y) for x in range(0, 401, 50) for y in range(0, 141, 35)]
RNG = np.random.default_rng(4)
SCATTER = np.column_stack((RNG.uniform(0, [400, 140], (600, 2)), np.zeros(600)))


def test_rows_and_columns_of_a_grid() -> None:
    rows, columns = rows_along(GRID), columns_across(GRID)
    assert [row.name for row in rows] == [f"along y {y} mm" for y in (0, 35, 70, 105, 140)]
    assert len(columns) == 9
    assert rows[1].stations.tolist() == [50.0 * step for step in range(9)]
    assert rows[1].place(75.0) == (75.0, 35.0)


def test_points_left_out_over_the_bores_still_make_rows() -> None:
    holed = [point for point in GRID if (point[0], point[1]) not in {(100, 70), (200, 70), (300, 70)}]
    (middle,) = [row for row in rows_along(holed) if row.name == "along y 70 mm"]
    assert middle.stations.tolist() == [0, 50, 150, 250, 350, 400]


def test_scattered_points_lie_in_no_rows() -> None:
    assert rows_along(SCATTER) == ()
    with pytest.raises(OutOfRange, match="no line here has three points"):
        profiles(SCATTER, "along")


def test_a_plane_is_read_back_exactly_between_any_points() -> None:
    plane = SCATTER.copy()
    plane[:, 2] = 0.001 * plane[:, 0] - 0.002 * plane[:, 1] + 3
    face = sheet(plane)
    inside = RNG.uniform([20, 20], [380, 120], (200, 2))
    inside = inside[covers(face, inside)]
    assert len(inside) > 150
    assert np.allclose(heights_at(face, inside, "places"), 0.001 * inside[:, 0] - 0.002 * inside[:, 1] + 3)


def test_a_line_over_triangles_has_a_station_at_every_join() -> None:
    bumps = SCATTER.copy()
    bumps[:, 2] = RNG.normal(size=600)
    face = sheet(bumps)
    line = line_between(face, (60.0, 30.0), (340.0, 110.0))
    between = np.sort(RNG.uniform(0, line.length, 300))
    places = np.array([line.place(station) for station in between])
    straight = np.interp(between, line.stations, line.heights)
    assert np.allclose(straight, heights_at(face, places, "places"), atol=1e-6)


def test_nothing_is_extended_beyond_the_points() -> None:
    face = sheet(GRID)
    with pytest.raises(OutOfRange, match="only places among the measured points"):
        line_between(face, (0.0, 0.0), (401.0, 70.0))
    assert covers(face, np.array([[400.0, 140.0], [400.0, 141.0]])).tolist() == [True, False]


def test_diagonals_run_between_the_outermost_points() -> None:
    first, second = diagonals(sheet(GRID))
    assert (first.start, first.end) == ((0.0, 0.0), (400.0, 140.0))
    assert (second.start, second.end) == ((0.0, 140.0), (400.0, 0.0))


def test_lines_are_asked_for_in_words_and_places() -> None:
    asked = profiles(GRID, "diagonals; 0 mm/17,5 mm/400 mm/17,5 mm")
    assert [line.name for line in asked][-1] == "0/17.5 to 400/17.5 mm"
    inches = profiles(GRID, "1 in/0 in/15 in/5 in")
    assert inches[0].start == (25.4, 0.0)
    assert len(profiles(GRID, "all")) == 5 + 9 + 2


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ("sideways", "along, across, diagonals, all"),
        ("", "no line here"),
        ("0 mm/0 mm/400 mm", "x/y/x/y"),
        ("0 mm/0 mm/400/140 mm", "lines: found 400 in 0 mm/0 mm/400/140 mm; say the unit"),
        ("5 mm/5 mm/5 mm/5 mm", "a line with a length"),
    ],
)
def test_lines_that_are_not_understood(lines: str, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        profiles(GRID, lines)


def test_points_on_one_line_are_no_face() -> None:
    with pytest.raises(OutOfRange, match="spread over the face"):
        sheet([(x, 2 * x, 0.0) for x in range(5)])


def test_a_wide_leaf_feels_less_and_its_sum_is_the_gap_at_its_edge() -> None:
    narrow, wide = straightedge_gaps(GRID, "along"), straightedge_gaps(GRID, "along", leaf_width=12.7)
    for one, other in zip(narrow.lines, wide.lines, strict=True):
        assert other.gap < one.gap
        assert other.gap == other.step.value
