"""Roughness of traces: filter, sections, cut-off, and what is refused."""

import numpy as np
import pytest

from firedeck.errors import OutOfRange
from firedeck.surfaces.feed import feed_for_finish, finish_by_feed
from firedeck.surfaces.gaussian import mean_line, transmission, weighting
from firedeck.surfaces.roughness import roughness, ten_point_height
from firedeck.surfaces.surface_plate import plate_tolerance
from firedeck.surfaces.traces import equal_step, roughness_of

STEP = 0.001
X = np.arange(0.0, 8.0, STEP)
FINE = 0.002 * np.sin(2 * np.pi * X / 0.1)


def test_the_mean_line_is_that_of_the_sum_of_weights() -> None:
    heights = np.random.default_rng(3).normal(size=900)
    line = mean_line(heights, STEP, 0.25)
    for place in (0, 100, 450, 899):
        away = STEP * (np.arange(900) - place)
        weights = np.where(np.abs(away) <= 0.25 + 1e-9, weighting(away, 0.25), 0.0)
        assert line[place] == pytest.approx(weights @ heights / weights.sum(), abs=1e-12)


def test_form_and_waviness_go_roughness_stays() -> None:
    long_form = 0.05 * np.sin(2 * np.pi * X / 20) + 0.01 * X
    plain, with_form = roughness(FINE, STEP, 0.8), roughness(FINE + long_form, STEP, 0.8)
    assert with_form.Ra == pytest.approx(plain.Ra, rel=0.01)
    assert plain.Ra == pytest.approx(0.002 * 2 / np.pi, rel=0.001)
    assert len(plain.profile) == 4000


def test_sections_are_as_long_as_the_cutoff() -> None:
    spiked = FINE.copy()
    spiked[4100] += 0.05
    found = roughness(spiked, STEP, 0.8)
    assert found.Rz1max == pytest.approx(0.05 + found.Rz1max - found.Rt + 0.0, abs=0.06)
    assert found.Rz1max > found.Rz > roughness(FINE, STEP, 0.8).Rz
    assert found.Rz == pytest.approx(found.Rp + found.Rv)
    assert found.Rt >= found.Rz1max


def test_the_cutoff_is_chosen_from_the_trace() -> None:
    assert roughness(FINE, STEP).cutoff == 0.8
    short = 0.00005 * np.sin(2 * np.pi * X / 0.02)
    assert roughness(short, STEP).cutoff == 0.25
    smooth = roughness(0.0001 * FINE, STEP)
    assert "no cut-off at this Ra" in smooth.cautions[0].text
    rough = roughness(3 * FINE, STEP)
    assert rough.cutoff == 0.8
    assert "2.5 mm" in rough.cautions[0].text


def test_without_filter_only_the_mean_is_taken_out() -> None:
    sloped = FINE + 0.01 * X + 5
    found = roughness(sloped, STEP, kind="none")
    assert found.Rt == pytest.approx(np.ptp(sloped))
    assert found.profile.mean() == pytest.approx(0.0, abs=1e-12)
    assert found.cutoff is None


def test_a_trace_gives_its_own_step() -> None:
    by_trace = roughness_of(trace=(X, FINE), cutoff=0.8)
    by_step = roughness_of(heights=FINE, step=STEP, cutoff=0.8)
    assert by_trace.Ra == pytest.approx(by_step.Ra, rel=1e-9)
    assert equal_step(X) == pytest.approx(STEP)


@pytest.mark.parametrize(
    ("act", "says"),
    [
        (lambda: roughness(FINE[:4000], STEP, 0.8), "at least 4.8 mm: 5 sections of 0.8 mm"),
        (lambda: roughness(FINE[:300], STEP), "at least 0.48 mm"),
        (lambda: roughness(FINE, 0.2, 0.8), "at most an eighth of the cut-off"),
        (lambda: roughness(FINE, 0.0, 0.8), "longer than nothing"),
        (lambda: roughness(FINE, STEP, -0.8), "longer than nothing"),
        (lambda: roughness(FINE, STEP, sections=0), "one section or more"),
        (lambda: roughness(np.zeros(5000), STEP, 0.8), "some roughness"),
        (lambda: roughness(np.append(FINE, np.nan), STEP, 0.8), "finite heights"),
        (lambda: roughness(FINE, STEP, kind="square"), "gaussian, none"),
        (
            lambda: equal_step(np.array([0.0, 1.0, 2.5])),
            "a step of 1 mm at x 0 mm; rising places at equal steps",
        ),
        (lambda: equal_step(np.array([2.0, 1.0, 0.0])), "rising places"),
        (lambda: equal_step(np.array([0.0, 1.0])), "at least three"),
        (roughness_of, "neither"),
        (lambda: roughness_of(trace=(X, FINE), heights=FINE), "both"),
        (lambda: roughness_of(trace=(X, FINE), step=STEP), "beside a trace"),
        (lambda: roughness_of(heights=FINE), "distance between two heights"),
        (lambda: ten_point_height(FINE[:9]), "at least ten"),
        (lambda: transmission(0.0, 0.8), "wavelength"),
        (lambda: finish_by_feed(0.9, 0.8), "at most the nose radius"),
        (lambda: finish_by_feed(0.1, -0.8), "nose radius"),
        (lambda: feed_for_finish(0.03, 0.8), "at most 25 µm"),
        (lambda: plate_tolerance(0.0, 300.0), "sides longer than nothing"),
    ],
)
def test_what_cannot_be_judged_is_one_line(act, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        act()


@pytest.mark.parametrize("width", [0.1, 0.25])
def test_width_of_even_waves_is_their_length(width: float) -> None:
    found = roughness(0.002 * np.sin(2 * np.pi * X / width), STEP, 0.8)
    assert found.RSm == pytest.approx(width, rel=1e-3)


def test_ripples_nearer_to_the_line_than_a_tenth_are_no_crests() -> None:
    wave = 0.002 * np.sin(2 * np.pi * X / 0.4)
    ripple = 0.00012 * np.sin(2 * np.pi * X / 0.02)
    assert roughness(wave + ripple, STEP, 2.5, sections=1).RSm == pytest.approx(0.4, rel=0.03)
    assert roughness(np.linspace(0.0, 1.0, 50), STEP, kind="none").RSm is None


def test_feed_and_back() -> None:
    found = finish_by_feed(0.15, 0.4)
    assert feed_for_finish(found.Ra, 0.4).feed == pytest.approx(0.15)
