"""Eight lines of a plate: heights, closures, and which lines set them."""

from dataclasses import replace
from math import pi, tan
from pathlib import Path

import pytest
from cases import Row, published, read

from firedeck import sums
from firedeck.quantity import read_columns
from firedeck.sums.measured import foot_steps
from firedeck.surfaces.union_jack import union_jack

HERE = Path(__file__).parent
TEXT = (HERE / "surf_union_jack_A_readings.csv").read_text(encoding="utf-8")
STEPS = foot_steps("readings", read_columns(TEXT))
ARCSEC = pi / 180 / 3600


@published(__file__, "union_jack.csv")
def test_heights_and_flatness(row: Row) -> None:
    results = sums.union_jack(readings=TEXT, foot="100 mm").results
    name, _, part = row["result"].partition(".")
    value = results[name].value[f"{part}_um"] if part else results[name].value
    assert value == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


def test_every_station_has_its_printed_height() -> None:
    printed = {
        (row["line"], float(row["x_mm"]), float(row["y_mm"])): float(row["height_um_centre_zero"])
        for row in read(HERE / "surf_union_jack_A_heights.csv")
    }
    found = union_jack(STEPS, 100.0).heights
    assert len(found) == len(printed) == 70
    for at in found:
        assert at.height * 1000 == pytest.approx(printed[at.line, at.x, at.y], abs=0.0006), at


@published(__file__, "which_lines.csv")
def test_centre_lines_only_close(row: Row) -> None:
    angle = float(row["twist_arcsec"]) * ARCSEC
    first = [step for step in STEPS if step.line == row["line"]]
    half = len(first) // 2
    bent = [
        replace(step, angle=step.angle + angle * (1 if first.index(step) < half else -1))
        if step.line == row["line"]
        else step
        for step in STEPS
    ]
    before, after = union_jack(STEPS, 100.0), union_jack(bent, 100.0)
    assert after.corners == before.corners
    assert after.mid_sides == before.mid_sides
    raised = half * 100.0 * tan(angle)
    assert after.closures[row["line"]] - before.closures[row["line"]] == pytest.approx(raised, rel=1e-3)
