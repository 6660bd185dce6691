"""``face``: the file it reads, the object it prints, and one face seen in two ways."""

import json
import re
from pathlib import Path

import pytest

HEAD = """
format = 0
seen = "{seen}"
front = "{front}"
length = "300 mm"
width = "120 mm"
leaves = ["0.03 mm", "0.04 mm", "0.05 mm", "0.06 mm", "0.08 mm", "0.10 mm"]
leaf_width = "10 mm"
bores = [{{ label = "1", x = "{bore}", y = "60 mm", diameter = "70 mm" }}]
limits = [
  {{ direction = "along", value = "0.10 mm", from = "invented" }},
  {{ direction = "across", value = "0.05 mm", from = "invented" }},
]
"""
LINE = """
[[line]]
name = "{name}"
from = ["{x} mm", "{y} mm"]
to = ["{to_x} mm", "{to_y} mm"]
laid = "{laid}"
readings = [{readings}]
"""
READINGS = ", ".join(
    f'{{ at = "{at} mm", goes = "{goes} mm", stops = "{stops} mm" }}'
    for at, goes, stops in [
        (20, 0.04, 0.05),
        (60, 0.05, 0.06),
        (140, 0.06, 0.08),
        (220, 0.05, 0.06),
        (260, 0.04, 0.05),
    ]
)
LINES = (("front edge", 10, 10, 290, 10), ("rear edge", 10, 110, 290, 110), ("diagonal", 10, 10, 290, 110))


def text(seen: str = "deck from above", front: str = "left", **others: str) -> str:
    """Write a face down, as it looks from one side."""
    over, end = seen != "deck from above", front == "right"
    shown = HEAD.format(seen=seen, front=front, bore="220 mm" if end else "80 mm")
    for name, *ends in LINES:
        x, y, to_x, to_y = ends
        if end:
            x, to_x = 300 - x, 300 - to_x
        if over != end:
            y, to_y = 120 - y, 120 - to_y
        laid = others.get("laid", "on end leaves of 0.04 mm")
        shown += LINE.format(name=name, x=x, y=y, to_x=to_x, to_y=to_y, laid=laid, readings=READINGS)
    return shown


def run(firedeck, folder: Path, given: str, *more: str):
    file = folder / "readings.toml"
    file.write_text(given, encoding="utf-8")
    return firedeck("face", str(file), *more)


def found(firedeck, folder: Path, given: str, *more: str) -> dict:
    said = run(firedeck, folder, given, "--json", *more)
    assert (said.code, said.err) == (0, "")
    return json.loads(said.out)


def test_the_object_has_what_was_promised(firedeck, tmp_path):
    face = found(firedeck, tmp_path, text())
    assert list(face) == ["flatness", "limits", "heights", "not_seen", "next", "lines", "spoilt", "preview"]
    assert list(face["flatness"]) == ["value", "low", "high"]
    assert [list(one) for one in face["limits"]] == [["direction", "gap", "limit", "outcome"]] * 2
    assert list(face["heights"][0]) == ["x", "y", "z", "low", "high", "seen"]
    assert list(face["next"][0]) == ["from", "to", "laid", "why"]
    assert [one["name"] for one in face["lines"]] == [name for name, *_ in LINES]
    assert list(face["lines"][0]) == ["name", "largest_gap", "low", "high", "outcome"]
    assert {(one["x"], one["y"]) for one in face["not_seen"]} == {
        (one["x"], one["y"]) for one in face["heights"] if not one["seen"]
    }
    assert face["preview"] is False
    assert found(firedeck, tmp_path, text(), "--preview")["preview"] is True


@pytest.mark.parametrize(
    ("seen", "front"),
    [
        ("head face up on the bench", "left"),
        ("deck from above", "right"),
        ("head face up on the bench", "right"),
    ],
)
def test_one_face_seen_another_way_is_the_same_face(firedeck, tmp_path, seen, front):
    here, there = found(firedeck, tmp_path, text()), found(firedeck, tmp_path, text(seen, front))
    assert there["flatness"] == here["flatness"]
    assert there["limits"] == here["limits"]

    def turned(one: dict) -> tuple[float, float, float]:
        x = 300 - one["x"] if front == "right" else one["x"]
        y = 120 - one["y"] if (seen != "deck from above") != (front == "right") else one["y"]
        return round(x, 6), round(y, 6), round(one["z"], 9)

    assert {turned(one) for one in there["heights"]} == {
        (round(one["x"], 6), round(one["y"], 6), round(one["z"], 9)) for one in here["heights"]
    }


