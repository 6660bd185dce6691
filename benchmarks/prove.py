"""Run every benchmark with its full set and keep the figures.

    python benchmarks/prove.py [NAME ...]

Writes benchmarks/results/NAME.json: the figures, and the commit, seed and machine they belong to. Ends 1 if one fails.
"""

import json
import os
import platform
import re
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
RESULTS = HERE / "results"


def said(*command: str) -> str:
    """Run a command and return what it printed."""
    return subprocess.run(
        command, cwd=HERE.parent, check=True, stdout=subprocess.PIPE, encoding="utf-8"
    ).stdout.strip()


def commit() -> str:
    """Return the commit, and whether files differ from it."""
    try:
        return said("git", "rev-parse", "HEAD") + (
            " and changes" if said("git", "status", "--porcelain", "src") else ""
        )
    except (OSError, subprocess.CalledProcessError):
        return "unknown"


def proved(script: Path) -> dict[str, Any]:
    """Run one benchmark and return its figures with what they belong to."""
    seed = re.search(r"^SEED = (\d+)$", script.read_text(encoding="utf-8"), re.MULTILINE)
    start = time.perf_counter()
    figures = json.loads(said(sys.executable, str(script), "--json"))
    return {
        "figures": figures,
        "seconds": round(time.perf_counter() - start, 1),
        "seed": int(seed[1]) if seed else None,
        "commit": commit(),
        "machine": {
            "processor": platform.machine(),
            "cores": os.cpu_count(),
            "system": platform.system(),
            "python": platform.python_version(),
        },
    }


def main(names: list[str]) -> int:
    """Run them one after the other, so that none takes time from another."""
    RESULTS.mkdir(exist_ok=True)
    failed = 0
    for script in sorted(HERE.glob("*.py")):
        if script == Path(__file__) or (names and script.stem not in names):
            continue
        try:
            found = proved(script)
        except (subprocess.CalledProcessError, json.JSONDecodeError) as fault:
            failed += 1
            print(f"{script.stem}: failed ({fault})", flush=True)
            continue
        (RESULTS / f"{script.stem}.json").write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")
        print(f"{script.stem}: {found['seconds']} s  {json.dumps(found['figures'])}", flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
