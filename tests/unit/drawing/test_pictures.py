"""Pictures say what the findings say, to the eye and in words. All figures here are invented."""

import colorsys
import math
import re
import xml.etree.ElementTree as ET
from itertools import combinations, pairwise
from typing import Any

import pytest

from firedeck.drawing import (
    OUTCOME_MARKS,
    STATE_MARKS,
    blank_map,
    face_map,
    plan_view,
    ring_picture,
    ring_text,
    turn_picture,
)
from firedeck.drawing.balloons import kept_apart
from firedeck.drawing.heights import printed
from firedeck.drawing.palette import NOT_MEASURED, STEPS, step_of
from firedeck.drawing.rings_text import hour_of
from firedeck.drawing.view import extent_of, fitted

NAME = "{http://www.w3.org/2000/svg}"


def layout(**more: Any) -> dict[str, Any]:
    """Return an invented twin with six bolts."""
    bolts = [(-90, 50), (0, 50), (90, 50), (-90, -50), (0, -50), (90, -50)]
    return {
        "outline": [[-110, -70], [110, -70], [110, 70], [-110, 70]],
        "bores": [
            {"label": "1", "x": -45, "y": 0, "diameter": 80},
            {"label": "2", "x": 45, "y": 0, "diameter": 80},
        ],
        "fasteners": [
            {"label": f"B{n}", "x": x, "y": y, "order": n, "leads": "water" if n == 3 else None}
            for n, (x, y) in enumerate(bolts, start=1)
        ],
        "dowels": [{"label": "d", "x": -100, "y": 0, "diameter": 10}],
        "passages": [
            {
                "label": "slot",
                "x": 0,
                "y": 60,
                "shape": "slot",
                "diameter": 6,
                "length": 20,
                "angle": 0.5,
                "leads": "water",
            }
        ],
        **more,
    }


FACE = {"face": "head", "points": [[x, y, -0.001 * abs(x)] for x in (-90, 0, 90) for y in (-50, 50)]}


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ET.fromstring(svg).iter(f"{NAME}text")]


def luminance(colour: str) -> float:
    red, green, blue = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    return 0.2126 * red**2.2 + 0.7152 * green**2.2 + 0.0722 * blue**2.2


def test_twelve_steps_of_one_hue_from_dark_to_light() -> None:
    assert len(STEPS) == 12
    assert all(luminance(dark) < luminance(light) for dark, light in pairwise((*STEPS, NOT_MEASURED)))
    hues = [colorsys.rgb_to_hsv(*(int(step[i : i + 2], 16) / 255 for i in (1, 3, 5)))[0] for step in STEPS]
    assert max(hues) - min(hues) < 0.02


@pytest.mark.parametrize(("value", "step"), [(0.0, 0), (0.5, 6), (1.0, 11), (0.083, 0), (0.084, 1)])
def test_a_height_falls_in_its_step(value: float, step: int) -> None:
    assert step_of(value, 0.0, 1.0) == step


def test_every_fastener_shows_its_turn() -> None:
    picture = plan_view(layout())
    assert picture is not None
    assert [text for text in texts(picture.svg) if text.isdigit()] == ["1", "2", "3", "4", "5", "6"]
    assert picture.alt.endswith("Tightened in this order: B1, B2, B3, B4, B5, B6.")
    named = plan_view(layout(), "label")
    assert named is not None
    assert [text for text in texts(named.svg) if text.startswith("B")] == ["B1", "B2", "B3", "B4", "B5", "B6"]


def test_without_an_order_the_names_stand_there() -> None:
    bolts = [{**bolt, "order": None} for bolt in layout()["fasteners"]]
    picture = plan_view(layout(fasteners=bolts))
    assert picture is not None
    assert "B4" in texts(picture.svg)
    assert "order" not in picture.alt


def test_front_lies_left_and_y_goes_up() -> None:
    view = fitted(extent_of(layout()), (0, 0, 220, 140))
    assert view.at(-110, 70) == pytest.approx((0, 0))
    assert view.at(110, -70) == pytest.approx((220, 140))
    over = fitted(extent_of(layout()), (0, 0, 220, 140), over=True)
    assert over.at(-110, 70) == pytest.approx((0, 140))


@pytest.mark.parametrize("missing", [None, {}, {"missing": {"paths": []}}, {"bores": [], "fasteners": []}])
def test_no_pattern_no_picture(missing: dict[str, Any] | None) -> None:
    assert plan_view(missing) is None
    assert blank_map(missing) is None


def test_a_map_prints_its_values_and_leaves_the_rest_pale() -> None:
    picture = face_map(layout(), FACE, "mm")
    assert picture is not None
    said = texts(picture.svg)
    assert "−0.090" in said
    assert "0.000" in said
    assert "not measured" in said
    assert NOT_MEASURED in picture.svg
    assert all(step in picture.svg for step in STEPS)
    assert picture.alt.endswith("lowest −0.090 mm, highest 0.000 mm.")