def test_the_sum_reads_the_same_file(firedeck, tmp_path):
    face = found(firedeck, tmp_path, text())
    said = firedeck("sum", "straightedge-face", f"lines=@{tmp_path / 'readings.toml'}", "--json")
    results = json.loads(said.out)["results"]
    for key, end in (("flatness", "value"), ("flatness_low", "low"), ("flatness_high", "high")):
        assert results[key] == {"value": pytest.approx(face["flatness"][end]), "unit": "mm"}
    assert len(results["heights"]["value"]) == len(face["heights"])


SHORT = """limits = [
  { direction = "along", value = "0.04 mm", span = "100 mm", from = "invented" },
  { direction = "any", value = "0.002 in", span = "4 in", from = "invented" },
"""


def test_a_limit_per_span_is_judged_under_a_short_edge(firedeck, tmp_path):
    given = text().replace("limits = [\n", SHORT)
    face = found(firedeck, tmp_path, given, "--preview")
    along, any_way, whole, across = face["limits"]
    assert list(along) == ["direction", "span", "gap", "limit", "outcome"]
    assert [one.get("span") for one in face["limits"]] == [100.0, pytest.approx(101.6), None, None]
    assert any_way["limit"] == pytest.approx(0.0508)
    assert along["gap"]["value"] < whole["gap"]["value"]
    assert any_way["gap"]["value"] >= along["gap"]["value"]
    plain = found(firedeck, tmp_path, text(), "--preview")
    assert (whole, across) == tuple(plain["limits"])
    assert face["lines"] == plain["lines"]
    assert "In any 100 mm, along: " in run(firedeck, tmp_path, given, "--preview").out


def test_a_file_in_inches_is_answered_in_inches(firedeck, tmp_path):
    given = re.sub(r'"([\d.]+) mm"', lambda one: f'"{float(one[1]) / 25.4:.5f} in"', text())
    given = re.sub(r"of ([\d.]+) mm", lambda one: f"of {float(one[1]) / 25.4:.5f} in", given)
    out = run(firedeck, tmp_path, given, "--preview").out
    assert re.search(
        r"Under the edge, along: 0\.00\d\d in \(0\.00\d\d to 0\.00\d\d\), limit 0\.0039 in: ", out
    )
    assert "thousandths of an inch" in out
    assert re.search(r"from \d+\.\d\d/\d+\.\d\d to \d+\.\d\d/\d+\.\d\d in, ", out)
    assert " mm" not in out
    assert "limit 0.100 mm" in run(firedeck, tmp_path, given, "--preview", "--units", "mm").out
    assert "limit 0.0039 in" in run(firedeck, tmp_path, text(), "--preview", "--units", "inch").out


def test_text_says_what_to_do(firedeck, tmp_path):
    out = run(firedeck, tmp_path, text()).out
    assert "Under the edge, along:" in out
    assert "Lay next:" in out


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("format = 0", "format = 1", "format: found 1; format = 0"),
        ('length = "300 mm"', 'length = "300"', "length"),
        ('length = "300 mm"', 'lenght = "300 mm"', "lenght: found an unknown key"),
        ('at = "20 mm"', 'at = "900 mm"', "line.front edge.readings[1].at: found 900 mm"),
        ('goes = "0.04 mm"', 'goes = "0.06 mm"', "the leaf that goes is thinner"),
        ("on end leaves of 0.04 mm", "hangs", "line.front edge.laid"),
        ('to = ["290 mm", "10 mm"]', 'to = ["290 mm", "900 mm"]', "a place on the face"),
        ('direction = "along"', 'direction = "up"', "allowed: along, across, diagonal, any"),
        (
            'value = "0.10 mm",',
            'value = "0.10 mm", span = "4 mm",',
            "limits[1].span: found 4 mm; 20 to 5000 mm",
        ),
        ("[[line]]", "[[line", "readings: found text that is not TOML"),
        ('name = "rear edge"', 'name = "front edge"', "a name of its own"),
    ],
)
def test_a_fault_is_one_line(firedeck, tmp_path, old, new, says):
    given = text()
    assert old in given
    said = run(firedeck, tmp_path, given.replace(old, new, 1))
    assert said.code == 2
    assert says in said.err
    assert "Traceback" not in said.err
