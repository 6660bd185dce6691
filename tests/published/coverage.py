"""How much of the published figures we hold ourselves against: every row in exactly one class.

    python tests/published/coverage.py --json   →  {rows, sum, table, not_answerable, tested}

``rows/*.csv`` puts every row of our list of published figures in one class: a ``sum`` answers it, a
``table`` holds it, or it is ``not-answerable`` and the reason stands there. ``tested`` counts the rows
of the first two classes that a collected test carries as its id.
"""

import json
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
CLASSES = ("sum", "table", "not-answerable")
sys.path.insert(0, str(HERE))

from cases import Row, read  # noqa: E402


def all_ids() -> list[str]:
    """Return the number of every published row we know of, from ids.txt."""
    return (HERE / "ids.txt").read_text(encoding="utf-8").split()


def classified() -> list[Row]:
    """Return the rows of every list in rows/."""
    return [row for file in sorted((HERE / "rows").glob("*.csv")) for row in read(file)]


def faults(rows: list[Row], ids: list[str]) -> list[str]:
    """Say what is wrong with the lists: a row missing, twice, or without a class or reason."""
    count = Counter(row["id"] for row in rows)
    found = [f"{name} is in no class" for name in ids if name not in count]
    found += [f"{name} is in {number} classes" for name, number in count.items() if number > 1]
    found += [f"{name} is no row we know" for name in count if name not in ids]
    found += [f"{row['id']} has class {row['class']!r}" for row in rows if row["class"] not in CLASSES]
    found += [
        f"{row['id']} gives no reason"
        for row in rows
        if row["class"] == "not-answerable" and not row["reason"]
    ]
    found += [
        f"{row['id']} names no {row['class']}"
        for row in rows
        if row["class"] in CLASSES[:2] and not row["what"]
    ]
    return found


def tested_ids() -> set[str]:
    """Return the row numbers that collected tests carry."""
    command = [sys.executable, "-m", "pytest", "--collect-only", "-q", "-p", "no:cacheprovider", str(HERE)]
    listed = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False).stdout
    # pytest adds _0, _1 to ids that repeat
    return set(re.findall(r"(?<!\w)(?:FAS|SUR|GAM)-\d{3}(?!\d)", listed))


def main(arguments: list[str]) -> int:
    rows, ids = classified(), all_ids()
    wrong = faults(rows, ids)
    if wrong:
        print("\n".join(wrong), file=sys.stderr)
        return 1
    number = Counter(row["class"] for row in rows)
    answerable = {row["id"] for row in rows if row["class"] != "not-answerable"}
    figures = {
        "rows": len(rows),
        "sum": number["sum"],
        "table": number["table"],
        "not_answerable": number["not-answerable"],
        "tested": len(answerable & tested_ids()),
    }
    print(
        json.dumps(figures)
        if "--json" in arguments
        else "\n".join(f"{key:15} {value}" for key, value in figures.items())
    )
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
