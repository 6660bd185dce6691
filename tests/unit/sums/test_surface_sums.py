"""The surface group of sums through its public face: names, units, assumptions, and one line for a fault."""

import numpy as np
import pytest

from firedeck import sums
from firedeck.errors import FiredeckError, JobError

FACE = "x,y,z\n0,0,0\n200,0,-0.05\n400,0,0\n0,140,0\n200,140,-0.05\n400,140,0\n"
IN_THOUSANDTHS = "x [in];y [in];z [thou]\n0;0;0\n8;0;-2\n16;0;0\n0;5,5;0\n8;5,5;-2\n16;5,5;0\n"


def test_names_and_results_are_the_public_ones() -> None:
    assert set(sums.flatness(points=FACE).results) == {
        "minimum_zone",
        "least_squares",
        "least_squares_peak",
        "least_squares_valley",
        "rms",
        "plane",
        "range",
        "high_points",
        "low_points",
    }
    assert {"worst", "where"} <= set(sums.local_flatness(points=FACE, span="400 mm").results)
    assert set(sums.gaussian_transmission(wavelength="1 mm", cutoff="1 mm").results) == {
        "mean_line_share",
        "roughness_share",
    }
    assert set(sums.cutoff_choice(Ra="63 uin").results) == {"cutoff", "evaluation_length"}
    assert set(sums.feed_finish(feed="0.2 mm", nose_radius="0.8 mm").results) == {"Rz", "Ra"}
    assert set(sums.feed_for_finish(Ra="0.8 um", nose_radius="0.8 mm").results) == {"feed"}


def test_bare_points_are_mm_and_say_so() -> None:
    answer = sums.flatness(points=FACE)
    assert answer.results["minimum_zone"].as_json() == {"value": pytest.approx(0.05), "unit": "mm"}
    assert answer.assumptions == ("x, y and z have no unit: read as mm",)


def test_inches_and_thousandths_with_decimal_commas() -> None:
    answer = sums.flatness(points=IN_THOUSANDTHS)
    assert answer.results["minimum_zone"].value == pytest.approx(0.0508)
    assert answer.assumptions == ()
    assert answer.results["low_points"].value[0]["x_mm"] == pytest.approx(203.2)


def test_finish_comes_out_in_micrometres() -> None:
    x = np.arange(0, 6, 0.002)
    z = 2.0 * np.sin(2 * np.pi * x / 0.1)
    trace = "x_mm,z_um\n" + "\n".join(f"{a:.3f},{b:.6f}" for a, b in zip(x, z, strict=True))
    answer = sums.roughness(profile=trace, cutoff="0.8 mm")
    assert answer.results["Ra"].as_json() == {"value": pytest.approx(4 / np.pi, rel=0.002), "unit": "µm"}
    assert answer.results["Rku"].as_json()["unit"] == "1"
    assert set(answer.results) == {"Ra", "Rq", "Rt", "Rsk", "Rku", "Rz", "Rp", "Rv", "Rz1max"}


@pytest.mark.parametrize("step_by_step", ["3", "5"])
def test_sections_of_a_trace_are_no_sections_of_a_bolt(step_by_step: str) -> None:
    heights = ", ".join(f"{height}" for height in [0, 1] * 30)
    answer = sums.roughness(heights=f"{heights} um", step="0.1 mm", filter="none", sections=step_by_step)
    assert answer.results["Rz"].as_json()["value"] == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("name", "given", "says"),
    [
        ("flatness", {"points": "x,y\n0,0\n1,0\n0,1\n"}, "flatness points: found no column z"),
        ("flatness", {"points": "x,y,z\n0,0,0\n1,0,0\n"}, "at least 3 points"),
        ("flatness", {"points": "x,y,z\n0,0,zero\n"}, "row 2, column z"),
        ("flatness", {"points": "x,y,z_arcsec\n0,0,0\n1,0,0\n0,1,0\n"}, "column z as angle"),
        ("flatness", {}, "flatness points: found nothing"),
        ("local-flatness", {"points": FACE, "span": "0 mm"}, "span"),
        ("local-flatness", {"points": FACE, "span": "100"}, "say the unit"),
        ("straightedge-gaps", {"points": FACE, "lines": "up"}, "along, across, diagonals, all"),
        ("union-jack", {"readings": FACE, "foot": "100 mm"}, "union-jack readings: found no column line"),
        ("roughness", {"heights": "1, 2, 3 um"}, "step"),
        ("roughness", {"heights": "1, 2, 1, 2 um", "step": "1 mm", "filter": "2rc"}, "gaussian, none"),
        ("roughness", {"step": "1 mm"}, "profile and heights: found neither"),
        ("cutoff-choice", {}, "exactly one of Ra, RSm, Rz"),
        ("cutoff-choice", {"Ra": "1.6"}, "say the unit"),
        ("gaussian-transmission", {"wavelength": "0 mm", "cutoff": "0.8 mm"}, "wavelength"),
        ("feed-finish", {"feed": "2 mm", "nose_radius": "0.8 mm"}, "at most the nose radius"),
    ],
)
def test_a_fault_is_one_line_with_the_argument(name: str, given: dict[str, str], says: str) -> None:
    with pytest.raises(FiredeckError) as fault:
        sums.find_sum(name).run(**given)
    assert says in str(fault.value)
    assert "\n" not in str(fault.value)


def test_an_unknown_argument_names_those_there_are() -> None:
    with pytest.raises(JobError, match="it has: points"):
        sums.flatness(points=FACE, tilt="none")
