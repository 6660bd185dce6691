"""An invented face whose figures two other methods give."""

from pathlib import Path

import pytest
from cases import Row, published

from firedeck import sums
from firedeck.quantity import read_columns
from firedeck.surfaces.flatness import flatness
from firedeck.surfaces.plane import three_corner_range
from firedeck.surfaces.straightedge import straightedge_gaps

TEXT = (Path(__file__).parent / "surf_deckA.csv").read_text(encoding="utf-8")
READ = read_columns(TEXT)
POINTS = list(zip(*(READ.column(name) for name in "xyz"), strict=True))


def figures() -> dict[str, float]:
    """Every printed figure of the face by its name."""
    found = flatness(POINTS)
    names = ("range", "least_squares", "least_squares_peak", "least_squares_valley", "rms", "minimum_zone")
    return {name: getattr(found, name) for name in names} | {
        "three_corner_range": three_corner_range(POINTS)[0],
        "slope_x": found.plane.slope_x,
        "slope_y": found.plane.slope_y,
        "height": found.plane.height,
        "zone_slope_x": found.zone_plane.slope_x,
        "zone_slope_y": found.zone_plane.slope_y,
    }


@published(__file__, "deck_a.csv")
def test_flatness(row: Row) -> None:
    assert figures()[row["result"]] == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


def test_contact_points_as_printed() -> None:
    found = flatness(POINTS)
    assert {point[:2] for point in found.high_points} == {(0.0, 0.0), (400.0, 140.0)}
    assert {point[:2] for point in found.low_points} == {(200.0, 35.0), (150.0, 70.0)}


@published(__file__, "gaps.csv")
def test_largest_gap_per_line(row: Row) -> None:
    found = {line.name: line for line in straightedge_gaps(POINTS, "all").lines}[row["line"]]
    assert found.gap == pytest.approx(float(row["gap"]), abs=float(row["tolerance"]))
    for place, printed in zip(found.place, (row["x"], row["y"]), strict=True):
        assert printed == "any" or place == pytest.approx(float(printed))


@published(__file__, "gaps.csv", where=lambda row: row["line"] == "across x 300 mm")
def test_that_column_is_the_worst_and_stretches_of_rows(row: Row) -> None:
    assert straightedge_gaps(POINTS, "across").worst.name == row["line"]
    local = sums.local_flatness(points=TEXT, span="150 mm").results
    assert local["worst"].value == pytest.approx(0.0130, abs=5e-5)


def test_the_sum_says_the_same() -> None:
    results = sums.flatness(points=TEXT).results
    assert results["minimum_zone"].as_json() == {"value": pytest.approx(0.072417, abs=1e-6), "unit": "mm"}
    assert results["plane"].value["slope_x"] == pytest.approx(2.088e-4, abs=1e-9)
    gaps = sums.straightedge_gaps(points=TEXT, lines="diagonals").results
    assert gaps["largest_gap"].value == pytest.approx(0.0705, abs=5e-5)
