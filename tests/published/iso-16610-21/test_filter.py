"""The Gaussian filter: its weights, and what it leaves of a wave."""

import numpy as np
import pytest
from cases import Row, published

from firedeck import sums
from firedeck.surfaces.gaussian import ALPHA, mean_line, weighting


def constants() -> dict[str, float]:
    x = np.linspace(-3, 3, 60_001)
    return {
        "alpha": ALPHA,
        "weight at 0": float(weighting(np.array([0.0]), 1.0)[0]),
        "weight at 0.5": float(weighting(np.array([0.5]), 1.0)[0]),
        "area": float(weighting(x, 1.0).sum() * (x[1] - x[0])),
    }


@published(__file__, "filter.csv", where=lambda row: row["what"] != "share")
def test_weights(row: Row) -> None:
    assert constants()[row["what"]] == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


@published(__file__, "filter.csv", where=lambda row: row["what"] == "share")
def test_closed_form_and_the_filter_itself(row: Row) -> None:
    expected, tolerance = float(row["expected"]), float(row["tolerance"])
    length = float(row["wavelength_over_cutoff"])
    results = sums.gaussian_transmission(wavelength=f"{length * 0.8} mm", cutoff="0.8 mm").results
    assert results["mean_line_share"].value == pytest.approx(expected, abs=1e-6)
    assert results["roughness_share"].value == pytest.approx(1 - expected, abs=1e-6)
    assert kept(length) == pytest.approx(expected, abs=tolerance)


def kept(wavelength: float) -> float:
    """Amplitude of a wave in the filtered mean line, cut-off 1, in the middle of forty cut-offs."""
    x = np.arange(0.0, 40.0, 0.001)
    line = mean_line(np.sin(2 * np.pi * x / wavelength), 0.001, 1.0)
    middle = (x > 2.0) & (x < 38.0)
    shapes = np.column_stack((np.sin(2 * np.pi * x / wavelength), np.cos(2 * np.pi * x / wavelength)))
    amplitudes = np.linalg.lstsq(shapes[middle], line[middle], rcond=None)[0]
    return float(np.hypot(*amplitudes))
