"""How long everything about the cylinder of a job takes: volumes, cut, effects, sets, stands, tests, causes, proof.

    python benchmarks/cylinder.py --json [--small]   →  {without_cycle_s, with_cycle_s, jobs, machine_unit_s}

Every example, its first joint, imports done; the slowest example counts, each the median of several goes. With the
cycle: also the firing cycles for the peak pressure now and as it left the factory. ``machine_unit_s`` is a fixed piece
of plain Python, so that figures of different machines compare.
"""

import argparse
import json
import statistics
import time
from pathlib import Path

from firedeck.assess.lists import FINDINGS
from firedeck.findings.finding import Findings
from firedeck.job import Job, read_file

JOBS = sorted((Path(__file__).parents[1] / "examples" / "jobs").glob("*.toml"))
BEFORE = ("faces", "layout", "damage")
"""What these ask of others is worked out first and not counted."""
CYLINDER = (
    "old_gasket",
    "liners",
    "pistons",
    "volumes",
    "cut",
    "effects",
    "combination",
    "tests",
    "causes",
    "came_back",
    "proof",
)
CYCLE = "gas"
GOES = 9


def timed(job: Job) -> tuple[float, float]:
    """Seconds of one go: without the cycle, and with it."""
    found = Findings(job, job.joints[0], FINDINGS)
    for name in BEFORE:
        found[name]
    start = time.process_time()
    found[CYCLE]
    cycle = time.process_time() - start
    start = time.process_time()
    for name in CYLINDER:
        found[name]
    rest = time.process_time() - start
    return rest, rest + cycle


def machine_unit() -> float:
    """Seconds for a million additions."""
    start = time.process_time()
    total = 0.0
    for number in range(1_000_000):
        total += number * 0.5
    return time.process_time() - start


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--small", action="store_true", help="two goes only")
    given = parser.parse_args()
    goes = 2 if given.small else GOES
    jobs = [read_file(path) for path in JOBS]
    for job in jobs:
        timed(job)
    slowest = [
        [statistics.median(part) for part in zip(*(timed(job) for _ in range(goes)), strict=True)]
        for job in jobs
    ]
    figures = {
        "without_cycle_s": round(max(one for one, _ in slowest), 4),
        "with_cycle_s": round(max(both for _, both in slowest), 4),
        "jobs": len(jobs),
        "machine_unit_s": round(machine_unit(), 4),
    }
    print(json.dumps(figures) if given.json else "\n".join(f"{k:18}{v}" for k, v in figures.items()))


if __name__ == "__main__":
    main()
