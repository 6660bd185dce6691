"""Exit codes, streams, and the lines a person reads when something is wrong."""

import io
import json
import subprocess
import sys

import pytest

import firedeck.assess as assessing
from firedeck.cli import failing
from firedeck.errors import BadQuantity, DidNotConverge, JobError, JobErrors, OutOfRange, TableGap


def test_our_own_fault_is_one_line_and_1(firedeck, example, monkeypatch):
    monkeypatch.setattr(assessing, "assess", broken)
    said = firedeck("check", example)
    assert (said.code, said.out) == (1, "")
    assert said.err == f"firedeck: {failing.REPORT} (ZeroDivisionError: told twice)\n"


def test_debug_shows_where_it_happened(firedeck, example, monkeypatch):
    monkeypatch.setattr(assessing, "assess", broken)
    monkeypatch.setenv(failing.DEBUG, "1")
    assert "Traceback" in firedeck("check", example).err


def test_a_number_that_is_none_is_never_printed_as_json(firedeck, example, monkeypatch):
    monkeypatch.setattr("firedeck.cli.checking.assessed", lambda *_: {"value": float("nan")})
    said = firedeck("check", example, "--json")
    assert (said.code, said.out) == (1, "")


def broken(*_, **__):
    raise ZeroDivisionError("told\ntwice")


@pytest.mark.parametrize(
    ("fault", "code", "line"),
    [
        (JobError("engine.bore", "'x'", "a length"), 2, "engine.bore: found 'x'; a length"),
        (BadQuantity("x", "a length"), 2, "found 'x'; a length"),
        (OutOfRange("thread", "'M3.1'", "M3"), 2, "thread: found 'M3.1'; M3"),
        (TableGap("materials", "tin", "iron"), 2, "materials: found tin; it has iron"),
        (
            FileNotFoundError(2, "No such file", "a/b.pdf"),
            2,
            "a/b.pdf: found no such file; another file or folder",
        ),
        (DidNotConverge("contact", 9, 0.1), 1, None),
        (RecursionError("deep"), 1, None),
        (MemoryError(), 1, None),
        (OSError("no name"), 1, None),
    ],
)
def test_every_kind_of_fault_has_its_code(capsys, fault, code, line):
    def run():
        raise fault

    assert failing.guarded(run) == code
    err = capsys.readouterr().err
    assert err.count("\n") == 1
    assert line is None or err == f"{line}\n"


def test_many_faults_are_cut_short(capsys):
    many = JobErrors([JobError(f"place.{number}", "x", "y") for number in range(1000)])
    assert failing.guarded(lambda: raising(many)) == 2
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == failing.MOST_LINES + 1
    assert lines[-1] == f"... and {1000 - failing.MOST_LINES} more"


def test_a_whole_file_is_never_quoted(capsys):
    failing.guarded(lambda: raising(JobError("flatness points", repr("9 " * 100_000), "numbers")))
    (line,) = capsys.readouterr().err.splitlines()
    assert len(line) <= failing.LONGEST_LINE
    assert line.endswith("; numbers")


def test_ctrl_c_is_quiet(capsys):
    assert failing.guarded(lambda: raising(KeyboardInterrupt())) == 130
    assert capsys.readouterr() == ("", "")


def raising(fault):
    raise fault


def test_old_code_pages_get_utf8(monkeypatch):
    stream = io.TextIOWrapper(io.BytesIO(), encoding="cp1252")
    monkeypatch.setattr(sys, "stdout", stream)
    failing.speak_utf8()
    stream.write("→ 30 N·m ● \udcff")
    stream.flush()
    assert stream.buffer.getvalue().decode("utf-8") == "→ 30 N·m ● ?"


def run_alone(*arguments, **more):
    command = [sys.executable, "-m", "firedeck", *map(str, arguments)]
    return subprocess.run(command, capture_output=True, check=False, **more)


def test_a_cp1252_terminal_still_reads_the_answers(example, monkeypatch):
    monkeypatch.setenv("PYTHONIOENCODING", "cp1252")
    said = run_alone("check", example, "--stage", "measure", "--json")
    assert (said.returncode, said.stderr) == (0, b"")
    assert json.loads(said.stdout.decode("utf-8"))["answers"]


def test_a_closed_pipe_is_quiet():
    with subprocess.Popen(
        [sys.executable, "-m", "firedeck", "schema"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as running:
        running.stdout.close()
        assert running.stderr.read() == b""
        assert running.wait() == 0
