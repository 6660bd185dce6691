"""Broken documents: each small edit of an example gives one clear line for each fault, exit 2, no traceback.

The example is invented, and so is everything that is done to it here.
"""

import tomllib
from dataclasses import dataclass
from pathlib import Path

import pytest

from firedeck.cli import main

EXAMPLE = Path(__file__).parents[2] / "examples" / "jobs" / "inline-four.toml"


@dataclass(frozen=True)
class Case:
    """One edit of the example: what stands there, what is put there instead, and the lines that follow."""

    name: str
    old: str
    new: str
    lines: tuple[str, ...]


CASES = tuple(
    Case(row["name"], row["old"], row["new"], tuple(row["lines"]))
    for row in tomllib.loads((Path(__file__).parent / "broken" / "edits.toml").read_text(encoding="utf-8"))[
        "edit"
    ]
)


@pytest.fixture(scope="module")
def text() -> str:
    return EXAMPLE.read_text(encoding="utf-8")


def told(capsys: pytest.CaptureFixture[str], *arguments: object) -> list[str]:
    """Run firedeck on something broken: exit 2, nothing on stdout; return its lines."""
    code = main([str(argument) for argument in arguments])
    said = capsys.readouterr()
    assert code == 2
    assert said.out == ""
    assert "Traceback" not in said.err
    return said.err.splitlines()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_every_fault_is_one_line_that_names_its_place(case, text, tmp_path, capsys):
    assert case.old in text
    file = tmp_path / "job.toml"
    file.write_bytes(text.replace(case.old, case.new, 1).encode())
    assert told(capsys, "check", file, "--json") == [f"{file}: {line}" for line in case.lines]


def test_cases_have_names_of_their_own():
    assert len({case.name for case in CASES}) == len(CASES) >= 60


@pytest.mark.parametrize("command", [("explain", "face"), ("order",), ("report",)])
def test_other_commands_say_the_same(command, text, tmp_path, capsys):
    file = tmp_path / "job.toml"
    file.write_text(text.replace('bore = "86.0 mm"', "bore = 86"), encoding="utf-8")
    more = ["--sheet", "stop", "-o", tmp_path / "x.txt"] if command == ("report",) else []
    if command == ("explain", "face"):
        from firedeck.answers.questions import questions

        more = [next(iter(questions()))]
    assert told(capsys, command[0], file, *more) == [
        f"{file}: engine.bore: found 86; say the unit: 86 mm or 86 in?"
    ]


FILES = {
    "empty": (b"", "document: found an empty text; start one with: firedeck new FILE"),
    "blank": (b" \n\t\n", "document: found an empty text; start one with: firedeck new FILE"),
    "only remarks": (b"# nothing yet\n", "format: found nothing; the first line of a job is: format = 0"),
    "binary": (b"\x89PNG\r\n\x1a\n\x00\x00", "found text that is not UTF-8 at byte 1; save it as UTF-8 text"),
    "two bytes a letter": (
        "format = 0".encode("utf-16"),
        "found text that is not UTF-8 at byte 1; save it as UTF-8 text",
    ),
    "an old code page": (
        'title = "ö"'.encode("cp1252"),
        "found text that is not UTF-8 at byte 10; save it as UTF-8 text",
    ),
    "noughts": (b"\x00" * 40, "document, line 1: found "),
    "another format": (b'{"format": 0}', "document, line 1: found "),
    "a number of 5000 digits": (b"format = " + b"9" * 5000, "document: found "),
    "lists in lists": (b"format = 0\nx = " + b"[" * 4000, "document: found lists nested too deep; "),
}


@pytest.mark.parametrize("name", FILES)
def test_a_file_that_is_no_job_is_one_line(name, tmp_path, capsys):
    content, says = FILES[name]
    file = tmp_path / "job.toml"
    file.write_bytes(content)
    (line,) = told(capsys, "check", file)
    assert line.startswith(f"{file}: {says}")


def test_a_file_of_50_mb_is_not_read(tmp_path, capsys):
    file = tmp_path / "job.toml"
    with file.open("wb") as sparse:
        sparse.truncate(50_000_000)
    assert told(capsys, "check", file) == [f"{file}: found 50 MB; a job document is at most 2 MB of text"]


def test_a_folder_is_no_job(tmp_path, capsys):
    assert told(capsys, "check", tmp_path) == [
        f"{tmp_path}: found a folder; give a job document, a text file such as job.toml"
    ]


def test_a_file_that_is_not_there(tmp_path, capsys):
    file = tmp_path / "none.toml"
    assert told(capsys, "check", file) == [
        f"{file}: found no such file; give the name of a file that is there"
    ]


