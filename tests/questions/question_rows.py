"""The rows of questions.csv: what is asked, and what is wanted."""

import csv
import re
import shlex
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).resolve().parent


@dataclass(frozen=True)
class Ask:
    """One thing to ask: a sum with its arguments, or a question about a document."""

    name: str
    arguments: tuple[str, ...] = ()
    document: str = ""
    joint: str = ""


@dataclass(frozen=True)
class Want:
    """One thing to find: an entry of ``key`` with what belongs to it. Without a unit it is text."""

    key: str
    expected: str
    unit: str
    tolerance: str

    @property
    def is_number(self) -> bool:
        """Tell whether a number is wanted."""
        return bool(self.unit)

    def ranges(self) -> list[tuple[float, float]]:
        """Lowest and highest right number, one pair for each alternative."""
        pairs = []
        for alternative in self.expected.split("|"):
            ends = [float(end) for end in alternative.split("..")]
            pairs.append((ends[0] - self._room(ends[0]), ends[-1] + self._room(ends[-1])))
        return pairs

    def _room(self, number: float) -> float:
        if self.tolerance == "exact":
            return 0.0
        if self.tolerance.endswith("%"):
            return float(self.tolerance[:-1]) / 100 * abs(number)
        return float(self.tolerance)


@dataclass(frozen=True)
class Row:
    """One question of questions.csv, read."""

    id: str
    kind: str
    asks: tuple[Ask, ...]
    wants: tuple[Want, ...]
    decision: tuple[str, ...]
    next: tuple[str, ...]
    evidence: str

    @property
    def has_number(self) -> bool:
        """Tell whether a number settles this question."""
        return self.evidence.endswith("/N") or any(want.is_number for want in self.wants)

    @property
    def is_work(self) -> bool:
        """Tell whether a document is asked, so that a decision can be right."""
        return bool(self.asks[0].document)

    def ask_of(self, place: int) -> Ask:
        """Tell which ask the key at this place belongs to."""
        return self.asks[place] if len(self.asks) == len(self.wants) else self.asks[0]


def read_rows(path: Path = HERE / "questions.csv") -> list[Row]:
    """Read all questions."""
    with path.open(encoding="utf-8", newline="") as file:
        return [read_row(cells) for cells in csv.DictReader(file)]


def read_row(cells: dict[str, str]) -> Row:
    """Read one question from its cells."""
    keys = cells["key"].split(";")
    columns = [spread(cells[name], len(keys)) for name in ("expected", "unit", "tolerance")]
    return Row(
        id=cells["id"],
        kind=cells["kind"],
        asks=tuple(read_ask(text) for text in cells["ask"].split(" && ")),
        wants=tuple(Want(*entries) for entries in zip(keys, *columns, strict=True)),
        decision=words(cells["decision"]),
        next=words(cells["next"]),
        evidence=cells["evidence"],
    )


def spread(cell: str, count: int) -> list[str]:
    """One entry for each key; a single entry serves all of them."""
    parts = cell.split(";")
    if len(parts) not in (1, count):
        raise ValueError(f"{cell!r} has {len(parts)} entries for {count} keys")
    return parts * count if len(parts) == 1 else parts


def words(cell: str) -> tuple[str, ...]:
    """Alternatives of a cell."""
    return tuple(part.strip() for part in cell.split("|") if part.strip())


def read_ask(text: str) -> Ask:
    """Read ``sum:NAME argument=value ...`` or ``doc:FILE#QUESTION[@JOINT]``."""
    if text.startswith("sum:"):
        name, *arguments = shlex.split(text.removeprefix("sum:"))
        return Ask(name, tuple(arguments))
    match = re.fullmatch(r"doc:([^#]+)#([a-z-]+)(?:@(\S+))?", text)
    if not match:
        raise ValueError(f"neither sum: nor doc: in {text!r}")
    return Ask(match[2], document=match[1], joint=match[3] or "")
