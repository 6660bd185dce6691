"""How quickly firedeck starts and answers.

    python benchmarks/startup.py --json [--install] [--new-shape] [--small]
    →  {help_s, check_cpu_s, check_full_s, check_cold_s, new_shape_s, install_s, install_mb}

help_s: wall time of ``firedeck --help``. check_cpu_s: CPU time of a check of the inline four, stage
measure, median of five fresh processes. check_full_s: wall time of the full check, what takes long kept from
before. check_cold_s: the same with no compiled Python files. new_shape_s: the full check with nothing kept, once, only
with --new-shape. The install figures only with --install: a fresh environment, wheel
built from this checkout. With --small everything is measured once only.
"""

import argparse
import json
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed firedeck is compiled once, not at every start

ROOT = Path(__file__).parents[1]
JOB = ROOT / "examples" / "jobs" / "inline-four.toml"
FIREDECK = [sys.executable, "-m", "firedeck"]


def run(*arguments: str, **environment: str) -> tuple[float, float]:
    """Run firedeck once; return wall and CPU seconds."""
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    env = {**os.environ, **environment}
    subprocess.run([*FIREDECK, *arguments], check=True, stdout=subprocess.DEVNULL, env=env, cwd=ROOT)
    wall, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def installed() -> tuple[float, float]:
    """Install into a fresh environment; return seconds and megabytes."""
    folder = Path(tempfile.mkdtemp())
    try:
        start = time.perf_counter()
        subprocess.run([sys.executable, "-m", "venv", str(folder)], check=True)
        pip = [str(folder / "bin" / "python"), "-m", "pip", "install", "-q", "--no-cache-dir", str(ROOT)]
        subprocess.run(pip, check=True, stdout=sys.stderr)
        seconds = time.perf_counter() - start
        return seconds, sum(file.stat().st_size for file in folder.rglob("*") if file.is_file()) / 1e6
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def measure(install: bool, new_shape: bool, small: bool) -> dict[str, float | None]:
    check = ["check", str(JOB), "--json"]
    often, seldom = (1, 1) if small else (5, 3)
    run("--help")
    run(*check)  # what takes long is kept from here on
    figures: dict[str, float | None] = {
        "help_s": statistics.median(run("--help")[0] for _ in range(often)),
        "check_cpu_s": statistics.median(run(*check, "--stage", "measure")[1] for _ in range(often)),
        "check_full_s": statistics.median(run(*check)[0] for _ in range(seldom)),
        "check_cold_s": None,
        "new_shape_s": None,
        "install_s": None,
        "install_mb": None,
    }
    with tempfile.TemporaryDirectory() as nowhere:
        figures["check_cold_s"] = run(*check, PYTHONPYCACHEPREFIX=nowhere)[0]
        if new_shape:
            figures["new_shape_s"] = run(*check, FIREDECK_CACHE=nowhere)[0]
    if install:
        figures["install_s"], figures["install_mb"] = installed()
    return {name: value if value is None else round(value, 3) for name, value in figures.items()}


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--install", action="store_true", help="a fresh environment and wheel too")
    parser.add_argument("--new-shape", action="store_true", help="a check with nothing kept too")
    parser.add_argument("--small", action="store_true", help="everything once only")
    given = parser.parse_args()
    found = measure(given.install, given.new_shape, given.small)
    print(json.dumps(found) if given.json else "\n".join(f"{key:14} {value}" for key, value in found.items()))


if __name__ == "__main__":
    main()