def test_a_name_too_long_for_any_disk(capsys):
    name = "x" * 5000
    (line,) = told(capsys, "check", name)
    assert line.startswith("xxx")
    assert len(line) <= 400


POINTS = 'points = """\nx [mm], y [mm], z [thou]'


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("@none.csv", "none.csv: found no such file; give the name of a file that is there"),
        ("@.", "found a folder; give a job document, a text file such as job.toml"),
        ("@../x.csv", "points: found '@../x.csv'; a file beside the document, such as \"@head.csv\""),
        ("@/x.csv", "points: found '@/x.csv'; a file beside the document, such as \"@head.csv\""),
        ("@", "points: found '@'; a file beside the document, such as \"@head.csv\""),
        ("@binary.csv", "binary.csv: found text that is not UTF-8 at byte 1; save it as UTF-8 text"),
    ],
)
def test_a_file_of_points_that_cannot_be_read(typed, says, text, tmp_path, capsys):
    (tmp_path / "binary.csv").write_bytes(b"\xff\x00")
    file = tmp_path / "job.toml"
    file.write_text(text.replace(POINTS, f'points = "{typed}"\nx = """', 1), encoding="utf-8")
    (line,) = told(capsys, "check", file)
    assert line.startswith(f"{file}: ")
    assert line.endswith(says)


SUMS = {
    "no such sum": (("squis",), "sum: found 'squis'; "),
    "no arguments": (("bolt-strength",), "bolt-strength thread: found nothing; needed: "),
    "no unit": (
        ("nut-factor-tension", "diameter=10", "torque=50 N·m", "nut_factor=0.2"),
        "nut-factor-tension diameter: found '10'; say the unit: ",
    ),
    "a unit of another kind": (
        ("nut-factor-tension", "diameter=10 mm", "torque=50 mm", "nut_factor=0.2"),
        "nut-factor-tension torque: found '50 mm'; mm is a unit of a length",
    ),
    "pounds of what": (
        ("nut-factor-tension", "diameter=10 mm", "torque=60 pounds", "nut_factor=0.2"),
        "nut-factor-tension torque: found '60 pounds'; pounds of what? ",
    ),
    "a unit for a plain number": (
        ("nut-factor-tension", "diameter=10 mm", "torque=50 N·m", "nut_factor=0.2 mm"),
        "nut-factor-tension nut_factor: found '0.2 mm'; ",
    ),
    "comma of thousands": (
        ("nut-factor-tension", "diameter=10 mm", "torque=1,100 N·m", "nut_factor=0.2"),
        "nut-factor-tension torque: found '1,100 N*m'; the comma can part thousands or decimals: ",
    ),
    "a thread nobody cuts": (("bolt-strength", "thread=M11x9", "class=10.9"), "thread: found 'M11x9'; "),
    "no thread at all": (("bolt-strength", "thread=thick", "class=10.9"), "thread: found 'thick'; "),
    "a class that is none": (
        ("bolt-strength", "thread=M10", "class=99"),
        "property_classes: found class '99'; it has 4.6, ",
    ),
    "a negative torque": (
        ("nut-factor-tension", "diameter=10 mm", "torque=-50 N·m", "nut_factor=0.2"),
        "torque: found ",
    ),
    "a factor of nought": (
        ("nut-factor-tension", "diameter=10 mm", "torque=50 N·m", "nut_factor=0"),
        "nut_factor: found ",
    ),
    "an empty member": (
        ("compression-spread", "readings=160,,168 psi"),
        "compression-spread readings: found '160,,168 psi'; ",
    ),
    "a list without unit": (
        ("compression-spread", "readings=160, 128"),
        "compression-spread readings: found '160'; number 1 of 2: say the unit: ",
    ),
    "an argument of another sum": (
        ("bolt-strength", "thread=M10", "clas=8.8"),
        "bolt-strength clas: found an argument this sum does not have; nearest known: class",
    ),
    "the same argument twice": (
        ("bolt-strength", "thread=M10", "thread=M12", "class=8.8"),
        "bolt-strength thread: found the same argument twice; once",
    ),
    "a value alone": (
        ("bolt-strength", "M10"),
        "sum bolt-strength: found 'M10'; write it as thread=value; it has: thread, class",
    ),
    "not a number": (
        ("nut-factor-torque", "diameter=nan mm", "tension=1 kN", "nut_factor=0.2"),
        "nut-factor-torque diameter: found 'nan mm'; ",
    ),
}


@pytest.mark.parametrize("name", SUMS)
def test_bad_arguments_of_sums_are_one_line(name, capsys):
    words, says = SUMS[name]
    (line,) = told(capsys, "sum", *words)
    assert line.startswith(says)
    assert "found " in line
