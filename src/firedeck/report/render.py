"""One call for every face: a sheet of a job as bytes."""

from typing import cast

from firedeck.errors import JobError
from firedeck.report.cards import cards
from firedeck.report.figures import Plain, Units
from firedeck.report.sheet import WIDTHS, sheet_of

SHEETS = tuple(cards())
FORMATS = ("pdf", "html", "text")
PAPERS = tuple(WIDTHS)
UNITS = ("as-typed", "mm", "inch")


def titles() -> tuple[tuple[str, str, str], ...]:
    """Return every sheet: its name, its title, and what it is for."""
    return tuple((name, card.title, card.says) for name, card in cards().items())


def takes_long(sheet: str) -> bool:
    """Tell whether a sheet shows what takes long to work out: then it is asked for before."""
    return sheet in SHEETS and any(body["kind"] == "rings" for body in cards()[sheet].body)


def render(
    plain: Plain,
    sheet: str,
    format: str,  # noqa: A002 the word people type
    paper: str = "a4",
    units: str = "as-typed",
) -> bytes:
    """Print one sheet of an assessment: PDF, a page that stands alone, or plain text in UTF-8."""
    for name, given, allowed in (
        ("sheet", sheet, SHEETS),
        ("format", format, FORMATS),
        ("paper", paper, PAPERS),
        ("units", units, UNITS),
    ):
        if given not in allowed:
            raise JobError(name, repr(given), f"allowed: {', '.join(allowed)}")
    card = cards()[sheet]
    chosen = cast("Units", units)
    if format == "pdf":
        from firedeck.report.pdf import to_pdf

        return to_pdf(plain, card, paper, chosen)
    laid_out = sheet_of(plain, card, paper, chosen)
    if format == "html":
        from firedeck.report.html import to_html

        return to_html(laid_out)
    from firedeck.report.text import to_text

    return to_text(laid_out)