def test_a_map_in_thou() -> None:
    picture = face_map(layout(), FACE, "inch")
    assert picture is not None
    assert "−3.5" in texts(picture.svg)
    assert "height out of the metal, thou" in texts(picture.svg)


@pytest.mark.parametrize(
    "points",
    [
        [[x, y, 0.0] for x in (-90, 90) for y in (-50, 50)],
        [[0.0, 0.0, 0.1], [10.0, 0.0, 0.2], [20.0, 0.0, 0.1]],
        [[0.0, 0.0, 0.1]],
    ],
    ids=["all at one height", "on one line", "a single point"],
)
def test_odd_sets_of_points_are_still_drawn(points: list[list[float]]) -> None:
    picture = face_map(layout(), {"face": "block", "points": points})
    assert picture is not None
    assert printed(points[0][2], "mm") in texts(picture.svg)
    assert "nan" not in picture.svg


def test_a_map_without_points_is_not_drawn() -> None:
    assert face_map(layout(), {"face": "head", "points": []}) is None


def test_a_map_needs_no_pattern() -> None:
    picture = face_map(None, FACE)
    assert picture is not None
    assert "−0.090" in texts(picture.svg)


@pytest.mark.parametrize("over", [False, True])
def test_a_blank_map_has_two_boxes_for_each_laying(over: bool) -> None:
    picture = blank_map(layout(), over)
    assert picture is not None
    root = ET.fromstring(picture.svg)
    arrows = [line for line in root.iter(f"{NAME}line") if line.get("stroke-dasharray")]
    boxes = [box for box in root.iter(f"{NAME}rect") if box.get("height") == "8.5"]
    assert len(arrows) == 8
    assert len(boxes) == 2 * len(arrows)
    for box in boxes:
        assert 0 <= float(box.get("x", "")) <= 180 - float(box.get("width", ""))
    assert ("head face up on the bench" in texts(picture.svg)) == over


@pytest.mark.parametrize("picture", [plan_view(layout()), face_map(layout(), FACE), blank_map(layout())])
def test_no_figure_is_smaller_than_eight_point(picture: Any) -> None:
    sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)"', picture.svg)]
    assert min(sizes) > 7.9 * 25.4 / 72


def test_figures_of_the_plan_are_fourteen_point_at_least() -> None:
    picture = plan_view(layout())
    assert picture is not None
    numbers = [one for one in ET.fromstring(picture.svg).iter(f"{NAME}text") if (one.text or "").isdigit()]
    assert min(float(one.get("font-size", "0")) for one in numbers) >= 14 * 25.4 / 72


def test_circles_keep_off_one_another() -> None:
    close = [(50.0 + 4 * i, 30.0) for i in range(6)]
    moved = kept_apart(close, 4.0, 180.0, 60.0)
    assert min(math.dist(a, b) for a, b in combinations(moved, 2)) >= 8.0
    assert kept_apart([(10.0, 10.0), (40.0, 10.0)], 4.0, 180.0, 60.0) == [(10.0, 10.0), (40.0, 10.0)]


def test_what_a_user_types_is_escaped() -> None:
    bolts = [{"label": '<b>&"\x07', "x": 0, "y": 0, "order": None, "leads": None}]
    picture = plan_view(layout(fasteners=bolts))
    assert picture is not None
    assert '<b>&"\ufffd' in texts(picture.svg)


@pytest.mark.parametrize(("degrees", "loosen", "side"), [(90, False, 1), (90, True, -1), (270, False, -1)])
def test_a_turn_points_the_way_it_goes(degrees: float, loosen: bool, side: int) -> None:
    picture = turn_picture(degrees, loosen)
    arcs = re.findall(r'd="M7\.00 [\d.]+ A[\d.]+ [\d.]+ 0 (\d) (\d) ([\d.]+) ', picture.svg)
    ((large, clockwise, end),) = arcs
    assert (large == "1") == (degrees > 180)
    assert (clockwise == "1") == (not loosen)
    assert math.copysign(1, float(end) - 7) == side
    assert f"{degrees} degrees" in picture.alt


def test_every_state_and_outcome_has_its_own_mark() -> None:
    from firedeck.answers.answer import State
    from firedeck.trace import Outcome

    assert set(STATE_MARKS) == {state.value for state in State}
    assert set(OUTCOME_MARKS) == {outcome.value for outcome in Outcome}
    for marks in (STATE_MARKS, OUTCOME_MARKS):
        assert len(set(marks.values())) == len(marks)


def ring(bore: str, lowest: float, built: float | None, angle: float = -2.0) -> dict[str, Any]:
    """Return one ring of a study: lowest at one angle, twice as much elsewhere."""
    curve = [[angle, lowest, built], [0.0, 2 * lowest, built], [2.0, 2 * lowest, built]]
    return {
        "bore": bore,
        "side": "exhaust side",
        "lowest_angle": angle,
        "firing_lowest": lowest,
        "curve": curve,
    }


def study(*loads: float, built: float | None = 100.0) -> dict[str, Any]:
    return {"places": [ring(str(number), load, built) for number, load in enumerate(loads, start=1)]}


