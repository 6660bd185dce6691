"""Maps of faces: lines laid, rings, what was not seen, the worst place; on paper and in figures. All of it invented."""

import xml.etree.ElementTree as ET

from firedeck.drawing import face_map
from firedeck.drawing.facemap_text import text_map
from firedeck.drawing.palette import NOT_MEASURED, STEPS

NAME = "{http://www.w3.org/2000/svg}"
LAYOUT = {
    "outline": [[-110, -60], [110, -60], [110, 60], [-110, 60]],
    "bores": [{"label": "1", "x": 0, "y": 0, "diameter": 80}],
}
PLACES = [[x, y] for y in (-50, 50) for x in (-100, -50, 0, 50, 100)]
ALLOWED = {
    "places": PLACES,
    "heights": [-0.001 * abs(x) - (0.05 if (x, y) == (0, 50) else 0.0) for x, y in PLACES],
    "seen": [(x, y) != (-100, 50) for x, y in PLACES],
}
LINE = {"name": "edge", "direction": "along", "gap": 0.064, "by": "leaves", "place": [0, 50], "span": None}
SHORT = {**LINE, "gap": 0.2, "span": 100.0}
FACE = {
    "face": "block",
    "points": [],
    "allowed": ALLOWED,
    "lines": [LINE, SHORT],
    "laid": [{"name": "edge", "start": [-100, 50], "end": [100, 50]}],
}
DIPS = [
    {"face": "block", "cylinder": "1", "diameter": 84.0},
    {"face": "head", "cylinder": "1", "diameter": 90.0},
]


def drawn(**more):
    picture = face_map(LAYOUT, {**FACE, **more}, dips=DIPS)
    assert picture is not None
    return picture, ET.fromstring(picture.svg)


def said(svg: ET.Element) -> str:
    return " ".join(element.text or "" for element in svg.iter(f"{NAME}text"))


def test_what_the_leaves_allow_is_drawn_with_its_unseen_places() -> None:
    picture, svg = drawn()
    assert "1 of 10 places were not seen" in picture.alt
    assert "not seen" in said(svg)
    covers = [one for one in svg.iter(f"{NAME}rect") if one.get("fill") == NOT_MEASURED]
    assert len(covers) == 2  # the place, and its box on the scale
    assert all(step in picture.svg for step in STEPS)


def test_all_seen_covers_nothing() -> None:
    picture, svg = drawn(allowed={**ALLOWED, "seen": [True] * 10})
    assert "were not seen" not in picture.alt
    assert len([one for one in svg.iter(f"{NAME}rect") if one.get("fill") == NOT_MEASURED]) == 1


def test_lines_ring_and_worst_place_lie_over_it() -> None:
    _, svg = drawn()
    assert len(list(svg.iter(f"{NAME}line"))) == 2  # paper under ink
    ring = [one for one in svg.iter(f"{NAME}circle") if one.get("stroke-dasharray")]
    assert len(ring) == 1
    assert "gap 0.064" in said(svg)
    assert "dashed circle" in said(svg)


def test_no_two_figures_lie_over_one_another() -> None:
    _, svg = drawn()
    size = 8 * 25.4 / 72
    places = [
        (float(one.get("x", 0)), float(one.get("y", 0)), 0.602 * size * len(one.text or "") / 2)
        for one in svg.iter(f"{NAME}text")
        if (one.text or "").lstrip("+−").startswith("0.") and one.get("stroke") is None
    ]
    inside = [one for one in places if one[1] < 70]
    for number, (x, y, half) in enumerate(inside):
        for x2, y2, half2 in inside[number + 1 :]:
            assert abs(x - x2) >= half + half2 or abs(y - y2) >= size


def test_in_figures() -> None:
    rows = text_map(LAYOUT, FACE, "mm").splitlines()
    assert rows[0].split() == ["·", "-50", "-50*", "-50", "-100"]
    assert rows[1].split() == ["-100", "-50", "0", "-50", "-100"]
    assert "thousandths of a millimetre" in rows[2]
    assert "* largest gap under the edge, 64" in rows[3]
    inches = text_map(LAYOUT, FACE, "inch").splitlines()
    assert inches[0].split()[1] == "-2.0"


def test_colours_are_steps_of_the_scale_only_where_asked() -> None:
    assert "\x1b[" not in text_map(LAYOUT, FACE, "mm")
    coloured = text_map(LAYOUT, FACE, "mm", colour=True)
    assert coloured.count("\x1b[48;2;3;45;47m") == 3  # the lowest places, darkest step


def test_a_face_known_by_lines_only_has_no_heights() -> None:
    picture, _ = drawn(allowed=None)
    assert not any(step in picture.svg for step in STEPS)
    assert "Heights" not in picture.alt
    assert text_map(LAYOUT, {**FACE, "allowed": None}, "mm") == ""
