"""Which way a joint of bricks goes: drawn joints, flat faces, all bolts alike; a hundred of them in benchmarks/trends.py."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

BENCHMARK = Path(__file__).parents[2] / "benchmarks" / "trends.py"


@pytest.mark.slow
def test_tension_never_lowers_and_pressure_never_raises_the_least_firing_load():
    command = [sys.executable, str(BENCHMARK), "--json", "--small"]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=600)
    assert done.returncode == 0, done.stderr
    found = json.loads(done.stdout)
    assert found["joints"] == 6
    assert 0.0 < found["left_over_mean_median"] < 1.0
    assert found["tension_lowers"] <= 1e-6
    assert found["pressure_raises"] <= 1e-6
    assert found["bowed"] > 0
    assert found["dip_costs_more"] == found["bowed"]
