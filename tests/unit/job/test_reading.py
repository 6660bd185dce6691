"""The document: the example reads whole; every fault at once; the text is the revision."""

import hashlib
from pathlib import Path

import pytest

from firedeck.errors import JobError, JobErrors
from firedeck.job import read_file, read_text

EXAMPLE = Path(__file__).parents[3] / "examples" / "jobs" / "inline-four.toml"
SMALL = 'format = 0\n[job]\ntitle = "t"\n[engine]\narrangement = "single"\ncylinders = ["1"]\n[[joint]]\nname = "head"\n'


def test_the_text_is_the_revision():
    job = read_file(EXAMPLE)
    assert job.revision == hashlib.sha256(EXAMPLE.read_bytes()).hexdigest()
    assert job.changed({"engine.bore": "87 mm"}).revision == job.revision


def test_everything_is_kept_as_typed():
    job = read_file(EXAMPLE)
    typed = {path[-1]: quantity.text for path, quantity, _ in job.readings() if path[0] == "engine"}
    assert typed["bore"] == "86.0 mm"
    assert job.joint("head").cut.head.text == "0.006 in"
    assert job.joint("head").cut.head.value == pytest.approx(0.1524)


def test_as_built_replaces_values():
    standard = read_file(EXAMPLE).as_built()
    assert standard.joint("head").cut.head.value == 0.0


def test_all_faults_at_once_with_their_paths():
    text = (
        SMALL
        + 'nonsense = 1\n[joint.head]\nmaterial = "wood"\n[joint.cut]\nhead = 0.2\n[joint.block]\nrecess = "deep"\n'
    )
    with pytest.raises(JobErrors) as error:
        read_text(text)
    lines = str(error.value).splitlines()
    assert len(lines) == 4
    assert {line.split(":")[0] for line in lines} == {
        "joint.head.nonsense",
        "joint.head.head.material",
        "joint.head.cut.head",
        "joint.head.block.recess",
    }
    assert all("found" in line for line in lines)


def test_unknown_keys_name_the_nearest():
    with pytest.raises(JobErrors, match="nearest known: stroke"):
        read_text(SMALL.replace("[[joint]]", 'strok = "80 mm"\n[[joint]]'))


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "an empty text"),
        ("format = 7\n", "reads format 0"),
        ('[job]\ntitle = "x"\n', "format = 0"),
        ("format = 0\nformat = 0\n", "stands there once"),
        ("x = [" * 5000, "document"),
    ],
)
def test_texts_that_are_no_job(text, says):
    with pytest.raises(JobError) as fault:
        read_text(text)
    assert says in str(fault.value)
    assert "\n" not in str(fault.value)


def test_slips_are_asked_about_and_kept():
    job = read_text(SMALL.replace("[[joint]]", 'bore = "3.4 mm"\n[[joint]]'))
    assert [doubt.path for doubt in job.doubts] == ["engine.bore"]
    assert job.engine.bore.value == 3.4


def test_absurd_and_negative_values_are_refused():
    for value in ("86 km", "-86 mm"):
        with pytest.raises(JobErrors, match=r"engine\.bore"):
            read_text(SMALL.replace("[[joint]]", f'bore = "{value}"\n[[joint]]'))


def test_labels_must_meet_something():
    text = SMALL + '[joint.chamber]\nvolumes = { 9 = "40 cc" }\n[tests]\n'.replace("[tests]\n", "")
    with pytest.raises(JobErrors, match="cylinder '9'"):
        read_text(text)


def test_points_may_lie_in_a_file_beside_the_job(tmp_path):
    face = (
        '[[joint.readings.faces]]\nname = "f"\nface = "head"\nseen = "deck from above"\npoints = "@p.csv"\n'
    )
    (tmp_path / "job.toml").write_text(SMALL + face, encoding="utf-8")
    with pytest.raises(JobError, match="no such file"):
        read_file(tmp_path / "job.toml")
    (tmp_path / "p.csv").write_text(
        "x [mm], y [mm], z [thou]\n0, 0, 0\n10, 0, 1\n0, 10, 2\n", encoding="utf-8"
    )
    assert "z [thou]" in read_file(tmp_path / "job.toml").joint("head").readings.faces[0].points


CURVE = SMALL + '[[joint.gasket.candidates]]\nname = "mine"\n'


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        ("closure [mm], load [N/mm]\n0,0\n0.05,150\n0.1,40\n0.15,300", "loads that fall"),
        ("closure [mm], load [kN]\n0,0\n0.05,150", "another unit"),
        ("closure [mm], force [N/mm]\n0,0\n0.05,150", "no column load"),
        ("closure [mm], load [N/mm]\n0,0\n0.05,x", "x"),
    ],
)
def test_a_curve_of_a_ring_that_is_none_is_a_fault_at_its_path(rows, says):
    text = CURVE + f'construction = "wire-ring"\nring_curve = """{rows}"""\n'
    with pytest.raises(JobErrors, match="ring_curve") as error:
        read_text(text)
    assert says in str(error.value)


def test_a_curve_of_a_ring_wants_its_construction():
    rows = "closure [mm], load [N/mm]\n0,0\n0.05,150"
    with pytest.raises(JobErrors, match="name it"):
        read_text(CURVE + f'ring_curve = """{rows}"""\n')
    read_text(CURVE + f'construction = "wire-ring"\nring_curve = """{rows}"""\n')


@pytest.mark.parametrize(
    ("field", "text"),
    [("thread", "M11x1.4"), ("class", "7.7"), ("head_marks", "AB"), ("thread", "M11x1.5"), ("class", "10.9")],
)
def test_a_name_no_table_has_is_asked_about_and_kept(field, text):
    group = {"thread": "M11x1.5"} | {field: text}
    typed = "".join(f'{key} = "{value}"\n' for key, value in group.items())
    job = read_text(f'{SMALL}[[joint.fasteners]]\nname = "all"\n{typed}')
    known = text in ("M11x1.5", "10.9")
    assert [doubt.path for doubt in job.doubts] == ([] if known else [f"joint.head.fasteners.all.{field}"])
