"""A small joint, not symmetric, in a general solver: the same line loads and bolt tensions."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

BENCHMARK = Path(__file__).parents[2] / "benchmarks" / "against_calculix.py"


@pytest.mark.slow
def test_rings_and_bolts_are_those_of_the_general_solver():
    if shutil.which("ccx") is None and not os.environ.get("CI"):
        pytest.skip("the general solver is not on this machine")
    command = [sys.executable, str(BENCHMARK), "--json"]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=240)
    assert done.returncode == 0, done.stderr
    cases = json.loads(done.stdout)["cases"]
    assert list(cases) == ["assembled", "hot", "2 firing, hot"]
    assert max(case["ring"] for case in cases.values()) <= 0.005
    assert max(case["bolt"] for case in cases.values()) <= 0.002
