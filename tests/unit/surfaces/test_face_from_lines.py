"""A face from straightedge lines: faces made for the test, leaves that neither stick nor scatter."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from firedeck.errors import JobErrors, OutOfRange
from firedeck.sums.face_file import read_face
from firedeck.surfaces.edge import lay, lay_on_end_leaves
from firedeck.surfaces.face_map import FaceMap, face_from_lines
from firedeck.surfaces.face_model import EDGE_TRUE_TO, Bore, Plan
from firedeck.surfaces.laying import Laying
from firedeck.surfaces.leaf import felt_gap
from firedeck.surfaces.verdict import LeafReading

PLAN = Plan((0.0, 0.0), (300.0, 140.0), (Bore("1", 80.0, 70.0, 80.0), Bore("2", 220.0, 70.0, 80.0)))
LEAVES = (0.03, 0.04, 0.05, 0.06, 0.07, 0.08, 0.09, 0.10, 0.15, 0.20)
LINES = {
    "front edge": ((8.0, 8.0), (292.0, 8.0)),
    "rear edge": ((8.0, 132.0), (292.0, 132.0)),
    "diagonal": ((8.0, 8.0), (292.0, 132.0)),
    "other diagonal": ((8.0, 132.0), (292.0, 8.0)),
    "first end": ((10.0, 6.0), (10.0, 134.0)),
    "bridge": ((150.0, 6.0), (150.0, 134.0)),
    "last end": ((290.0, 6.0), (290.0, 134.0)),
}
Ends = tuple[tuple[float, float], tuple[float, float]]
Heights = Callable[[np.ndarray, np.ndarray], np.ndarray]


def hollow(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    return 0.10 * ((x - 150) / 150) ** 2 + 0 * y


def with_dip(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    return hollow(x, y) - 0.08 * np.exp(-((x - 150) ** 2 + (y - 70) ** 2) / (2 * 14.0**2))


def flat(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    return 0.0 * x * y


def read(
    name: str, height: Heights, leaf: float = 0.04, grit: float = 0.0, ends: Ends | None = None
) -> Laying:
    """Lay the edge, on leaves or (0) on the face, and try all leaves every 12 mm."""
    start, end = ends or LINES[name]
    line = Laying(name, start, end, leaf, ())
    at = np.linspace(0.0, line.length, 120)
    x, y = line.places(at)
    top = np.where(PLAN.on_face(x, y), height(x, y), -100.0)
    gap = (lay_on_end_leaves(at, top, leaf) if leaf else lay(at, top)).gap + grit * (1 - at / line.length)
    tried = []
    for middle in np.arange(12.0, line.length - 6.0, 12.0):
        if PLAN.on_face(*line.places(np.array([middle - 5.0, middle, middle + 5.0]))).all():
            felt = float(felt_gap(at, gap, np.array([middle]), 10.0)[0])
            goes = [one for one in LEAVES if one <= felt]
            stops = [one for one in LEAVES if one > felt]
            tried.append(LeafReading(float(middle), goes[-1] if goes else None, stops[0] if stops else None))
    return replace(line, readings=tuple(tried))


def found(height: Heights, grit: str = "", **others: object) -> FaceMap:
    short = ("first end", "bridge", "last end")
    lines = [read(name, height, 0.0 if name in short else 0.04, 0.05 * (name == grit)) for name in LINES]
    return face_from_lines(PLAN, lines, LEAVES, **others)


@pytest.fixture(scope="module")
def hollow_face() -> FaceMap:
    return found(hollow)


def test_flatness_of_a_hollow(hollow_face):
    assert hollow_face.flatness.value == pytest.approx(0.10, abs=0.03)
    assert hollow_face.flatness.low - 0.005 < 0.10 < hollow_face.flatness.high
    assert not hollow_face.preview


def test_heights_lie_in_their_band(hollow_face):
    x, y = hollow_face.places.T
    plane = np.column_stack((np.ones(len(x)), x, y))
    true = hollow(x, y)
    true = true - plane @ np.linalg.lstsq(plane, true, rcond=None)[0]
    assert np.mean((hollow_face.low <= true) & (true <= hollow_face.high)) > 0.95
    assert np.abs(hollow_face.heights - true)[hollow_face.seen].max() < 0.02


def test_gap_along_and_across_are_told_apart(hollow_face):
    along, across = hollow_face.worst["along"], hollow_face.worst["across"]
    assert along.low < 0.085 < along.high
    assert across.value < 0.02
    assert hollow_face.worst["any"].value >= along.value


def test_what_no_leaf_came_near_is_not_seen(hollow_face):
    far = np.hypot(hollow_face.places[:, 0] - 80, hollow_face.places[:, 1] - 16) < 8
    assert hollow_face.seen[far].all()
    assert not hollow_face.seen.all()
    tried = np.concatenate([_tried(name) for name in LINES])
    away = np.hypot(*(hollow_face.places[~hollow_face.seen, None] - tried).transpose(2, 0, 1))
    assert away.min() > 20.0


def _tried(name: str) -> np.ndarray:
    line = read(name, flat)
    return np.column_stack(line.places(np.array([reading.at for reading in line.readings])))


def test_flat_is_flat_within_the_leaves():
    """A mean, so faces with a dip beside the lines lift it a little over the thinnest leaf."""
    face = found(flat)
    assert face.flatness.low < 0.02
    assert face.flatness.value < 0.04
    assert face.dips == ()
    assert face.spoilt == ()


def test_a_dip_under_a_line_is_found():
    (dip,) = found(with_dip).dips
    assert np.hypot(dip.x - 150, dip.y - 70) < 10
    assert dip.depth == pytest.approx(0.08, abs=0.03)


def test_a_line_on_grit_is_named_with_the_line_it_crosses():
    (spoilt,) = found(hollow, grit="diagonal").spoilt
    assert spoilt.line == "diagonal"
    assert spoilt.other in LINES
    assert "where they cross: clean and lay again" in spoilt.says


def test_the_next_layings_tell_more(hollow_face):
    assert len(hollow_face.next) == 4
    assert all(PLAN.on_face(*np.transpose((one.start, one.end))).all() for one in hollow_face.next)
    named = {f"next {number}": (one.start, one.end) for number, one in enumerate(hollow_face.next)}
    short = ("first end", "bridge", "last end")
    lines = [read(name, hollow, 0.0 if name in short else 0.04) for name in LINES]
    lines += [read(name, hollow, 0.04, ends=ends) for name, ends in named.items()]
    more = face_from_lines(PLAN, lines, LEAVES, name_next=0)
    assert np.mean(more.high - more.low) < 0.9 * np.mean(hollow_face.high - hollow_face.low)
    assert more.seen.sum() > hollow_face.seen.sum()


def test_the_same_readings_give_the_same_face(hollow_face):
    again = found(hollow)
    assert np.array_equal(again.heights, hollow_face.heights)
    assert again.flatness == hollow_face.flatness


def tilted(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    return hollow(x, y) + 0.002 * x - 0.003 * y + 5.0


def test_tilt_and_shift_of_the_heights_change_nothing(hollow_face):
    again = found(tilted)
    assert again.flatness == hollow_face.flatness
    assert np.array_equal(again.heights, hollow_face.heights)


def skew(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    u, v = (x - 150) / 150, (y - 70) / 70
    return 0.06 * u**2 + 0.03 * u * v + 0.02 * u**3 - 0.05 * np.exp(-((x - 150) ** 2 + (y - 40) ** 2) / 450)


SKEW_LINES = [
    read(name, skew, 0.0 if name in ("first end", "bridge", "last end") else 0.04) for name in LINES
]


@pytest.fixture(scope="module")
def skew_face() -> FaceMap:
    return face_from_lines(PLAN, SKEW_LINES, LEAVES, name_next=0)


@pytest.mark.parametrize("turn", [(-1, 1), (1, -1), (-1, -1)], ids=["mirror", "mirror across", "half turn"])
def test_mirror_and_half_turn_mirror_the_face(skew_face, turn):
    def place(x: float, y: float) -> tuple[float, float]:
        return (x if turn[0] > 0 else 300 - x), (y if turn[1] > 0 else 140 - y)

    lines = [replace(line, start=place(*line.start), end=place(*line.end)) for line in SKEW_LINES]
    there = face_from_lines(PLAN, lines, LEAVES, name_next=0)
    assert there.flatness.value == pytest.approx(skew_face.flatness.value, abs=1e-4)
    assert there.worst["along"].value == pytest.approx(skew_face.worst["along"].value, abs=1e-4)
    theirs = {tuple(np.round(place(*at), 6)): number for number, at in enumerate(there.places)}
    order = [theirs[tuple(np.round(at, 6))] for at in skew_face.places]
    assert np.array_equal(there.seen[order], skew_face.seen)
    assert np.abs(there.heights[order] - skew_face.heights).max() < 1e-3
    assert np.ptp(there.heights - skew_face.heights) > 0.02


def test_a_preview_is_marked_and_near():
    face = found(hollow, preview=True)
    assert face.preview
    assert face.flatness.value == pytest.approx(0.10, abs=0.03)


def test_a_truer_edge_gives_a_narrower_band():
    rough, true = (found(hollow, preview=True, edge_true_to=one) for one in (0.04, 0.001))
    assert true.flatness.high - true.flatness.low < rough.flatness.high - rough.flatness.low - 0.01


def test_how_true_the_edge_is_stands_in_the_file():
    text = """
format = 0
length = "300 mm"
width = "120 mm"
leaves = ["0.05 mm", "0.10 mm"]
edge_true_to = "%s"
[[line]]
name = "front edge"
from = ["8 mm", "8 mm"]
to = ["292 mm", "8 mm"]
laid = "rests"
readings = [{ at = "100 mm", goes = "none", stops = "0.05 mm" }]
"""
    assert read_face(text % "0.004 mm").edge_true_to == pytest.approx(0.004)
    assert read_face(text.replace('edge_true_to = "%s"', "")).edge_true_to == EDGE_TRUE_TO
    with pytest.raises(JobErrors, match=r"edge_true_to.*0\.001 to 0\.1 mm"):
        read_face(text % "3 mm")


def test_a_reading_off_its_line_is_refused():
    line = Laying("edge", (8.0, 8.0), (292.0, 8.0), 0.0, (LeafReading(300.0, 0.05, 0.06),))
    with pytest.raises(OutOfRange, match="edge"):
        face_from_lines(PLAN, [line], LEAVES)
    with pytest.raises(OutOfRange, match="at least one line"):
        face_from_lines(PLAN, [], LEAVES)