def circles(svg: str) -> list[tuple[float, float, float]]:
    found = ET.fromstring(svg).iter(f"{NAME}circle")
    return [tuple(float(one.get(key, "0")) for key in ("cx", "cy", "r")) for one in found]  # type: ignore[misc]


def test_every_ring_has_a_dial_with_its_lowest_place_and_the_factory_behind_it() -> None:
    picture = ring_picture(layout(), study(60.0, 50.0))
    assert picture is not None
    said = texts(picture.svg)
    assert {"cyl 1", "cyl 2", "60", "50", "as it left the factory", "now"} <= set(said)
    assert "No 2 lowest 50 N/mm, exhaust side" in picture.alt
    alone = ring_picture(layout(), study(60.0, 50.0, built=None))
    assert alone is not None
    assert "as it left the factory" not in texts(alone.svg)


def test_the_lowest_place_lies_on_its_line_at_its_angle() -> None:
    picture = ring_picture(layout(), study(60.0, 60.0))
    assert picture is not None
    dots = [one for one in circles(picture.svg) if one[2] == 0.9]
    dials = sorted({one[:2] for one in circles(picture.svg) if one[2] > 5.0})
    assert len(dials) == 2
    for (x, y), (at_x, at_y, _) in zip(dials, sorted(dots)[-3:], strict=False):
        away = math.dist((x, y), (at_x, at_y))
        inner, outer = sorted(one[2] for one in circles(picture.svg) if one[:2] == (x, y))[::2]
        assert away == pytest.approx(inner + (outer - inner) * 60.0 / 120.0, abs=0.05)
        assert math.atan2(y - at_y, at_x - x) == pytest.approx(-2.0, abs=0.01)


@pytest.mark.parametrize("bores", [1, 2, 3, 4, 6, 8])
def test_dials_stay_on_the_paper_and_off_each_other(bores: int) -> None:
    places = [
        {"label": str(n + 1), "x": 96.0 * n, "y": 20.0 * (n % 2), "diameter": 86.0} for n in range(bores)
    ]
    picture = ring_picture({"bores": places}, study(*[60.0] * bores), width=170.0)
    assert picture is not None
    outer = {one for one in circles(picture.svg) if one[2] > 5.0}
    most = max(one[2] for one in outer)
    dials = [one for one in outer if one[2] == most]
    assert len(dials) == bores
    assert all(r < x < 170.0 - r + 1e-6 and r < y < picture.height - r for x, y, r in dials)
    assert all(math.dist(a[:2], b[:2]) > 2 * most for a, b in combinations(dials, 2))


def test_another_way_stands_in_front_of_what_is_written() -> None:
    picture = ring_picture(layout(), study(60.0, 50.0), study(40.0, 45.0))
    assert picture is not None
    said = texts(picture.svg)
    assert {"40", "45", "as written", "changed", "as it left the factory"} <= set(said)
    assert "60" not in said


def test_no_rings_no_picture() -> None:
    assert ring_picture(layout(), None) is None
    assert ring_picture(None, study(60.0)) is None
    assert ring_picture(layout(), {"places": []}) is None


@pytest.mark.parametrize(
    ("angle", "hour"),
    [(0.0, 3), (math.pi / 2, 12), (-math.pi / 2, 6), (math.pi, 9), (-math.pi, 9), (math.pi / 6, 2)],
)
def test_the_rear_is_three_o_clock(angle: float, hour: int) -> None:
    assert hour_of(angle) == hour


def test_rings_in_letters_say_what_the_picture_says() -> None:
    said = ring_text(layout(), study(60.0, 50.0)).splitlines()
    assert sum(line.startswith("No ") for line in said) == 2
    assert any("No 2: lowest 50 N/mm, exhaust side" in line for line in said)
    bars = [line for line in said if line.endswith("lowest")]
    assert len(bars) == 2
    alone = ring_text(layout(), study(60.0, built=None))
    assert "as it left the factory" not in alone
    assert ring_text(layout(), None) == ""


def test_bars_are_as_long_as_the_load() -> None:
    text = ring_text(layout(), study(120.0, 60.0, built=None))
    longest = {
        part.splitlines()[0][:4]: max(line.count("█") for line in part.splitlines())
        for part in text.split("\n\n")
        if part.startswith("No")
    }
    assert longest["No 1"] >= longest["No 2"] > 0


def middle_of(name: str, svg: str) -> tuple[float, float]:
    (found,) = {
        (float(one.get("x", "0")), float(one.get("y", "0")))
        for one in ET.fromstring(svg).iter(f"{NAME}text")
        if one.text == name
    }
    return found


def test_names_of_bores_keep_off_the_arrows() -> None:
    """The middle line runs through the middle of every bore: no name stands on it."""
    picture = blank_map(layout())
    assert picture is not None
    bore = next(one for one in circles(picture.svg) if one[2] > 6.0)
    assert abs(middle_of("cyl 1", picture.svg)[1] - bore[1]) > 2.0
