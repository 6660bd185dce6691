"""Published check values: one CSV per source beside its test, one test per row.

Every CSV has the columns ``id`` (number of the row in our list of published figures), ``source``
(the full reference) and whatever the test needs; lines that begin with # are its header.
"""

import csv
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Row = dict[str, str]


def read(file: Path) -> list[Row]:
    """Return the rows of a CSV, header comments left out."""
    lines = [line for line in file.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return [dict(row) for row in csv.DictReader(lines)]


def published(test_file: str, name: str, where: Callable[[Row], bool] = lambda _row: True) -> Any:
    """Parametrise a test with ``row`` over the CSV ``name`` that lies beside ``test_file``."""
    rows = [row for row in read(Path(test_file).parent / name) if where(row)]
    return pytest.mark.parametrize("row", [pytest.param(row, id=row["id"]) for row in rows])


def printed_half_digit(printed: str) -> float:
    """Half of the last printed digit of a figure such as ``84.3`` or ``35500``."""
    digits = printed.strip().lstrip("+-")
    return 0.5 * 10.0 ** -(len(digits.partition(".")[2]))
