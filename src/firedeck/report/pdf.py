"""Tagged PDF: the blocks go to typst as JSON data, never as source, so no text of a user is ever code."""

import json
import re
from dataclasses import fields, is_dataclass
from importlib.resources import files
from typing import Any

from firedeck.report.blocks import Sheet
from firedeck.report.cards import Card
from firedeck.report.figures import Plain, Units
from firedeck.report.sheet import Fit, sheet_of

TEMPLATES = ("page.typ", "blocks.typ", "sheet.typ")
FITS = (Fit(), Fit(0.85), Fit(0.7), Fit(0.85, 1), Fit(0.7, 1), Fit(0.55, 1), Fit(0.7, 2), Fit(0.52, 2))
"""What a card tries, one after the other, until it takes the fewest pages it can; the roomiest of those is kept."""

LONG_WORD = re.compile(r"\S{28}(?=\S)")
UNBROKEN = ("svg", "revision")
NO_GLYPH = re.compile(r'the text `"(.+?)"` could not be displayed', re.DOTALL)
CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
MOST_REPAIRS = 200


def to_pdf(plain: Plain, card: Card, paper: str, units: Units) -> bytes:
    """Print a card; all but the record try smaller plan views and closer lines to save pages."""
    if card.as_it_is:
        return _compiled(_data(sheet_of(plain, card, paper, units)))
    most = max(len(plain.get("joints") or ()), 1)
    best: tuple[int, str] | None = None
    for fit in FITS:
        data = _data(sheet_of(plain, card, paper, units, fit))
        pages = _pages(data)
        if best is None or pages < best[0]:
            best = (pages, data)
        if pages <= most:
            break
    assert best is not None
    return _compiled(best[1])


def _data(sheet: Sheet) -> str:
    return json.dumps(_plain(sheet), ensure_ascii=False)


def _plain(thing: Any) -> Any:
    if is_dataclass(thing) and not isinstance(thing, type):
        named = {field.name: getattr(thing, field.name) for field in fields(thing)}
        named = {name: value if name in UNBROKEN else _plain(value) for name, value in named.items()}
        return {"kind": type(thing).__name__.lower(), **named}
    if isinstance(thing, list | tuple):
        return [_plain(item) for item in thing]
    return _visible(thing) if isinstance(thing, str) else thing


def _visible(text: str) -> str:
    """Show control characters as the mark for what cannot be shown; let a very long word be broken."""
    return LONG_WORD.sub("\\g<0>\u200b", CONTROL.sub("\ufffd", text))


def _source() -> bytes:
    folder = files(__package__).joinpath("templates")
    return "\n".join(folder.joinpath(name).read_text("utf-8") for name in TEMPLATES).encode()


def _pages(data: str) -> int:
    """Count the pages a sheet would take."""
    import typst

    inputs = {"data": data}
    found = typst.query(
        _source(), "<pages>", field="value", one=True, sys_inputs=inputs, ignore_system_fonts=True
    )
    return int(json.loads(found))


def _compiled(data: str) -> bytes:
    """Compile with the fonts inside typst; a letter they lack is looked for in the fonts of the machine."""
    import typst

    alone = True
    for _ in range(MOST_REPAIRS):
        try:
            return typst.compile(
                _source(),
                format="pdf",
                sys_inputs={"data": data},
                pdf_standards=["ua-1"],
                ignore_system_fonts=alone,
                timestamp=0,
            )
        except typst.TypstError as error:
            missing = NO_GLYPH.search(str(error))
            if not missing:
                raise
            data = data if alone else _without(data, missing.group(1))
            alone = False
    return typst.compile(_source(), format="pdf", sys_inputs={"data": data}, timestamp=0)


def _without(data: str, unshown: str) -> str:
    """Replace a letter no font has by the mark for what cannot be shown."""
    plain = re.sub(r"\\u\{([0-9a-f]+)\}", lambda found: chr(int(found.group(1), 16)), unshown)
    for letter in plain:
        if not letter.isascii():
            data = data.replace(letter, "\ufffd")
    return data
