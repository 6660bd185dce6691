"""Every benchmark runs with its smallest case and prints one JSON object; how fast it is, is not looked at here."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]
ALL_OF_THEM = "prove.py"
SCRIPTS = sorted(file for file in (ROOT / "benchmarks").glob("*.py") if file.name != ALL_OF_THEM)
PATIENCE = 300
"""Seconds after which a smallest case is taken to hang."""


def test_there_are_benchmarks():
    assert "startup.py" in [file.name for file in SCRIPTS]


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda file: file.stem)
def test_a_benchmark_prints_one_object(script, tmp_path):
    done = subprocess.run(
        [sys.executable, str(script), "--json", "--small"],
        cwd=tmp_path,
        capture_output=True,
        encoding="utf-8",
        timeout=PATIENCE,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    figures = json.loads(done.stdout, parse_constant=lambda name: pytest.fail(f"{name} is no figure"))
    assert isinstance(figures, dict)
    assert figures
    assert any(value is not None for value in figures.values())


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda file: file.stem)
def test_a_benchmark_says_how_it_is_run_and_has_a_smallest_case(script):
    text = script.read_text(encoding="utf-8")
    (call,) = [
        line for line in text.split('"""')[1].splitlines() if f"python benchmarks/{script.name}" in line
    ]
    assert "--json" in call
    assert '"--small"' in text
