"""Ask firedeck the questions of questions.csv through its command line and count points.

python tests/questions/score.py [--json]     columns, keys and points: see README.md beside this file

Nothing of firedeck is imported: what a mechanic cannot reach from the terminal earns nothing here.
"""

import argparse
import json
import subprocess
import sys
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from question_marks import Object, answer_has, decided, names_the_next, sum_has
from question_rows import HERE, Ask, Row, Want, read_rows

ROOT = HERE.parents[1]
RIGHT, ON_THE_WAY, NOTHING = 2, 1, 0
PATIENCE = 1800.0
"""Seconds the check of all documents together may take."""

Run = Callable[[Sequence[str]], tuple[int, str]]
"""Arguments of firedeck in, exit code and stdout out."""


def run_firedeck(arguments: Sequence[str]) -> tuple[int, str]:
    """Run the installed command line in the root of the repository."""
    try:
        done = subprocess.run(
            [sys.executable, "-m", "firedeck", *arguments],
            cwd=ROOT, capture_output=True, encoding="utf-8", timeout=PATIENCE, check=False,
        )  # fmt: skip
    except (subprocess.TimeoutExpired, UnicodeDecodeError):
        return 1, ""
    return done.returncode, done.stdout


@dataclass
class Replies:
    """What firedeck says; each sum and each document is asked once."""

    run: Run = run_firedeck
    root: Path = ROOT
    sums: dict[Ask, Object | None] = field(default_factory=dict)
    jobs: dict[str, Object | None] = field(default_factory=dict)

    def check_all(self, documents: Iterable[str]) -> None:
        """Check all documents that exist in one call, and one by one where that fails."""
        present = [path for path in dict.fromkeys(documents) if (self.root / path).is_file()]
        together = self._ask(["check", *present, "--json"]) if len(present) > 1 else None
        jobs = together.get("jobs") if together else None
        if not isinstance(jobs, list) or len(jobs) != len(present):
            jobs = [self._ask(["check", path, "--json"]) for path in present]
        self.jobs.update(zip(present, jobs, strict=True))

    def results(self, ask: Ask) -> Object | None:
        """Give the results of a sum, or None where there is no such sum."""
        if ask not in self.sums:
            said = self._ask(["sum", ask.name, *ask.arguments, "--json"])
            self.sums[ask] = said.get("results") if said else None
        return self.sums[ask]

    def answer(self, ask: Ask) -> Object | None:
        """Give the one answer asked for; None where there is none, or two and no head was named."""
        job = self.jobs.get(ask.document)
        found = [a for a in (job or {}).get("answers", []) if a.get("question") == ask.name]
        if ask.joint:
            found = [a for a in found if a.get("joint") in (ask.joint, None)]
        return found[0] if len(found) == 1 else None

    def get(self, ask: Ask) -> Object | None:
        """Give what there is to the ask, of either kind."""
        return self.answer(ask) if ask.document else self.results(ask)

    def _ask(self, arguments: Sequence[str]) -> Object | None:
        code, stdout = self.run(arguments)
        if code != 0:
            return None
        try:
            said = json.loads(stdout)
        except ValueError:
            return None
        return said if isinstance(said, dict) else None


@dataclass(frozen=True)
class Score:
    """Points of one row, and in a few words why not all of them."""

    row: Row
    points: int
    why: str = ""
    missing: str = ""


def score(row: Row, replies: Replies) -> Score:
    """Give the points of one row."""
    said = [replies.get(ask) for ask in row.asks]
    for ask, one in zip(row.asks, said, strict=True):
        if one is None:
            where = f"{ask.document}#{ask.name}" if ask.document else f"sum {ask.name}"
            return Score(row, NOTHING, missing=where)
    found = [holds(want, row.ask_of(place), replies) for place, want in enumerate(row.wants)]
    numbers = [ok for want, ok in zip(row.wants, found, strict=True) if want.is_number]
    texts = [ok for want, ok in zip(row.wants, found, strict=True) if not want.is_number]
    answer = said[0] or {}
    if not row.is_work:
        return Score(row, RIGHT) if all(found) else Score(row, NOTHING, wrong(row, found))
    if all(texts) and ((numbers and all(numbers)) or decided(row, answer)):
        return Score(row, RIGHT)
    why = f"{answer.get('state')} {answer.get('action') or ''}".strip() + f", {wrong(row, found)}"
    return Score(row, ON_THE_WAY if names_the_next(row, answer) else NOTHING, why)


def holds(want: Want, ask: Ask, replies: Replies) -> bool:
    """Tell whether what was said to this ask holds what is wanted."""
    said = replies.get(ask) or {}
    return answer_has(want, said) if ask.document else sum_has(want, said)


def wrong(row: Row, found: Sequence[bool]) -> str:
    """Say which keys did not come out, or that the decision did not."""
    keys = [want.key for want, ok in zip(row.wants, found, strict=True) if not ok]
    return "not right: " + (", ".join(keys) or "action or its source")


def totals(scores: Sequence[Score]) -> Object:
    """Sum the points, all together and by kind."""
    by_kind: dict[str, dict[str, int]] = {}
    for one in scores:
        kind = by_kind.setdefault(one.row.kind, {"points": 0, "possible": 0})
        kind["points"] += one.points
        kind["possible"] += RIGHT
    return {
        "points": sum(one.points for one in scores),
        "possible": RIGHT * len(scores),
        "by_kind": by_kind,
    }


def table(scores: Sequence[Score]) -> str:
    """Show the points by kind, the rows that lost some, and what is missing."""
    total = totals(scores)
    parts = [*total["by_kind"].items(), (" ", total)]
    lines = [f"{kind}  {part['points']:3d} of {part['possible']:3d}" for kind, part in parts]
    lines += ["", "not full points:"]
    lines += [f"  {one.row.id:4} {one.points}  {one.why}" for one in scores if one.points < RIGHT and one.why]
    lines += ["", "missing:"]
    lines += [f"  {one.row.id:4} {one.missing}" for one in scores if one.missing]
    return "\n".join(lines)


def main(arguments: Sequence[str] | None = None, run: Run = run_firedeck) -> int:
    """Score all rows and print."""
    reader = argparse.ArgumentParser(description="Ask firedeck the ninety-five questions and count points.")
    reader.add_argument("--json", action="store_true", help="print one object: points, possible, by_kind")
    options = reader.parse_args(arguments)
    rows = read_rows()
    replies = Replies(run)
    replies.check_all(ask.document for row in rows for ask in row.asks if ask.document)
    scores = [score(row, replies) for row in rows]
    print(json.dumps(totals(scores)) if options.json else table(scores))
    return 0


if __name__ == "__main__":
    sys.exit(main())
