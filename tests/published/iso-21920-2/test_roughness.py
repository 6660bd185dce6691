"""Roughness figures of waves of a closed form and of typed heights."""

from statistics import NormalDist

import numpy as np
import pytest
from cases import Row, published

from firedeck import sums
from firedeck.surfaces.roughness import roughness, ten_point_height

PERIODS, PLACES = 20, 20_000


def wave(kind: str) -> np.ndarray:
    """Twenty periods; triangle and cusps hit their crests and valleys exactly."""
    phase = (np.arange(PERIODS * PLACES) % PLACES) / PLACES
    match kind:
        case "sine":
            return np.sin(2 * np.pi * phase)
        case "triangle":
            return 1 - 4 * np.abs(phase - 0.5)
        case "square":
            return np.where(phase < 0.5, 1.0, -1.0)
        case "cusps":
            return (2 * phase - 1) ** 2
    normal = NormalDist()
    places = 100_000
    return np.array([normal.inv_cdf((place + 0.5) / places) for place in range(places)])


WAVES = {
    kind: roughness(wave(kind), 0.0001, kind="none")
    for kind in ("sine", "triangle", "square", "cusps", "normal")
}


@published(__file__, "waves.csv")
def test_waves(row: Row) -> None:
    names = row["figure"].split("/")
    values = [getattr(WAVES[row["wave"]], name) for name in names]
    value = values[0] if len(values) == 1 else values[0] / values[1]
    assert value == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


@published(__file__, "heights.csv")
def test_heights(row: Row) -> None:
    heights = [float(cell) for cell in row["heights_um"].split("/")]
    typed = ", ".join(f"{height:g}" for height in heights)
    results = sums.roughness(heights=f"{typed} um", step="1 mm", filter="none", sections="1").results
    found = {
        "mean": float(np.mean(heights)),
        "ten_point": ten_point_height(np.array(heights)),
        **{name: results[name].as_json()["value"] for name in ("Ra", "Rq")},
    }
    assert found[row["figure"]] == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))
