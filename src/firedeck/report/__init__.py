"""Sheets from an assessment: cards to fill with a pencil, the tightening sheet, the record.

    cards     the sheets as data (cards.toml)
    sheet     a sheet from an assessment and a card
    bodies    the kinds of body a card is made of
    answers   one answer as blocks
    figures   figures, limits and sums as printed
    tables    rows to be filled with a pencil
    blocks    what PDF, page and text are all made of
    pdf       tagged PDF, typst
    html      one page that stands alone
    text      plain UTF-8

>>> sorted(SHEETS)[:3]
['follow-up', 'measuring', 'receiving']
"""

from firedeck.report.render import FORMATS, PAPERS, SHEETS, render, takes_long, titles

__all__ = ["FORMATS", "PAPERS", "SHEETS", "render", "takes_long", "titles"]
