"""Settings shared by all tests: what is condensed once is kept for all of them, and for the commands they start, in
out/cache; the seconds each folder took are written to out/seconds.txt."""

import os
import time
from collections import defaultdict
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
os.environ.setdefault("FIREDECK_CACHE", str(ROOT / "out" / "cache"))
_SECONDS: dict[str, float] = defaultdict(float)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item, nextitem):
    start = time.perf_counter()
    result = yield
    folder = (
        item.path.relative_to(ROOT / "tests").parts[0] if item.path.is_relative_to(ROOT / "tests") else "src"
    )
    _SECONDS[folder] += time.perf_counter() - start
    return result


def pytest_sessionfinish():
    lines = [f"{seconds:8.1f}  {folder}" for folder, seconds in sorted(_SECONDS.items())]
    out = ROOT / "out"
    out.mkdir(exist_ok=True)
    (out / "seconds.txt").write_text(
        "\n".join([*lines, f"{sum(_SECONDS.values()):8.1f}  all"]) + "\n", encoding="utf-8"
    )
