"""Plain text in UTF-8, for a terminal, a letter or a label printer."""

from collections.abc import Iterator
from textwrap import wrap

from firedeck.report.blocks import (
    Beside,
    Block,
    Boxes,
    Drawn,
    Glance,
    Heading,
    Points,
    Sheet,
    Sum,
    Sums,
    Table,
    Tick,
    Ticks,
    Turn,
    Turns,
    Verdict,
    Words,
)

WIDTH = 78
BLANK = "_" * 24


def to_text(sheet: Sheet) -> bytes:
    """Write a sheet as plain text."""
    lines = [*_head(sheet)]
    for page in sheet.pages:
        if page.joint and len(sheet.pages) > 1:
            lines += ["", f"=== joint {page.joint} ==="]
        for block in page.blocks:
            lines += ["", *_block(block)]
    lines += ["", f"revision {sheet.revision}" if sheet.revision else ""]
    return ("\n".join(line.rstrip() for line in lines).rstrip() + "\n").encode()


def _head(sheet: Sheet) -> Iterator[str]:
    yield from (sheet.title.upper(), *_wrapped(sheet.job), "", *_wrapped(sheet.says))
    if sheet.invented:
        yield from ("", *_wrapped(sheet.invented))
    for label, value in sheet.facts:
        yield from _wrapped(f"{label}: {value}")


def _block(block: Block) -> Iterator[str]:  # noqa: PLR0912 one case per kind of block
    match block:
        case Heading(text, level):
            yield from (text, ("=" if level == 2 else "-") * len(text))
        case Words(text, style):
            yield from _wrapped(f"Take care. {text}" if style == "caution" else text)
        case Points(title, lines):
            yield title
            for line in lines:
                yield from _wrapped(line, "  - ", "    ")
        case Verdict():
            yield from _verdict(block)
        case Table():
            yield from _table(block)
        case Ticks(title, ticks, foot):
            yield from (title,) if title else ()
            for tick in ticks:
                yield from _wrapped(_tick(tick), "[ ] ", "    ")
            yield from _wrapped(foot) if foot else ()
        case Boxes(title, labels):
            yield from (title,) if title else ()
            for label in labels:
                yield f"  {label}: {BLANK}"
        case Drawn(picture, caption, instead):
            yield from _wrapped(f"{picture.alt} {caption}", "| ", "| ")
            yield from (f"| {line}" for line in picture.text.splitlines())
            yield from _table(instead) if instead else ()
        case Turns(turns, foot):
            for turn in turns:
                yield from _wrapped(_tick(turn), f"[ ] {turn.number}. ", "       ")
            yield from _wrapped(foot) if foot else ()
        case Sums(title, sums):
            yield title
            for one in sums:
                yield from _sum(one)
        case Glance():
            yield from _glance(block)
        case Beside(columns):
            for place, small in enumerate(small for column in columns for small in column):
                yield from ("",) if place else ()
                yield from _block(small)


def _sum(written: Sum) -> Iterator[str]:
    yield from _wrapped(f"{written.says} ({written.source})", "  ", "  ")
    for line in (written.formula, written.inputs, written.result):
        yield from _wrapped(line, "    ", "      ") if line else ()


def _glance(glance: Glance) -> Iterator[str]:
    yield glance.title
    stage = ""
    for line in glance.lines:
        if line.stage != stage:
            stage = line.stage
            yield from ("", stage)
        yield from _wrapped(f"{line.mark} {line.asks} {line.headline} ({line.state})", "  ", "    ")


def _verdict(verdict: Verdict) -> Iterator[str]:
    yield from _wrapped(verdict.asks)
    yield from _wrapped(f"{verdict.mark} {verdict.headline}", "", "  ")
    yield from _wrapped(f"{verdict.state}{f': {verdict.action}' if verdict.action else ''}", "  ", "  ")


def _tick(tick: Tick | Turn) -> str:
    caution = f"Take care. {tick.caution}" if tick.caution else ""
    source = f"({tick.source})" if tick.source else ""
    return "  ".join(filter(None, (tick.text, tick.figure, caution, source)))


def _table(table: Table) -> Iterator[str]:
    """Write a table to be filled as rows of blanks, any other as its cells under one another."""
    if table.title:
        yield from _wrapped(table.title)
    if table.deep:
        blank = "_" * (8 if len(table.columns) <= 6 else 4)
        yield from _wrapped(" | ".join(table.columns), "  ", "  ")
        for row in table.rows:
            yield from _wrapped(" | ".join(cell or blank for cell in row), "  ", "    ")
        return
    for row in table.rows:
        yield from _wrapped(row[0], "  * ", "    ")
        for name, cell in zip(table.columns[1:], row[1:], strict=True):
            if cell:
                yield from _wrapped(f"{name}: {cell}", "    ", "      ")


def _wrapped(text: str, first: str = "", later: str = "") -> list[str]:
    return wrap(text, WIDTH, initial_indent=first, subsequent_indent=later, break_on_hyphens=False) or [
        first.rstrip()
    ]
