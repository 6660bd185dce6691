"""The stored assessments: one JSON object per example, the contract between what is worked out and what is shown.

They are written on purpose only, with ``make golden``; a test compares them with what firedeck says now.
"""

import json
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from firedeck import __version__
from firedeck.assess import assess, plain
from firedeck.findings.finding import LongWork, When
from firedeck.job import read_file

ROOT = Path(__file__).parents[2]
EXAMPLES = {file.stem: file for file in sorted((ROOT / "examples" / "jobs").glob("*.toml"))}
STORED = Path(__file__).parent / "assessments"
WORKED_OUT = "inline-four"
"""The example whose clamped joint is worked out in full."""

DIGITS = 9
"""Significant digits that are stored, so that what is compared lies well inside them."""
CLOSE = 1e-6
"""Share by which a number may differ; words may not."""
ROUNDS = 1e-3
"""The same for what comes from rounds that end at a thousandth of a load: another machine ends them a little elsewhere."""
FROM_ROUNDS = ("joint", "joint-holds", "bolts-or-studs")
"""The finding and the questions such figures are in; in their words the last printed digit may differ by one."""
NOUGHT = 1e-9
"""What is left of a difference that should be nought, in core units."""
LINE = 110
FIGURE = re.compile(r"\d+(?:\.\d+)?")


def assessed(name: str) -> dict[str, Any]:
    """Answer an example and return it as it is stored; of one of them what takes long is done, of the others it waits."""
    work = LongWork(When.NOW) if name == WORKED_OUT else LongWork(When.NEVER)
    whole: dict[str, Any] = normal(plain(assess(read_file(EXAMPLES[name]), long_work=work)))
    return whole


def normal(thing: Any) -> Any:
    """Return plain data without what differs between machines: late digits, the sign of nought, the version."""
    match thing:
        case dict():
            return {str(key): normal(value) for key, value in thing.items()}
        case list() | tuple():
            return [normal(value) for value in thing]
        case float():
            return 0.0 if abs(thing) < NOUGHT else float(f"{thing:.{DIGITS}g}")
        case str():
            return thing.replace(f"firedeck {__version__}", "firedeck VERSION")
    return thing


def read(name: str, folder: Path = STORED) -> dict[str, Any]:
    """Return the stored assessment of an example."""
    file = folder / f"{name}.json"
    assert file.is_file(), f"nothing is stored for {name} yet: make golden"
    whole: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
    return whole


def write(folder: Path = STORED) -> dict[str, list[str]]:
    """Store every example; return what differs from before, for each."""
    folder.mkdir(parents=True, exist_ok=True)
    found: dict[str, list[str]] = {}
    for name in EXAMPLES:
        now, file = assessed(name), folder / f"{name}.json"
        before = json.loads(file.read_text(encoding="utf-8")) if file.is_file() else None
        found[name] = ["stored for the first time"] if before is None else list(differences(before, now))
        file.write_text(written(now) + "\n", encoding="utf-8")
    for file in folder.glob("*.json"):
        if file.stem not in EXAMPLES:
            found[file.stem] = ["taken away: there is no such example"]
            file.unlink()
    return found


def written(thing: Any, indent: str = "") -> str:
    """Write JSON for people and for version control: what fits on a line stays on it."""
    flat = json.dumps(thing, ensure_ascii=False, allow_nan=False)
    if not isinstance(thing, dict | list) or len(indent) + len(flat) <= LINE or _is_numbers(thing):
        return flat
    deeper = indent + " "
    if isinstance(thing, list):
        return "[\n" + ",\n".join(deeper + written(value, deeper) for value in thing) + f"\n{indent}]"
    lines = [
        f"{deeper}{json.dumps(key, ensure_ascii=False)}: {written(value, deeper)}"
        for key, value in thing.items()
    ]
    return "{\n" + ",\n".join(lines) + f"\n{indent}}}"


def _is_numbers(thing: Any) -> bool:
    return isinstance(thing, list) and all(isinstance(value, int | float) for value in thing)


def differences(before: Any, now: Any, path: str = "", close: float = CLOSE) -> Iterator[str]:
    """Go through two plain objects and say where they differ."""
    if isinstance(before, dict) and isinstance(now, dict):
        close = ROUNDS if now.get("question") in FROM_ROUNDS else close
        for key in [*before, *(key for key in now if key not in before)]:
            place = f"{path}.{key}" if path else key
            if key not in now or key not in before:
                yield f"{place}: {'gone' if key not in now else 'new'}"
            else:
                rounds = key in FROM_ROUNDS and path.startswith("findings.")
                yield from differences(before[key], now[key], place, ROUNDS if rounds else close)
    elif isinstance(before, list) and isinstance(now, list):
        if len(before) != len(now):
            yield f"{path}: {len(before)} before, {len(now)} now"
        for place, (old, new) in enumerate(zip(before, now, strict=False)):
            yield from differences(old, new, f"{path}[{place}]", close)
    elif not _same(before, now, close):
        yield f"{path}: {before!r} before, {now!r} now"


def _same(before: Any, now: Any, close: float) -> bool:
    numbers = isinstance(before, int | float) and isinstance(now, int | float)
    if numbers and not isinstance(before, bool) and not isinstance(now, bool):
        return math.isclose(before, now, rel_tol=close, abs_tol=NOUGHT if close == CLOSE else close)
    if close != CLOSE and isinstance(before, str) and isinstance(now, str):
        return _same_words(before, now)
    return type(before) is type(now) and bool(before == now)


def _same_words(before: str, now: str) -> bool:
    """Compare two texts whose figures may differ by one in the last digit, and by a thousandth."""
    if FIGURE.sub("#", before) != FIGURE.sub("#", now):
        return False
    pairs = zip(FIGURE.findall(before), FIGURE.findall(now), strict=True)
    return all(_same_figure(one, other) for one, other in pairs)


def _same_figure(one: str, other: str) -> bool:
    last = 10.0 ** -len(one.partition(".")[2])
    return abs(float(one) - float(other)) <= max(1.001 * last, ROUNDS * abs(float(one)))
