"""A face known by its lines only: where the edge lay, the gap on each, and no heights. All of it invented."""

import xml.etree.ElementTree as ET

from firedeck.drawing import face_map
from firedeck.drawing.palette import STEPS

NAME = "{http://www.w3.org/2000/svg}"
LAYOUT = {
    "outline": [[-110, -60], [110, -60], [110, 60], [-110, 60]],
    "bores": [{"label": "1", "x": 0, "y": 0, "diameter": 80}],
}
BAND = {"low": 0.06, "high": 0.08}
EDGE = {
    "name": "edge",
    "direction": "along",
    "gap": 0.07,
    "by": "leaves",
    "place": [0, 50],
    "span": None,
    "band": BAND,
}
END = {**EDGE, "name": "end", "direction": "across", "gap": 0.02, "band": None, "place": [100, 0]}
SINGLE = {**EDGE, "name": "largest gap along", "by": "", "gap": 0.2}
LAID = [
    {"name": "edge", "start": [-100, 50], "end": [100, 50]},
    {"name": "end", "start": [100, -50], "end": [100, 50]},
]
FACE = {"face": "block", "points": [], "allowed": None, "lines": [EDGE, END], "laid": LAID}
DIPS = [{"face": "block", "cylinder": "1", "diameter": 84.0}]


def drawn(system="mm", **more):
    picture = face_map(LAYOUT, {**FACE, **more}, system, dips=DIPS)
    assert picture is not None
    return picture, " ".join(one.text or "" for one in ET.fromstring(picture.svg).iter(f"{NAME}text"))


def test_every_line_has_its_gap_and_no_heights_are_made_up() -> None:
    picture, said = drawn()
    assert "↔ 0.060 to 0.080" in said
    assert "↕ 0.020" in said
    assert "heights not known" in said
    assert not any(step in picture.svg for step in STEPS)
    assert (
        picture.alt == "Lines of the block, largest gap under the edge in mm: edge 0.060 to 0.080, end 0.020."
    )
    assert picture.text.splitlines() == ["edge: 0.060 to 0.080 mm", "end: 0.020 mm"]


def test_in_inches_gaps_are_thou() -> None:
    _, said = drawn("inch")
    assert "↔ 2.4 to 3.1" in said
    assert "thou" in said


def test_figures_stay_on_the_face() -> None:
    low = {**EDGE, "place": [0, -59]}
    picture, _ = drawn(lines=[low, {**low, "direction": "diagonal"}, END])
    rows = [
        float(one.get("y", "0"))
        for one in ET.fromstring(picture.svg).iter(f"{NAME}text")
        if " to " in (one.text or "") and "readings" not in (one.text or "")
    ]
    floor = max(float(place.split()[1]) for place in _outline(picture.svg))
    assert len(set(rows)) == 2
    assert max(rows) < floor


def _outline(svg: str) -> list[str]:
    path = next(one.get("d", "") for one in ET.fromstring(svg).iter(f"{NAME}path"))
    return [part.strip() for part in path.replace("Z", "").replace("M", "L").split("L") if part.strip()]


def test_a_single_figure_has_no_place_and_a_face_without_lines_no_drawing() -> None:
    assert face_map(LAYOUT, {**FACE, "lines": [SINGLE]}) is None
    assert face_map(LAYOUT, {**FACE, "laid": []}) is None
    assert face_map(None, FACE) is not None
